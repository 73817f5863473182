//! How large things are on a stave, in spaces of it: from memory of common engraving practice, but for what a line says
//! otherwise.

/// How thick the lines of the stave are.
pub const STAVE_LINE: f32 = 0.11;
/// How thick a ledger line is, and how far it reaches beyond the head.
pub const LEDGER_LINE: f32 = 0.16;
pub const LEDGER_REACH: f32 = 0.32;
/// How thick a stem is, how long it is, and how long it is at the least under a beam.
pub const STEM: f32 = 0.12;
pub const STEM_LENGTH: f32 = 3.5;
pub const STEM_LEAST: f32 = 3.0;
/// How thick a beam is, and from one to the next.
pub const BEAM: f32 = 0.5;
pub const BEAM_STEP: f32 = 0.75;
/// The steepest that a beam rises or falls over its length, and for each space of it.
pub const BEAM_RISE: f32 = 1.0;
pub const BEAM_SLOPE: f32 = 0.18;
/// How long the part of a second beam is that belongs to one note.
pub const STUB: f32 = 1.1;
/// How thick the bar lines are, and the gap between two.
pub const THIN: f32 = 0.17;
pub const THICK: f32 = 0.5;
pub const BAR_GAP: f32 = 0.4;
/// The radius of a dot, and the gap before it.
pub const DOT: f32 = 0.21;
pub const DOT_GAP: f32 = 0.32;
/// The least gap between one thing and the next.
pub const LEAST_GAP: f32 = 0.42;
/// From a bar line to the first note.
pub const AFTER_BAR: f32 = 1.0;
/// From one sharp of a key signature to the next, and from one flat.
pub const SHARP_STEP: f32 = 1.02;
pub const FLAT_STEP: f32 = 0.92;
/// How thick a tie is in its middle, and at its ends.
pub const TIE: f32 = 0.22;
pub const TIE_END: f32 = 0.07;
/// The height of figures over a tuplet beside those of a metre.
pub const SMALL_FIGURE: f32 = 0.62;
/// How thick brackets are.
pub const BRACKET: f32 = 0.13;
/// The heights of words: chord symbols and endings, bar numbers, part letters.
pub const WORDS: f32 = 2.0;
pub const BAR_NUMBER: f32 = 2.0;
pub const PART: f32 = 2.6;
/// What is left free above and below a system.
pub const MARGIN: f32 = 0.8;
/// From a quaver to the next note where there is room, and how it grows as the note does.
pub const QUAVER: f32 = 3.1;
pub const GROWTH: f32 = 0.55;
