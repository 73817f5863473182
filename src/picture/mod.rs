//! A moment of the dance as marks: one description, drawn on the screen, as SVG and as PNG.
//!
//! [`floor_marks`] turns poses into [`Mark`]s through a [`Frame`] (metres to pixels) in an [`Ink`] (colours).
//! [`still`] makes a whole [`Picture`] of a count; [`to_svg`] and [`to_png`] write it.
//!
//! May use `faults`, `words`, `figures`, `motion` and `dance`. Begin with [`Mark`] and `floor.rs`.

mod body;
mod dancer;
mod eye_level;
mod eye_sizes;
mod fault;
mod floor;
mod frame;
mod glyphs;
mod held;
mod icon;
mod ink;
mod kind;
mod mark;
mod onion;
mod photograph;
mod pixels;
mod png_out;
mod reach;
mod score;
mod space;
mod still;
mod still_look;
mod strike;
mod svg;
mod version;
mod what_if;

pub use body::{BODY, BODY_BREADTH, BODY_DEPTH, BodySizes, RING_RADIUS};
pub use dancer::{dancer_marks, hand_near};
pub use eye_level::{EyeBody, EyeFrame, EyeSide, eye_level_marks, room_for};
pub use eye_sizes::{EYE, EyeSizes};
pub use fault::{ABOUT, fault_marks, ghost_marks};
pub use floor::{
    FloorLook, SPOT_ARM, SPOT_NUMBER, body_marks, bounds, floor_marks, path_marks, span_bounds, trail_marks,
};
pub use frame::Frame;
pub use glyphs::{
    FONT_FILES, Face, HALF_CAPITAL, PlacedGlyph, THICKENED, letter_loops, place_glyphs, words_width,
};
pub use icon::icon;
pub use ink::{Colour, Ink, PAPER, SLATE, contrast};
pub use kind::PictureKind;
pub use mark::{Anchor, Mark, Picture, Stroke};
pub use onion::{MOST_AT_BEATS, beat_marks};
pub use photograph::{
    Flat, FloorFit, MOST_PHOTO_BYTES, MOST_PHOTO_PIXELS, NotTrue, Photograph, fingerprint_of,
    is_photograph_name,
};
pub use png_out::{PictureError, marks_to_rgb, rgb_to_png, to_png, to_rgb};
pub use reach::{Reach, Reaches};
pub use score::{System, beam_groups, engrave};
pub use space::space_marks;
pub use still::{StillChoice, music_marks, music_word, scale_marks, still, still_frame};
pub use still_look::{STILL_SIZES, StillLook, Theme, still_of};
pub use strike::{star, strike_marks};
pub use svg::{marks_to_svg, to_svg};
pub use version::{Beside, version_bodies, version_ways};
pub use what_if::{MeetingSeen, what_if_marks};
