/// Windows lower than this have no room for lists that go up and down each by itself, points: it grows with the size of
/// the text.
pub const LOW: f32 = 560.0;

/// Windows narrower than this have no room for a card on the right, points.
pub const NARROW: f32 = 780.0;
