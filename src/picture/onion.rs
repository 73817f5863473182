use super::{Anchor, BODY_BREADTH, BODY_DEPTH, Colour, Frame, Ink, Mark, Stroke};
use crate::dance::Dancer;
use crate::motion::{Motion, Span};

/// How far back and on the beats are shown, counts: two bars.
const REACH: f64 = 8.0;
/// Closer than this to the playhead, counts, the dancer hides it.
const HIDDEN: f64 = 0.25;
/// The height of a bar's number on the floor, metres.
const NUMBER: f64 = 0.13;
/// More dancers than this are not all shown at their beats at once.
pub const MOST_AT_BEATS: usize = 12;

/// Where some dancers are at the strong beats of the figure under way: faint bodies that fade with their
/// distance in time from a count of the dance, with the figure's bar beside each that begins one.
///
/// The strong beats are counts 1 and 3 of a bar [MB1].
pub fn beat_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    motion: &Motion,
    dancers: &[Dancer],
    count: f64,
) {
    let Some(span) = motion.span_under(count) else { return };
    let local = count - span.begin();
    let beats = span.bar_counts().counts() as u32 / 2;
    let mut near: Vec<f64> = (0..beats)
        .map(|beat| f64::from(beat) * 2.0)
        .filter(|beat| (HIDDEN..=REACH).contains(&(beat - local).abs()))
        .collect();
    // The nearest in time lie on top.
    near.sort_by(|one, other| (other - local).abs().total_cmp(&(one - local).abs()));
    let mut labels: Vec<Label> = Vec::new();
    for beat in near {
        for &dancer in dancers {
            let share = 1.0 - (beat - local).abs() / (REACH + 2.0);
            let Some(behind) = body_at(marks, frame, ink, span, dancer, beat, share) else { continue };
            let (bar, inside) = span.bar_counts().at(beat);
            if inside < 1e-9 {
                put_label(&mut labels, behind, (bar + 1, dancer.is_even()), frame.length(NUMBER));
            }
        }
    }
    label_marks(marks, frame, ink, labels);
}

/// Where numbers of bars are written, and which.
struct Label {
    at: [f32; 2],
    bars: Vec<u32>,
    even: bool,
}

/// Puts a bar to those written in its place already, or begins another label.
fn put_label(labels: &mut Vec<Label>, at: [f32; 2], (bar, even): (u32, bool), near: f32) {
    let known = labels
        .iter_mut()
        .find(|label| label.even == even && (label.at[0] - at[0]).hypot(label.at[1] - at[1]) < near);
    match known {
        Some(label) if label.bars.contains(&bar) => {}
        Some(label) => label.bars.push(bar),
        None => labels.push(Label { at, bars: vec![bar], even }),
    }
}

/// The numbers, on a bit of bare floor so that a path does not run through them, edged so that none reads as a spot's.
fn label_marks(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, labels: Vec<Label>) {
    let size = frame.length(NUMBER).clamp(10.0, 14.0);
    for Label { at, mut bars, even } in labels {
        bars.sort_unstable();
        let bars: Vec<String> = bars.iter().map(u32::to_string).collect();
        let text = bars.join(" ");
        let (wide, high) = (size * (0.2 + 0.3 * text.len() as f32), size * 0.56);
        let points = [(0.55, 1.0), (1.0, 0.45), (1.0, -0.45), (0.55, -1.0)]
            .into_iter()
            .chain([(-0.55, -1.0), (-1.0, -0.45), (-1.0, 0.45), (-0.55, 1.0)])
            .map(|(right, down)| [at[0] + wide * right, at[1] + high * down])
            .collect();
        let fill = Some(ink.floor.faded(215));
        let stroke = Some(Stroke { colour: if even { ink.even } else { ink.odd }, width: 1.0 });
        marks.push(Mark::Area { points, fill, stroke });
        marks.push(Mark::Words { at, size, anchor: Anchor::Middle, text, colour: ink.quiet, heavy: false });
    }
}

