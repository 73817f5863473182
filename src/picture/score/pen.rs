use super::brush::Loop;
use crate::picture::{Anchor, Colour, Face, Mark, Stroke, words_width};

/// Draws in spaces of the stave, y down from its top line, and knows where it has drawn.
pub struct Pen {
    pub marks: Vec<Mark>,
    pub colour: Colour,
    /// What has ink in it: left, top, right, bottom.
    pub taken: Vec<[f32; 4]>,
}

impl Pen {
    pub fn new(colour: Colour) -> Self {
        Self { marks: Vec::new(), colour, taken: Vec::new() }
    }

    /// Draws outlines at a place, so many times as large, and gives the box round them.
    pub fn outline(&mut self, loops: &[Loop], [x, y]: [f32; 2], scale: f32) -> [f32; 4] {
        let loops: Vec<Loop> = loops
            .iter()
            .map(|points| points.iter().map(|[px, py]| [x + px * scale, y + py * scale]).collect())
            .collect();
        let edge = bounds(loops.iter().flatten());
        self.marks.push(Mark::Outline { loops, fill: self.colour });
        self.taken.push(edge);
        edge
    }

    pub fn line(&mut self, from: [f32; 2], to: [f32; 2], width: f32) {
        let stroke = Stroke { colour: self.colour, width };
        self.marks.push(Mark::Line { points: vec![from, to], stroke, dash: None });
    }

    /// A filled area with corners.
    pub fn area(&mut self, points: &[[f32; 2]]) {
        self.taken.push(bounds(points.iter()));
        self.marks.push(Mark::Area { points: points.to_vec(), fill: Some(self.colour), stroke: None });
    }

    /// An upright or level block from one corner to the other.
    pub fn block(&mut self, [left, top, right, bottom]: [f32; 4]) {
        self.marks.push(Mark::Area {
            points: vec![[left, top], [right, top], [right, bottom], [left, bottom]],
            fill: Some(self.colour),
            stroke: None,
        });
    }

    pub fn dot(&mut self, at: [f32; 2], radius: f32) {
        self.marks.push(Mark::Oval {
            at,
            radii: [radius; 2],
            turn: 0.0,
            fill: Some(self.colour),
            stroke: None,
        });
    }

    /// Words half-way up at a place; their box is kept.
    pub fn words(&mut self, at: [f32; 2], size: f32, anchor: Anchor, text: &str, heavy: bool) {
        let wide = words_width(text, size, Face::of(heavy));
        let left = match anchor {
            Anchor::Left => at[0],
            Anchor::Middle => at[0] - wide / 2.0,
            Anchor::Right => at[0] - wide,
        };
        self.taken.push([left, at[1] - size * 0.5, left + wide, at[1] + size * 0.5]);
        let (text, colour) = (text.to_owned(), self.colour);
        self.marks.push(Mark::Words { at, size, anchor, text, colour, heavy });
    }

    /// The highest ink between two places, no lower than the top line.
    pub fn top_over(&self, left: f32, right: f32) -> f32 {
        let over = self.taken.iter().filter(|taken| taken[0] < right && taken[2] > left);
        over.map(|taken| taken[1]).fold(0.0, f32::min)
    }

    /// The lowest ink between two places, no higher than the bottom line.
    pub fn bottom_under(&self, left: f32, right: f32) -> f32 {
        let under = self.taken.iter().filter(|taken| taken[0] < right && taken[2] > left);
        under.map(|taken| taken[3]).fold(4.0, f32::max)
    }
}

/// The box round points.
pub fn bounds<'a>(points: impl Iterator<Item = &'a [f32; 2]>) -> [f32; 4] {
    points.fold([f32::INFINITY, f32::INFINITY, f32::NEG_INFINITY, f32::NEG_INFINITY], |edge, [x, y]| {
        [edge[0].min(*x), edge[1].min(*y), edge[2].max(*x), edge[3].max(*y)]
    })
}
