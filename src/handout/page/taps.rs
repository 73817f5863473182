use crate::motion::{BlowOn, Clock, Motion};
use crate::picture::meeting_at;
use crate::sound::{SoundKind, sounds};

/// What is heard of sticks and hands for the page, from the program's own list: for each sound the thousandth of a second at which it
/// begins, from the start of the dance at the tune's own speed, its kind, and how many meet; one after another. Of kinds 0 is wood on
/// wood, 1 wood on the ground, 2 hands.
pub(super) fn taps(motion: &Motion, clock: &Clock) -> Vec<i64> {
    let all = sounds(None, motion.blows(), clock, (0.0, motion.counts()));
    let taps = all.into_iter().filter_map(|sound| {
        let (kind, many) = match sound.kind {
            SoundKind::Tap(many) => (0, many),
            SoundKind::Dib(many) => (1, many),
            SoundKind::Clap(many) => (2, many),
            SoundKind::Note(_) | SoundKind::Beat | SoundKind::Count => return None,
        };
        Some([(sound.begin * 1_000.0).round() as i64, kind, i64::from(many)])
    });
    taps.flatten().collect()
}

/// Where sticks and hands meet: for each the thousandth of a count at which they do, the place on the floor in millimetres, and its kind
/// as for what is heard; one after another.
pub(super) fn meets(motion: &Motion) -> Vec<i64> {
    let thousandths = |value: f64| (value * 1_000.0).round() as i64;
    let meets = motion.blows().iter().filter_map(|blow| {
        if matches!(blow.on, BlowOn::Nobody(_)) {
            return None;
        }
        let (x, y) = meeting_at(motion, blow, blow.count);
        let kind = match (blow.is_of_wood(), blow.on) {
            (true, BlowOn::Ground) => 1,
            (true, _) => 0,
            (false, _) => 2,
        };
        Some([thousandths(blow.count), thousandths(x), thousandths(y), kind])
    });
    meets.flatten().collect()
}
