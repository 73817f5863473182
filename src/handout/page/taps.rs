use crate::dance::{Dancer, StrikePart};
use crate::motion::limbs::{from_palm, meeting_at};
use crate::motion::{BlowOn, Clock, Motion};
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

/// Where sticks and hands meet: for each the thousandths of a count at which they do and until which they stay together, the place on the
/// floor in millimetres, its kind as for what is heard, or on a part of oneself 3 for hands and 4 for wood, and of two hands each whose it is, from 0, which, left (0) or right (1), and how far
/// along the stick from the palm what meets is, in millimetres; -1 for whose where there is no second; one after another.
pub(super) fn meets(motion: &Motion) -> Vec<i64> {
    let thousandths = |value: f64| (value * 1_000.0).round() as i64;
    let grip = motion.held().grip;
    let meets = motion.blows().iter().filter_map(|blow| {
        if matches!(blow.on, BlowOn::Nobody(_)) {
            return None;
        }
        let (x, y) = meeting_at(motion, blow, blow.count);
        let kind = match (blow.is_of_wood(), blow.on) {
            (true, BlowOn::Own(_)) => 4,
            (false, BlowOn::Own(part)) if part != StrikePart::Hands => 3,
            (true, BlowOn::Ground) => 1,
            (true, _) => 0,
            (false, _) => 2,
        };
        let hand = |dancer: Dancer, hand: usize| {
            let end = blow.end_of(dancer, hand)?;
            Some([
                i64::from(dancer.number().get()) - 1,
                i64::from(hand == 1),
                thousandths(from_palm(end, grip)),
            ])
        };
        let by = blow.by;
        let second = match blow.on {
            BlowOn::Other(other) => hand(other.dancer, other.hand),
            BlowOn::Own(_) => hand(by.dancer, 1 - by.hand),
            BlowOn::Ground | BlowOn::Nobody(_) => None,
        };
        let [who, which, end] = hand(by.dancer, by.hand).unwrap_or([-1, 0, 0]);
        let [other, other_hand, other_end] = second.unwrap_or([-1, 0, 0]);
        let [count, until, x, y] = [blow.count, blow.until, x, y].map(thousandths);
        Some([count, until, x, y, kind, who, which, end, other, other_hand, other_end])
    });
    meets.flatten().collect()
}
