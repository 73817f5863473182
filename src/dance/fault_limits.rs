use super::{Extra, Holding};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The limits beyond which something is a fault, where this dance has its own. What is left out is as usual: see
/// each method for the usual value and where it is from.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FaultLimits {
    /// Shoulder breadth of a body seen from above, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.05, max = 5))]
    pub breadth: Option<f64>,
    /// Depth of a body from front to back, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.05, max = 5))]
    pub depth: Option<f64>,
    /// The least between two bodies, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub apart: Option<f64>,
    /// The farthest that a dancer may end from their spot, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub home: Option<f64>,
    /// The most that a dancer may end turned from the way they should face, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 180))]
    pub home_facing: Option<f64>,
    /// The longest step, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 100))]
    pub step: Option<f64>,
    /// The fastest travelling, over a strong beat, metres a second.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 100))]
    pub speed: Option<f64>,
    /// The fastest turn, degrees a count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 36000))]
    pub turn: Option<f64>,
    /// The most that may be left of a turn when a jump leaves the ground, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 360))]
    pub jump_turn: Option<f64>,
    /// The farthest that a straight way home may bow, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub bow: Option<f64>,
    /// How far the arms reach from the middle of the body, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub arms: Option<f64>,
    /// How far a stick reaches from the middle of the body, metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub stick: Option<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl FaultLimits {
    /// Shoulder breadth, metres: 0.50 (from memory; compare the ANSUR II survey, 2012, bideltoid breadth).
    #[must_use]
    pub fn breadth(&self) -> f64 {
        self.breadth.unwrap_or(0.50)
    }

    /// Depth of a body, metres: 0.28 (from memory).
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.depth.unwrap_or(0.28)
    }

    /// The least between two bodies, metres: 0.10 (from memory).
    #[must_use]
    pub fn apart(&self) -> f64 {
        self.apart.unwrap_or(0.10)
    }

    /// The farthest from a spot, metres: 0.15 (common practice, no source).
    #[must_use]
    pub fn home(&self) -> f64 {
        self.home.unwrap_or(0.15)
    }

    /// The most off the way to face, degrees: 15 (common practice, no source).
    #[must_use]
    pub fn home_facing(&self) -> f64 {
        self.home_facing.unwrap_or(15.0)
    }

    /// The longest step, metres: 0.8 (common practice, no source).
    #[must_use]
    pub fn step(&self) -> f64 {
        self.step.unwrap_or(0.8)
    }

    /// The fastest travelling, over a strong beat, metres a second: 4.0, a fast run,
    /// which nobody springs and dances in (from memory). [CALC] The figures at their usual distances take at most
    /// 3.2 for six and 3.4 for eight at 130 strong beats a minute, the fastest usual speed; at 300 most of them take
    /// more than 4.
    #[must_use]
    pub fn speed(&self) -> f64 {
        self.speed.unwrap_or(4.0)
    }

    /// The fastest turn, degrees a count: half a turn (common practice, no source).
    #[must_use]
    pub fn turn(&self) -> f64 {
        self.turn.unwrap_or(180.0)
    }

    /// What may be left of a turn at a jump, degrees: 15, chosen for this program.
    #[must_use]
    pub fn jump_turn(&self) -> f64 {
        self.jump_turn.unwrap_or(15.0)
    }

    /// How far a straight way home may bow, metres: 0.10, chosen for this program.
    #[must_use]
    pub fn bow(&self) -> f64 {
        self.bow.unwrap_or(0.10)
    }

    /// How far a dancer reaches with what they hold, metres: arms and handkerchiefs 0.8, a stick 1.2 (common
    /// practice, no source).
    #[must_use]
    pub fn reach(&self, holding: Holding) -> f64 {
        let arms = self.arms.unwrap_or(0.8);
        match holding {
            Holding::Sticks => self.stick.unwrap_or(1.2).max(arms),
            Holding::Handkerchiefs | Holding::Nothing => arms,
        }
    }

    /// Every limit with its key and range, for checking and for showing.
    #[must_use]
    pub fn given(&self) -> [(&'static str, Option<f64>, f64, f64, &'static str); 12] {
        [
            ("breadth", self.breadth, 0.05, 5.0, "metres"),
            ("depth", self.depth, 0.05, 5.0, "metres"),
            ("apart", self.apart, 0.0, 10.0, "metres"),
            ("home", self.home, 0.0, 10.0, "metres"),
            ("home_facing", self.home_facing, 0.0, 180.0, "degrees"),
            ("step", self.step, 0.0, 100.0, "metres"),
            ("speed", self.speed, 0.0, 100.0, "metres a second"),
            ("turn", self.turn, 1.0, 36_000.0, "degrees a count"),
            ("jump_turn", self.jump_turn, 0.0, 360.0, "degrees"),
            ("bow", self.bow, 0.0, 10.0, "metres"),
            ("arms", self.arms, 0.0, 10.0, "metres"),
            ("stick", self.stick, 0.0, 10.0, "metres"),
        ]
    }

    /// What is given for a key, to change.
    pub fn slot(&mut self, key: &str) -> Option<&mut Option<f64>> {
        Some(match key {
            "breadth" => &mut self.breadth,
            "depth" => &mut self.depth,
            "apart" => &mut self.apart,
            "home" => &mut self.home,
            "home_facing" => &mut self.home_facing,
            "step" => &mut self.step,
            "speed" => &mut self.speed,
            "turn" => &mut self.turn,
            "jump_turn" => &mut self.jump_turn,
            "bow" => &mut self.bow,
            "arms" => &mut self.arms,
            "stick" => &mut self.stick,
            _ => return None,
        })
    }

    /// Whether every limit is as usual, so that nothing need be written.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}
