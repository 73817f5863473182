use crate::dance::{Air, Dance};
use crate::motion::{Clock, Motion};
use crate::sound::{SoundKind, sounds};

/// The tune for the page as it is danced to: for each note the thousandth of a second at which it begins, from the start of
/// the dance at the tune's own speed and below nought in an upbeat, how many it lasts, and its key, one after another.
pub(super) fn notes(dance: &Dance, motion: &Motion, clock: &Clock) -> Vec<i64> {
    let danced = motion.spans().iter().map(|span| (span.first_bar, span.bars));
    let air = Air::of(dance, motion.bar_counts(), danced);
    let thousandths = |seconds: f64| (seconds * 1_000.0).round() as i64;
    sounds(air.as_ref(), &[], clock, (0.0, motion.counts()))
        .into_iter()
        .filter_map(|sound| match sound.kind {
            SoundKind::Note(key) => {
                let begin = thousandths(sound.begin);
                Some([begin, thousandths(sound.begin + sound.length) - begin, i64::from(key)])
            }
            SoundKind::Beat
            | SoundKind::Count
            | SoundKind::Tap(_)
            | SoundKind::Dib(_)
            | SoundKind::Clap(_) => None,
        })
        .flatten()
        .collect()
}
