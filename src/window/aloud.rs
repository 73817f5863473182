use crate::desk::{Ask, Desk, PlayAsk};
use crate::sound::{Heard, LivePlayer, Server, Sound, SoundChoice};
use std::sync::Arc;

/// Has what the desk plays heard, and the desk follow what is heard.
#[derive(Default)]
pub struct Aloud {
    player: Option<LivePlayer>,
    /// What it was told of the choice.
    chosen: Option<SoundChoice>,
    /// What is played.
    playing: Option<Playing>,
    /// What is listened to beside the dance.
    listened: Option<Arc<[Sound]>>,
    /// What the desk was told of there being nothing to play on.
    silent: Option<String>,
}

/// What is played.
struct Playing {
    /// The count that the desk was last at by this doing: anywhere else it has been moved.
    count: f64,
    /// The dance that it is, and all that sounds in it.
    revision: u64,
    sounds: Arc<[Sound]>,
    speed: f64,
    round: Option<(f64, f64)>,
    /// Whether it is silent, as somebody goes through the dance by hand.
    scrubbed: bool,
}

impl Aloud {
    /// On a player.
    pub fn on(player: LivePlayer) -> Self {
        Self { player: Some(player), ..Self::default() }
    }

    /// Follows the desk, and has it follow; whether there is anything to follow. `held` is whether a button of the mouse is.
    pub fn follow(&mut self, desk: &mut Desk, held: bool) -> bool {
        let Some(player) = &self.player else { return false };
        let chosen = desk.settings().sound;
        if self.chosen.replace(chosen) != Some(chosen) {
            player.set_levels(chosen.levels());
            player.set_delay(f64::from(chosen.delay) / 1_000.0);
        }
        if self.listens(desk) {
            return true;
        }
        let Some(player) = &self.player else { return false };
        if !desk.player().playing {
            if self.playing.take().is_some() {
                player.stop();
            }
            return true;
        }
        Self::tell_of_silence(player, &mut self.silent, desk);
        let Some(playing) = &mut self.playing else {
            self.playing = Some(Playing::begin(player, desk, true));
            return true;
        };
        if playing.count != desk.player().count {
            // Going through the dance is silent; it goes on from where it is let go.
            player.stop();
            (playing.scrubbed, playing.count) = (true, desk.player().count);
        }
        if playing.scrubbed {
            if !held {
                *playing = Playing::begin(player, desk, desk.player().counting_in.is_some());
            }
            return true;
        }
        if playing.revision != desk.revision() {
            playing.revision = desk.revision();
            if playing.is_other(desk) {
                // Where nothing has been danced yet it is counted in again.
                *playing = Playing::begin(player, desk, desk.player().counting_in.is_some());
            }
        }
        if playing.speed != desk.player().tempo {
            playing.speed = desk.player().tempo;
            player.set_speed(playing.speed);
        }
        if playing.round != desk.player().round() {
            playing.round = desk.player().round();
            player.set_round(playing.round);
        }
        let heard = player.heard();
        if heard != Heard::Nothing {
            desk.apply(Ask::Play(PlayAsk::Heard(heard)));
        }
        playing.count = desk.player().count;
        true
    }
}

impl Aloud {
    /// Has what is listened to beside the dance heard; whether anything is.
    fn listens(&mut self, desk: &mut Desk) -> bool {
        let Some(player) = &self.player else { return false };
        let Some(wanted) = desk.listening() else {
            if self.listened.take().is_some() {
                player.stop();
            }
            return false;
        };
        if self.listened.as_ref().is_none_or(|listened| !Arc::ptr_eq(listened, &wanted.sounds)) {
            self.playing = None;
            self.listened = Some(Arc::clone(&wanted.sounds));
            player.play(wanted.clone());
        } else if player.heard() == Heard::Ended {
            self.listened = None;
            player.stop();
            desk.apply(Ask::Play(PlayAsk::Heard(Heard::Ended)));
            return false;
        }
        Self::tell_of_silence(player, &mut self.silent, desk);
        true
    }

    /// Tells the desk of there being nothing to play on, and of there being something again.
    fn tell_of_silence(player: &LivePlayer, told: &mut Option<String>, desk: &mut Desk) {
        let silent = match player.server() {
            Server::Missing(why) => Some(why),
            Server::Unknown | Server::There => None,
        };
        if silent != *told {
            told.clone_from(&silent);
            desk.apply(Ask::Play(PlayAsk::Silent(silent)));
        }
    }
}

impl Playing {
    /// Begins to play from the playhead; counted in, where that is chosen, if nothing was danced before it.
    fn begin(player: &LivePlayer, desk: &Desk, anew: bool) -> Self {
        let mut performance = desk.performance();
        if !anew {
            performance.counted_in = 0;
        }
        let playing = Self {
            count: performance.from,
            revision: desk.revision(),
            sounds: Arc::clone(&performance.sounds),
            speed: performance.speed,
            round: performance.round,
            scrubbed: false,
        };
        player.play(performance);
        playing
    }

    /// Whether the desk's dance sounds otherwise.
    fn is_other(&self, desk: &Desk) -> bool {
        let sounds = desk.sounds();
        !Arc::ptr_eq(&self.sounds, sounds) && *self.sounds != **sounds
    }
}
