use super::version::body_marks;
use super::{Anchor, Frame, Ink, Mark, Stroke};
use crate::dance::Dancer;
use crate::motion::{Pose, wrap_half};

/// So long before and after it a meeting is seen, counts.
const SEEN: f64 = 1.0;
/// Nearer than this, metres, and turned less than so many degrees, a dancer is where they are drawn.
const SAME: (f64, f64) = (0.02, 1.0);
/// A ghost that is so far from its dancer has their number, metres.
const APART: f64 = 0.3;

/// A meeting that would be: how many counts it is away from the playhead, where it is, metres right and up, and who is met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeetingSeen {
    pub away: f64,
    pub spot: (f64, f64),
    pub other: Dancer,
}

/// A dancer where they would be, as a hollow body with a broken outline, tied to where they are drawn; and the meetings that would be
/// within a count of now, each as a cross in a ring with the number of whoever is met.
pub fn what_if_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    (drawn, would): (&Pose, (f64, f64, f64)),
    meetings: &[MeetingSeen],
) {
    let (x, y, facing) = would;
    let apart = (drawn.x - x).hypot(drawn.y - y);
    if apart > SAME.0 || wrap_half(drawn.facing - facing).abs() > SAME.1 {
        let thin = Stroke { colour: ink.quiet, width: frame.length(0.016).clamp(1.2, 2.2) };
        let points = vec![frame.to_picture(drawn.x, drawn.y), frame.to_picture(x, y)];
        marks.push(Mark::Line { points, stroke: thin, dash: Some([3.0, 3.0]) });
        let number = (apart > APART).then_some(drawn.number);
        body_marks(marks, frame, ink, (drawn.number.dancer().is_even(), number), would);
    }
    for meeting in meetings.iter().filter(|meeting| meeting.away.abs() <= SEEN) {
        meeting_marks(marks, frame, ink, meeting);
    }
}

/// A cross in a ring, with the number of whoever is met beside it.
fn meeting_marks(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, meeting: &MeetingSeen) {
    let at @ [x, y] = frame.to_picture(meeting.spot.0, meeting.spot.1);
    let radius = frame.length(0.16).clamp(7.0, 16.0);
    let pen = Stroke { colour: ink.fault, width: frame.length(0.03).clamp(2.0, 4.0) };
    let rim = Stroke { colour: ink.floor.faded(200), width: pen.width + 2.5 };
    let arm = radius * 0.45;
    for stroke in [rim, pen] {
        marks.push(Mark::Oval { at, radii: [radius; 2], turn: 0.0, fill: None, stroke: Some(stroke) });
        for (from, to) in [([x - arm, y - arm], [x + arm, y + arm]), ([x - arm, y + arm], [x + arm, y - arm])]
        {
            marks.push(Mark::Line { points: vec![from, to], stroke, dash: None });
        }
    }
    let size = frame.length(0.18).clamp(11.0, 17.0);
    let at = [x + radius + size * 0.65, y - radius];
    let fill = Some(ink.fault);
    marks.push(Mark::Oval { at, radii: [size * 0.68; 2], turn: 0.0, fill, stroke: None });
    marks.push(Mark::Words {
        at,
        size,
        anchor: Anchor::Middle,
        text: meeting.other.to_string(),
        colour: ink.floor,
        heavy: true,
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Set;
    use crate::motion::{Ground, Motion};
    use crate::picture::SLATE;

    #[test]
    fn a_ghost_stands_where_they_would_be_and_a_meeting_is_seen_a_count_either_way() {
        let ground = Ground::of(&Set::longways(4, 1.2, 1.4));
        let motion = Motion::compile(&ground, &[], &[], None).unwrap();
        let drawn = motion.pose(Dancer(0), 0.0);
        let frame = Frame::fit([-2.0, -2.0, 2.0, 2.0], [0.0, 0.0, 400.0, 400.0], 0.0);
        let shown = |by: f64, away: f64| {
            let mut marks = Vec::new();
            let would = (drawn.x + by, drawn.y, drawn.facing);
            let meeting = MeetingSeen { away, spot: (0.0, 0.0), other: Dancer(2) };
            what_if_marks(&mut marks, &frame, &SLATE, (&drawn, would), &[meeting]);
            let words = marks.iter().filter_map(|mark| match mark {
                Mark::Words { text, .. } => Some(text.clone()),
                _ => None,
            });
            let words: Vec<String> = words.collect();
            let dashed = marks.iter().any(|mark| matches!(mark, Mark::Line { dash: Some(_), .. }));
            (dashed, words)
        };
        assert_eq!(shown(0.0, 1.5), (false, vec![]));
        assert_eq!(shown(0.1, 1.5), (true, vec![]), "over the dancer there is no second number");
        assert_eq!(shown(0.6, 1.5), (true, vec!["1".to_owned()]));
        for away in [-1.0, 0.0, 0.9] {
            assert_eq!(shown(0.6, away), (true, vec!["1".to_owned(), "3".to_owned()]));
        }
    }
}
