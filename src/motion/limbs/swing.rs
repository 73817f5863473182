use super::InSpace;
use crate::motion::cubics::ease;

/// How high a foot is lifted on its way where the step says nothing of it, metres (common practice, no source).
const STEP_OVER: f64 = 0.09;
/// A foot lower than this on both ends of a stretch is lifted between them.
const LOW: f64 = 0.06;
/// At its beginning and end so much of a swing is as it is; between, it is kept within the leg's reach.
const ENDS: f64 = 0.2;

/// The way of a foot through the air from where it was planted to where it is planted next, as the body has it: to the right, to the front and
/// over the floor, metres.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Swing {
    /// When and where, in order of time: it is lifted with the first and lands with the last.
    pub knots: Vec<(f64, InSpace)>,
}

impl Swing {
    /// Where it is at a time.
    pub fn at(&self, time: f64) -> InSpace {
        let next = self.knots.partition_point(|(at, _)| *at <= time).clamp(1, self.knots.len().max(2) - 1);
        match self.knots.get(next - 1..=next) {
            Some(&[(begin, from), (end, to)]) => {
                let share = ((time - begin) / (end - begin).max(1e-9)).clamp(0.0, 1.0);
                let mut place = from.toward(to, ease(share));
                if from.z < LOW && to.z < LOW {
                    let over = share * (1.0 - share);
                    place.z += STEP_OVER * 16.0 * over * over;
                }
                place
            }
            _ => self.knots.first().map(|(_, place)| *place).unwrap_or_default(),
        }
    }

    /// How much it is kept within reach at a time: not at all where it is lifted and lands.
    pub fn kept_within(&self, time: f64) -> f64 {
        let (Some((begin, _)), Some((end, _))) = (self.knots.first(), self.knots.last()) else { return 0.0 };
        let share = (time - begin) / (end - begin).max(1e-9);
        ease(share / ENDS) * ease((1.0 - share) / ENDS)
    }
}
