use super::{Anchor, Frame, Ink, Mark, Reaches, Stroke, dancer_marks, strike_marks};
use crate::dance::{Dancer, Holding, SetKind};
use crate::motion::{Motion, Pose, Span};

/// Samples of a trail in each count.
const PER_COUNT: u32 = 12;
/// How far back and on the trails of dancers who are not chosen reach, counts.
const NEARBY: f64 = 8.0;
/// Dancers beyond which only the chosen one has a trail.
const MANY: usize = 40;
/// Half an arm of the cross of chalk on a spot, metres.
pub const SPOT_ARM: f64 = 0.065;
/// How far beside a spot its number is, away from the middle of the set, metres.
pub const SPOT_NUMBER: f64 = 0.19;

/// What to show of a floor.
#[derive(Clone, Copy, Debug, Default)]
pub struct FloorLook {
    /// The chosen dancer.
    pub chosen: Option<Dancer>,
    /// What the dancers hold.
    pub holding: Holding,
    /// Whether paths are drawn: where they have come from solid, where they will go dotted.
    pub trails: bool,
    /// The least size of the dancers' numbers, pixels.
    pub least_number: f32,
}

/// The part of the floor that a motion needs, with so much round it: least x, least y, greatest x, greatest y,
/// metres.
#[must_use]
pub fn bounds(motion: &Motion, round: f64) -> [f64; 4] {
    let mut bounds = Bounds::of(motion);
    let mut seen: Vec<*const crate::motion::Track> = Vec::new();
    for span in motion.spans() {
        // A figure danced again the same way is shared, so it needs measuring once.
        let first = span.track(Dancer(0)).map(std::ptr::from_ref);
        if first.is_none_or(|first| !seen.contains(&first)) {
            seen.extend(first);
            bounds.take_span(motion, span);
        }
    }
    bounds.with_round(round)
}

/// The part of the floor that one figure of a motion needs, and the spots, with so much round it.
#[must_use]
pub fn span_bounds(motion: &Motion, span: &Span, round: f64) -> [f64; 4] {
    let mut bounds = Bounds::of(motion);
    bounds.take_span(motion, span);
    bounds.with_round(round)
}

/// The smallest upright rectangle round some places.
struct Bounds([f64; 4]);

impl Bounds {
    /// Round the spots of a motion.
    fn of(motion: &Motion) -> Self {
        let mut bounds = Self([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY]);
        for stand in &motion.ground().stands {
            bounds.take(stand.x, stand.y);
        }
        bounds
    }

    fn take(&mut self, x: f64, y: f64) {
        let [x0, y0, x1, y1] = self.0;
        self.0 = [x0.min(x), y0.min(y), x1.max(x), y1.max(y)];
    }

    fn take_span(&mut self, motion: &Motion, span: &Span) {
        for track in Dancer::all(motion.dancers()).filter_map(|dancer| span.track(dancer)) {
            for leg in track.moves() {
                let length = leg.course.length();
                for share in 0..=16 {
                    let place = leg.course.at(length * f64::from(share) / 16.0);
                    self.take(place.x, place.y);
                }
            }
        }
    }

    fn with_round(&self, round: f64) -> [f64; 4] {
        let [x0, y0, x1, y1] = self.0;
        [x0 - round, y0 - round, x1 + round, y1 + round]
    }
}

/// The floor at a count, from the chalk up: the music, the middle line, the spots, the trails, the dancers.
pub fn floor_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    motion: &Motion,
    count: f64,
    poses: &[Pose],
    look: FloorLook,
) {
    path_marks(marks, frame, ink, motion, count, look);
    body_marks(marks, frame, ink, poses, look, &Reaches::at(motion, count));
    strike_marks(marks, frame, ink, motion, count);
}

/// What lies under the dancers: the middle line, the spots and the trails.
pub fn path_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    motion: &Motion,
    count: f64,
    look: FloorLook,
) {
    chalk_marks(marks, frame, ink, motion, count, look.least_number);
    if look.trails
        && let Some(span) = motion.span_under(count)
    {
        let begin = marks.len();
        for dancer in Dancer::all(motion.dancers()) {
            let chosen = look.chosen == Some(dancer);
            if chosen || motion.dancers() <= MANY {
                let reach = if chosen { f64::INFINITY } else { NEARBY };
                let strong = chosen || look.chosen.is_none();
                trail_marks(marks, frame, ink, span, dancer, (count, reach), strong);
            }
        }
        // Where they will go lies under where they have come from, or it could not be seen along it.
        if let Some(trails) = marks.get_mut(begin..) {
            trails.sort_by_key(|mark| matches!(mark, Mark::Line { dash: None, .. }));
        }
    }
}

