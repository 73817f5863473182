use crate::dance::{PlaceNumber, Set, SetKind, Stance};

/// Where a number stands and faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// Metres to the right of the middle as you face up.
    pub x: f64,
    /// Metres up, towards the music.
    pub y: f64,
    /// Degrees clockwise from up, with partners facing.
    pub facing: f64,
}

/// The spots of a set, worked out from what the dance file says of it.
///
/// Odds are on the left as you face up, evens on the right, 1 and 2 at the top [MB1].
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// The spot of each number, in order.
    pub stands: Vec<Stand>,
    /// How the set stands.
    pub kind: SetKind,
    /// Metres between the files.
    pub across: f64,
    /// Metres from rank to rank.
    pub along: f64,
}

impl Ground {
    /// The ground of a set.
    #[must_use]
    pub fn of(set: &Set) -> Self {
        let count = set.dancers as usize;
        let stands = match set.kind {
            SetKind::Longways if count == 1 => vec![Stand { x: 0.0, y: 0.0, facing: 0.0 }],
            SetKind::Longways => {
                let ranks = count.div_ceil(2);
                (0..count)
                    .map(|index| {
                        let rank = (index / 2) as f64;
                        let left = index.is_multiple_of(2);
                        Stand {
                            x: if left { -set.across / 2.0 } else { set.across / 2.0 },
                            y: ((ranks as f64 - 1.0) / 2.0 - rank) * set.along,
                            facing: if left { 90.0 } else { 270.0 },
                        }
                    })
                    .collect()
            }
            SetKind::Ring => {
                let radius = set.radius.unwrap_or_else(|| Set::usual_radius(set.dancers));
                (0..count)
                    .map(|index| {
                        let degrees = 360.0 * index as f64 / count as f64;
                        let (sin, cos) = degrees.to_radians().sin_cos();
                        Stand { x: radius * sin, y: radius * cos, facing: (degrees + 180.0) % 360.0 }
                    })
                    .collect()
            }
            SetKind::Spots => set
                .spots
                .iter()
                .map(|spot| Stand { x: spot.x, y: spot.y, facing: spot.facing.rem_euclid(360.0) })
                .collect(),
        };
        Self { stands, kind: set.kind, across: set.across, along: set.along }
    }

    #[must_use]
    pub fn dancers(&self) -> usize {
        self.stands.len()
    }

    /// How many ranks a longways set of pairs has; 0 for any other set.
    #[must_use]
    pub fn ranks(&self) -> usize {
        if self.kind == SetKind::Longways && self.dancers() >= 2 { self.dancers() / 2 } else { 0 }
    }

    /// From the first rank of a longways set to the last, metres: the file's own length.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.along * self.ranks().saturating_sub(1) as f64
    }

    /// Every place, in order.
    #[must_use]
    pub fn places(&self) -> impl DoubleEndedIterator<Item = PlaceNumber> + ExactSizeIterator + Clone + use<> {
        PlaceNumber::all(self.dancers())
    }

    /// The spot of a place.
    #[must_use]
    pub fn stand(&self, place: PlaceNumber) -> Option<&Stand> {
        self.stands.get(place.index())
    }

    /// The first place whose spot is less than so many metres from a point.
    #[must_use]
    pub fn place_near(&self, (x, y): (f64, f64), within: f64) -> Option<PlaceNumber> {
        let stands = self.places().zip(&self.stands);
        stands
            .into_iter()
            .find(|(_, stand)| (stand.x - x).hypot(stand.y - y) < within)
            .map(|(place, _)| place)
    }

    /// The place of the partner of a place, in a longways set [MB1].
    #[must_use]
    pub fn partner(&self, place: PlaceNumber) -> Option<PlaceNumber> {
        let index = (self.ranks() > 0).then_some(place.index() ^ 1)?;
        (index < self.dancers()).then(|| PlaceNumber::from_index(index))
    }

    /// The place that one dances with in pairs, whatever the set: 1-2, 3-4, 5-6. In two files that is the partner [MB1]; in
    /// spots or a ring it is where an even number stand (common practice, no source).
    #[must_use]
    pub fn pair(&self, place: PlaceNumber) -> Option<PlaceNumber> {
        let even = self.kind != SetKind::Longways && self.dancers().is_multiple_of(2);
        let beside = PlaceNumber::from_index(place.index() ^ 1);
        self.partner(place).or_else(|| (even && beside.index() < self.dancers()).then_some(beside))
    }

    /// The place straight through the middle of the set: 1-6, 2-5, 3-4 in a set of six [MB1].
    #[must_use]
    pub fn opposite(&self, place: PlaceNumber) -> Option<PlaceNumber> {
        (self.ranks() > 0).then(|| self.places().nth_back(place.index())).flatten()
    }

    /// The way a place faces in a stance: front (partners facing), column (all facing up) or column reversed (all
    /// facing down).
    #[must_use]
    pub fn facing(&self, place: PlaceNumber, stance: Stance) -> f64 {
        match stance {
            Stance::Front => self.stand(place).map_or(0.0, |stand| stand.facing),
            Stance::Column => 0.0,
            Stance::Reversed => 180.0,
        }
    }

    /// The rank of a place in words, where the trade has one (common practice, no source).
    #[must_use]
    pub fn rank_name(&self, place: PlaceNumber) -> &'static str {
        let (rank, ranks) = (place.index() / 2, self.ranks());
        match ranks {
            0 | 1 => "",
            _ if rank == 0 => "top",
            _ if rank + 1 == ranks => "bottom",
            3 => "middle",
            _ if rank * 2 < ranks => "upper middle",
            _ => "lower middle",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The Morris Book, Part I (1907) [MB1]: where the numbers stand, partners and opposites.
    #[test]
    fn six_stand_as_the_morris_book_says() {
        let ground = Ground::of(&Set::longways(6, 3.66, 1.83));
        let at: Vec<_> = ground.stands.iter().map(|s| (s.x, s.y, s.facing)).collect();
        assert_eq!(at[0], (-1.83, 1.83, 90.0));
        assert_eq!(at[1], (1.83, 1.83, 270.0));
        assert_eq!(at[2], (-1.83, 0.0, 90.0));
        assert_eq!(at[5], (1.83, -1.83, 270.0));
        for (one, other) in [(1, 6), (2, 5), (3, 4)] {
            assert_eq!(ground.opposite(PlaceNumber(one)), Some(PlaceNumber(other)));
        }
        for (one, other) in [(1, 2), (3, 4), (5, 6)] {
            assert_eq!(ground.partner(PlaceNumber(one)), Some(PlaceNumber(other)));
        }
    }
}
