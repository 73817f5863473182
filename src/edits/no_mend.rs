use crate::dance::FaultKind;
use thiserror::Error;

/// Why there is no mend.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoMend {
    /// The fault is not of two bodies.
    #[error("only a clash or a tight place can be given room")]
    NotBodies,
    /// A tap or a clap does not reach.
    #[error(
        "room parts two who come too near, and these want to be nearer: bring them together, or change the tap in the row of taps"
    )]
    Apart,
    /// Somebody is to strike, or be struck, elsewhere.
    #[error("room parts two who come too near; here change whom, when or with which hand in the row of taps")]
    Elsewhere,
    /// An end comes near a head.
    #[error("room is made between bodies; lower the tap, or turn it away from the head, in the row of taps")]
    NearHead,
    /// Neither dancer is on the way anywhere.
    #[error("both stand still there; give one of them a path, or a spot farther off")]
    Standing,
    /// The search for it was stopped.
    #[error("the search for room was stopped")]
    Stopped,
    /// Nothing that was tried helps.
    #[error(
        "no shift of time up to three counts and no bow up to 0.8 m makes room there without another fault; \
         change the path of one of them"
    )]
    None,
}

impl NoMend {
    /// Why no room can be made for any fault of a kind; nothing where it may be.
    #[must_use]
    pub fn of_kind(kind: FaultKind) -> Option<Self> {
        match kind {
            FaultKind::Clash | FaultKind::Tight => None,
            FaultKind::OutOfReach => Some(Self::Apart),
            FaultKind::OneSided | FaultKind::TwoPlaces => Some(Self::Elsewhere),
            FaultKind::NearHead => Some(Self::NearHead),
            _ => Some(Self::NotBodies),
        }
    }
}
