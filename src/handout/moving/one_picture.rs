//! One picture of a moving one: the floor, and under it what is danced and the count.

use super::{MovingChoice, drawing::Layers};
use crate::dance::{Dance, Holding};
use crate::motion::Motion;
use crate::picture::{Anchor, FloorLook, Frame, Mark, Picture, bounds, floor_marks, music_marks};

/// Floor shown round where the middles of bodies go, metres.
const ROUND: f64 = 0.65;

pub(super) fn frame(motion: &Motion, size: u32) -> Frame {
    let size = size as f32;
    Frame::fit(bounds(motion, ROUND), [0.0, size * 0.08, size, size * 0.83], 0.0)
}

/// The picture that is shown at a count from the start, as large as the moving one.
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

pub(super) fn layers(
    motion: &Motion,
    count: f64,
    frame: &Frame,
    holding: Holding,
    choice: &MovingChoice,
) -> Layers {
    let (ink, size) = (&choice.ink, choice.size as f32);
    let mut floor = Vec::new();
    music_marks(&mut floor, ink, [size / 2.0, size * 0.032], size / 700.0);
    let look = FloorLook { chosen: None, holding, trails: false, least_number: 0.0 };
    floor_marks(&mut floor, frame, ink, motion, count, &motion.poses(count), look);
    let whole = motion.moment(count.min(motion.counts() - 1e-9).floor());
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
    let counts = motion.bar_counts().in_bar(whole.bar.saturating_sub(1)) as u8;
    // The last dot is at the right, however many there are.
    let dot = |before: u8| size * (0.954 - 0.038 * f32::from(before));
    foot.push(words(dot(counts) - size * 0.002, size * 0.045, Anchor::Right, text, false));
    // The counts of the bar, the one under way filled.
    for count in 0..counts {
        let radius = size * 0.014;
        let is_now = f64::from(count) + 1.0 == whole.count;
        foot.push(Mark::Oval {
            at: [dot(counts - 1 - count), y],
            radii: [radius; 2],
            turn: 0.0,
            fill: Some(if is_now { ink.words } else { ink.faint }),
            stroke: None,
        });
    }
    Layers { floor, foot }
}
