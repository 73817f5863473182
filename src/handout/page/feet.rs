use crate::motion::{Footfall, Weight};

/// Parts of a hand's height.
pub const HAND_PARTS: f64 = 200.0;

/// A dancer's steps through a figure, four bytes a count: what lands (0 left, 1 right, 2 both, 3 the air), with 4 for a
/// hop and 8 where a step begins; the step; the heights of the left and the right hand, 200 for high.
#[must_use]
pub fn pack_feet(counts: u32, falls: &[Footfall]) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(counts as usize * 4);
    for count in 0..counts as usize {
        let Some(fall) = falls.get(count).or_else(|| falls.last()) else {
            bytes.extend([2, 0, 0, 0]);
            continue;
        };
        let lands = match fall.weight {
            Weight::Left => 0,
            Weight::Right => 1,
            Weight::Both => 2,
            Weight::Air => 3,
        };
        let [left, right] = fall.hands.map(|height| (height.clamp(0.0, 1.0) * HAND_PARTS).round() as u8);
        let marks = lands | u8::from(fall.hop) << 2 | u8::from(fall.begins) << 3;
        bytes.extend([marks, fall.step.min(255) as u8, left, right]);
    }
    bytes
}
