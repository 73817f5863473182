use super::redraw::EditError;
use super::ring_turn::RingTurn;
use super::turns::drag_ring;
use crate::dance::{Dance, Dancer, SetKind};
use crate::motion::{Motion, wrap_half, wrap_whole};

/// Nearer than this there is no direction, metres.
const NO_WAY: f64 = 0.05;

/// Something that a dancer can be told to face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward {
    /// Their partner, wherever that one is.
    Partner,
    /// Up, to the music.
    Up,
    /// Down, away from the music.
    Down,
    /// In: across the set, or to the middle of one that is not longways.
    In,
    /// Out: away from the set.
    Out,
}

impl Toward {
    /// Everything there is to face.
    pub const ALL: [Self; 5] = [Self::Partner, Self::Up, Self::Down, Self::In, Self::Out];

    /// What a dancer calls it in a sentence.
    #[must_use]
    pub fn in_short(self) -> &'static str {
        match self {
            Self::Partner => "partner",
            Self::Up => "up",
            Self::Down => "down",
            Self::In => "in",
            Self::Out => "out",
        }
    }

    /// What a dancer of a set of a kind calls it, with what is there.
    #[must_use]
    pub fn words(self, kind: SetKind) -> &'static str {
        match (self, kind) {
            (Self::Up, _) => "up, to the music",
            (Self::In, SetKind::Longways) => "in, across the set",
            (Self::In, SetKind::Ring | SetKind::Spots) => "in, to the middle",
            (other, _) => other.in_short(),
        }
    }

    /// Degrees clockwise from up that a dancer faces then at a count from the start of the dance; nothing where there is
    /// nothing to face.
    #[must_use]
    pub fn facing(self, motion: &Motion, dancer: Dancer, count: f64) -> Option<f64> {
        let (ground, own) = (motion.ground(), motion.pose(dancer, count));
        let towards = |x: f64, y: f64| {
            let (dx, dy) = (x - own.x, y - own.y);
            (dx.hypot(dy) > NO_WAY).then(|| wrap_whole(dx.atan2(dy).to_degrees()))
        };
        let inwards = || match ground.kind {
            SetKind::Longways => towards(0.0, own.y),
            SetKind::Ring | SetKind::Spots => towards(0.0, 0.0),
        };
        match self {
            Self::Partner => {
                let other = motion.pose(ground.partner(dancer.home())?.first_dancer(), count);
                towards(other.x, other.y)
            }
            Self::Up => Some(0.0),
            Self::Down => Some(180.0),
            Self::In => inwards(),
            Self::Out => inwards().map(|facing| wrap_whole(facing + 180.0)),
        }
    }
}

/// Has a dancer face something at a count from the start of the dance, by the shorter way; where a turn is under way, as it
/// finishes, in the time that it has.
///
/// # Errors
/// Where there is no figure, or nothing to face.
pub fn face(
    dance: &Dance,
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    toward: Toward,
) -> Result<Dance, EditError> {
    let (facing, faced) = RingTurn::in_hand(motion, dancer, count);
    let wanted = toward.facing(motion, dancer, faced).ok_or(EditError::NobodyThere)?;
    let by = wrap_half(wanted - facing);
    if by.abs() < 0.05 {
        // They face it already: there is nothing to draw.
        return Ok(dance.clone());
    }
    drag_ring(dance, motion, dancer, count, by)
}