/// The dancers, the chosen one last, with their hands on the way to what they strike.
pub fn body_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    poses: &[Pose],
    look: FloorLook,
    reaches: &Reaches,
) {
    let least = if poses.len() <= MANY { look.least_number } else { 0.0 };
    for (dancer, pose) in Dancer::all(poses.len()).zip(poses) {
        if look.chosen != Some(dancer) {
            dancer_marks(marks, frame, ink, pose, (false, look.holding), least, reaches.of(dancer));
        }
    }
    if let Some((dancer, pose)) = look.chosen.and_then(|dancer| Some((dancer, poses.get(dancer.index())?))) {
        dancer_marks(marks, frame, ink, pose, (true, look.holding), least, reaches.of(dancer));
    }
}

/// The middle line, and a small cross with its number at each spot.
fn chalk_marks(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, motion: &Motion, count: f64, least: f32) {
    let ground = motion.ground();
    let highest = ground.stands.iter().map(|stand| stand.y).fold(0.0, f64::max) + 0.9;
    let thin = Stroke { colour: ink.faint, width: 1.0 };
    if ground.kind == SetKind::Longways && ground.dancers() > 1 {
        marks.push(Mark::Line {
            points: vec![frame.to_picture(0.0, highest), frame.to_picture(0.0, -highest)],
            stroke: thin,
            dash: Some([3.0, 9.0]),
        });
    }
    let arm = frame.length(SPOT_ARM).clamp(2.0, 9.0);
    let chalk = Stroke { colour: ink.quiet, width: 1.5 };
    let size = frame.length(0.11).clamp(8.0, 14.0);
    let mut poses = Vec::new();
    if ground.dancers() <= MANY {
        motion.pose_all(count, &mut poses);
    }
    for (place, stand) in ground.places().zip(&ground.stands) {
        let [x, y] = frame.to_picture(stand.x, stand.y);
        for points in [vec![[x - arm, y], [x + arm, y]], vec![[x, y - arm], [x, y + arm]]] {
            marks.push(Mark::Line { points, stroke: chalk, dash: None });
        }
        // Where the floor is small, a number is as far from its cross as it is large.
        let wide = f64::from(arm + size * 0.6) / frame.scale;
        let half = f64::from(size) * 0.35 / frame.scale;
        // A square one reaches farther at its corners.
        let body = 1.15 * f64::from(least.min(frame.length(0.7))) / frame.scale;
        if ground.dancers() <= MANY
            && let Some((x, y)) = beside_spot((stand.x, stand.y), &poses, (SPOT_NUMBER.max(wide), body), half)
        {
            let at = frame.to_picture(x, y);
            marks.push(Mark::Words {
                at,
                size,
                anchor: Anchor::Middle,
                text: place.to_string(),
                colour: ink.quiet,
                heavy: false,
            });
        }
    }
}

/// Where the number of a spot stands, metres: beside its cross, away from the middle line, or elsewhere round it where a body
/// would lie over it; nowhere where bodies lie all round. `near` is from the cross, metres, `body` half of the least that a body is
/// drawn with, and `half` half of what the number takes.
fn beside_spot(
    (x, y): (f64, f64),
    poses: &[Pose],
    (near, body): (f64, f64),
    half: f64,
) -> Option<(f64, f64)> {
    let out = if x == 0.0 { 1.0 } else { x.signum() };
    let far = 2.1 * near;
    let places = [(out * near, 0.0), (out * far, 0.0), (0.0, far), (0.0, -far), (-out * far, 0.0)];
    let is_covered = |(right, up): &(f64, f64)| {
        poses.iter().any(|pose| {
            let (sin, cos) = pose.facing.to_radians().sin_cos();
            let (dx, dy) = (x + right - pose.x, y + up - pose.y);
            let (aside, front) = (dx * cos - dy * sin, dx * sin + dy * cos);
            // Shoulders and hands, the back, and the feet in front.
            let over = aside.abs() < 0.4 + half && (-0.18 - half..0.4 + half).contains(&front);
            over || dx.hypot(dy) < body + half
        })
    };
    places.into_iter().find(|place| !is_covered(place)).map(|(right, up)| (x + right, y + up))
}

