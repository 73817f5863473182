//! How large a dance file may be. Each limit has its own message in `rules.rs` or `read.rs`.

/// Dancers in a set.
pub const MOST_DANCERS: u32 = 400;
/// Bars in a figure, and in the whole running order.
pub const MOST_BARS: u32 = 2_000;
/// Points along one leg.
pub const MOST_POINTS: usize = 1_000;
/// Legs, turns or leads in one dancer's part of a figure.
pub const MOST_LEGS: usize = 2_000;
/// Bytes in a file: 32 MiB.
pub const MOST_BYTES: u64 = 32 * 1024 * 1024;
/// The slowest and the fastest that music is, strong beats a minute.
pub const SPEEDS: [f64; 2] = [10.0, 400.0];
/// Changes of speed in a figure or a strain.
pub const MOST_CHANGES: usize = 200;
/// Bars before a figure begins at which it may be called.
pub const EARLIEST_CALL: f64 = 16.0;
/// Figures in a dance.
pub const MOST_FIGURES: usize = 1_000;
/// The farthest a place may be from the middle of the set, metres.
pub const FARTHEST: f64 = 1_000.0;
/// The shortest distance between files or ranks, metres.
pub const CLOSEST: f64 = 0.1;
/// Characters in a name or title.
pub const LONGEST_TEXT: usize = 10_000;
/// The highest that a body rises in a hop or a jump, metres: more than people jump from a stand.
pub const HIGHEST_RISE: f64 = 0.6;
/// The highest that a sole is over the floor, metres.
pub const HIGHEST_FOOT: f64 = 1.2;
/// From the shoulder to the palm, metres (from memory).
pub const ARM: f64 = 0.65;
/// How tall a dancer is where the dance does not say, metres (from memory).
pub const HEIGHT: f64 = 1.72;
/// The least and the most that dancers are said to be tall, metres: legs and arms stay as they are, so nobody is a child or a giant.
pub const HEIGHTS: [f64; 2] = [1.4, 2.1];
/// The most circles that a hand makes in a count.
pub const MOST_CIRCLES: f64 = 3.0;
/// Strikes in a figure, and counts at which one is struck again.
pub const MOST_STRIKES: usize = 2_000;
/// How often the strikes of a figure are struck in all.
pub const MOST_STRUCK: usize = 4_000;
/// The highest that sticks or hands meet over the floor, metres: more than anybody reaches.
pub const HIGHEST_STRIKE: f64 = 2.5;
/// Photographs under the floor of a dance.
pub const MOST_PHOTOGRAPHS: usize = 12;
/// Marks of a photograph.
pub const MOST_MARKS: usize = 24;
/// The farthest right or down in a picture that a mark can be, pixels.
pub const MOST_PIXEL: f64 = 100_000.0;
/// Bytes of a picture that is kept inside a dance: 1 MB.
pub const MOST_INSIDE: usize = 1_000_000;
/// Letters that such a picture has in base64.
pub const MOST_INSIDE_TEXT: usize = MOST_INSIDE.div_ceil(3) * 4;
