use crate::dance::Dancer;
use crate::faults::WhatIf;
use crate::picture::EyeSide;

/// Something asked for about what is looked at.
#[derive(Clone, Debug, PartialEq)]
pub enum ViewAsk {
    /// Choose a dancer, or nobody.
    Choose(Option<Dancer>),
    /// Choose a dancer, unless they are picked already.
    ChooseFor(Dancer),
    /// Pick dancers: what is drawn next is drawn for all of them.
    Pick(Vec<Dancer>),
    /// Pick a dancer as well, or no longer.
    AlsoPick(Dancer),
    /// See the floor so that this direction is up.
    See(Seen),
    /// Zoom the floor by a factor about a place in the picture, points.
    Zoom(f32, [f32; 2]),
    /// Move the floor by points.
    Pan([f32; 2]),
    /// See the whole floor again.
    FitFloor,
    /// Paths on or off.
    ToggleTrails,
    /// Bodies at the strong beats on or off.
    ToggleBeats,
    /// See a body at eye level from here.
    EyeSide(EyeSide),
    /// See the body at eye level, large, over the floor, or the floor again.
    ToggleEyeLevel,
    /// Show what would be if the chosen dancer were out of time or went short, or what is drawn alone.
    WhatIf(Option<WhatIf>),
    /// Show the floor that the dance needs, or no longer.
    ToggleSpace,
    /// Slate or paper.
    ToggleTheme,
    /// What was said at the foot of the floor has been read.
    DropNotice,
    /// Show or put away the help.
    ToggleHelp,
    /// Put away whatever is asked of the user.
    PutAway,
}

/// Whether bodies are drawn at the strong beats round the playhead.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Beats {
    /// They are not.
    #[default]
    Hidden,
    /// They are.
    Shown,
}

impl Beats {
    /// The other of the two.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Hidden => Self::Shown,
            Self::Shown => Self::Hidden,
        }
    }
}

/// Which way the floor is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seen {
    /// With the music at the top.
    #[default]
    FromBottom,
    /// As the musicians see it.
    FromTop,
    /// As the chosen dancer faces.
    OwnFacing,
}
