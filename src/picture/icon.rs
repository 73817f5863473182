use super::{Colour, Mark, Picture, SLATE, Stroke};

/// Leather and the brass of bells.
const LEATHER: Colour = Colour::hex(0x6B_4A2E);
const BRASS: Colour = Colour::hex(0xF2_C14E);

/// The program's icon, so many pixels along each side: a pad of six bells on slate, with its ribbons.
#[must_use]
pub fn icon(size: u32) -> Picture {
    let mut marks = Vec::new();
    let line = |colour, width| Some(Stroke { colour, width });
    for (y, colour) in [(66.0, SLATE.odd), (128.0, SLATE.linen), (190.0, SLATE.even)] {
        let points = vec![[10.0, y + 9.0], [46.0, y], [210.0, y], [246.0, y + 9.0]];
        marks.push(Mark::Line { points, stroke: Stroke { colour, width: 15.0 }, dash: None });
    }
    marks.push(Mark::Block {
        at: [128.0, 128.0],
        radii: [82.0, 108.0],
        corner: 20.0,
        turn: 0.0,
        fill: Some(LEATHER),
        stroke: line(SLATE.outline, 6.0),
    });
    for x in [87.0, 169.0] {
        for y in [62.0, 128.0, 194.0] {
            bell(&mut marks, [x, y]);
        }
    }
    let scale = size as f32 / 256.0;
    Picture {
        width: size,
        height: size,
        ground: SLATE.floor,
        marks: marks.into_iter().map(|mark| mark.placed(scale, [0.0, 0.0])).collect(),
        title: "Bellpad".to_owned(),
        words: "A pad of six bells with three ribbons".to_owned(),
    }
}

/// A round bell with its slit.
fn bell(marks: &mut Vec<Mark>, [x, y]: [f32; 2]) {
    let dark = SLATE.outline;
    let stroke = Some(Stroke { colour: dark, width: 5.0 });
    marks.push(Mark::Oval { at: [x, y], radii: [28.0, 28.0], turn: 0.0, fill: Some(BRASS), stroke });
    let shine = Some(SLATE.linen.faded(190));
    marks.push(Mark::Oval {
        at: [x - 9.0, y - 12.0],
        radii: [8.0, 5.0],
        turn: -35.0,
        fill: shine,
        stroke: None,
    });
    let slit = Stroke { colour: dark, width: 6.0 };
    marks.push(Mark::Line {
        points: vec![[x - 15.0, y + 8.0], [x + 15.0, y + 8.0]],
        stroke: slit,
        dash: None,
    });
    for side in [-15.0, 15.0] {
        let at = [x + side, y + 8.0];
        marks.push(Mark::Oval { at, radii: [5.5, 5.5], turn: 0.0, fill: Some(dark), stroke: None });
    }
}
