use super::FigureError;
use crate::dance::{Extra, Lead, Way};
use crate::motion::{Ground, Stand};

/// A dancer who faces a partner across the set, with directions as that dancer sees them.
#[derive(Clone, Copy, Debug)]
pub(super) struct WithPartner {
    /// The dancer's own spot.
    pub home: Stand,
    /// The partner's spot.
    pub away: Stand,
    /// 1 where going forward is going right across the floor, -1 where it is going left.
    across: f64,
}

impl WithPartner {
    /// Every place of a set of pairs, in order.
    ///
    /// # Errors
    /// When the set has no pairs.
    pub fn all(ground: &Ground, figure: &'static str) -> Result<Vec<Self>, FigureError> {
        let pairs: Option<Vec<Self>> = ground
            .places()
            .map(|place| {
                let home = *ground.stand(place)?;
                let away = *ground.stand(ground.partner(place)?)?;
                Some(Self { home, away, across: (away.x - home.x).signum() })
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
        (self.across * forward, self.home.y + self.across * left)
    }

    /// The facing after a turn from facing the partner at home: degrees, clockwise positive.
    pub fn facing(&self, turned: f64) -> f64 {
        self.home.facing + turned
    }

    /// How far it is from the spot to the middle line.
    pub fn half_way(&self) -> f64 {
        (self.away.x - self.home.x).abs() / 2.0
    }
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
