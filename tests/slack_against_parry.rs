//! How late or early dancers may be, against the collision library parry2d, which knows nothing of dancing: one of two is shifted by each
//! 64th of a count, bodies as polygons of 64 corners, until they touch. Random dances for 4 to 12, and all named figures.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Extra, FaultLimits, Figure, Leg, LegFacing, Part, Set, SetKind, Spot, Turn, Way,
};
use bellpad::faults::{Aside, Body, MOST_SHIFT, Slack, asides, slacks};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, Span, SpanIndex};
use parry2d_f64::math::{Pose, Vector};
use parry2d_f64::query::contact;
use parry2d_f64::shape::ConvexPolygon;
use rayon::prelude::*;

/// Parts of a count by which somebody is shifted.
const PARTS: usize = 64;
/// How far the two may differ, counts.
const WITHIN: f64 = 1.0 / 32.0;
/// A touch no deeper than this may be missed, or found where the polygons do not quite touch, metres.
const GRAZE: f64 = 0.002;

/// Numbers by chance, the same in each run (G. Marsaglia, "Xorshift RNGs", 2003).
struct Chance(u64);

impl Chance {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }
}

/// Some dancers who go anywhere, some of them turning, not quite on top of one another.
fn random_dance(chance: &mut Chance) -> Dance {
    let dancers = 4 + chance.between(0.0, 8.99) as u32;
    let wide = f64::from(dancers).sqrt() * 0.9;
    let mut set = Set::longways(2, 2.0, 2.0);
    (set.kind, set.dancers) = (SetKind::Spots, dancers);
    for _ in 0..dancers {
        let (x, y) = (chance.between(-wide, wide), chance.between(-wide, wide));
        set.spots.push(Spot { x, y, facing: chance.between(0.0, 360.0), extra: Extra::new() });
    }
    let mut dance = Dance::new("Random", set);
    let bars = 2 + chance.between(0.0, 2.99) as u32;
    let mut figure = Figure::drawn("any", "Any", bars);
    "ds".clone_into(&mut figure.phrase);
    let counts = f64::from(bars * 4);
    for (number, spot) in (1..=dancers).zip(dance.set.spots.clone()) {
        let mut part = Part::still(number);
        let (mut at, mut here) = (chance.between(0.0, 4.0), (spot.x, spot.y));
        while at < counts - 1.0 {
            let end = (at + chance.between(2.0, 6.0)).min(counts);
            here = (here.0 + chance.between(-1.8, 1.8), here.1 + chance.between(-1.8, 1.8));
            let mut leg = Leg::straight(at, end, here.0, here.1);
            if chance.between(0.0, 1.0) < 0.4 {
                leg.facing = LegFacing::Forwards;
            }
            part.legs.push(leg);
            at = end + chance.between(0.0, 2.0);
        }
        if chance.between(0.0, 1.0) < 0.5 {
            let begin = chance.between(0.0, counts - 3.0);
            part.turns.push(Turn::to_face(begin, begin + 2.0, Way::Left, chance.between(0.0, 360.0)));
        }
        figure.parts.push(part);
    }
    dance.figures.push(figure);
    dance
}

/// The bodies of a dance at each 64th of a count.
struct Looked {
    shape: ConvexPolygon,
    /// For each dancer, each look.
    stands: Vec<Vec<(f64, f64, f64)>>,
}

impl Looked {
    fn of(motion: &Motion, span: &Span) -> Self {
        let corners = (0..64).map(|corner| {
            let (sin, cos) = (f64::from(corner) / 64.0 * std::f64::consts::TAU).sin_cos();
            Vector::new(0.25 * cos, 0.14 * sin)
        });
        let looks = ((span.end() - span.begin()) * PARTS as f64) as usize;
        let stands = Dancer::all(motion.dancers()).map(|dancer| {
            let track = span.track(dancer).unwrap();
            (0..=looks).map(|look| track.stand(look as f64 / PARTS as f64)).collect()
        });
        Self {
            shape: ConvexPolygon::from_convex_hull(&corners.collect::<Vec<_>>()).unwrap(),
            stands: stands.collect(),
        }
    }

    /// The space between two bodies; a good deal where they are well apart.
    fn space(&self, (ax, ay, a): (f64, f64, f64), (bx, by, b): (f64, f64, f64)) -> f64 {
        let middles = (ax - bx).hypot(ay - by);
        if !(0.27..=0.51).contains(&middles) {
            return middles - 0.4;
        }
        // The library turns anticlockwise.
        let pose = |x: f64, y: f64, facing: f64| Pose::new(Vector::new(x, y), -facing.to_radians());
        let met = contact(&pose(ax, ay, a), &self.shape, &pose(bx, by, b), &self.shape, 0.3).unwrap();
        met.map_or(0.3, |contact| contact.dist)
    }

    /// The same, of all who may be near each other.
    fn whole_space(&self, (ax, ay, a): (f64, f64, f64), (bx, by, b): (f64, f64, f64)) -> f64 {
        if (ax - bx).hypot(ay - by) > 1.2 {
            return f64::INFINITY;
        }
        let pose = |x: f64, y: f64, facing: f64| Pose::new(Vector::new(x, y), -facing.to_radians());
        let met = contact(&pose(ax, ay, a), &self.shape, &pose(bx, by, b), &self.shape, 1.5).unwrap();
        met.map_or(f64::INFINITY, |contact| contact.dist)
    }

