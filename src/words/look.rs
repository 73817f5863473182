use super::facts::{Facing, Lane, Level, PlaceSaid};
use crate::dance::{Dancer, PlaceNumber, SetKind, Way};
use crate::motion::{Ground, Motion, Span, Track, wrap_half, wrap_whole};

/// Near enough to a spot or a line to be there, metres.
const NEAR: f64 = 0.35;
/// Two whose middles are so near are with each other, metres.
const TOGETHER: f64 = 1.2;
/// Two who are not partners are side by side when they are nearer than this, metres.
const SIDE_BY_SIDE: f64 = 0.85;
/// A facing so near to a direction looks that way, degrees.
const LOOKS: f64 = 22.5;

/// One dancer in one figure, and everyone else there.
pub(super) struct OneDancer<'a> {
    pub ground: &'a Ground,
    pub motion: &'a Motion,
    pub span: &'a Span,
    /// Who it is.
    pub dancer: Dancer,
    /// The dancer's way through the figure.
    pub track: &'a Track,
}

impl OneDancer<'_> {
    /// Where the dancer is and which way they face at a count.
    pub fn stand(&self, count: f64) -> (f64, f64, f64) {
        self.track.stand(count)
    }

    /// Everyone else, with their way through the figure.
    pub fn others(&self) -> impl Iterator<Item = (Dancer, &Track)> {
        Dancer::all(self.ground.dancers())
            .filter(|other| *other != self.dancer)
            .filter_map(|other| Some((other, self.span.track(other)?)))
    }

    /// The place that the dancer is in at a count.
    pub fn place(&self, count: f64) -> PlaceSaid {
        let (x, y, facing) = self.stand(count);
        let ground = self.ground;
        let home = ground.stand(self.dancer.home()).map_or((0.0, 0.0), |stand| (stand.x, stand.y));
        if (x - home.0).hypot(y - home.1) < NEAR {
            return PlaceSaid::Home;
        }
        let spot = ground
            .places()
            .zip(&ground.stands)
            .map(|(place, stand)| (place, (stand.x - x).hypot(stand.y - y)))
            .min_by(|one, other| one.1.total_cmp(&other.1));
        if let Some((place, _)) = spot.filter(|(_, far)| *far < NEAR) {
            return PlaceSaid::Spot(place);
        }
        if let Some(place) = self.with_another(count, (x, y, facing)) {
            return place;
        }
        if x.hypot(y) < NEAR {
            return PlaceSaid::Middle;
        }
        if ground.kind == SetKind::Longways && ground.ranks() > 1 {
            return PlaceSaid::Lane(lane(ground, x), level(ground, y));
        }
        let (dx, dy) = (x - home.0, y - home.1);
        PlaceSaid::FromHome(dx.hypot(dy), eighth(dx.atan2(dy).to_degrees()))
    }

    /// Being side by side, back to back or face to face with whoever is nearest.
    fn with_another(&self, count: f64, (x, y, facing): (f64, f64, f64)) -> Option<PlaceSaid> {
        let (other, (to_x, to_y, theirs)) =
            self.others()
                .map(|(other, track)| (other, track.stand(count)))
                .min_by(|(_, a), (_, b)| (a.0 - x).hypot(a.1 - y).total_cmp(&(b.0 - x).hypot(b.1 - y)))?;
        let apart = (to_x - x).hypot(to_y - y);
        if !(0.05..=TOGETHER).contains(&apart) {
            return None;
        }
        let there = (to_x - x).atan2(to_y - y).to_degrees();
        let (mine, their) = (wrap_half(there - facing), wrap_half(there + 180.0 - theirs));
        let number = other.number();
        let side = |bearing: f64| (65.0..=115.0).contains(&bearing.abs());
        if mine.abs() < 45.0 && their.abs() < 45.0 {
            Some(PlaceSaid::FaceToFace(number))
        } else if mine.abs() > 135.0 && their.abs() > 135.0 {
            Some(PlaceSaid::BackToBack(number))
        } else if side(mine)
            && side(their)
            && (apart < SIDE_BY_SIDE || self.ground.partner(self.dancer.home()) == Some(other.home()))
        {
            let on_line = self.ground.ranks() > 0 && x.abs() < NEAR && to_x.abs() < NEAR;
            Some(PlaceSaid::Beside(number, side_of(mine), on_line))
        } else {
            None
        }
    }

    /// What the dancer faces at a count.
    pub fn facing(&self, count: f64) -> Facing {
        let (x, y, facing) = self.stand(count);
        let off = |to: (f64, f64)| wrap_half((to.0 - x).atan2(to.1 - y).to_degrees() - facing).abs();
        let sees = |other: Dancer, within: f64| {
            self.span.track(other).is_some_and(|track| {
                let (to_x, to_y, _) = track.stand(count);
                (to_x - x).hypot(to_y - y) > 0.05 && off((to_x, to_y)) <= within
            })
        };
        if self.ground.partner(self.dancer.home()).is_some_and(|partner| sees(partner.first_dancer(), LOOKS))
        {
            return Facing::Partner;
        }
        let from_up = wrap_half(facing);
        if from_up.abs() <= 10.0 {
            return Facing::Up;
        }
        if from_up.abs() >= 170.0 {
            return Facing::Down;
        }
        if let Some(other) = self
            .ground
            .opposite(self.dancer.home())
            .map(PlaceNumber::first_dancer)
            .filter(|&other| other != self.dancer && sees(other, 10.0))
        {
            return Facing::Number(other.number());
        }
        let longways = self.ground.kind == SetKind::Longways && self.ground.ranks() > 0;
        // In two files the way in is straight across.
        let middle = if longways { (0.0, y) } else { (0.0, 0.0) };
        if (middle.0 - x).hypot(middle.1 - y) > NEAR && self.ground.dancers() > 1 {
            match off(middle) {
                off if off <= LOOKS => return Facing::In,
                off if off >= 180.0 - LOOKS => return Facing::Out,
                _ => {}
            }
        }
        Facing::Eighth(eighth(facing))
    }
}

