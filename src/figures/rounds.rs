//! What whole rounds and half rounds share: the circle that a set makes when it dances round its middle.

use super::{Choice, Kind};
use crate::dance::{Leg, LegFacing, Part, PlaceNumber, SetKind, Turn, Way};
use crate::motion::{Ground, ease, wrap_half};

/// Which way round.
pub(super) const WAY: Choice = Choice {
    key: "way",
    label: "way round",
    help: "which way round, seen from above",
    kind: Kind::Word(&["clockwise", "anticlockwise"]),
};

/// Points on the way round half a circle.
const POINTS: usize = 7;

/// Sets up to so many times as long as they are wide dance in a circle.
const ROUND_ENOUGH: f64 = 2.0;

/// How far from the middle a way round may be on the whole so that half of it can be danced in three bars in steps of 0.8 m
/// (common practice, no source; worked out from it), metres.
const DANCED: f64 = 2.45;
/// The least way round the circle for each dancer, metres: bodies and a little room.
const EACH: f64 = 0.9;

/// The circle of a set.
pub(super) struct Circle {
    /// Half its width across the set and half its length along it, metres: the same unless the set is long.
    radii: (f64, f64),
    rounds: Vec<Round>,
}

/// Where a dancer joins the circle.
#[derive(Clone, Copy)]
struct Round {
    /// Degrees clockwise from up, seen from the middle.
    angle: f64,
    /// Metres from the middle.
    radius: f64,
    /// Degrees to move round so that all are evenly spread.
    spread: f64,
    /// Where the dancer stands at first.
    home: (f64, f64),
}

/// Half a circle to dance.
#[derive(Clone, Copy)]
pub(super) struct HalfRound {
    /// The count at which it begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// The facing in which it begins, degrees.
    pub from: f64,
    /// Degrees round from home at which it begins.
    pub turned: f64,
    /// 1 to go clockwise seen from above, -1 anticlockwise.
    pub sign: f64,
    /// The way of the spin at its start.
    pub spin: Way,
    /// Whether it ends on the circle, and not in a place of the set.
    pub stays: bool,
}

impl HalfRound {
    /// The first half, from home: the three bars before the jump.
    pub fn first(from: f64, sign: f64) -> Self {
        Self { begin: 0.0, end: 12.0, from, turned: 0.0, sign, spin: Way::Right, stays: false }
    }
}

impl Circle {
    /// The circle of a set: as wide as its spots are far from the middle on the whole, evenly filled.
    pub fn of(ground: &Ground) -> Self {
        let mut rounds: Vec<Round> = ground
            .stands
            .iter()
            .map(|stand| Round {
                angle: stand.x.atan2(stand.y).to_degrees(),
                radius: stand.x.hypot(stand.y),
                spread: 0.0,
                home: (stand.x, stand.y),
            })
            .collect();
        let count = rounds.len().max(1) as f64;
        let radius = rounds.iter().map(|round| round.radius).sum::<f64>() / count;
        let mut order: Vec<usize> = (0..rounds.len()).collect();
        let angle = |index: &usize| rounds.get(*index).map_or(0.0, |round| round.angle);
        order.sort_by(|one, other| angle(one).total_cmp(&angle(other)));
        let even: Vec<f64> = (0..order.len()).map(|rank| 360.0 * rank as f64 / count).collect();
        let mean = order.iter().zip(&even).map(|(index, even)| angle(index) - even).sum::<f64>() / count;
        for (index, even) in order.iter().zip(&even) {
            if let Some(round) = rounds.get_mut(*index) {
                round.spread = wrap_half(even + mean - round.angle);
            }
        }
        // A set much longer than it is wide makes an oval; a ring is round however few dance it.
        let half_width = ground.stands.iter().map(|stand| stand.x.abs()).fold(0.1, f64::max);
        let half_length = ground.stands.iter().map(|stand| stand.y.abs()).fold(0.1, f64::max);
        let long = if ground.kind == SetKind::Ring { 1.0 } else { half_length / half_width };
        let stretch = (long / ROUND_ENOUGH).max(1.0).sqrt();
        // A wide ring draws in as it goes round: three tenths of the way they are between their spots and the circle.
        let drawn_in = ((DANCED - 0.3 * radius) / 0.7).max(EACH * count / std::f64::consts::TAU);
        let radius = if ground.kind == SetKind::Ring { radius.min(drawn_in) } else { radius };
        Self { radii: (radius / stretch, radius * stretch), rounds }
    }

