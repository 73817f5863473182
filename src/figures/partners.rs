use super::FigureError;
use crate::dance::{Extra, Lead, LegFacing, Turn, Way};
use crate::motion::{Ground, Plan, Stand, wrap_half};

/// A dancer who faces a partner across the set, with directions as that dancer sees them.
#[derive(Clone, Copy, Debug)]
pub(super) struct WithPartner {
    /// The dancer's own spot.
    pub home: Stand,
    /// The partner's spot.
    pub away: Stand,
    /// The way towards the partner at home, as a step of a metre: metres right, metres up.
    towards: (f64, f64),
    /// The facing towards the partner at home, degrees clockwise from up.
    faced: f64,
}

impl WithPartner {
    /// Every place of a set of pairs, in order: 1-2, 3-4, 5-6 [MB1], in spots and rings as well (common practice, no source).
    ///
    /// # Errors
    /// When the set has no pairs.
    pub fn all(ground: &Ground, figure: &'static str) -> Result<Vec<Self>, FigureError> {
        let pairs: Option<Vec<Self>> = ground
            .places()
            .map(|place| {
                let home = *ground.stand(place)?;
                let away = *ground.stand(ground.pair(place)?)?;
                let (dx, dy) = (away.x - home.x, away.y - home.y);
                let apart = dx.hypot(dy);
                let bearing = dx.atan2(dy).to_degrees();
                // Partners who face each other do so as their spots say, to the last digit.
                let faced = if wrap_half(bearing - home.facing).abs() < 1e-6 { home.facing } else { bearing };
                (apart > 1e-6).then_some(Self { home, away, towards: (dx / apart, dy / apart), faced })
            })
            .collect();
        pairs.filter(|pairs| !pairs.is_empty()).ok_or_else(|| FigureError::Set {
            figure,
            why: "it is danced with a partner, and this set has no pairs".to_owned(),
        })
    }

    /// The place so far forward of the middle line and so far to the dancer's left of the line between partners,
    /// metres, as the dancer faces at home.
    pub fn place(&self, forward: f64, left: f64) -> (f64, f64) {
        let (x, y) = (f64::midpoint(self.home.x, self.away.x), f64::midpoint(self.home.y, self.away.y));
        let (dx, dy) = self.towards;
        (x + dx * forward - dy * left, y + dy * forward + dx * left)
    }

    /// The facing after a turn from facing the partner at home: degrees, clockwise positive.
    pub fn facing(&self, turned: f64) -> f64 {
        self.faced + turned
    }

    /// How far it is to turn from facing as the spot does to facing the partner, degrees, clockwise positive.
    fn off(&self) -> f64 {
        wrap_half(self.faced - self.home.facing)
    }

    /// How far it is from the spot to the middle line.
    pub fn half_way(&self) -> f64 {
        (self.away.x - self.home.x).hypot(self.away.y - self.home.y) / 2.0
    }
}

/// The counts in which those whose spots do not face their partners turn to face them.
const TURN_IN: (f64, f64) = (0.0, 1.0);
/// The counts in which they turn back in a figure that ends with the jump that takes all of bar 8, and in one that has it on the last
/// half-bar: just before it.
pub(super) const BEFORE_JUMP: (f64, f64) = (27.0, 28.0);
pub(super) const BEFORE_HALF_BAR_JUMP: (f64, f64) = (28.0, 30.0);

/// A figure of eight bars in which everyone begins facing their partner: they turn to them first, however they come to it, and
/// where spots face otherwise, as in a ring, as their spot faces between two counts at the end.
pub(super) fn face_home(mut plan: Plan, ground: &Ground, back: (f64, f64)) -> Plan {
    let Ok(pairs) = WithPartner::all(ground, "") else { return plan };
    for (part, own) in plan.parts.iter_mut().zip(pairs) {
        let off = own.off();
        let way = if off < 0.0 { Way::Left } else { Way::Right };
        // Whoever faces them already turns by nothing; after a figure that ends facing up it is a quarter.
        // A way that turns them as it goes does so from however they come to it.
        let turned =
            part.legs.first().is_some_and(|leg| leg.facing != LegFacing::Held && leg.begin < TURN_IN.1);
        if !turned {
            part.turns.insert(0, Turn::shorter(TURN_IN.0, TURN_IN.1, way, own.faced));
        }
        if off.abs() > 1.0 {
            part.turns.push(Turn::shorter(back.0, back.1, way.other(), own.home.facing));
        }
    }
    plan
}

/// 1 for the left, -1 for the right: which way `Own::place` counts.
pub(super) fn left_sign(way: Way) -> f64 {
    -way.sign()
}

/// A lead on the foot of a side.
pub(super) fn lead(at: f64, way: Way) -> Lead {
    Lead { at, foot: way.foot(), extra: Extra::new() }
}

/// The way of the first half when a figure passes this shoulder first: going to your own left past a facing
/// partner puts right shoulders together (worked out from the geometry).
pub(super) fn way_past(shoulder: &str) -> Way {
    if shoulder == "left" { Way::Right } else { Way::Left }
}
