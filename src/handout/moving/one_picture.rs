//! One picture of a moving one: the floor or bodies at eye level, and under it what is danced and the count.

use super::{MovingChoice, at_eye_level::AtEyeLevel, drawing::Layers};
use crate::dance::{Dance, Holding};
use crate::motion::Motion;
use crate::picture::{Anchor, FloorLook, Frame, Mark, Picture, bounds, floor_marks, music_marks};

/// Floor shown round where the middles of bodies go, metres.
const ROUND: f64 = 0.65;

/// What is seen: the floor, framed alike in every picture, or bodies at eye level.
pub(super) enum Scene {
    Above(Frame, Holding),
    AtEyeLevel(Box<AtEyeLevel>),
}

impl Scene {
    pub(super) fn of(dance: &Dance, motion: &Motion, choice: &MovingChoice) -> Self {
        match AtEyeLevel::of(dance, motion, choice) {
            Some(bodies) => Self::AtEyeLevel(Box::new(bodies)),
            None => {
                let size = choice.size as f32;
                let place = [0.0, size * 0.08, size, size * 0.83];
                Self::Above(Frame::fit(bounds(motion, ROUND), place, 0.0), dance.holding)
            }
        }
    }

    /// Those who dance, at a count.
    fn marks(&self, motion: &Motion, count: f64, choice: &MovingChoice) -> Vec<Mark> {
        match self {
            Self::AtEyeLevel(bodies) => bodies.marks(motion, count, choice),
            Self::Above(frame, holding) => {
                let (ink, size) = (&choice.ink, choice.size as f32);
                let mut floor = Vec::new();
                music_marks(&mut floor, ink, [size / 2.0, size * 0.032], size / 700.0);
                let look =
                    FloorLook { chosen: choice.dancer, holding: *holding, trails: false, least_number: 0.0 };
                floor_marks(&mut floor, frame, ink, motion, count, &motion.poses(count), look);
                floor
            }
        }
    }
}

/// The picture that is shown at a count from the start, as large as the moving one.
#[must_use]
pub fn moving_picture(dance: &Dance, motion: &Motion, count: f64, choice: &MovingChoice) -> Picture {
    let Layers { floor: mut marks, foot } = layers(motion, count, &Scene::of(dance, motion, choice), choice);
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

/// One picture: who dances, and under it what is danced and the count.
pub(super) fn layers(motion: &Motion, count: f64, scene: &Scene, choice: &MovingChoice) -> Layers {
    let floor = scene.marks(motion, count, choice);
    let (ink, size) = (&choice.ink, choice.size as f32);
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
