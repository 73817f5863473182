//! The pictures of a moving one as pixels, with no part drawn again that looks as it did.

use super::{MovingChoice, MovingError};
use crate::picture::{Mark, marks_to_rgb};
use rayon::prelude::*;
use std::sync::Arc;

/// Pictures drawn at once, on every core.
pub(super) const AT_ONCE: usize = 32;
/// Where the line of words under the floor begins, as a share of the height.
const FOOT: f32 = 0.92;

/// One picture as marks: the floor and those on it, and the line under it.
#[derive(Clone, Default)]
pub(super) struct Layers {
    pub floor: Vec<Mark>,
    pub foot: Vec<Mark>,
}

/// A part of a picture as marks, and its pixels.
type Drawn = Arc<(Vec<Mark>, Vec<u8>)>;

/// Draws pictures one after another.
pub(super) struct Drawing<'a> {
    choice: &'a MovingChoice,
    /// The floor and the foot of the picture before.
    before: Option<(Drawn, Drawn)>,
    /// How many parts have been drawn.
    pub drawn: usize,
}

impl<'a> Drawing<'a> {
    pub(super) fn new(choice: &'a MovingChoice) -> Self {
        Self { choice, before: None, drawn: 0 }
    }

    /// The row of pixels where the foot begins.
    fn foot(&self) -> u32 {
        (self.choice.size as f32 * FOOT).floor() as u32
    }

    /// Pictures as red, green and blue, row by row.
    pub(super) fn draw(&mut self, pictures: Vec<Layers>) -> Result<Vec<Vec<u8>>, MovingError> {
        let (mut floors, mut feet) = (Parts::default(), Parts::default());
        let (last_floor, last_foot) = self.before.take().unzip();
        let (mut last_floor, mut last_foot) = (Last::of(last_floor), Last::of(last_foot));
        for Layers { floor, mut foot } in pictures {
            // What of the floor reaches down into the foot.
            let top = self.foot() as f32;
            let under = floor.iter().filter(|mark| lowest(mark) > top).cloned();
            foot.splice(0..0, under);
            floors.push_changed(floor, &mut last_floor);
            feet.push_changed(foot, &mut last_foot);
        }
        let (size, top) = (self.choice.size, self.foot());
        let ground = self.choice.ink.floor;
        let floors = floors.draw(|marks| Ok(marks_to_rgb([size as f32; 2], (size, size), ground, marks)?))?;
        let feet = feet.draw(|marks| {
            let marks: Vec<Mark> =
                marks.iter().cloned().map(|mark| mark.placed(1.0, [0.0, -(top as f32)])).collect();
            Ok(marks_to_rgb([size as f32, (size - top) as f32], (size, size - top), ground, &marks)?)
        })?;
        self.drawn += floors.1 + feet.1;
        self.before = floors.0.last().cloned().zip(feet.0.last().cloned());
        let pictures = floors.0.iter().zip(&feet.0).map(|(floor, foot)| {
            let mut rgb = floor.1.clone();
            let from = rgb.len().saturating_sub(foot.1.len());
            rgb.truncate(from);
            rgb.extend_from_slice(&foot.1);
            rgb
        });
        Ok(pictures.collect())
    }
}

/// The part of the picture before: one that is drawn, or one of those that are to be.
enum Last {
    None,
    Drawn(Drawn),
    ToDraw(usize),
}

impl Last {
    fn of(drawn: Option<Drawn>) -> Self {
        drawn.map_or(Self::None, Self::Drawn)
    }
}

/// The same part of pictures that follow each other.
#[derive(Default)]
struct Parts {
    to_draw: Vec<Vec<Mark>>,
    /// For each picture, what it looks like.
    looks: Vec<Last>,
}

impl Parts {
    fn push_changed(&mut self, marks: Vec<Mark>, last: &mut Last) {
        let same = match last {
            Last::None => false,
            Last::Drawn(drawn) => drawn.0 == marks,
            Last::ToDraw(at) => self.to_draw.get(*at).is_some_and(|other| *other == marks),
        };
        if !same {
            self.to_draw.push(marks);
            *last = Last::ToDraw(self.to_draw.len() - 1);
        }
        self.looks.push(match last {
            Last::None => Last::None,
            Last::Drawn(drawn) => Last::Drawn(Arc::clone(drawn)),
            Last::ToDraw(at) => Last::ToDraw(*at),
        });
    }

    /// The part of each picture as pixels, and how many of them were drawn.
    fn draw(
        self,
        pixels: impl Fn(&[Mark]) -> Result<Vec<u8>, MovingError> + Sync,
    ) -> Result<(Vec<Drawn>, usize), MovingError> {
        let drawn: Vec<Drawn> = self
            .to_draw
            .into_par_iter()
            .map(|marks| {
                let rgb = pixels(&marks)?;
                Ok(Arc::new((marks, rgb)))
            })
            .collect::<Result<_, MovingError>>()?;
        let parts = self.looks.into_iter().filter_map(|look| match look {
            Last::None => None,
            Last::Drawn(part) => Some(part),
            Last::ToDraw(at) => drawn.get(at).cloned(),
        });
        Ok((parts.collect(), drawn.len()))
    }
}

