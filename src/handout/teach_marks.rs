use super::{
    SMALLEST,
    clear_place::Taken,
    own_turns::{own_turns, quarters},
    path_line::{EVEN_DASH, head_marks},
};
use crate::dance::{Dancer, Foot, Number, Way};
use crate::motion::{Span, Track, steps::Step};
use crate::picture::{Anchor, Colour, Frame, Mark, PAPER, Stroke};
use crate::words::first_foot;

/// How far from the middle of a body an arc of a turn is, and each further one, metres.
const ARC: (f64, f64) = (0.5, 0.1);
/// How far from where a half begins its first foot is, metres.
const FOOT: f64 = 0.5;
/// Who is nearer to where a half begins than this might be taken for whoever starts there, metres.
const IN_THE_WAY: f64 = 1.0;
/// The size of letters in a diagram, points.
const LETTER: f32 = SMALLEST + 0.5;

/// The colour of a dancer on paper.
pub(super) fn hue(dancer: Dancer) -> Colour {
    if dancer.is_even() { PAPER.even } else { PAPER.odd }
}

/// The same, dark enough for small letters: 4.5 to 1 on paper (WCAG 2.2, 1.4.3), which the odds' orange is not.
pub(super) fn letter_hue(dancer: Dancer) -> Colour {
    if dancer.is_even() { PAPER.even } else { Colour::hex(0xAA_4A00) }
}

/// The turns of a dancer's own between two counts: each an arc round the body with an arrowhead, the way round that it goes, ending
/// where they face, and its amount in quarters. Nothing else may lie where the amounts are put.
pub(super) fn turn_arcs(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    (track, dancer): (&Track, Dancer),
    counts: (f64, f64),
    width: f32,
    taken: &mut Taken,
) {
    let (x, y, _) = track.stand(counts.1 - 1e-6);
    for (nth, turn) in own_turns(track, counts).iter().enumerate() {
        let radius = ARC.0 + ARC.1 * nth as f64;
        let shown = turn.amount.clamp(-330.0, 330.0);
        let end = track.stand(turn.end - 1e-6).2;
        let place = |degrees: f64, radius: f64| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            frame.to_picture(x + radius * sin, y + radius * cos)
        };
        let steps = (shown.abs() / 5.0).ceil().max(4.0) as u32;
        let angle = |step: u32| end - shown * (1.0 - f64::from(step) / f64::from(steps));
        let mut points: Vec<[f32; 2]> = (0..=steps).map(|step| place(angle(step), radius)).collect();
        let Some(tip) = points.last().copied() else { continue };
        let far = |point: &[f32; 2]| (point[0] - tip[0]).hypot(point[1] - tip[1]);
        let head = 3.4 + width * 1.6;
        let tail = points.iter().rev().find(|point| far(point) >= head * 0.8).or(points.first()).copied();
        let stroke = Stroke { colour: hue(dancer), width: (width * 0.8).max(1.0) };
        while points.len() > 3 && points.last().is_some_and(|point| far(point) < head * 0.6) {
            points.pop();
        }
        for point in points.iter().step_by(3) {
            taken.take(*point, 1.5);
        }
        marks.push(Mark::Line {
            points,
            stroke,
            dash: dancer.is_even().then_some(EVEN_DASH.map(|of| of * 0.7)),
        });
        if let Some(tail) = tail {
            head_marks(marks, tail, tip, head, stroke);
        }
        let text = quarters(turn.amount);
        let half = LETTER * 0.5;
        let out = radius + f64::from(half + 2.0) / frame.scale;
        let shares = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 1.0];
        let places = shares.iter().map(|share| place(end - shown * (1.0 - share), out));
        let farther = shares.iter().map(|share| place(end - shown * (1.0 - share), out + 0.12));
        if let Some(at) = taken.choose(places.chain(farther), half) {
            put_letter(marks, at, text, letter_hue(dancer));
        }
    }
}

