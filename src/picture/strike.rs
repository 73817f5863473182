use super::{Frame, Ink, Mark};
use crate::motion::limbs::meeting_at;
use crate::motion::{Blow, Motion};

/// How long before and after it a meeting is seen, counts.
pub(super) const SEEN: f64 = 0.5;
/// The points of its mark from its middle, metres, and its hollows as a share of that.
const POINT: f64 = 0.13;
const HOLLOW: f64 = 0.36;
/// The least of that, pixels.
const LEAST: f32 = 6.0;

/// How much of a meeting is seen at a count of the dance: all of it on its own and while they stay together, less to half a count before
/// and after that; from 0 to 1.
pub(super) fn share(blow: &Blow, count: f64) -> f64 {
    let away = (blow.count - count).max(count - blow.until).max(0.0);
    (1.0 - away / SEEN).max(0.0)
}

/// The star of a meeting, its points so far from its middle, pixels: of sticks upright, of hands aslant.
pub fn star(marks: &mut Vec<Mark>, at: [f32; 2], (far, wood): (f32, bool), ink: &Ink, opacity: u8) {
    let turn = if wood { 0.0 } else { std::f32::consts::FRAC_PI_4 };
    let corners = |far: f32| -> Vec<[f32; 2]> {
        let corner = |eighth: u8| {
            let far = if eighth.is_multiple_of(2) { far } else { far * HOLLOW as f32 };
            let (sin, cos) = (turn + f32::from(eighth) * std::f32::consts::FRAC_PI_4).sin_cos();
            [at[0] + cos * far, at[1] + sin * far]
        };
        (0..8).map(corner).collect()
    };
    // On a larger one of the other shade, so that it is seen over bodies of either hue.
    for (far, fill) in [(far * 1.3, ink.outline), (far, ink.words)] {
        marks.push(Mark::Outline { loops: vec![corners(far)], fill: fill.faded(opacity) });
    }
}

/// The taps and claps at a count of the dance, each as a star that fades round its moment; aslant where hands clap.
pub fn strike_marks(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, motion: &Motion, count: f64) {
    let Some(span) = motion.span_under(count) else { return };
    // What stays together may have met long before; what is struck at the very start is seen coming from the figure before.
    let from = span.begin().min(count - SEEN);
    for blow in motion.blows_between(from, count + SEEN) {
        let share = share(blow, count);
        if share <= 0.0 {
            continue;
        }
        let (x, y) = meeting_at(motion, blow, count);
        let at = frame.to_picture(x, y);
        let opacity = (255.0 * share) as u8;
        let far = frame.length(POINT).max(LEAST);
        star(marks, at, (far, blow.is_of_wood()), ink, opacity);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Set, Strike, StrikeEnd, Striker, Struck};
    use crate::motion::{Ground, Plan, USUAL_PHRASE};
    use crate::picture::SLATE;
    use std::sync::Arc;

    #[test]
    fn partners_meet_between_them_and_it_fades_in_half_a_count() {
        let mut plan = Plan::still(4, USUAL_PHRASE, 4);
        plan.strikes = vec![Strike::new(6.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner)];
        let ground = Ground::of(&Set::longways(4, 1.2, 1.4));
        let motion = Motion::compile(&ground, &[], &[(0, Arc::new(plan))], None).unwrap();
        let blow = motion.blows()[0];
        assert_eq!(meeting_at(&motion, &blow, 6.0), (0.0, 0.7));
        let frame = Frame::fit([-2.0, -2.0, 2.0, 2.0], [0.0, 0.0, 400.0, 400.0], 0.0);
        let seen = |count: f64| {
            let mut marks = Vec::new();
            strike_marks(&mut marks, &frame, &SLATE, &motion, count);
            let fills = marks.iter().filter_map(|mark| match mark {
                Mark::Outline { fill, .. } if fill.faded(255) == SLATE.words => Some(fill.3),
                _ => None,
            });
            fills.collect::<Vec<_>>()
        };
        assert!(seen(5.4).is_empty());
        assert_eq!(seen(5.75), [127, 127]);
        assert_eq!(seen(6.0), [255, 255]);
        assert!(seen(6.5).is_empty());
    }
}
