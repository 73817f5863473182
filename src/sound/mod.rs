//! The tune as sound: notes, the click, and what is written of them.
//!
//! [`sounds`] says what sounds when, in seconds; a [`Mixer`] makes samples of it, as many at a time as are asked for, so that
//! a file and a loudspeaker hear the same. A [`Band`] plays from a count on, at any speed and round and round, and knows what is
//! heard at each sample. [`wav`] and [`midi`] write a dance's music out.
//!
//! May use `motion` and `dance`, and knows nothing of files, screens or the machine's sound. Begin with [`Sound`] and
//! [`Mixer`].

mod band;
mod knock;
mod levels;
mod midi;
mod mixer;
mod music_of;
mod performance;
mod reed;
mod sounds;
mod wav;

pub use band::Band;
pub use levels::Levels;
pub use midi::midi;
pub use mixer::Mixer;
pub use music_of::MusicOf;
pub use performance::{Heard, Performance};
pub use sounds::{Sound, SoundKind, sounds};
pub use wav::{SAMPLE_RATE, SoundError, wav};
