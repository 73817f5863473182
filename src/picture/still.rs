use super::{Anchor, FloorLook, Frame, Ink, Mark, Picture, SLATE, Stroke, bounds, floor_marks};
use crate::dance::Holding;
use crate::motion::Motion;

/// Floor shown round where the middles of bodies go: arms' reach, metres (common practice, no source).
const ROUND: f64 = 0.8;

/// What a still should show.
#[derive(Clone, Debug)]
pub struct StillChoice {
    /// Pixels along each side.
    pub size: u32,
    /// Whether paths are drawn.
    pub trails: bool,
    /// What the dancers hold.
    pub holding: Holding,
    pub ink: Ink,
    /// The dance's title.
    pub title: String,
    /// What is danced here.
    pub figure: String,
}

impl Default for StillChoice {
    fn default() -> Self {
        Self {
            size: 1200,
            trails: false,
            holding: Holding::default(),
            ink: SLATE,
            title: String::new(),
            figure: String::new(),
        }
    }
}

/// The frame of a still: the same for every count of a motion, so that stills can be laid side by side.
#[must_use]
pub fn still_frame(motion: &Motion, size: u32) -> Frame {
    let size = size as f32;
    Frame::fit(bounds(motion, ROUND), [0.0, size * 0.07, size, size * 0.86], 0.0)
}

/// A picture of the floor at a count from the start.
#[must_use]
pub fn still(motion: &Motion, count: f64, choice: &StillChoice) -> Picture {
    let frame = still_frame(motion, choice.size);
    let (ink, size) = (&choice.ink, choice.size as f32);
    let poses = motion.poses(count);
    let mut marks = Vec::with_capacity(poses.len() * 12 + 32);
    let look = FloorLook { chosen: None, holding: choice.holding, trails: choice.trails, least_number: 0.0 };
    music_marks(&mut marks, ink, [size / 2.0, size * 0.03], size / 1200.0);
    floor_marks(&mut marks, &frame, ink, motion, count, &poses, look);
    // With the figure's name stands the bar that the figure counts, as everywhere.
    let own = !choice.figure.is_empty();
    let moment = if own { motion.moment_in_figure(count) } else { motion.moment(count) };
    let at_end = count >= motion.counts() && motion.bars() > 0;
    let when = if at_end { "the end".to_owned() } else { format!("bar {moment}") };
    let caption = [choice.title.as_str(), choice.figure.as_str(), when.as_str()]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" · ");
    marks.push(Mark::Words {
        at: [size * 0.03, size * 0.965],
        size: size * 0.022,
        anchor: Anchor::Left,
        text: caption.clone(),
        colour: ink.words,
        heavy: false,
    });
    scale_marks(&mut marks, ink, &frame, [size * 0.97, size * 0.965], size / 1200.0);
    let words = poses
        .iter()
        .map(|pose| {
            format!(
                "{} at {:.2} m right, {:.2} m up, facing {:.0} degrees",
                pose.number,
                pose.x,
                pose.y,
                pose.facing.rem_euclid(360.0)
            )
        })
        .collect::<Vec<_>>()
        .join("; ");
    Picture { width: choice.size, height: choice.size, ground: ink.floor, marks, title: caption, words }
}

/// The music: a little stave with the word under it, its middle at a place.
pub fn music_marks(marks: &mut Vec<Mark>, ink: &Ink, [x, y]: [f32; 2], scale: f32) {
    let line = Stroke { colour: ink.faint, width: scale.max(1.0) };
    for row in 0..5 {
        let y = y + (row as f32 - 2.0) * 4.0 * scale;
        marks.push(Mark::Line {
            points: vec![[x - 70.0 * scale, y], [x + 70.0 * scale, y]],
            stroke: line,
            dash: None,
        });
    }
    for (note, height) in [0.0, -1.0, 1.0, -0.5, -1.5, 0.5].into_iter().enumerate() {
        let (x, y) = (x + (note as f32 * 20.0 - 50.0) * scale, y + height * 4.0 * scale);
        marks.push(Mark::Oval {
            at: [x, y],
            radii: [3.6 * scale, 2.6 * scale],
            turn: -20.0,
            fill: Some(ink.quiet),
            stroke: None,
        });
        let stem = Stroke { colour: ink.quiet, width: scale.max(0.8) };
        let points = vec![[x + 3.2 * scale, y - scale], [x + 3.2 * scale, y - 12.0 * scale]];
        marks.push(Mark::Line { points, stroke: stem, dash: None });
    }
    marks.push(Mark::Words {
        at: [x, y + 20.0 * scale],
        size: 12.0 * scale,
        anchor: Anchor::Middle,
        text: "music".to_owned(),
        colour: ink.quiet,
        heavy: false,
    });
}

/// The music as a word between two notes, where there is no room for its staff.
pub fn music_word(marks: &mut Vec<Mark>, ink: &Ink, [x, y]: [f32; 2]) {
    let quiet = Stroke { colour: ink.quiet, width: 1.0 };
    for side in [-27.0, 27.0] {
        let (x, y) = (x + side, y + 3.0);
        let (at, radii, fill) = ([x, y], [3.2, 2.3], Some(ink.quiet));
        marks.push(Mark::Oval { at, radii, turn: -20.0, fill, stroke: None });
        let points = vec![[x + 2.8, y - 1.0], [x + 2.8, y - 10.0]];
        marks.push(Mark::Line { points, stroke: quiet, dash: None });
    }
    marks.push(Mark::Words {
        at: [x, y],
        size: 12.0,
        anchor: Anchor::Middle,
        text: "music".to_owned(),
        colour: ink.quiet,
        heavy: false,
    });
}

/// A bar as long as one metre of floor, its right end at a place.
pub fn scale_marks(marks: &mut Vec<Mark>, ink: &Ink, frame: &Frame, [x, y]: [f32; 2], scale: f32) {
    let metres = [1.0, 2.0, 5.0, 10.0, 50.0, 100.0, 500.0]
        .into_iter()
        .find(|&metres| frame.length(metres) > 50.0 * scale)
        .unwrap_or(1000.0);
    let left = x - frame.length(metres);
    let stroke = Stroke { colour: ink.quiet, width: 1.5 * scale.max(0.7) };
    let tick = 4.0 * scale;
    marks.push(Mark::Line { points: vec![[left, y], [x, y]], stroke, dash: None });
    for end in [left, x] {
        marks.push(Mark::Line { points: vec![[end, y - tick], [end, y + tick]], stroke, dash: None });
    }
    marks.push(Mark::Words {
        at: [f32::midpoint(left, x), y - 12.0 * scale],
        size: 12.0 * scale,
        anchor: Anchor::Middle,
        text: if metres > 1.0 { format!("{metres} metres") } else { "1 metre".to_owned() },
        colour: ink.quiet,
        heavy: false,
    });
}
