use serde::{Deserialize, Serialize};

/// How the window is divided: what stands at its sides, how wide they are, and what is folded away.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Arrangement {
    /// How wide the left side is, points.
    pub left: f32,
    /// How wide the right side is, points.
    pub right: f32,
    /// How high the shelf is under the running order, points.
    pub shelf: f32,
    /// How high the bar strip may be, points; nothing before its edge was ever dragged.
    pub strip: Option<f32>,
    /// Whether the left side is folded away.
    pub left_folded: bool,
    /// Whether the right side is folded away.
    pub right_folded: bool,
    /// Whether the shelf is open under the running order; nothing before anybody opened or folded it.
    pub shelf_open: Option<bool>,
    /// What the left side shows.
    pub left_tab: Tab,
    /// What the right side shows.
    pub right_tab: Tab,
    /// What the one side of a narrow window shows.
    pub only_tab: Tab,
    /// The rows of the bar strip that are put away.
    pub hidden: HiddenRows,
}

/// What a side can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tab {
    /// The running order.
    Order,
    /// The named figures.
    Shelf,
    /// The set and the floor.
    Set,
    /// The chosen dancer.
    Dancer,
    /// The figure at the playhead, as the side dances it.
    Figure,
    /// What is wrong.
    Faults,
    /// Another version of the dance.
    Versions,
}

/// The rows of the bar strip that are put away.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct HiddenRows {
    pub tune: bool,
    pub path: bool,
    pub feet: bool,
    pub turn: bool,
    pub hands: bool,
    pub taps: bool,
}

impl Default for Arrangement {
    fn default() -> Self {
        Self {
            left: 236.0,
            right: 290.0,
            shelf: 240.0,
            strip: None,
            left_folded: false,
            right_folded: false,
            shelf_open: None,
            left_tab: Tab::Order,
            right_tab: Tab::Dancer,
            only_tab: Tab::Order,
            hidden: HiddenRows::default(),
        }
    }
}

impl Arrangement {
    /// The nearest that a window can have.
    #[must_use]
    pub fn sane(self) -> Self {
        let usual = Self::default();
        let near =
            |points: f32, usual: f32| if points.is_finite() { points.clamp(60.0, 2_000.0) } else { usual };
        Self {
            left: near(self.left, usual.left),
            right: near(self.right, usual.right),
            shelf: near(self.shelf, usual.shelf),
            strip: self.strip.filter(|points| points.is_finite()).map(|points| near(points, 260.0)),
            ..self
        }
    }
}
