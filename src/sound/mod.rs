//! The tune as sound: notes, the click, and what is written of them.
//!
//! [`sounds`] says what sounds when, in seconds; a [`Mixer`] makes samples of it, as many at a time as are asked for, so that
//! a file and a loudspeaker hear the same. A [`Band`] plays from a count on, at any speed and round and round, and knows what is
//! heard at each sample. [`wav`] and [`midi`] write a dance's music out; [`TuneAlone`] is a tune without a dance.
//!
//! A [`LivePlayer`] plays a band aloud. It takes what the machine's sound has to be asked for from a [`Sink`], which opens a
//! [`Stream`] that draws samples from a [`Source`] and says now and then what is heard ([`Timing`]); [`HeardClock`] makes of these
//! answers which sample is heard now. A [`Keeper`] sees to the sink in a thread of its own.
//!
//! May use `motion` and `dance`, and knows nothing of files or screens; the machine's sound is known to its sinks alone. Begin
//! with [`Sound`] and [`Mixer`].

mod band;
mod clap;
#[cfg(not(target_os = "linux"))]
mod cpal_sink;
mod heard_clock;
mod keeper;
mod knock;
mod levels;
mod live_player;
mod midi;
mod mixer;
mod music_of;
mod performance;
#[cfg(target_os = "linux")]
mod pulse_sink;
mod reed;
mod shared;
mod sink;
mod sound_choice;
mod sounds;
mod tune_alone;
mod wav;

pub use band::Band;
#[cfg(not(target_os = "linux"))]
pub use cpal_sink::CpalSink as MachineSink;
pub use heard_clock::{HeardClock, Timing};
pub use keeper::Keeper;
pub use levels::Levels;
pub use live_player::LivePlayer;
pub use midi::midi;
pub use mixer::Mixer;
pub use music_of::MusicOf;
pub use performance::{Heard, Performance};
#[cfg(target_os = "linux")]
pub use pulse_sink::PulseSink as MachineSink;
pub use shared::{LIVE_RATE, Server};
pub use sink::{Sink, SinkError, Source, Stream};
pub use sound_choice::{SoundChoice, Voice};
pub use sounds::{Sound, SoundKind, sounds};
pub use tune_alone::TuneAlone;
pub use wav::{SAMPLE_RATE, SoundError, wav};