/// One dancer's path through a figure: solid up to a count from the start of the dance, dotted after it, both
/// for as many counts as `reach` says.
pub fn trail_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    span: &Span,
    dancer: Dancer,
    (count, reach): (f64, f64),
    strong: bool,
) {
    let Some(track) = span.track(dancer) else { return };
    let hue = if dancer.is_even() { ink.even } else { ink.odd };
    let opacity = if strong { 255 } else { 150 };
    let width =
        if strong { frame.length(0.026).clamp(1.2, 4.0) } else { frame.length(0.016).clamp(0.8, 2.0) };
    let local = count - span.begin();
    let (mut before, mut after): (Vec<[f32; 2]>, Vec<[f32; 2]>) = (Vec::new(), Vec::new());
    for leg in track.moves() {
        let mut add = |count: f64| {
            if (count - local).abs() > reach {
                return;
            }
            let (x, y, _) = track.stand(count);
            let at = frame.to_picture(x, y);
            if count <= local {
                before.push(at);
            }
            if count >= local {
                after.push(at);
            }
        };
        let steps = ((leg.end - leg.begin) * f64::from(PER_COUNT)).ceil().clamp(1.0, 2_000.0);
        for step in 0..=steps as u32 {
            let (now, next) = (f64::from(step) / steps, f64::from(step + 1) / steps);
            let at = |share: f64| leg.begin + (leg.end - leg.begin) * share;
            // The end is seen just before it, so that a leg which follows at once does not count.
            add(if f64::from(step) >= steps { leg.end } else { at(now) });
            if at(now) < local && local < at(next).min(leg.end) {
                add(local);
            }
        }
    }
    for points in [&mut before, &mut after] {
        points.dedup();
        *points = with_fewer_points(points);
    }
    if before.len() > 1 {
        let colour = hue.faded(opacity);
        marks.push(Mark::Line { points: before, stroke: Stroke { colour, width }, dash: None });
    }
    if after.len() > 1 {
        let colour = hue.faded(if strong { 230 } else { 140 });
        let dash = Some([width * 1.2, width * 2.4]);
        marks.push(Mark::Line { points: after, stroke: Stroke { colour, width }, dash });
    }
}

/// How far a line may be from its points to do without them, pixels: less than an eye sees.
const UNSEEN: f32 = 0.15;

/// A line through points without those that it does not need (D. H. Douglas and T. K. Peucker, "Algorithms for the
/// reduction of the number of points required to represent a digitized line or its caricature", 1973).
fn with_fewer_points(points: &[[f32; 2]]) -> Vec<[f32; 2]> {
    let mut kept = vec![false; points.len()];
    let mut stack = vec![(0, points.len().saturating_sub(1))];
    while let Some((first, last)) = stack.pop() {
        for end in [first, last] {
            if let Some(kept) = kept.get_mut(end) {
                *kept = true;
            }
        }
        let (Some(&[x0, y0]), Some(&[x1, y1])) = (points.get(first), points.get(last)) else { continue };
        let (dx, dy) = (x1 - x0, y1 - y0);
        let length = dx.hypot(dy);
        let far = |[x, y]: [f32; 2]| {
            // Where it turns back on itself the line is no longer between its ends.
            let along = ((x - x0) * dx + (y - y0) * dy) / (length * length).max(1e-9);
            let along = along.clamp(0.0, 1.0);
            (x - x0 - dx * along).hypot(y - y0 - dy * along)
        };
        let farthest = (first + 1..last)
            .filter_map(|index| Some((index, far(*points.get(index)?))))
            .max_by(|(_, one), (_, other)| one.total_cmp(other));
        if let Some((index, away)) = farthest
            && away > UNSEEN
        {
            stack.push((first, index));
            stack.push((index, last));
        }
    }
    points.iter().zip(kept).filter(|(_, kept)| *kept).map(|(point, _)| *point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_with_fewer_points_is_the_same_line() {
        let straight: Vec<[f32; 2]> = (0..50).map(|step| [step as f32, step as f32 * 0.5]).collect();
        assert_eq!(with_fewer_points(&straight), [[0.0, 0.0], [49.0, 24.5]]);
        let round: Vec<[f32; 2]> = (0..=360)
            .map(|degrees| (degrees as f32).to_radians().sin_cos())
            .map(|(sin, cos)| [200.0 * sin, 200.0 * cos])
            .collect();
        let fewer = with_fewer_points(&round);
        assert!(fewer.len() > 30 && fewer.len() < 135, "{}", fewer.len());
        for [x, y] in &round {
            let near = fewer
                .windows(2)
                .map(|pair| {
                    let ([x0, y0], [x1, y1]) = (pair[0], pair[1]);
                    ((y1 - y0) * (x - x0) - (x1 - x0) * (y - y0)).abs() / (x1 - x0).hypot(y1 - y0)
                })
                .fold(f32::INFINITY, f32::min);
            assert!(near <= UNSEEN + 1e-3, "{near}");
        }
        // There and back along one line keeps its far end.
        let back = [[0.0, 0.0], [5.0, 0.0], [10.0, 0.0], [5.0, 0.0], [0.0, 0.0]];
        assert_eq!(with_fewer_points(&back), [[0.0, 0.0], [10.0, 0.0], [0.0, 0.0]]);
        assert_eq!(with_fewer_points(&[]), [] as [[f32; 2]; 0]);
    }
}