/// The foot with which a dancer starts at a count of a figure, if a step starts there with one.
fn foot_at(span: &Span, known: &[Step], dancer: Dancer, begin: f64) -> Option<Foot> {
    let footing = span.track(dancer)?.footing();
    let made = footing.leads().iter().find(|made| made.at as f64 >= begin)?;
    first_foot(known, footing, made.at)
        .filter(|(_, lands)| (*lands as f64) < begin + 4.0)
        .map(|(foot, _)| foot)
}

/// The first foot of a dancer in a half that begins at a count, as a letter beside where the dancer is then; with the number where
/// somebody else (`others`, metres right and up) is there at the end of the diagram.
pub(super) fn first_foot_mark(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    span: &Span,
    known: &[Step],
    (dancer, begin): (Dancer, f64),
    others: &[(f64, f64)],
    taken: &mut Taken,
) {
    let Some((foot, track)) = foot_at(span, known, dancer, begin).zip(span.track(dancer)) else { return };
    let (x, y, facing) = track.stand(begin);
    let letter = match foot {
        Foot::Left => "L",
        Foot::Right => "R",
    };
    let mut there = others.iter().zip(Dancer::all(others.len()));
    let in_the_way = there.any(|((a, b), other)| other != dancer && (a - x).hypot(b - y) < IN_THE_WAY);
    let letter = if in_the_way { format!("{dancer}{letter}") } else { letter.to_owned() };
    let half = LETTER * if in_the_way { 0.62 } else { 0.42 };
    let around = |far: f64| {
        [180.0, 150.0, 210.0, 120.0, 240.0, 90.0, 270.0, 0.0].map(|aside: f64| {
            let (sin, cos) = (facing + aside).to_radians().sin_cos();
            frame.to_picture(x + far * sin, y + far * cos)
        })
    };
    if let Some(at) = taken.choose(around(FOOT * 0.6).into_iter().chain(around(FOOT)), half) {
        put_letter(marks, at, letter, letter_hue(dancer));
    }
}

/// Two who pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Passing {
    pub one: Dancer,
    pub other: Number,
    pub shoulder: Way,
    pub at: f64,
}

/// The marks of those who pass: between them where they are nearest, the shoulder in a lozenge.
pub(super) fn pass_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    span: &Span,
    passes: &[Passing],
    taken: &mut Taken,
) {
    for pass in passes {
        let stand = |dancer: Dancer| span.track(dancer).map(|track| track.stand(pass.at));
        let (Some(one), Some(other)) = (stand(pass.one), stand(pass.other.dancer())) else { continue };
        let (x, y) = (f64::midpoint(one.0, other.0), f64::midpoint(one.1, other.1));
        let half = LETTER * 0.72;
        let (aside, along) = ((other.1 - one.1) * 0.5, -(other.0 - one.0) * 0.5);
        let places =
            [0.0, 0.35, -0.35, 0.7, -0.7].map(|far| frame.to_picture(x + aside * far, y + along * far));
        let Some([x, y]) = taken.choose(places, half) else { continue };
        marks.push(Mark::Area {
            points: vec![[x, y - half], [x + half, y], [x, y + half], [x - half, y]],
            fill: Some(PAPER.floor),
            stroke: Some(Stroke { colour: PAPER.outline, width: 0.9 }),
        });
        let letter = if pass.shoulder == Way::Left { "L" } else { "R" };
        put_letter(marks, [x, y], letter.to_owned(), PAPER.outline);
    }
}

fn put_letter(marks: &mut Vec<Mark>, at: [f32; 2], text: String, colour: Colour) {
    // On the paper's own colour, wherever there was room for it.
    let radii = [LETTER * (0.2 + 0.28 * text.chars().count() as f32), LETTER * 0.52];
    marks.push(Mark::Oval { at, radii, turn: 0.0, fill: Some(PAPER.floor), stroke: None });
    marks.push(Mark::Words { at, size: LETTER, anchor: Anchor::Middle, text, colour, heavy: true });
}
