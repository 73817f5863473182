use super::{
    SMALLEST,
    clear_place::Taken,
    moments::halves,
    path_line::path_line_marks,
    tap_marks::tap_marks,
    teach_marks::{Passing, first_foot_mark, pass_marks, turn_arcs},
};
use crate::dance::{Dancer, Holding, SetKind};
use crate::motion::{Motion, Pose, SpanIndex, Weight};
use crate::picture::{Frame, Mark, PAPER, Stroke, dancer_marks};
use crate::words::passes_between;

/// Bodies are drawn up to so much larger than life, for their numbers to be read.
const LARGEST: f64 = 1.15;
/// The size of the number on a dancer's head, metres of floor.
const NUMBER: f64 = 0.165;
/// Heads smaller than this, points across, have no number.
const LEAST_HEAD: f32 = 6.0;

/// Larger sets have no turns, feet and shoulders in their diagrams: they could not be told apart.
const MOST_TAUGHT: usize = 40;

/// What a diagram shows.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// Index into the spans of the motion.
    pub span: SpanIndex,
    /// The counts of the figure between which paths are drawn; the bodies stand where the second of them is.
    pub counts: (f64, f64),
    /// The dancer whose path is heavy; the others' are then thin.
    pub own: Option<Dancer>,
    /// What the dancers hold.
    pub holding: Holding,
}

/// A diagram in its box (left, top, right, bottom, points) through a frame: the spots, the paths and the dancers.
pub fn diagram_marks(marks: &mut Vec<Mark>, motion: &Motion, shown: &Shown, area: [f32; 4], frame: &Frame) {
    let [left, top, right, bottom] = area;
    marks.push(Mark::Line {
        points: vec![[left, top], [right, top], [right, bottom], [left, bottom], [left, top]],
        stroke: Stroke { colour: PAPER.faint, width: 0.8 },
        dash: None,
    });
    spot_marks(marks, motion, frame);
    let Some(span) = motion.span(shown.span) else { return };
    let order = Dancer::all(motion.dancers()).filter(|dancer| shown.own != Some(*dancer)).chain(shown.own);
    for dancer in order.clone() {
        let Some(track) = span.track(dancer) else { continue };
        let width = match shown.own {
            Some(own) if own == dancer => 2.6,
            Some(_) => 0.7,
            None => 1.5,
        };
        path_line_marks(marks, frame, &PAPER, (track, dancer), shown.counts, width);
    }
    for dancer in order {
        body_marks(marks, motion, shown, dancer, frame);
    }
    tap_marks(marks, motion, span, shown.counts, frame);
    if motion.dancers() <= MOST_TAUGHT {
        taught_marks(marks, motion, shown, area, frame);
    }
}

/// The turns, the first feet and the shoulders: of the one whose diagram it is, or of everybody.
fn taught_marks(marks: &mut Vec<Mark>, motion: &Motion, shown: &Shown, area: [f32; 4], frame: &Frame) {
    let Some(span) = motion.span(shown.span) else { return };
    let (from, to) = shown.counts;
    let mut taken = Taken::of(area);
    for dancer in Dancer::all(motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        let (x, y, facing) = track.stand((to - 1e-6).max(0.0));
        let (sin, cos) = facing.to_radians().sin_cos();
        // The body, and both hands beside it.
        taken.take(frame.to_picture(x, y), frame.length(0.24));
        for side in [-0.33, 0.33] {
            taken.take(frame.to_picture(x + side * cos, y - side * sin), frame.length(0.12));
        }
        taken.take(frame.to_picture(x + 0.25 * sin, y + 0.25 * cos), frame.length(0.12));
        // The way lies lightly.
        let steps = ((to - from) * 3.0).ceil().clamp(1.0, 400.0) as u32;
        for step in 0..steps {
            let (x, y, _) = track.stand(from + (to - from) * f64::from(step) / f64::from(steps));
            taken.take(frame.to_picture(x, y), 0.5);
        }
    }
    let own = |dancer: &Dancer| shown.own.is_none_or(|own| own == *dancer);
    let width = if shown.own.is_some() { 2.0 } else { 1.5 };
    pass_marks(marks, frame, span, &passing(motion, shown), &mut taken);
    for dancer in Dancer::all(motion.dancers()).filter(own) {
        if let Some(track) = span.track(dancer) {
            turn_arcs(marks, frame, (track, dancer), shown.counts, width, &mut taken);
        }
    }
    let end = |dancer: Dancer| span.track(dancer).map(|track| track.stand((to - 1e-6).max(0.0)));
    let ends: Vec<(f64, f64)> = Dancer::all(motion.dancers())
        .map(|dancer| end(dancer).map_or((f64::MAX, 0.0), |at| (at.0, at.1)))
        .collect();
    for begin in halves(span.bar_counts()).into_iter().filter(|begin| (from..to).contains(begin)) {
        for dancer in Dancer::all(motion.dancers()).filter(own) {
            first_foot_mark(marks, frame, span, motion.known(), (dancer, begin), &ends, &mut taken);
        }
    }
}

