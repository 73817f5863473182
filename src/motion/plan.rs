use crate::dance::{COUNTS_PER_BAR, Part, Stance};

/// What everybody does in a figure, by place: the same whether the figure was named or drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// How many bars it takes.
    pub bars: u32,
    /// The stepping.
    pub phrase: String,
    /// The part of the dancer who begins in each place; place 1 is at index 0.
    pub parts: Vec<Part>,
    /// The place (as an index) in which the dancer who begins in each place ends.
    pub ends_in: Vec<usize>,
    /// Which way the set faces when it ends.
    pub ends: Stance,
}

impl Plan {
    /// Everybody standing still.
    #[must_use]
    pub fn still(bars: u32, phrase: &str, places: usize) -> Self {
        Self {
            bars,
            phrase: phrase.to_owned(),
            parts: (1..=places as u32).map(Part::still).collect(),
            ends_in: (0..places).collect(),
            ends: Stance::Front,
        }
    }

    /// How many counts it takes.
    #[must_use]
    pub fn counts(&self) -> f64 {
        f64::from(self.bars * COUNTS_PER_BAR)
    }
}
