use super::{Extra, SpeedChange};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The metre of the tune.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Metre {
    /// Two minims.
    #[serde(rename = "2/2")]
    TwoTwo,
    /// Two crotchets.
    #[serde(rename = "2/4")]
    TwoFour,
    /// Four crotchets, two strong.
    #[default]
    #[serde(rename = "4/4")]
    FourFour,
    /// Six quavers, two strong: the four counts fall on quavers 1, 3, 4 and 6 [MB1].
    #[serde(rename = "6/8")]
    SixEight,
    /// Nine quavers, three strong: six counts.
    #[serde(rename = "9/8")]
    NineEight,
    /// Three crotchets, all strong: six counts.
    #[serde(rename = "3/4")]
    ThreeFour,
    /// Three minims, all strong: six counts.
    #[serde(rename = "3/2")]
    ThreeTwo,
}

impl Metre {
    /// Every metre.
    pub const ALL: [Self; 7] = [
        Self::TwoTwo,
        Self::TwoFour,
        Self::FourFour,
        Self::SixEight,
        Self::NineEight,
        Self::ThreeFour,
        Self::ThreeTwo,
    ];

    /// How it is written: how many of them are in a bar, and which part of a whole note each is.
    #[must_use]
    pub fn written(self) -> (u8, u8) {
        match self {
            Self::TwoTwo => (2, 2),
            Self::TwoFour => (2, 4),
            Self::FourFour => (4, 4),
            Self::SixEight => (6, 8),
            Self::NineEight => (9, 8),
            Self::ThreeFour => (3, 4),
            Self::ThreeTwo => (3, 2),
        }
    }

    /// The metre that is written so: how many of them are in a bar, and which part of a whole note each is.
    #[must_use]
    pub fn as_written((beats, each): (u64, u64)) -> Option<Self> {
        let written = |metre: &Self| {
            let (own_beats, own_each) = metre.written();
            (u64::from(own_beats), u64::from(own_each)) == (beats, each)
        };
        Self::ALL.into_iter().find(written)
    }

    /// How many counts a bar has.
    #[must_use]
    pub fn counts(self) -> u32 {
        self.shares().len() as u32 - 1
    }

    /// How many strong beats a bar has: a count is half of one.
    #[must_use]
    pub fn strong_beats(self) -> f64 {
        f64::from(self.counts()) / 2.0
    }

    /// Where the counts of a bar fall in time, and where the bar ends, as shares of the bar.
    ///
    /// In 6/8 they fall on quavers 1, 3, 4 and 6: 0, 1/3, 1/2 and 5/6 [MB1, the 6-time step diagrams]; in 9/8 on those and on
    /// 7 and 9, as the same beat once more has them. Three crotchets or minims are even.
    #[must_use]
    pub fn shares(self) -> &'static [f64] {
        match self {
            Self::TwoTwo | Self::TwoFour | Self::FourFour => &[0.0, 0.25, 0.5, 0.75, 1.0],
            Self::SixEight => &[0.0, 1.0 / 3.0, 0.5, 5.0 / 6.0, 1.0],
            Self::NineEight => &[0.0, 2.0 / 9.0, 1.0 / 3.0, 5.0 / 9.0, 2.0 / 3.0, 8.0 / 9.0, 1.0],
            Self::ThreeFour | Self::ThreeTwo => &[0.0, 1.0 / 6.0, 1.0 / 3.0, 0.5, 2.0 / 3.0, 5.0 / 6.0, 1.0],
        }
    }

    /// The count of a bar, from 0, at a share of the bar from 0 until 1: within a count time is even.
    #[must_use]
    pub fn count_of_share(self, share: f64) -> f64 {
        let pairs = self.shares().iter().zip(self.shares().iter().skip(1)).enumerate();
        let under = pairs.take_while(|(_, (from, _))| **from <= share).last();
        under.map_or(0.0, |(index, (from, to))| index as f64 + (share - from) / (to - from))
    }
}

/// As it is written: `6/8`.
impl fmt::Display for Metre {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (beats, each) = self.written();
        write!(f, "{beats}/{each}")
    }
}

/// A strain of the tune.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Strain {
    /// Its letter.
    pub name: String,
    /// How many bars it has when played once.
    #[schemars(range(min = 1, max = 2000))]
    pub bars: u32,
    /// The metre of its bars, where it is not the tune's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub metre: Option<Metre>,
    /// Other speeds than the tune's, each time it is played, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 200))]
    pub speeds: Vec<SpeedChange>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The tune and its speed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Music {
    /// What stands at the start of the stave; it says how long the two strong beats of a bar are.
    #[serde(default)]
    pub metre: Metre,
    /// Strong beats a minute: two to a bar, or three in a metre of three.
    #[serde(default = "default_speed")]
    #[schemars(range(min = 10, max = 400))]
    pub speed: f64,
    /// Counts of upbeat before the first bar.
    #[serde(default)]
    #[schemars(range(min = 0, max = 6))]
    pub upbeat: u32,
    /// The tune, in ABC notation.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub abc: String,
    /// The strains and their bars.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub strains: Vec<Strain>,
    /// The strains as the tune plays them, once through, such as A A B B. Empty where the music follows the dance.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub played: Vec<String>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

fn default_speed() -> f64 {
    100.0
}

impl Default for Music {
    fn default() -> Self {
        Self {
            metre: Metre::default(),
            speed: default_speed(),
            upbeat: 0,
            abc: String::new(),
            strains: Vec::new(),
            played: Vec::new(),
            extra: Extra::new(),
        }
    }
}
