use super::{Extra, Foot, PlaceNumber};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How a stick is held, in every hand that holds one (common practice, no source).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Grip {
    /// By its middle.
    #[default]
    Middle,
    /// By one end, like a pen: that end is the butt.
    End,
}

impl Grip {
    /// Every one, the usual one first.
    pub const ALL: [Self; 2] = [Self::Middle, Self::End];

    /// Whether this is what a dance has that does not say.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// What a strike is made with: an end of the stick, or a hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum StrikeEnd {
    /// The end of the stick over the hand, or the far one where it is held by its end.
    Tip,
    /// The other end of the stick. [MB1] says top and butt.
    Butt,
    /// The middle of the stick.
    Middle,
    /// The right hand.
    Right,
    /// The left hand.
    Left,
    /// Both hands together.
    Both,
}

impl StrikeEnd {
    /// Every one of them.
    pub const ALL: [Self; 6] = [Self::Tip, Self::Butt, Self::Middle, Self::Right, Self::Left, Self::Both];

    /// Whether it is of the stick.
    #[must_use]
    pub fn is_of_stick(self) -> bool {
        matches!(self, Self::Tip | Self::Butt | Self::Middle)
    }

    /// The same as in a mirror: left for right.
    #[must_use]
    pub fn other_side(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
            same => same,
        }
    }

    /// The word that files use.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Tip => "tip",
            Self::Butt => "butt",
            Self::Middle => "middle",
            Self::Right => "right",
            Self::Left => "left",
            Self::Both => "both",
        }
    }
}

/// A part of oneself that a hand or a stick strikes [MB1].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum StrikePart {
    /// The own other hand, before the chest.
    Hands,
    /// The own other hand, behind the back.
    Behind,
    /// The own other hand, over the head.
    Overhead,
    RightKnee,
    LeftKnee,
    /// The own other hand, under the raised right knee.
    UnderRightKnee,
    /// The own other hand, under the raised left knee.
    UnderLeftKnee,
}

impl StrikePart {
    /// Every one, the usual one first.
    pub const ALL: [Self; 7] = [
        Self::Hands,
        Self::Behind,
        Self::Overhead,
        Self::RightKnee,
        Self::LeftKnee,
        Self::UnderRightKnee,
        Self::UnderLeftKnee,
    ];

    /// Whether both hands meet there.
    #[must_use]
    pub fn is_of_hands(self) -> bool {
        !matches!(self, Self::RightKnee | Self::LeftKnee)
    }

    /// Whether it is at a knee.
    #[must_use]
    pub fn is_of_knee(self) -> bool {
        !matches!(self, Self::Hands | Self::Behind | Self::Overhead)
    }

    /// The same as in a mirror: left for right.
    #[must_use]
    pub fn other_side(self) -> Self {
        match self {
            Self::RightKnee => Self::LeftKnee,
            Self::LeftKnee => Self::RightKnee,
            Self::UnderRightKnee => Self::UnderLeftKnee,
            Self::UnderLeftKnee => Self::UnderRightKnee,
            same => same,
        }
    }

    /// The word that files use.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Hands => "hands",
            Self::Behind => "behind",
            Self::Overhead => "overhead",
            Self::RightKnee => "right-knee",
            Self::LeftKnee => "left-knee",
            Self::UnderRightKnee => "under-right-knee",
            Self::UnderLeftKnee => "under-left-knee",
        }
    }
}