/// Who pass each other in a diagram, each two once.
pub(super) fn passing(motion: &Motion, shown: &Shown) -> Vec<Passing> {
    let (from, to) = shown.counts;
    let mut found: Vec<Passing> = Vec::new();
    for one in Dancer::all(motion.dancers()).filter(|dancer| shown.own.is_none_or(|own| own == *dancer)) {
        for pass in passes_between(motion, shown.span, one, (from, to)) {
            let known = |other: &Passing| {
                other.one.number() == pass.number
                    && other.other == one.number()
                    && (other.at - pass.at).abs() < 2.0
            };
            if (from..to).contains(&pass.at) && !found.iter().any(known) {
                found.push(Passing { one, other: pass.number, shoulder: pass.shoulder, at: pass.at });
            }
        }
    }
    found
}

/// A small cross at each spot, and the middle line.
pub(super) fn spot_marks(marks: &mut Vec<Mark>, motion: &Motion, frame: &Frame) {
    let ground = motion.ground();
    if ground.kind == SetKind::Longways && ground.dancers() > 1 {
        let highest = ground.stands.iter().map(|stand| stand.y).fold(0.0, f64::max) + 0.3;
        let points = vec![frame.to_picture(0.0, highest), frame.to_picture(0.0, -highest)];
        let stroke = Stroke { colour: PAPER.faint, width: 0.6 };
        marks.push(Mark::Line { points, stroke, dash: Some([1.5, 4.5]) });
    }
    let arm = frame.length(0.1).clamp(1.0, 4.0);
    let stroke = Stroke { colour: PAPER.quiet, width: 0.7 };
    for stand in &ground.stands {
        let [x, y] = frame.to_picture(stand.x, stand.y);
        for points in [vec![[x - arm, y], [x + arm, y]], vec![[x, y - arm], [x, y + arm]]] {
            marks.push(Mark::Line { points, stroke, dash: None });
        }
    }
}

/// A dancer as the count before has left them: what has landed last carries the weight.
fn body_marks(marks: &mut Vec<Mark>, motion: &Motion, shown: &Shown, dancer: Dancer, frame: &Frame) {
    let Some(span) = motion.span(shown.span) else { return };
    let count = shown.counts.1;
    // The end of a figure is seen just before the next one begins.
    let at = (span.begin() + count).min(span.end() - 1e-6);
    let mut pose: Pose = motion.pose(dancer, at);
    let falls = span.falls(dancer);
    let fall = falls.get((count - 0.5).max(0.0) as usize).or_else(|| falls.last()).filter(|_| count > 0.0);
    pose.weight = fall.map_or(Weight::Both, |fall| fall.weight);
    if count <= 0.0 {
        pose.each_hand = [0.0; 2];
    }
    let larger = body_scale(frame);
    let own = Frame {
        centre: (pose.x, pose.y),
        middle: frame.to_picture(pose.x, pose.y),
        scale: frame.scale * larger,
        ..*frame
    };
    let begin = marks.len();
    dancer_marks(marks, &own, &PAPER, &pose, (shown.own == Some(dancer), shown.holding), 0.0, [None; 2]);
    let head = own.length(0.23);
    let wide = if pose.number.get() > 99 { 1.4 } else { 1.0 };
    for mark in marks.iter_mut().skip(begin) {
        if let Mark::Words { size, .. } = mark {
            *size = size.max(SMALLEST);
        }
    }
    if head < LEAST_HEAD * wide {
        marks.pop_if(|mark| matches!(mark, Mark::Words { .. }));
    }
}

/// How much larger than life bodies are drawn through a frame.
fn body_scale(frame: &Frame) -> f64 {
    (f64::from(SMALLEST) / (NUMBER * frame.scale)).clamp(1.0, LARGEST)
}

/// Whether numbers can be read on dancers through a frame.
pub(super) fn has_numbers(frame: &Frame, dancers: usize) -> bool {
    let head = (0.23 * frame.scale * body_scale(frame)) as f32;
    head >= LEAST_HEAD * if dancers > 99 { 1.4 } else { 1.0 }
}
