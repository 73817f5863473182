use super::{Desk, ask::PlayAsk, player::Player};

/// Going through the dance: the playhead, playing and the loop.
impl Desk {
    pub(super) fn apply_play(&mut self, ask: PlayAsk) {
        match ask {
            PlayAsk::Seek(count) => {
                self.end_drag();
                self.seek(count);
            }
            PlayAsk::Step(counts) => {
                self.end_drag();
                self.player.playing = false;
                self.seek(self.player.stepped(counts, self.now.motion().counts()));
            }
            PlayAsk::Toggle => self.toggle_play(),
            PlayAsk::Advance(seconds) => {
                let (clock, end) = (self.now.clock(), self.now.motion().counts());
                self.player.advance(seconds, clock, end);
            }
            PlayAsk::Heard(heard) => self.hear(heard),
            PlayAsk::Silent(why) => self.hear_of_silence(why),
            // A number that is none is no tempo.
            PlayAsk::Tempo(tempo) if tempo.is_nan() => {}
            PlayAsk::Tempo(tempo) => {
                self.player.tempo = tempo.clamp(*Player::TEMPOS.start(), *Player::TEMPOS.end());
            }
            PlayAsk::ToggleLoop => self.toggle_loop(),
            PlayAsk::LoopFrom => self.set_loop(self.player.count, true),
            PlayAsk::LoopTo => self.set_loop(self.player.count, false),
            PlayAsk::LoopFromAt(count) => self.set_loop(count, true),
            PlayAsk::LoopToAt(count) => self.set_loop(count, false),
            PlayAsk::LoopBar(count) => {
                let (from, to) = self.bar_at(count);
                if to > from {
                    (self.player.loop_counts, self.player.looping) = (Some((from, to)), true);
                }
            }
        }
    }

    pub(super) fn seek(&mut self, count: f64) {
        let count = if count.is_finite() { count } else { 0.0 };
        self.player.count = count.clamp(0.0, self.now.motion().counts());
        self.notice = None;
    }

    fn toggle_play(&mut self) {
        self.end_drag();
        if !self.player.playing && self.player.count >= self.now.motion().counts() {
            self.player.count = 0.0;
        }
        (self.player.counting_in, self.listening) = (None, None);
        self.player.playing = !self.player.playing && self.now.motion().counts() > 0.0;
        self.notice = None;
    }

    /// Loop on or off. Turned on with the playhead outside the old loop, it takes the figure at the playhead.
    fn toggle_loop(&mut self) {
        self.player.looping = !self.player.looping;
        let count = self.player.count;
        let holds = self.player.loop_counts.is_some_and(|(from, to)| (from..to).contains(&count));
        if self.player.looping && !holds {
            self.player.loop_counts = self.span_here().map(|span| (span.begin(), span.end()));
            self.player.looping = self.player.loop_counts.is_some();
        }
    }

    /// The counts at which the bar at a count begins and ends.
    fn bar_at(&self, count: f64) -> (f64, f64) {
        let bars = self.now.motion().bar_counts();
        // At the very end it is the last bar that is over.
        let bar = bars.at(count).0.min(bars.bars().saturating_sub(1));
        (bars.begin_of(bar).min(bars.counts()), bars.begin_of(bar + 1).min(bars.counts()))
    }

    /// Sets one end of the loop to the bar at a count; the other end gives way if it has to.
    fn set_loop(&mut self, count: f64, from: bool) {
        let (bar, next) = self.bar_at(count);
        let span = self
            .now
            .motion()
            .span_at(count.clamp(0.0, self.now.motion().counts()))
            .and_then(|index| self.now.motion().span(index));
        let (begin, end) = self
            .player
            .loop_counts
            .or(span.map(|span| (span.begin(), span.end())))
            .unwrap_or((0.0, self.now.motion().counts()));
        let (begin, end) = if from {
            (bar, if end > bar { end } else { next })
        } else {
            (if begin < next { begin } else { bar }, next)
        };
        if end > begin {
            self.player.loop_counts = Some((begin, end));
            self.player.looping = true;
        }
    }
}
