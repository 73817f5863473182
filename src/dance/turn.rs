use super::{Extra, Foot, TurnOn};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Which way a turn goes. Right is clockwise seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Way {
    /// Anticlockwise seen from above.
    Left,
    /// Clockwise seen from above.
    Right,
}

impl Way {
    /// The other way.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// The foot of that side.
    #[must_use]
    pub fn foot(self) -> Foot {
        match self {
            Self::Left => Foot::Left,
            Self::Right => Foot::Right,
        }
    }

    /// 1 to the right, -1 to the left: the sign of a clockwise angle.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

/// A turn: a way, and an amount or a direction to finish facing, or both.
///
/// With both, the amount is the one nearest to `by` that finishes in the direction, the way it goes counted: whatever
/// changes about where the dancer comes from, they finish facing there, by what was chosen give or take half a turn at
/// the most (at exactly half a turn the lesser, unless that is the other way). A dancer told to turn left 90 to face 0
/// turns left 110 from 110. One who comes to it facing 275 is beyond 0 already, and goes the 85 back to the right, not
/// left 275: only a turn of less than half about can come to be the other way, and then by less than what it is short of
/// half about. With both and no amount (`by` is 0) it is the shorter way to the direction, and `way` says which at exactly
/// half a turn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Turn {
    /// The count of the figure, from 0, at which it begins.
    #[schemars(range(min = 0))]
    pub begin: f64,
    /// The count at which it ends, after `begin`.
    #[schemars(range(min = 0))]
    pub end: f64,
    /// The steps it is danced on: its times then follow them, from `begin` on, and those written serve where there are
    /// no such steps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<TurnOn>,
    /// Left or right.
    pub way: Way,
    /// Whether the way follows the foot that led this half: left when the left led. `way` then serves where neither
    /// did.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub by_lead: bool,
    /// How far, degrees; give this or `face`, or both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 36000))]
    pub by: Option<f64>,
    /// The direction to finish facing, degrees clockwise from up; without `by` the amount follows from the way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -36000, max = 36000))]
    pub face: Option<f64>,
    /// Whole turns to add to one that is given by `face` alone.
    #[serde(default, skip_serializing_if = "is_zero")]
    #[schemars(range(max = 100))]
    pub spins: u32,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the shape that serde asks for
fn is_zero(value: &u32) -> bool {
    *value == 0
}

impl Turn {
    /// A turn that finishes facing a direction.
    #[must_use]
    pub fn to_face(begin: f64, end: f64, way: Way, face: f64) -> Self {
        Self {
            begin,
            end,
            on: None,
            way,
            by_lead: false,
            by: None,
            face: Some(face),
            spins: 0,
            extra: Extra::new(),
        }
    }

    /// The shorter way to face a direction; `way` at exactly half a turn.
    #[must_use]
    pub fn shorter(begin: f64, end: f64, way: Way, face: f64) -> Self {
        Self { by: Some(0.0), ..Self::to_face(begin, end, way, face) }
    }

    /// The other way to finish as it does, with as many whole turns: right 90 for left 270.
    #[must_use]
    pub fn other_way(mut self) -> Self {
        if self.face.is_some() {
            self.by = self.by.map(|by| if by % 360.0 > 0.0 { by + 360.0 - 2.0 * (by % 360.0) } else { by });
        }
        self.way = self.way.other();
        self
    }

    /// Whether nobody chose its amount: it goes the shorter way to a direction.
    #[must_use]
    pub fn is_shorter(&self) -> bool {
        self.by == Some(0.0) && self.face.is_some()
    }

    /// The same turn, danced on steps.
    #[must_use]
    pub fn on(mut self, on: TurnOn) -> Self {
        self.on = Some(on);
        self
    }

    /// Facing kept as it is, even while the path curves.
    #[must_use]
    pub fn hold(begin: f64, end: f64) -> Self {
        Self {
            begin,
            end,
            on: None,
            way: Way::Right,
            by_lead: false,
            by: Some(0.0),
            face: None,
            spins: 0,
            extra: Extra::new(),
        }
    }
}
