//! What one dancer does as another would be told it, who does the same, the mirror of it, or the same turned half about.

use super::facts::{CourseSaid, Facing, Fact, Going, Pass, PlaceSaid, Start, Turning};
use crate::dance::{Number, PlaceNumber};
use crate::motion::Ground;

/// How one dancer's part follows from another's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Image {
    /// The same.
    Same,
    /// Left for right, and the number across for each number.
    Mirror,
    /// Turned half about: up for down, and the number through the middle of the set for each number.
    About,
}

impl Image {
    /// Whom a number becomes; nothing where the set has no such image.
    #[must_use]
    pub fn number(self, ground: &Ground, number: Number) -> Option<Number> {
        Some(self.place(ground, number.dancer().home())?.first_dancer().number())
    }

    fn place(self, ground: &Ground, place: PlaceNumber) -> Option<PlaceNumber> {
        match self {
            Self::Same => Some(place),
            Self::Mirror => ground.partner(place),
            Self::About => ground.opposite(place),
        }
    }

    /// The image of what there is to say; nothing where the set has none.
    #[must_use]
    pub fn of(self, ground: &Ground, fact: &Fact) -> Option<Fact> {
        if self == Self::Same {
            return Some(fact.clone());
        }
        Some(match fact {
            Fact::Start(start) => Fact::Start(Start {
                foot: if self == Self::Mirror { start.foot.other() } else { start.foot },
                facing: start.facing.map(|facing| self.angle(facing)),
                ..start.clone()
            }),
            Fact::Go(going) => Fact::Go(self.going(ground, going)?),
            Fact::Turn(turn) => Fact::Turn(Turning {
                way: if self == Self::Mirror { turn.way.other() } else { turn.way },
                to: turn.to.map_or(Some(None), |facing| self.facing(ground, facing).map(Some))?,
                ..turn.clone()
            }),
            Fact::Passed(pass) => Fact::Passed(self.pass(ground, *pass)?),
            Fact::End(place, facing) => Fact::End(self.said(ground, *place)?, self.facing(ground, *facing)?),
            Fact::Steps(runs, hop) => {
                let hop = hop.map(|foot| if self == Self::Mirror { foot.other() } else { foot });
                Fact::Steps(runs.clone(), hop)
            }
            Fact::Stand(_) | Fact::OnTheSpot(_) | Fact::Hands(..) => fact.clone(),
        })
    }

    fn going(self, ground: &Ground, going: &Going) -> Option<Going> {
        let mirror = self == Self::Mirror;
        let way = |way: crate::dance::Way| if mirror { way.other() } else { way };
        let sign = if mirror { -1.0 } else { 1.0 };
        let course = match going.course {
            CourseSaid::Straight(eighth, bears) if mirror => {
                CourseSaid::Straight((8 - eighth % 8) % 8, bears.map(way))
            }
            CourseSaid::Round(round, degrees) => CourseSaid::Round(way(round), degrees),
            CourseSaid::RoundOther(round, degrees, number) => {
                CourseSaid::RoundOther(way(round), degrees, self.number(ground, number)?)
            }
            CourseSaid::Curve(round, degrees) => CourseSaid::Curve(way(round), degrees),
            CourseSaid::Lane(along, lane) => {
                CourseSaid::Lane(if mirror { along } else { along.other() }, lane)
            }
            other => other,
        };
        let mut passes = Vec::with_capacity(going.passes.len());
        for pass in &going.passes {
            passes.push(self.pass(ground, *pass)?);
        }
        Some(Going {
            course,
            passes,
            beside: match going.beside {
                Some((number, side)) => Some((self.number(ground, number)?, way(side))),
                None => None,
            },
            to: match going.to {
                Some(place) => Some(self.said(ground, place)?),
                None => None,
            },
            turned: sign * going.turned,
            set_off: sign * going.set_off,
            bend: sign * going.bend,
            ..going.clone()
        })
    }

    fn pass(self, ground: &Ground, pass: Pass) -> Option<Pass> {
        let shoulder = if self == Self::Mirror { pass.shoulder.other() } else { pass.shoulder };
        Some(Pass { number: self.number(ground, pass.number)?, shoulder, ..pass })
    }

    fn said(self, ground: &Ground, place: PlaceSaid) -> Option<PlaceSaid> {
        let mirror = self == Self::Mirror;
        Some(match place {
            PlaceSaid::Spot(place) => PlaceSaid::Spot(self.place(ground, place)?),
            PlaceSaid::Beside(number, way, line) => {
                PlaceSaid::Beside(self.number(ground, number)?, if mirror { way.other() } else { way }, line)
            }
            PlaceSaid::BackToBack(number) => PlaceSaid::BackToBack(self.number(ground, number)?),
            PlaceSaid::FaceToFace(number) => PlaceSaid::FaceToFace(self.number(ground, number)?),
            PlaceSaid::FromHome(metres, eighth) => PlaceSaid::FromHome(metres, self.eighth(eighth)),
            // Levels are told by the numbers of the ranks, which only a mirror keeps.
            PlaceSaid::Lane(..) if !mirror => return None,
            PlaceSaid::Home | PlaceSaid::Middle | PlaceSaid::Lane(..) => place,
        })
    }

    fn facing(self, ground: &Ground, facing: Facing) -> Option<Facing> {
        let mirror = self == Self::Mirror;
        Some(match facing {
            Facing::Number(number) => Facing::Number(self.number(ground, number)?),
            Facing::Up if !mirror => Facing::Down,
            Facing::Down if !mirror => Facing::Up,
            Facing::Eighth(eighth) => Facing::Eighth(self.eighth(eighth)),
            Facing::Partner | Facing::Up | Facing::Down | Facing::In | Facing::Out => facing,
        })
    }

    fn eighth(self, eighth: u8) -> u8 {
        if self == Self::Mirror { (8 - eighth % 8) % 8 } else { (eighth + 4) % 8 }
    }

    fn angle(self, degrees: f64) -> f64 {
        if self == Self::Mirror { -degrees } else { degrees + 180.0 }
    }
}
