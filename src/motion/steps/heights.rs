/// How high the foot is that is straightened in front in the ordinary step, metres: its heel is one foot's length before the other toe
/// [MB1], and a leg reaches no farther there nearer to the floor.
pub(super) const ORDINARY: f64 = 0.16;
/// How high its sole is in the high step: the toe, at a right angle to the straight leg, is 0.15 m higher, as high as the supporting knee
/// [MB1].
pub(super) const HIGH_STEP: f64 = 0.34;
