use super::{Fault, FaultKind};
use crate::motion::{Moment, Motion, wrap_half};

/// How far from their spot a dancer may end a figure, metres (common practice, no source).
const FAR: f64 = 0.15;
/// How far from the way they should face, degrees (common practice, no source).
const ASKEW: f64 = 15.0;

/// Dancers who are not back in their spot, or face the wrong way, when a figure ends; and at the end of the
/// dance those who are not in the spot of their own number. A dance can only end with 1 back at the top
/// left [MB1].
pub(super) fn find(motion: &Motion, faults: &mut Vec<Fault>) {
    let ground = motion.ground();
    for (index, span) in motion.spans().iter().enumerate() {
        let plan = span.plan();
        let last = index + 1 == motion.spans().len();
        let moment = Moment::at(span.end());
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
            let number = dancer as u32 + 1;
            let mut add = |value: f64, limit: f64, text: String| {
                faults.push(Fault {
                    kind: FaultKind::NotHome,
                    bar: moment.bar,
                    count: moment.count,
                    dancers: vec![number],
                    value,
                    limit,
                    text,
                });
            };
            if far > FAR {
                let whose =
                    if expected == dancer { "their".to_owned() } else { format!("{}'s", expected + 1) };
                add(far, FAR, format!("{number} ends the figure {far:.2} m from {whose} spot"));
            } else if off > ASKEW {
                add(off, ASKEW, format!("{number} ends the figure facing {off:.0} degrees off"));
            }
        }
    }
}