/// How far down a mark reaches at the most.
fn lowest(mark: &Mark) -> f32 {
    let down = |points: &[[f32; 2]]| points.iter().fold(f32::NEG_INFINITY, |low, [_, y]| low.max(*y));
    match mark {
        Mark::Oval { at, radii: [rx, ry], stroke, .. } | Mark::Block { at, radii: [rx, ry], stroke, .. } => {
            at[1] + rx.hypot(*ry) + stroke.map_or(0.0, |stroke| stroke.width)
        }
        Mark::Area { points, stroke, .. } => down(points) + stroke.map_or(0.0, |stroke| stroke.width),
        Mark::Outline { loops, .. } => {
            loops.iter().map(|points| down(points)).fold(f32::NEG_INFINITY, f32::max)
        }
        Mark::Line { points, stroke, .. } => down(points) + stroke.width,
        Mark::Words { at, size, .. } => at[1] + size,
    }
}

#[cfg(test)]
mod tests {
    use super::super::one_picture::{Scene, layers, moving_picture};
    use super::*;
    use crate::dance::read;
    use crate::figures::motion_of_figure;
    use crate::picture::{Anchor, Stroke};

    /// What is put together from parts that are drawn once is, pixel by pixel, each picture drawn whole by itself: of a
    /// figure as it is danced, and with marks that come and go and reach down over the line of words.
    #[test]
    fn pictures_put_together_are_those_drawn_whole() {
        let text = include_str!("../../../dances/nine-geese-home.dance.json");
        let dance = read(text.as_bytes()).unwrap();
        let hey = dance.find_figure("hey").unwrap();
        let motion = motion_of_figure(&dance, hey).unwrap();
        for size in [97, 160] {
            let choice = MovingChoice { size, figure: "Hey".to_owned(), ..MovingChoice::default() };
            let scene = Scene::of(&dance, &motion, &choice);
            let (side, foot) = (size as f32, (size as f32 * FOOT).floor());
            let stroke = Stroke { colour: choice.ink.words, width: 2.5 };
            let reaching = |index: usize| -> Vec<Mark> {
                // The same for two pictures in a row, and then elsewhere; now and then none.
                let x = side * 0.1 * (1 + index / 2 % 8) as f32;
                let oval = |y: f32| Mark::Oval {
                    at: [x, y],
                    radii: [6.0, 9.0],
                    turn: 30.0,
                    fill: Some(choice.ink.faint),
                    stroke: Some(stroke),
                };
                let line = |y: f32| Mark::Line { points: vec![[x, side * 0.5], [x, y]], stroke, dash: None };
                let words = Mark::Words {
                    at: [x, foot + 1.0],
                    size: 12.0,
                    anchor: Anchor::Left,
                    text: "gjpq".to_owned(),
                    colour: choice.ink.words,
                    heavy: false,
                };
                match index % 5 {
                    0 => vec![oval(foot - 8.0)],
                    1 => vec![oval(foot - 8.0), line(foot)],
                    2 => vec![line(foot - 1.0), words],
                    3 => vec![line(foot + 4.0), oval(foot + 3.0)],
                    _ => Vec::new(),
                }
            };
            let counts: Vec<f64> = (0..24).map(|index| f64::from(index) * 0.375).collect();
            for with_more in [false, true] {
                let mut drawing = Drawing::new(&choice);
                let mut drawn = Vec::new();
                let (mut whole, mut under) = (Vec::new(), 0);
                for some in counts.chunks(7) {
                    let mut pictures = Vec::new();
                    for count in some {
                        let mut layers = layers(&motion, *count, &scene, &choice);
                        let mut marks = moving_picture(&dance, &motion, *count, &choice).marks;
                        if with_more {
                            let more = reaching(whole.len());
                            under += more.iter().filter(|mark| lowest(mark) > foot).count();
                            marks.splice(layers.floor.len()..layers.floor.len(), more.iter().cloned());
                            layers.floor.extend(more);
                        }
                        pictures.push(layers);
                        whole.push(marks_to_rgb([side; 2], (size, size), choice.ink.floor, &marks).unwrap());
                    }
                    drawn.extend(drawing.draw(pictures).unwrap());
                }
                assert!(!with_more || under > 15, "{under} reach into the foot");
                for (index, (one, other)) in drawn.iter().zip(&whole).enumerate() {
                    let off = one.iter().zip(other).map(|(one, other)| one.abs_diff(*other)).max();
                    // What reaches into the foot is moved up to be drawn there, and rounds otherwise in its last place.
                    let most = u8::from(with_more);
                    assert!(off <= Some(most), "{size}, picture {index}, more {with_more}: {off:?}");
                    assert_eq!(one.len(), other.len());
                }
                assert_eq!(drawn.len(), whole.len());
            }
        }
    }
}