    /// Whether the dancer in a place is too near the middle to go round it.
    pub fn is_middle(&self, place: PlaceNumber) -> bool {
        self.rounds.get(place.index()).is_none_or(|round| round.radius < 0.05)
    }

    /// Puts half a circle into a part: a spin at its start, and the way round, facing along it.
    pub fn dance(&self, part: &mut Part, half: HalfRound) {
        let Some(round) = self.rounds.get(part.place.index()) else { return };
        let points: Vec<(f64, f64)> =
            (1..=POINTS).map(|point| self.place(round, point as f64 / (POINTS + 1) as f64, half)).collect();
        let back = if (half.turned + half.sign * 180.0).rem_euclid(360.0).abs() < 1.0 { 1.0 } else { -1.0 };
        let (x, y) = if half.stays {
            self.place(round, 1.0, half)
        } else {
            (back * round.home.0, back * round.home.1)
        };
        part.legs.push(Leg::smooth(half.begin, half.end, &points, x, y).facing(LegFacing::Forwards));
        // The spin ends facing along the circle, where the dancer is a quarter of this half round.
        let along = round.angle + half.turned + half.sign * (0.25 * 180.0 + 90.0);
        // A spin is most of the way round at the least: where the short way would do, it goes round once more.
        let short = ((along - half.from) * half.spin.sign()).rem_euclid(360.0);
        let spins = u32::from(short < 120.0);
        part.turns.push(Turn { spins, ..Turn::to_face(half.begin, half.begin + 3.5, half.spin, along) });
    }

    /// The facing, degrees, towards the middle of the set from where half a circle ends that ends on it.
    pub fn facing_in(&self, place: PlaceNumber, half: HalfRound) -> f64 {
        let end = self.rounds.get(place.index()).map_or((0.0, 0.0), |round| self.place(round, 1.0, half));
        (-end.0).atan2(-end.1).to_degrees().rem_euclid(360.0)
    }

    /// The place of a dancer a share of half a circle on.
    fn place(&self, round: &Round, share: f64, half: HalfRound) -> (f64, f64) {
        let joined = ease(if half.stays { share } else { share.min(1.0 - share) } / 0.3);
        let turned = half.turned + half.sign * 180.0 * share;
        let (own_sin, own_cos) = (round.angle + turned).to_radians().sin_cos();
        let (sin, cos) = (round.angle + round.spread + turned).to_radians().sin_cos();
        let between = |own: f64, circle: f64| own + (circle - own) * joined;
        (
            between(round.radius * own_sin, self.radii.0 * sin),
            between(round.radius * own_cos, self.radii.1 * cos),
        )
    }
}

/// The turn that finishes a half in a facing: the shorter way from however the dancer arrives, and on the way of the
/// round at exactly half a turn.
pub(super) fn finish(begin: f64, end: f64, sign: f64, face: f64) -> Turn {
    Turn::shorter(begin, end, if sign < 0.0 { Way::Left } else { Way::Right }, face)
}

/// The facing at the place half-way round, towards the partner there.
pub(super) fn facing_there(ground: &Ground, place: PlaceNumber) -> f64 {
    let home = ground.stand(place).map_or(0.0, |stand| stand.facing);
    ground.opposite(place).and_then(|other| ground.stand(other)).map_or(home + 180.0, |other| other.facing)
}
