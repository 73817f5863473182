use crate::dance::limits::HEIGHT;
use crate::dance::{Dance, Dancer, Grip, Holding};

/// What everybody holds, and how, and how tall they are.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub holding: Holding,
    /// How a stick is held.
    pub grip: Grip,
    /// The dancers who hold their stick in the left hand.
    pub left_handed: Vec<Dancer>,
    /// How tall everybody is, metres.
    pub tall: f64,
}

impl Default for Held {
    fn default() -> Self {
        let (holding, grip) = (Holding::default(), Grip::default());
        Self { holding, grip, left_handed: Vec::new(), tall: HEIGHT }
    }
}

impl Held {
    /// What is held in a dance.
    #[must_use]
    pub fn of(dance: &Dance) -> Self {
        let left = dance.people.iter().filter(|person| person.left_handed);
        Self {
            holding: dance.holding,
            grip: dance.grip,
            left_handed: left.map(|person| person.number.dancer()).collect(),
            tall: dance.height,
        }
    }

    /// In which hand a dancer holds a stick: left (0) or right (1).
    #[must_use]
    pub fn stick_hand(&self, dancer: Dancer) -> usize {
        usize::from(!self.left_handed.contains(&dancer))
    }
}
