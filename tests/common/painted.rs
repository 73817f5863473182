//! What the window has painted: its words.

#![allow(dead_code)] // one test uses this, another that

use crate::driven::Driven;
use egui::{Rect, Shape, epaint::ClippedShape};

/// Screens, pixels, and sizes of text.
pub const SCREENS: [[f32; 2]; 4] = [[1024.0, 640.0], [1366.0, 768.0], [1920.0, 1080.0], [2560.0, 1440.0]];
pub const TEXTS: [f32; 3] = [1.0, 1.5, 2.0];

/// Words as they are painted: where they are, where their letters stand, how large they are, and what can be seen of them.
pub struct Words {
    pub text: String,
    pub place: Rect,
    pub baseline: f32,
    pub size: f32,
    pub seen: Rect,
}

fn add(shape: &Shape, clip: Rect, words: &mut Vec<Words>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| add(shape, clip, words)),
        Shape::Text(text) => {
            let Some(row) = text.galley.rows.first() else { return };
            let Some(glyph) = row.glyphs.first() else { return };
            let place = text.galley.rect.translate(text.pos.to_vec2());
            words.push(Words {
                text: text.galley.text().to_owned(),
                place,
                baseline: text.pos.y + row.pos.y + glyph.pos.y,
                size: text.galley.job.sections.first().map_or(0.0, |section| section.format.font_id.size),
                seen: place.intersect(clip),
            });
        }
        _ => {}
    }
}

/// All that can be seen of them.
pub fn words(harness: &Driven) -> Vec<Words> {
    let mut words = Vec::new();
    for ClippedShape { clip_rect, shape, .. } in &harness.output().shapes {
        add(shape, *clip_rect, &mut words);
    }
    words.retain(|words| words.seen.is_positive());
    words
}
