/// Windows lower than this have no room for what stands at the foot of a side, points: it grows with the size of the text.
pub const LOW: f32 = 430.0;

/// Windows narrower than this have one side with everything instead of two, points.
pub const NARROW: f32 = 1_100.0;