/// The side that a bearing lies on, degrees clockwise from straight ahead.
pub(super) fn side_of(bearing: f64) -> Way {
    if wrap_half(bearing) < 0.0 { Way::Left } else { Way::Right }
}

/// The way that an angle clockwise turns.
pub(super) fn way_of(degrees: f64) -> Way {
    if degrees < 0.0 { Way::Left } else { Way::Right }
}

/// The nearest eighth of a turn, 0 to 7.
pub(super) fn eighth(degrees: f64) -> u8 {
    ((wrap_whole(degrees) / 45.0).round() as u8) % 8
}

/// The lane of a longways set that an x lies in.
pub(super) fn lane(ground: &Ground, x: f64) -> Lane {
    let (half, off) = (ground.across / 2.0, x.abs());
    if off < 0.2_f64.min(half / 2.0) {
        Lane::Middle
    } else if off < half - 0.25 {
        Lane::Inside
    } else if off > half + 0.2 {
        Lane::Outside
    } else {
        Lane::File
    }
}

/// Where along a longways set a y lies.
fn level(ground: &Ground, y: f64) -> Level {
    let half = ground.length() / 2.0;
    if y > half + NEAR {
        return Level::Above;
    }
    if y < -half - NEAR {
        return Level::Below;
    }
    let rank = ((half - y) / ground.along.max(1e-9)).clamp(0.0, ground.ranks().saturating_sub(1) as f64);
    let numbers = |rank: f64| PlaceNumber::of_rank(rank as usize);
    if (rank - rank.round()).abs() * ground.along < NEAR {
        let [odd, even] = numbers(rank.round());
        Level::With(odd, even)
    } else {
        let ([above, _], [below, _]) = (numbers(rank.floor()), numbers(rank.ceil()));
        Level::Between(above, below)
    }
}