    /// The least shift, counts, at which one who is late touches another, and how deep.
    fn touch(&self, late: usize, other: usize) -> Option<(f64, f64)> {
        let looks = self.stands[late].len() - 1;
        (1..=(MOST_SHIFT * PARTS as f64) as usize).find_map(|shift| {
            let deepest = (0..=looks.saturating_sub(shift))
                .map(|own| self.space(self.stands[late][own], self.stands[other][own + shift]))
                .fold(f64::INFINITY, f64::min);
            (deepest < 0.0).then_some((shift as f64 / PARTS as f64, deepest))
        })
    }
}

/// Whether what is told of all pairs of a figure is what the library finds: how many touch, and what is wrong.
fn compare(motion: &Motion, span: &Span) -> (usize, Vec<String>) {
    let body = Body::of(&FaultLimits::default());
    let found = slacks(body, span, motion.dancers(), &mut || true);
    let looked = Looked::of(motion, span);
    let (mut touched, mut wrong) = (0, Vec::new());
    for late in Dancer::all(motion.dancers()) {
        for other in Dancer::all(motion.dancers()).filter(|other| *other != late) {
            let of_pair = |slack: &&Slack| (slack.dancer, slack.other) == (late, other) && slack.counts > 0.0;
            let told = found.iter().filter(of_pair).min_by(|one, two| one.counts.total_cmp(&two.counts));
            let seen = looked.touch(late.index(), other.index());
            let deep = |slack: &Slack| {
                let at = |dancer: Dancer, count: f64| span.track(dancer).unwrap().stand(count);
                looked.space(at(late, slack.due), at(other, slack.at))
            };
            let (one, two) = (span.track(late).unwrap(), span.track(other).unwrap());
            let stand = one.moves().is_empty() && two.moves().is_empty();
            let said = format!("{late} late for {other}: told {told:?}, seen {seen:?}");
            match (told, seen) {
                _ if stand => {}
                (None, None) => {}
                (Some(slack), Some((shift, _))) if (slack.counts - shift).abs() <= WITHIN => touched += 1,
                // A touch that is found a little earlier is one.
                (Some(slack), _)
                    if deep(slack) <= GRAZE && seen.is_none_or(|(shift, _)| slack.counts < shift) =>
                {
                    touched += 1;
                }
                (_, Some((_, depth))) if depth > -GRAZE => {}
                _ => wrong.push(said),
            }
        }
    }
    let found = asides(body, span, motion.dancers(), &mut || true);
    for one in Dancer::all(motion.dancers()) {
        for other in Dancer::all(motion.dancers()).filter(|other| *other != one) {
            let of_pair = |aside: &&Aside| (aside.dancer, aside.other) == (one, other);
            let told = found.iter().filter(of_pair).map(|aside| aside.metres).fold(f64::INFINITY, f64::min);
            let (own, their) = (&looked.stands[one.index()], &looked.stands[other.index()]);
            let near = own.iter().zip(their).any(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1) < 1.1);
            let least =
                own.iter().zip(their).map(|(a, b)| looked.whole_space(*a, *b)).fold(f64::INFINITY, f64::min);
            // Who touch at one time are told of the others.
            if near && least > 0.0 && (told - least).abs() > 0.005 {
                wrong.push(format!("{one} aside to {other}: told {told}, seen {least}"));
            }
        }
    }
    (touched, wrong)
}

/// Nothing is wrong in any of them, and more than so many touch in all.
fn none_is_wrong(found: &[(usize, Vec<String>)], more_than: usize) {
    let touched: usize = found.iter().map(|(touched, _)| touched).sum();
    let wrong: Vec<&String> = found.iter().flat_map(|(_, wrong)| wrong).collect();
    let first = wrong.iter().take(10).collect::<Vec<_>>();
    assert!(wrong.is_empty(), "{} of {touched}: {first:#?}", wrong.len());
    assert!(touched > more_than, "{touched}");
}

#[test]
fn no_touch_is_missed_on_random_dances() {
    let mut chance = Chance(0x9E37_79B9_7F4A_7C15);
    let dances: Vec<Dance> = (0..500).map(|_| random_dance(&mut chance)).collect();
    let found: Vec<(usize, Vec<String>)> = dances
        .par_iter()
        .map(|dance| {
            let motion = motion_of(dance, None).unwrap();
            compare(&motion, motion.span(SpanIndex(0)).unwrap())
        })
        .collect();
    none_is_wrong(&found, 2000);
}

#[test]
fn no_touch_is_missed_in_named_figures() {
    let names: Vec<&str> = all().iter().map(|figure| figure.name).collect();
    let sets: Vec<(&str, u32)> =
        names.iter().flat_map(|name| [4, 6, 8, 12].map(|dancers| (*name, dancers))).collect();
    let found: Vec<(usize, Vec<String>)> = sets
        .par_iter()
        .filter_map(|&(name, dancers)| {
            let mut dance = Dance::new("Named", Set::longways(dancers, 2.4, 1.8));
            dance.figures.push(named_figure(name, Extra::new(), &dance.set).ok()?);
            let motion = motion_of(&dance, None).unwrap();
            let (touched, wrong) = compare(&motion, motion.span(SpanIndex(0)).unwrap());
            Some((touched, wrong.into_iter().map(|wrong| format!("{name} of {dancers}: {wrong}")).collect()))
        })
        .collect();
    none_is_wrong(&found, 100);
}
