use super::Desk;
use crate::sound::{Heard, Performance, Sound};
use std::sync::Arc;

/// The dance as it is heard.
impl Desk {
    /// All that sounds in the dance, in order, with seconds from its start: the same one until something sounds otherwise.
    #[must_use]
    pub fn sounds(&self) -> &Arc<[Sound]> {
        self.now.sounds()
    }

    /// The dance's music from the playhead on, as it is to be played now; a bar is counted in where that is chosen.
    #[must_use]
    pub fn performance(&self) -> Performance {
        let (clock, end, player) = (self.clock(), self.motion().counts(), self.player());
        let bars = self.motion().bar_counts();
        let counted_in =
            if self.settings().sound.counts_in { bars.in_bar(bars.at(player.count).0) } else { 0 };
        Performance {
            sounds: Arc::clone(self.sounds()),
            clock: clock.clone(),
            from: player.count,
            end,
            round: player.round(),
            speed: player.tempo,
            counted_in,
        }
    }

    /// The playhead is where the music is heard.
    pub(super) fn hear(&mut self, heard: Heard) {
        if heard == Heard::Ended && self.listening.take().is_some() {
            return;
        }
        if !self.player.playing {
            return;
        }
        let end = self.now.motion().counts();
        self.player.counting_in = None;
        match heard {
            Heard::CountingIn(left) => self.player.counting_in = Some(left),
            Heard::Count(count) if count.is_finite() => self.player.count = count.clamp(0.0, end),
            Heard::Nothing | Heard::Count(_) => {}
            Heard::Ended => {
                self.player.count = end;
                self.player.playing = false;
            }
        }
    }

    /// There is nothing to play on, and why; or there is again. It is told once: those who have no sound know.
    pub(super) fn hear_of_silence(&mut self, why: Option<String>) {
        if let Some(why) = why.as_ref().filter(|_| !self.player.told_of_silence) {
            self.notice = Some(format!("There is no sound: {why}. It will sound as soon as it can"));
            self.player.told_of_silence = true;
        }
        self.player.silent = why;
    }
}
