//! Drawing together: what one dancer does, its mates do too, under a symmetry of the set.

use super::mirror_feet::swap_feet;
use crate::dance::{Part, PlaceNumber};
use crate::figures::{Mirror, mate, mirrored};
use crate::motion::{Ground, LeadMade};

/// Who follows when a dancer is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Together {
    /// Nobody else.
    #[default]
    JustMe,
    /// The mate under a symmetry, as its image.
    Mirror(Mirror),
    /// The mates under every symmetry, each as its image: the one across and the one at the other end as in a mirror, the
    /// opposite turned half about.
    BothMirrors,
    /// Everyone does the same, each from their own spot.
    Same,
}

impl Together {
    /// Every way of drawing together.
    pub const ALL: [Self; 6] = [
        Self::JustMe,
        Self::Mirror(Mirror::Across),
        Self::Mirror(Mirror::EndForEnd),
        Self::Mirror(Mirror::HalfTurn),
        Self::BothMirrors,
        Self::Same,
    ];

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::JustMe => "nobody",
            Self::Mirror(Mirror::Across) => "across the set",
            Self::Mirror(Mirror::EndForEnd) => "end for end",
            Self::Mirror(Mirror::HalfTurn) => "the opposite, turned about",
            Self::BothMirrors => "across and end for end",
            Self::Same => "everyone the same",
        }
    }

    /// What it does, in a sentence.
    #[must_use]
    pub fn help(self) -> &'static str {
        match self {
            Self::JustMe => "Only the dancer you drag is drawn",
            Self::Mirror(Mirror::Across) => {
                "The one across the set does it as in a mirror: left for right, with feet and shoulders"
            }
            Self::Mirror(Mirror::EndForEnd) => {
                "The one at the other end of the file does it as in a mirror: up for down, with feet and shoulders"
            }
            Self::Mirror(Mirror::HalfTurn) => "The opposite does it turned half about: left stays left",
            Self::BothMirrors => {
                "All four do it: the one across and the one at the other end as in a mirror, the opposite turned half \
                 about. Pick a middle as well and all six do"
            }
            Self::Same => "Everyone does the same from their own spot",
        }
    }

    /// The ways that it is made of, one after another: whoever is a mate in one of them already is none in the next. A
    /// middle's partner is the mate across and by half turn, and does it as in a mirror.
    pub(super) fn ways(self) -> Vec<Self> {
        match self {
            Self::BothMirrors => {
                [Mirror::Across, Mirror::EndForEnd, Mirror::HalfTurn].map(Self::Mirror).to_vec()
            }
            one => vec![one],
        }
    }

    /// Whether left and right change about from a dancer to their mate.
    pub(super) fn swaps(self) -> bool {
        matches!(self, Self::Mirror(mirror) if mirror.swaps())
    }

    /// The places that follow a place.
    #[must_use]
    pub fn mates(self, ground: &Ground, place: PlaceNumber) -> Vec<PlaceNumber> {
        match self {
            Self::JustMe => Vec::new(),
            Self::Mirror(mirror) => {
                mate(ground, place, mirror).filter(|&other| other != place).into_iter().collect()
            }
            Self::BothMirrors => {
                let mut mates: Vec<PlaceNumber> = Vec::new();
                for other in self.ways().into_iter().flat_map(|way| way.mates(ground, place)) {
                    if !mates.contains(&other) {
                        mates.push(other);
                    }
                }
                mates
            }
            Self::Same => ground.places().filter(|&other| other != place).collect(),
        }
    }

    /// What a mate does when a place does a part, which is danced with these leads.
    #[must_use]
    pub fn part_of(
        self,
        ground: &Ground,
        (part, leads): (&Part, &[LeadMade]),
        mate: PlaceNumber,
    ) -> Option<Part> {
        match self {
            Self::JustMe => None,
            Self::Mirror(mirror) => {
                let mut image = mirrored(part, mirror, mate);
                if mirror.swaps() {
                    swap_feet(
                        &mut image,
                        leads,
                        part.place.first_dancer().is_even() != mate.first_dancer().is_even(),
                    );
                }
                Some(image)
            }
            Self::BothMirrors => self
                .ways()
                .into_iter()
                .find(|way| way.mates(ground, part.place).contains(&mate))?
                .part_of(ground, (part, leads), mate),
            Self::Same => {
                let from = ground.stand(part.place)?;
                let to = ground.stand(mate)?;
                Some(moved(part, to.x - from.x, to.y - from.y, mate))
            }
        }
    }
}

