use super::{FaultKind, Found, Look};
use crate::motion::wrap_half;

/// Dancers who are not back in their spot, or face the wrong way, when a figure ends; and at the end of the
/// dance those who are not in the spot of their own number. A dance can only end with 1 back at the top
/// left [MB1].
pub(super) fn find(look: &Look, found: &mut Vec<(usize, Found)>) {
    let (ground, motion) = (look.motion.ground(), look.motion);
    let (limit, askew) = (look.limits.home(), look.limits.home_facing());
    for (index, span) in motion.spans().iter().enumerate() {
        let plan = span.plan();
        // A file of one figure is a study of it, not a dance: it may end as the figure does.
        let last = index + 1 == motion.spans().len() && index > 0;
        let end_of_span = span.end() - span.begin();
        for dancer in 0..motion.dancers() {
            let place = span.place(dancer);
            let Some(end) = plan.ends_in.get(place).copied() else { continue };
            let expected = if last { dancer } else { end };
            let (Some(stand), Some(track)) = (ground.stands.get(expected), span.track(dancer)) else {
                continue;
            };
            let (x, y, facing) = track.end();
            let far = (x - stand.x).hypot(y - stand.y);
            let off = wrap_half(facing - ground.facing(expected, plan.ends)).abs();
            let number = dancer + 1;
            let mut add = |value: f64, limit: f64, text: String| {
                found.push((
                    index,
                    Found {
                        kind: FaultKind::NotHome,
                        at: end_of_span,
                        lasts: (end_of_span, end_of_span),
                        dancers: vec![dancer],
                        value,
                        limit,
                        text,
                        spot: Some((x, y)),
                    },
                ));
            };
            if far > limit {
                let whose =
                    if expected == dancer { "their".to_owned() } else { format!("{}'s", expected + 1) };
                add(far, limit, format!("{number} ends the figure {far:.2} m from {whose} spot"));
            } else if off > askew {
                add(off, askew, format!("{number} ends the figure facing {off:.0} degrees off"));
            }
        }
    }
}
