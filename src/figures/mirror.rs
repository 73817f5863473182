use crate::dance::{Part, PlaceNumber};
use crate::motion::Ground;

/// A symmetry of the set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mirror {
    /// Across the set: in the line up the middle. Left and right swap.
    Across,
    /// End for end: in the line through the middle rank. Left and right swap.
    EndForEnd,
    /// Half a turn about the middle: both of them. Left and right stay.
    HalfTurn,
}

impl Mirror {
    /// The image of a place (metres right, metres up).
    #[must_use]
    pub fn place(self, x: f64, y: f64) -> (f64, f64) {
        match self {
            Self::Across => (-x, y),
            Self::EndForEnd => (x, -y),
            Self::HalfTurn => (-x, -y),
        }
    }

    /// The image of a facing, degrees clockwise from up.
    #[must_use]
    pub fn facing(self, facing: f64) -> f64 {
        match self {
            Self::Across => -facing,
            Self::EndForEnd => 180.0 - facing,
            Self::HalfTurn => facing + 180.0,
        }
    }

    /// Whether left and right, and with them feet and shoulders, swap.
    #[must_use]
    pub fn swaps(self) -> bool {
        self != Self::HalfTurn
    }
}

/// The place of a place's mate under a symmetry: the spot that lies in its image, to 5 cm. A place may be its
/// own mate.
#[must_use]
pub fn mate(ground: &Ground, place: PlaceNumber, mirror: Mirror) -> Option<PlaceNumber> {
    let stand = ground.stand(place)?;
    ground.place_near(mirror.place(stand.x, stand.y), 0.05)
}

/// The image of a part: what a dancer's mate under a symmetry does. `place` is the mate's place.
#[must_use]
pub fn mirrored(part: &Part, mirror: Mirror, place: PlaceNumber) -> Part {
    let mut image = part.clone();
    image.place = place;
    for leg in &mut image.legs {
        (leg.to.x, leg.to.y) = mirror.place(leg.to.x, leg.to.y);
        for point in &mut leg.through {
            (point.x, point.y) = mirror.place(point.x, point.y);
        }
        if mirror.swaps() {
            leg.sweep = leg.sweep.map(|sweep| -sweep);
        }
    }
    for turn in &mut image.turns {
        turn.face = turn.face.map(|face| mirror.facing(face));
    }
    if mirror.swaps() {
        image.swap_sides();
    }
    image
}