/// A part danced so far to the right and up, by another place.
fn moved(part: &Part, x: f64, y: f64, place: PlaceNumber) -> Part {
    let mut part = part.clone();
    part.place = place;
    let at = |value: f64, by: f64| ((value + by) * 1000.0).round() / 1000.0;
    for leg in &mut part.legs {
        (leg.to.x, leg.to.y) = (at(leg.to.x, x), at(leg.to.y, y));
        for point in &mut leg.through {
            (point.x, point.y) = (at(point.x, x), at(point.y, y));
        }
    }
    part
}

#[cfg(test)]
mod tests {
    use super::super::{drag_dancer, drag_ring, with_mates};
    use super::*;
    use crate::dance::{Dance, Dancer};
    use crate::dance::{Extra, Figure, Foot, Lead, Leg, Set};
    use crate::figures::motion_of;

    fn six() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        dance.figures.push(Figure::drawn("draw", "Draw", 8));
        dance
    }

    /// The Morris Book, Part I (1907) [MB1]: partners are 1-2, 3-4, 5-6, opposites 1-6, 2-5, 3-4.
    #[test]
    fn mates_are_partners_ends_and_opposites() {
        let ground = Ground::of(&six().set);
        for (mirror, mates) in [
            (Mirror::Across, [2, 1, 4, 3, 6, 5]),
            (Mirror::EndForEnd, [5, 6, 3, 4, 1, 2]),
            (Mirror::HalfTurn, [6, 5, 4, 3, 2, 1]),
        ] {
            for (place, number) in ground.places().zip(mates) {
                assert_eq!(mate(&ground, place, mirror), Some(PlaceNumber(number)));
            }
        }
        assert_eq!(
            Together::Mirror(Mirror::EndForEnd).mates(&ground, PlaceNumber(3)),
            [] as [PlaceNumber; 0],
            "its own mate"
        );
        assert_eq!(Together::Same.mates(&ground, PlaceNumber(3)).len(), 5);
    }

    #[test]
    fn mates_are_where_the_symmetry_has_them() {
        let dance = six();
        let motion = motion_of(&dance, None).unwrap();
        let dragged = drag_dancer(&dance, &motion, Dancer(0), 4.0, -0.2, 1.3).unwrap();
        let span = &motion.spans()[0];
        for (together, mate, x, y) in [
            (Together::Mirror(Mirror::Across), 1, 0.2, 1.3),
            (Together::Mirror(Mirror::EndForEnd), 4, -0.2, -1.3),
            (Together::Mirror(Mirror::HalfTurn), 5, 0.2, -1.3),
            (Together::Same, 3, 2.2, -0.5),
        ] {
            let drawn = with_mates(dragged.clone(), &motion, span, &[Dancer(0)], together).dance;
            let danced = motion_of(&drawn, None).unwrap();
            let (own, pose) = (danced.pose(Dancer(0), 4.0), danced.pose(Dancer(mate), 4.0));
            assert!((own.x + 0.2).abs() < 1e-9 && (own.y - 1.3).abs() < 1e-9);
            assert!((pose.x - x).abs() < 1e-6 && (pose.y - y).abs() < 1e-6, "{together:?}: {pose:?}");
        }
        // Two who are drawn at once are nobody's mates.
        let both = drag_dancer(&dragged, &motion, Dancer(1), 4.0, 0.9, 0.9).unwrap();
        let drawn = with_mates(
            both.clone(),
            &motion,
            span,
            &[Dancer(0), Dancer(1)],
            Together::Mirror(Mirror::Across),
        )
        .dance;
        assert_eq!(drawn, both);
    }

    /// Each of the four is where its symmetry has it, turns the way it has it and begins on the foot that it has; worked out
    /// on the floor: a mirror swaps left and right, and two mirrors one after the other are half a turn.
    #[test]
    fn all_four_do_it_each_by_its_own_symmetry() {
        let dance = six();
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        let dragged = drag_dancer(&dance, &motion, Dancer(0), 4.0, -0.2, 1.3).unwrap();
        let dragged_motion = motion_of(&dragged, None).unwrap();
        let turned = drag_ring(&dragged, &dragged_motion, Dancer(0), 8.0, -90.0).unwrap();
        let turned = with_lead(turned, Foot::Right);
        let drawn = with_mates(turned, &motion, span, &[Dancer(0)], Together::BothMirrors).dance;
        let danced = motion_of(&drawn, None).unwrap();
        let by =
            |dancer: usize| danced.pose(Dancer(dancer), 8.0).facing - danced.pose(Dancer(dancer), 0.0).facing;
        for (dancer, x, y, turn, foot) in [
            (0, -0.2, 1.3, -90.0, Foot::Right),
            (1, 0.2, 1.3, 90.0, Foot::Left),
            (4, -0.2, -1.3, 90.0, Foot::Left),
            (5, 0.2, -1.3, -90.0, Foot::Right),
        ] {
            let pose = danced.pose(Dancer(dancer), 4.0);
            assert!((pose.x - x).abs() < 1e-6 && (pose.y - y).abs() < 1e-6, "{dancer}: {pose:?}");
            assert!((by(dancer) - turn).abs() < 1e-6, "{dancer} turns {}", by(dancer));
            let figure = &drawn.figures[0];
            assert_eq!(figure.part(dancer as u32 + 1).unwrap().leads[0].foot, foot, "{dancer}");
        }
        // The middles are nobody's mates, until one of them is drawn as well: then all six are.
        assert_eq!(drawn.figures[0].parts.len(), 4);
        let both = drag_dancer(&dragged, &motion, Dancer(2), 4.0, -0.6, 0.3).unwrap();
        let six = with_mates(both, &motion, span, &[Dancer(0), Dancer(2)], Together::BothMirrors).dance;
        assert_eq!(six.figures[0].parts.len(), 6);
        let danced = motion_of(&six, None).unwrap();
        // 4 is the mate of 3 across the set and by half turn: it is as in a mirror.
        let (own, mate) = (danced.pose(Dancer(2), 4.0), danced.pose(Dancer(3), 4.0));
        assert!((own.x + mate.x).abs() < 1e-6 && (own.y - mate.y).abs() < 1e-6, "{own:?} {mate:?}");
    }

    /// 1 and 2 drawn at once are each other's mates across; 5 and 6 are then their mirrors at the other end, not half turns of
    /// the one over the other.
    #[test]
    fn two_who_are_drawn_at_once_have_their_mirrors_at_the_other_end() {
        let dance = six();
        let motion = motion_of(&dance, None).unwrap();
        let one = drag_dancer(&dance, &motion, Dancer(0), 4.0, -0.7, 1.5).unwrap();
        let both = drag_dancer(&one, &motion, Dancer(1), 4.0, 0.9, 0.9).unwrap();
        let picked = [Dancer(0), Dancer(1)];
        let drawn = with_mates(both, &motion, &motion.spans()[0], &picked, Together::BothMirrors).dance;
        let danced = motion_of(&drawn, None).unwrap();
        for (dancer, x, y) in [(0, -0.7, 1.5), (1, 0.9, 0.9), (4, -0.7, -1.5), (5, 0.9, -0.9)] {
            let pose = danced.pose(Dancer(dancer), 4.0);
            assert!((pose.x - x).abs() < 1e-6 && (pose.y - y).abs() < 1e-6, "{dancer}: {pose:?}");
        }
    }

    /// The dance with the foot on which place 1 begins.
    fn with_lead(mut dance: Dance, foot: Foot) -> Dance {
        let part = dance.figures[0].parts.iter_mut().find(|part| part.place == 1).unwrap();
        part.leads.push(Lead { at: 0.0, foot, extra: Extra::new() });
        dance
    }

    #[test]
    fn a_leg_keeps_its_shape_when_all_do_the_same() {
        let mut part = Part::still(1);
        part.legs.push(Leg::smooth(0.0, 4.0, &[(-1.0, 2.0)], -0.8, 2.4));
        let moved = moved(&part, 2.4, -1.8, PlaceNumber(4));
        assert_eq!((moved.place.get(), moved.legs[0].to.x, moved.legs[0].to.y), (4, 1.6, 0.6));
        assert_eq!((moved.legs[0].through[0].x, moved.legs[0].through[0].y), (1.4, 0.2));
    }
}