/// A faint body at a count of its figure, as strong as `share` of what is near; gives the place for its bar.
fn body_at(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    span: &Span,
    dancer: Dancer,
    beat: f64,
    share: f64,
) -> Option<[f32; 2]> {
    let track = span.track(dancer)?;
    let (x, y, facing) = track.stand(beat);
    let at = frame.to_picture(x, y);
    let turn = frame.turn(facing);
    let even = dancer.is_even();
    let hue = if even { ink.even } else { ink.odd };
    let faint = |most: f64| Colour(hue.0, hue.1, hue.2, (most * share).clamp(0.0, 255.0) as u8);
    let pen = Stroke { colour: faint(240.0), width: frame.length(0.014).clamp(1.0, 2.4) };
    let (fill, stroke) = (Some(faint(64.0)), Some(pen));
    let (sin, cos) = turn.to_radians().sin_cos();
    let place = |right: f64, front: f64| {
        let (right, front) = (frame.length(right), frame.length(front));
        [at[0] + right * cos + front * sin, at[1] + right * sin - front * cos]
    };
    let (breadth, depth) = (BODY_BREADTH * 0.45, BODY_DEPTH * 0.45);
    // Few corners: there are many of these, they are small, and they are painted in every frame.
    let points = if even {
        let (side, end) = (breadth - 0.04, depth - 0.04);
        [(side, depth), (breadth, end), (breadth, -end), (side, -depth)]
            .into_iter()
            .chain([(-side, -depth), (-breadth, -end), (-breadth, end), (-side, depth)])
            .map(|(right, front)| place(right, front))
            .collect()
    } else {
        (0..18)
            .map(|step| {
                let (sin, cos) = (f64::from(step) * 20.0).to_radians().sin_cos();
                place(breadth * sin, depth * cos)
            })
            .collect()
    };
    marks.push(Mark::Area { points, fill, stroke });
    marks.push(Mark::Area {
        points: vec![place(-0.06, 0.11), place(0.0, 0.22), place(0.06, 0.11)],
        fill: Some(faint(240.0)),
        stroke: None,
    });
    // Behind the left shoulder, where neither a dancer's own number nor a spot's is.
    Some(place(-0.21, -0.21))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Extra, Set};
    use crate::figures::{motion_of, named_figure};
    use crate::picture::SLATE;

    /// The strong beats fall on counts 1 and 3 of each bar [MB1, the step diagrams].
    #[test]
    fn bodies_stand_at_the_strong_beats_of_two_bars_each_way() {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        for name in ["cross-and-turn", "hey"] {
            dance.figures.push(named_figure(name, Extra::new(), &dance.set).unwrap());
        }
        let motion = motion_of(&dance, None).unwrap();
        let frame = Frame { centre: (0.0, 0.0), middle: [300.0, 300.0], scale: 100.0, up: 0.0 };
        let at = |count: f64, dancers: &[Dancer]| {
            let mut marks = Vec::new();
            beat_marks(&mut marks, &frame, &SLATE, &motion, dancers, count);
            let bodies = marks.iter().filter_map(|mark| match mark {
                // Odds are ovals; what is round a number has fewer corners.
                Mark::Area { points, stroke: Some(stroke), .. } if points.len() == 18 => {
                    let sum = points.iter().fold([0.0, 0.0], |sum, at| [sum[0] + at[0], sum[1] + at[1]]);
                    Some(([sum[0] / 18.0, sum[1] / 18.0], stroke.colour.3))
                }
                _ => None,
            });
            let bars = marks.iter().filter_map(|mark| match mark {
                Mark::Words { text, .. } => Some(text.clone()),
                _ => None,
            });
            (bodies.collect::<Vec<_>>(), bars.collect::<Vec<_>>())
        };
        // At the start of bar 4 of the second figure: counts 4 to 20 without 12 itself, so bars 2, 3, 5 and 6.
        let (bodies, mut bars) = at(32.0 + 12.0, &[Dancer(0)]);
        bars.sort();
        assert_eq!((bodies.len(), bars), (8, ["2", "3", "5", "6"].map(str::to_owned).to_vec()));
        for beat in [4.0, 6.0, 8.0, 10.0, 14.0, 16.0, 18.0, 20.0] {
            let pose = motion.pose(Dancer(0), 32.0 + beat);
            let place = frame.to_picture(pose.x, pose.y);
            assert!(
                bodies.iter().any(|(at, _)| (at[0] - place[0]).hypot(at[1] - place[1]) < 0.1),
                "nobody at {beat}"
            );
        }
        assert!(bodies.first().unwrap().1 < bodies.last().unwrap().1, "what is near in time is stronger");
        // A figure does not show the one before it.
        let (bodies, bars) = at(32.0, &[Dancer(0), Dancer(2)]);
        assert_eq!((bodies.len(), bars.len()), (8, 4));
        assert_eq!(at(20.0, &[]).0, []);
    }
}
