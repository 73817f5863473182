use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A place on the floor, metres from the middle of the set.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Point {
    /// Metres to the right as you face up.
    #[schemars(range(min = -1000, max = 1000))]
    pub x: f64,
    /// Metres up, towards the music.
    #[schemars(range(min = -1000, max = 1000))]
    pub y: f64,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A place that a leg goes through.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Waypoint {
    /// Metres to the right as you face up.
    #[schemars(range(min = -1000, max = 1000))]
    pub x: f64,
    /// Metres up, towards the music.
    #[schemars(range(min = -1000, max = 1000))]
    pub y: f64,
    /// The count of the figure, from 0, at which the dancer is here; left out, as the steps bring them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The shape of a leg.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Shape {
    /// From point to point in straight lines.
    #[default]
    Straight,
    /// One smooth curve through the points.
    Smooth,
    /// Part of a circle.
    Arc,
}

/// Which way the dancer faces while travelling.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LegFacing {
    /// As they were: the path does not turn them.
    #[default]
    Held,
    /// The way they are going.
    Forwards,
    /// Away from the way they are going.
    Backwards,
    /// So that they travel to their own left.
    Left,
    /// So that they travel to their own right.
    Right,
}

impl LegFacing {
    /// The same with left and right changed about.
    #[must_use]
    pub fn other_side(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Held | Self::Forwards | Self::Backwards => self,
        }
    }
}

/// One stretch of travelling. It begins wherever the dancer is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Leg {
    /// The count of the figure, from 0, at which it begins.
    #[schemars(range(min = 0))]
    pub begin: f64,
    /// The count at which it ends, after `begin`.
    #[schemars(range(min = 0))]
    pub end: f64,
    /// How it goes over the floor; left out, straight.
    #[serde(default)]
    pub shape: Shape,
    /// Which way the dancer faces on it.
    #[serde(default)]
    pub facing: LegFacing,
    /// The points on the way (not for an arc).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 1000))]
    pub through: Vec<Waypoint>,
    /// Where it ends.
    pub to: Point,
    /// How far round an arc goes: degrees, clockwise positive.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -359, max = 359))]
    pub sweep: Option<f64>,
    /// How much of the way is done by the end of each equal share of the time, rising to 1. Left out, as
    /// the steps travel.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pace: Vec<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Point {
    /// A place by its metres right and up.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y, extra: Extra::new() }
    }
}

impl Waypoint {
    /// A place to go through, with no time of its own.
    #[must_use]
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y, at: None, extra: Extra::new() }
    }
}

impl Leg {
    /// A straight leg between two counts, facing held.
    #[must_use]
    pub fn straight(begin: f64, end: f64, x: f64, y: f64) -> Self {
        Self {
            begin,
            end,
            shape: Shape::Straight,
            facing: LegFacing::Held,
            through: Vec::new(),
            to: Point::new(x, y),
            sweep: None,
            pace: Vec::new(),
            extra: Extra::new(),
        }
    }

    /// A smooth leg through points, facing held.
    #[must_use]
    pub fn smooth(begin: f64, end: f64, through: &[(f64, f64)], x: f64, y: f64) -> Self {
        Self {
            shape: Shape::Smooth,
            through: through.iter().map(|&(x, y)| Waypoint::new(x, y)).collect(),
            ..Self::straight(begin, end, x, y)
        }
    }

    /// The same leg with another facing.
    #[must_use]
    pub fn facing(mut self, facing: LegFacing) -> Self {
        self.facing = facing;
        self
    }
}
