use super::{Allow, BarCounts, Ends, Extra, LeadRule, Metre, Part, PlaceNumber, SpeedChange, Strike};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Which way the set faces when a figure ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stance {
    /// Partners face each other [MB1].
    Front,
    /// Everybody faces up [MB1].
    Column,
    /// The column reversed: everybody faces down [MB1].
    Reversed,
}

impl Stance {
    /// Every one, the usual one first.
    pub const ALL: [Self; 3] = [Self::Front, Self::Column, Self::Reversed];

    /// The word that files use.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Column => "column",
            Self::Reversed => "reversed",
        }
    }

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Front => "partners facing",
            Self::Column => "all facing up",
            Self::Reversed => "all facing down",
        }
    }
}

/// A figure by name, worked out afresh whenever the set changes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Named {
    /// The name, such as `hey`.
    pub figure: String,
    /// What this side chooses for it, such as `{"inside": 0.3}`.
    #[serde(default, skip_serializing_if = "serde_json::Map::is_empty")]
    pub with: Extra,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A figure: named, drawn, or named with some dancers redrawn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Figure {
    /// A short name of its own, used by the running order.
    #[schemars(length(min = 1))]
    pub id: String,
    /// What the side calls it.
    pub name: String,
    /// How many bars it takes.
    #[schemars(range(min = 1, max = 2000))]
    pub bars: u32,
    /// The stepping, such as `2 ds, 2 ss, ftj`; empty means what the named figure says, or that phrase.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub phrase: String,
    /// Which foot starts, where this side differs from the figure's own rule.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<LeadRule>,
    /// Where everyone is at the end and which way the set faces; left out, what the named figure says, or home and front.
    #[serde(default, skip_serializing_if = "Ends::is_unsaid")]
    pub ends: Ends,
    /// Whether everyone comes straight home in each half, not round a curve; named figures say so of themselves.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub straight_home: bool,
    /// The named figure that this is; left out, the figure is drawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub named: Option<Named>,
    /// The metres of single bars, by their numbers from 1, where they are not the strain's or the tune's.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub metres: BTreeMap<u32, Metre>,
    /// Other speeds of the music than the strain's or the tune's while it is danced, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 200))]
    pub speeds: Vec<SpeedChange>,
    /// The drawn dancers, by the place each begins the figure in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
    /// The taps and claps: sticks and hands that meet.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 2000))]
    pub strikes: Vec<Strike>,
    /// What would be a fault, and this side means.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub allow: Vec<Allow>,
    /// The side's notes on it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Figure {
    /// A drawn figure in which nobody has moved yet.
    #[must_use]
    pub fn drawn(id: &str, name: &str, bars: u32) -> Self {
        Self {
            id: id.to_owned(),
            name: name.to_owned(),
            bars,
            phrase: String::new(),
            lead: None,
            ends: Ends::default(),
            straight_home: false,
            named: None,
            metres: BTreeMap::new(),
            speeds: Vec::new(),
            parts: Vec::new(),
            strikes: Vec::new(),
            allow: Vec::new(),
            notes: String::new(),
            extra: Extra::new(),
        }
    }

    /// The drawn part of the dancer who begins in a place, if there is one.
    #[must_use]
    pub fn part(&self, place: impl Into<PlaceNumber>) -> Option<&Part> {
        let place = place.into();
        self.parts.iter().find(|part| part.place == place)
    }

    /// How its counts fall into its bars, in music of a metre.
    #[must_use]
    pub fn bar_counts(&self, metre: Metre) -> BarCounts {
        let mut counts = BarCounts::default();
        let mut done = 0;
        // A file may say that a figure has no bars: that is refused, and not here.
        for (&bar, &own) in self.metres.range(1..).take_while(|(bar, _)| **bar <= self.bars) {
            counts.add(metre, bar - 1 - done);
            counts.add(own, 1);
            done = bar;
        }
        counts.add(metre, self.bars - done);
        counts
    }
}
