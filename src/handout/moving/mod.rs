//! A figure as a moving picture for a group of people who chat: an animated PNG or a GIF that goes round for ever.

mod apng;
mod drawing;
mod gif_out;
mod palette;

use super::Step;
use crate::dance::{Dance, Holding};
use crate::motion::{Clock, Moment, Motion};
use crate::picture::{
    Anchor, FloorLook, Frame, Ink, Mark, Picture, PictureError, SLATE, bounds, floor_marks, music_marks,
};
use drawing::{AT_ONCE, Drawing, Layers};
use palette::Palette;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Floor shown round where the middles of bodies go, metres.
const ROUND: f64 = 0.65;
/// How long the end stays, seconds, before the figure begins again.
const REST: f64 = 0.8;
/// The smallest and the largest side, pixels.
pub const SIZES: [u32; 2] = [64, 1080];
/// The fewest and the most pictures a second.
pub const RATES: [u32; 2] = [1, 30];
/// The slowest and the fastest, percent of the tune's speed.
pub const SPEEDS: [u32; 2] = [10, 200];
/// The most pixels in all, over every picture.
const MOST_PIXELS: u64 = 400_000_000;
/// The most pictures: eight bars at a tenth of their speed, thirty a second.
const MOST_PICTURES: u64 = 3_000;
/// Pictures looked at for their colours.
const LOOKED_AT: u32 = 24;

/// The kinds of file that a moving picture is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MovingKind {
    /// An animated PNG.
    Png,
    /// A GIF.
    Gif,
}

impl MovingKind {
    /// The kind that the ending of a file's name says, in any case.
    ///
    /// # Errors
    /// When it is neither.
    pub fn of(path: &Path) -> Result<Self, MovingError> {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        match ending.as_str() {
            "png" | "apng" => Ok(Self::Png),
            "gif" => Ok(Self::Gif),
            _ => Err(MovingError::Ending(path.to_owned())),
        }
    }
}

/// How a figure is to move.
#[derive(Clone, Debug)]
pub struct MovingChoice {
    /// Pixels along each side.
    pub size: u32,
    /// Percent of the tune's own speed.
    pub speed: u32,
    /// Pictures a second.
    pub rate: u32,
    /// What the figure is called.
    pub figure: String,
    /// The colours.
    pub ink: Ink,
}

impl Default for MovingChoice {
    fn default() -> Self {
        Self { size: 360, speed: 100, rate: 12, figure: String::new(), ink: SLATE }
    }
}