/// One meeting of sticks or hands in a figure, or the same one again and again: who strikes, when, with what, and on whom or what.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Strike {
    /// The count of the figure, from 0, at which it sounds.
    #[schemars(range(min = 0))]
    pub at: f64,
    /// Whoever dances in a place (its number), or `odds`, `evens` or `all`.
    pub by: Striker,
    /// With which end of the stick, or which hand; `both` hands together.
    #[serde(rename = "with")]
    pub end: StrikeEnd,
    /// Which hand holds the stick that strikes; left out, the one in which that dancer has their stick.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand: Option<Foot>,
    /// On whom or what: `partner`, `opposite`, the neighbour `up` or `down` in the file, `ground`, `self`, or whoever dances in a place (its number).
    pub on: Struck,
    /// With what the other answers; left out, with the same: right on right.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub their: Option<StrikeEnd>,
    /// In which hand the other has the stick that answers; left out, the one in which that dancer has their stick.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub their_hand: Option<Foot>,
    /// On `self`: the part that is struck; left out, the own hands together before the chest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<StrikePart>,
    /// How high they meet over the floor, metres; left out, before the chest. A knee has none: it is where it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 2.5))]
    pub height: Option<f64>,
    /// Whether they stay together until the next strike of either, or until the figure ends.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub stay: bool,
    /// More counts of the figure at which the same is struck again, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 2000))]
    pub again: Vec<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Strike {
    /// A strike at a count of the figure, with all else as it usually is.
    #[must_use]
    pub fn new(at: f64, by: Striker, end: StrikeEnd, on: Struck) -> Self {
        Self {
            at,
            by,
            end,
            hand: None,
            on,
            their: None,
            their_hand: None,
            part: None,
            height: None,
            stay: false,
            again: Vec::new(),
            extra: Extra::new(),
        }
    }

    /// Whether another answers it with a stick.
    #[must_use]
    pub fn is_on_a_stick(&self) -> bool {
        self.on.is_somebody() && self.their.unwrap_or(self.end).is_of_stick()
    }

    /// Whether it is said how high they meet: a knee is where it is.
    #[must_use]
    pub fn takes_height(&self) -> bool {
        self.on != Struck::Own || !self.part.is_some_and(StrikePart::is_of_knee)
    }

    /// All counts of the figure at which it is struck, in the order in which they are written.
    #[must_use]
    pub fn counts(&self) -> impl DoubleEndedIterator<Item = f64> + Clone + '_ {
        std::iter::once(self.at).chain(self.again.iter().copied())
    }

    /// The same as in a mirror: left for right. Who strikes whom stays.
    pub fn swap_sides(&mut self) {
        self.end = self.end.other_side();
        self.their = self.their.map(StrikeEnd::other_side);
        self.part = self.part.map(StrikePart::other_side);
        self.hand = self.hand.map(Foot::other);
        self.their_hand = self.their_hand.map(Foot::other);
    }
}

/// Who strikes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Striker {
    /// Whoever dances in this place.
    Place(PlaceNumber),
    /// All who dance in odd places.
    Odds,
    /// All who dance in even places.
    Evens,
    All,
}

impl Striker {
    /// The words that files use.
    pub const WORDS: [(&'static str, Self); 3] =
        [("odds", Self::Odds), ("evens", Self::Evens), ("all", Self::All)];

    /// Whether whoever dances in a place strikes.
    #[must_use]
    pub fn has(self, place: PlaceNumber) -> bool {
        match self {
            Self::Place(own) => own == place,
            Self::Odds => !place.get().is_multiple_of(2),
            Self::Evens => place.get().is_multiple_of(2),
            Self::All => true,
        }
    }
}

/// On whom or what a strike is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Struck {
    Partner,
    /// The one straight through the middle of the set: 1-6, 2-5, 3-4 in a set of six [MB1].
    Opposite,
    /// The next one up in the own file.
    Up,
    /// The next one down in the own file.
    Down,
    Ground,
    /// Oneself.
    Own,
    /// Whoever dances in this place.
    Place(PlaceNumber),
}

impl Struck {
    /// The words that files use.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("partner", Self::Partner),
        ("opposite", Self::Opposite),
        ("up", Self::Up),
        ("down", Self::Down),
        ("ground", Self::Ground),
        ("self", Self::Own),
    ];

    /// Whether somebody else is struck.
    #[must_use]
    pub fn is_somebody(self) -> bool {
        !matches!(self, Self::Ground | Self::Own)
    }
}