/// Why a moving picture cannot be made.
#[derive(Debug, Error)]
pub enum MovingError {
    /// A file name that says neither kind.
    #[error("{}: a moving picture is written as .png or .gif", .0.display())]
    Ending(PathBuf),
    /// A number that is not between its least and its most.
    #[error("--{name} {value}: expected {least} to {most} {unit}")]
    Range {
        /// What it is.
        name: &'static str,
        /// What was asked for.
        value: u32,
        /// The least.
        least: u32,
        /// The most.
        most: u32,
        /// What it is counted in.
        unit: &'static str,
    },
    /// More than a chat takes.
    #[error(
        "{pictures} pictures of {size} by {size} pixels are too many; ask for a smaller --size, a lower --fps or a higher --speed"
    )]
    Large {
        /// How many pictures.
        pictures: u64,
        /// Pixels along each side.
        size: u32,
    },
    /// It was stopped before its end.
    #[error("the moving picture was stopped")]
    Stopped,
    /// Nobody moves.
    #[error("the figure has no bars, so nothing moves")]
    Empty,
    /// A picture could not be drawn.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// The animated PNG could not be written.
    #[error("the animated PNG could not be written: {0}")]
    Png(#[from] png::EncodingError),
    /// The GIF could not be written.
    #[error("the GIF could not be written: {0}")]
    Gif(#[from] gif::EncodingError),
}

/// When each picture is shown: counts, one for each picture.
///
/// # Errors
/// When a choice is not within its limits, or together they ask for too much.
pub fn picture_counts(
    dance: &Dance,
    motion: &Motion,
    choice: &MovingChoice,
) -> Result<Vec<f64>, MovingError> {
    for (name, value, [least, most], unit) in [
        ("size", choice.size, SIZES, "pixels"),
        ("speed", choice.speed, SPEEDS, "percent"),
        ("fps", choice.rate, RATES, "pictures a second"),
    ] {
        if !(least..=most).contains(&value) {
            return Err(MovingError::Range { name, value, least, most, unit });
        }
    }
    if motion.bars() == 0 {
        return Err(MovingError::Empty);
    }
    let clock = Clock::of(&dance.music);
    let speed = f64::from(choice.speed) / 100.0;
    let seconds = clock.seconds(motion.counts()) / speed;
    let pictures = (seconds * f64::from(choice.rate)).ceil().max(1.0) as u64 + 1;
    if pictures > MOST_PICTURES || pictures * u64::from(choice.size) * u64::from(choice.size) > MOST_PIXELS {
        return Err(MovingError::Large { pictures, size: choice.size });
    }
    Ok((0..pictures)
        .map(|index| clock.counts(index as f64 / f64::from(choice.rate) * speed).min(motion.counts()))
        .collect())
}

/// The bytes of the moving picture; `step` hears how many pictures are done, of how many, and
/// says whether to go on.
///
/// # Errors
/// When a choice is not within its limits or a picture cannot be drawn or written.
pub fn moving(
    dance: &Dance,
    motion: &Motion,
    kind: MovingKind,
    choice: &MovingChoice,
    step: Step,
) -> Result<Vec<u8>, MovingError> {
    Ok(moving_and_drawn(dance, motion, kind, choice, step)?.0)
}

/// The same, and how many floors and lines under them have been drawn for it: the measure of the work it took.
///
/// # Errors
/// When a choice is not within its limits or a picture cannot be drawn or written.
pub fn moving_and_drawn(
    dance: &Dance,
    motion: &Motion,
    kind: MovingKind,
    choice: &MovingChoice,
    step: Step,
) -> Result<(Vec<u8>, usize), MovingError> {
    let counts = picture_counts(dance, motion, choice)?;
    let frame = frame(motion, choice.size);
    let layers = |counts: &[f64]| -> Vec<Layers> {
        counts.par_iter().map(|count| layers(motion, *count, &frame, dance.holding, choice)).collect()
    };
    let mut drawing = Drawing::new(choice);
    let mut palette = Palette::default();
    let looks: Vec<f64> =
        (0..LOOKED_AT).map(|look| motion.counts() * f64::from(look) / f64::from(LOOKED_AT)).collect();
    for rgb in drawing.draw(layers(&looks))? {
        palette.look_at(&rgb);
    }
    let mut before: Option<Vec<u8>> = None;
    let mut frames = Vec::with_capacity(counts.len());
    for some in counts.chunks(AT_ONCE) {
        for rgb in drawing.draw(layers(some))? {
            let now = palette.find_all(&rgb);
            frames.push(Changed::of(before.as_deref(), &now, choice.size));
            before = Some(now);
            if !step(frames.len(), counts.len()) {
                return Err(MovingError::Stopped);
            }
        }
    }
    let bytes = match kind {
        MovingKind::Png => apng::write(&frames, &palette, choice),
        MovingKind::Gif => gif_out::write(&frames, &palette, choice),
    };
    Ok((bytes?, drawing.drawn))
}

/// The part of a picture that is not as it was, as places in the palette, with [`Palette::CLEAR`] where it is.
pub(crate) struct Changed {
    left: u32,
    top: u32,
    width: u32,
    height: u32,
    pixels: Vec<u8>,
}

impl Changed {
    fn of(before: Option<&[u8]>, now: &[u8], size: u32) -> Self {
        let side = size as usize;
        let Some(before) = before else {
            return Self { left: 0, top: 0, width: size, height: size, pixels: now.to_vec() };
        };
        let (mut left, mut right, mut top, mut bottom) = (side, 0, side, 0);
        for (row, (old, new)) in before.chunks(side).zip(now.chunks(side)).enumerate() {
            let differs = |(old, new): (&u8, &u8)| old != new;
            if let Some(first) = old.iter().zip(new).position(differs) {
                let last = old.iter().zip(new).rposition(differs).unwrap_or(first);
                (left, right) = (left.min(first), right.max(last + 1));
                (top, bottom) = (top.min(row), row + 1);
            }
        }
        if right <= left {
            // Nothing moves; a picture has at least one pixel.
            return Self { left: 0, top: 0, width: 1, height: 1, pixels: vec![Palette::CLEAR] };
        }
        let mut pixels = Vec::with_capacity((right - left) * (bottom - top));
        for (old, new) in before.chunks(side).zip(now.chunks(side)).take(bottom).skip(top) {
            let row = old.iter().zip(new).take(right).skip(left);
            pixels.extend(row.map(|(old, new)| if old == new { Palette::CLEAR } else { *new }));
        }
        Self {
            left: left as u32,
            top: top as u32,
            width: (right - left) as u32,
            height: (bottom - top) as u32,
            pixels,
        }
    }
}

/// How long a picture stays, hundredths of a second: the last one rests, and rounding never adds up.
fn delay(index: usize, of: usize, rate: u32) -> u16 {
    if index + 1 == of {
        return (REST * 100.0) as u16;
    }
    let at = |index: usize| (index as f64 * 100.0 / f64::from(rate)).round();
    (at(index + 1) - at(index)) as u16
}

fn frame(motion: &Motion, size: u32) -> Frame {
    let size = size as f32;
    Frame::fit(bounds(motion, ROUND), [0.0, size * 0.08, size, size * 0.83], 0.0)
}

/// One picture of a moving one.
#[must_use]
pub fn moving_picture(dance: &Dance, motion: &Motion, count: f64, choice: &MovingChoice) -> Picture {
    picture(motion, count, &frame(motion, choice.size), dance.holding, choice)
}

/// One picture: the floor, and under it what is danced and the count.
fn picture(motion: &Motion, count: f64, frame: &Frame, holding: Holding, choice: &MovingChoice) -> Picture {
    let Layers { floor: mut marks, foot } = layers(motion, count, frame, holding, choice);
    marks.extend(foot);
    Picture {
        width: choice.size,
        height: choice.size,
        ground: choice.ink.floor,
        marks,
        title: choice.figure.clone(),
        words: String::new(),
    }
}

fn layers(motion: &Motion, count: f64, frame: &Frame, holding: Holding, choice: &MovingChoice) -> Layers {
    let (ink, size) = (&choice.ink, choice.size as f32);
    let mut floor = Vec::new();
    music_marks(&mut floor, ink, [size / 2.0, size * 0.032], size / 700.0);
    let look = FloorLook { chosen: None, holding, trails: false };
    floor_marks(&mut floor, frame, ink, motion, count, &motion.poses(count), look);
    let whole = Moment::at(count.min(motion.counts() - 1e-9).floor());
    let y = size * 0.952;
    let room = size * 0.62;
    let height = (room / (choice.figure.chars().count().max(1) as f32 * 0.56)).min(size * 0.05);
    let words = |at: f32, size: f32, anchor: Anchor, text: String, heavy: bool| Mark::Words {
        at: [at, y],
        size,
        anchor,
        text,
        colour: ink.words,
        heavy,
    };
    let mut foot = vec![words(size * 0.04, height, Anchor::Left, choice.figure.clone(), false)];
    let text = format!("bar {}", whole.bar);
    foot.push(words(size * 0.8, size * 0.045, Anchor::Right, text, false));
    // The four counts of the bar, the one under way filled.
    for count in 0..4_u8 {
        let radius = size * 0.014;
        let is_now = f64::from(count) + 1.0 == whole.count;
        foot.push(Mark::Oval {
            at: [size * (0.84 + 0.038 * f32::from(count)), y],
            radii: [radius; 2],
            turn: 0.0,
            fill: Some(if is_now { ink.words } else { ink.faint }),
            stroke: None,
        });
    }
    Layers { floor, foot }
}
