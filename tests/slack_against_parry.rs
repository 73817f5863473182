//! How late or early dancers may be, against the collision library parry2d, which knows nothing of dancing: one of two is shifted by each
//! 64th of a count, bodies as polygons of 64 corners, until they touch. Random dances for 4 to 12, and all named figures.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Extra, FaultLimits, Figure, Leg, LegFacing, Part, Set, SetKind, Spot, Turn, Way, read,
};
use bellpad::faults::{Body, MOST_SHIFT, Slack, ToWatch, WatchKind, Watched, asides, slacks};
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

    /// The least shifts, counts, at which one who is late touches another between two looks of the other's: at all, and deeper than a graze.
    fn touch(&self, (late, other): (usize, usize), (from, to): (usize, usize)) -> [Option<f64>; 2] {
        let looks = self.stands[late].len() - 1;
        let mut first = [None; 2];
        for shift in 1..=(MOST_SHIFT * PARTS as f64) as usize {
            let owns = from.saturating_sub(shift)..=(to.min(looks).saturating_sub(shift));
            let owns = owns.filter(|own| own + shift >= from && own + shift <= looks);
            let deepest = owns
                .map(|own| self.space(self.stands[late][own], self.stands[other][own + shift]))
                .fold(f64::INFINITY, f64::min);
            for (first, depth) in first.iter_mut().zip([0.0, -GRAZE]) {
                if first.is_none() && deepest < depth {
                    *first = Some(shift as f64 / PARTS as f64);
                }
            }
            if first[1].is_some() {
                break;
            }
        }
        first
    }

    /// The looks between which two meet once: from one moment at which they are farthest apart to the next, for each time that they are
    /// nearer than 1.2 m for a quarter of a count at least.
    fn meetings(&self, one: usize, other: usize) -> Vec<(usize, usize)> {
        let apart = |look: usize| {
            let (a, b) = (self.stands[one][look], self.stands[other][look]);
            (a.0 - b.0).hypot(a.1 - b.1)
        };
        let last = self.stands[one].len() - 1;
        let mut near: Vec<(usize, usize)> = Vec::new();
        for look in (0..=last).filter(|look| apart(*look) < 1.2) {
            match near.last_mut() {
                // Who part for less than a quarter of a count have not parted.
                Some(run) if look - run.1 <= PARTS / 4 + 1 => run.1 = look,
                _ => near.push((look, look)),
            }
        }
        near.retain(|(from, to)| to - from > PARTS / 4);
        let ends = near.windows(2).map(|pair| {
            let far = (pair[0].1..pair[1].0).max_by(|one, two| apart(*one).total_cmp(&apart(*two)));
            far.unwrap()
        });
        let ends: Vec<usize> = [0].into_iter().chain(ends).chain([last]).collect();
        if near.is_empty() { Vec::new() } else { ends.windows(2).map(|pair| (pair[0], pair[1])).collect() }
    }
}

/// Whether what is told of all pairs of a figure, of each time that they meet, is what the library finds: how many touch, and what is wrong.
fn compare(motion: &Motion, span: &Span) -> (usize, Vec<String>) {
    let body = Body::of(&FaultLimits::default());
    let found = slacks(body, span, motion.dancers(), &mut || true);
    let looked = Looked::of(motion, span);
    let last = looked.stands[0].len() - 1;
    let (mut touched, mut wrong) = (0, Vec::new());
    for late in Dancer::all(motion.dancers()) {
        for other in Dancer::all(motion.dancers()).filter(|other| *other != late) {
            let (one, two) = (span.track(late).unwrap(), span.track(other).unwrap());
            if one.moves().is_empty() && two.moves().is_empty() {
                continue;
            }
            let of_pair = |slack: &&Slack| (slack.dancer, slack.other) == (late, other) && slack.counts > 0.0;
            let told: Vec<&Slack> = found.iter().filter(of_pair).collect();
            // Whatever is told is a touch, but what is said not to have been worked out.
            for slack in told.iter().filter(|slack| slack.met) {
                let depth = looked.space(one.stand(slack.due), two.stand(slack.at));
                if depth > GRAZE || (slack.at - slack.due - slack.counts).abs() > 1e-9 {
                    wrong.push(format!("{late} late for {other}: told {slack:?}, {depth}"));
                }
                let early = |slack: &&Slack, same: &Slack| {
                    (slack.dancer, slack.other) == (other, late)
                        && (slack.counts + same.counts).abs() + (slack.at - same.due).abs() < 1e-9
                };
                if !found.iter().any(|known| early(&known, slack)) {
                    wrong.push(format!("{other} early for {late} is not told: {slack:?}"));
                }
            }
            // No touch is missed and none told later than it is: of each time that they meet, and of the whole.
            let mut windows = looked.meetings(late.index(), other.index());
            windows.push((0, last));
            for (from, to) in windows {
                // Where one meeting ends and the next begins is known to a quarter of a count.
                let bit = PARTS / 4;
                let least = (if from == 0 { 0 } else { from + bit }, if to == last { to } else { to - bit });
                if least.0 >= least.1 {
                    continue;
                }
                let within = |slack: &&&Slack| {
                    let at = slack.at * PARTS as f64;
                    at >= from.saturating_sub(bit) as f64 - 1e-6 && at <= (to + bit) as f64 + 1e-6
                };
                let told = told.iter().filter(within).map(|slack| slack.counts).fold(f64::INFINITY, f64::min);
                let [_, deep] = looked.touch((late.index(), other.index()), least);
                if deep.is_some_and(|deep| told > deep + WITHIN) {
                    wrong.push(format!("{late} late for {other}, {from} to {to}: told {told}, not {deep:?}"));
                }
                touched += usize::from(deep.is_some());
            }
        }
    }
    let found = asides(body, span, motion.dancers(), &mut || true);
    for one in Dancer::all(motion.dancers()) {
        for other in Dancer::all(motion.dancers()).filter(|other| *other != one) {
            let (own, their) = (&looked.stands[one.index()], &looked.stands[other.index()]);
            for (from, to) in looked.meetings(one.index(), other.index()) {
                let bit = PARTS / 4;
                let (first, last) = (from.saturating_sub(bit), (to + bit).min(last));
                let told = found.iter().filter(|aside| {
                    let at = aside.at * PARTS as f64;
                    (aside.dancer, aside.other) == (one, other) && at >= first as f64 && at <= last as f64
                });
                let told = told.map(|aside| aside.metres).fold(f64::INFINITY, f64::min);
                let least = |from: usize, to: usize| {
                    (from..=to)
                        .map(|look| looked.whole_space(own[look], their[look]))
                        .fold(f64::INFINITY, f64::min)
                };
                let (here, about) = (least(from, to), least(first, last));
                // Who touch are told of as a clash, and not how far aside.
                if about > 0.0 && (told > here + 0.005 || told < about - 0.005) {
                    wrong.push(format!("{one} aside to {other}, {from} to {to}: told {told}, seen {here}"));
                }
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
        names.iter().flat_map(|name| [4, 6, 8, 10, 12].map(|dancers| (*name, dancers))).collect();
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

/// The span of a figure by its name, in its dance.
fn figure_of(dance: &Dance, name: &str) -> (Motion, SpanIndex) {
    let motion = motion_of(dance, None).unwrap();
    let found = motion.indexed_spans().find(|(_, span)| dance.figures[span.figure].name == name);
    let index = found.unwrap_or_else(|| panic!("no figure {name}")).0;
    (motion, index)
}

/// Who is late, or early, only from a count on: in the heys, of four in a sample too, the least that it takes is what the library finds of all
/// that is to come, at each half count.
#[test]
fn from_any_count_on_no_touch_is_missed_that_is_to_come() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("dances/kettle-bridge.dance.json");
    let mut dances = vec![(read(&std::fs::read(path).unwrap()).unwrap(), "Hey for four".to_owned())];
    for (name, dancers) in
        [("hey", 6), ("half-hey", 6), ("hey", 8), ("back-to-back", 4), ("cross-over", 6), ("whole-gip", 6)]
    {
        let mut dance = Dance::new("Named", Set::longways(dancers, 2.4, 1.8));
        dance.figures.push(named_figure(name, Extra::new(), &dance.set).unwrap());
        let title = dance.figures[0].name.clone();
        dances.push((dance, title));
    }
    let found: Vec<(usize, Vec<String>)> =
        dances.par_iter().map(|(dance, name)| from_on(dance, name)).collect();
    none_is_wrong(&found, 300);
}

/// How many are told to touch from some count on, and what is wrong.
fn from_on(dance: &Dance, name: &str) -> (usize, Vec<String>) {
    let (motion, index) = figure_of(dance, name);
    let span = motion.span(index).unwrap();
    let body = Body::of(&dance.limits);
    let list = ToWatch::of_span(dance, &motion, index, &mut || true).unwrap();
    let looked = Looked::of(&motion, span);
    let last = looked.stands[0].len() - 1;
    let dancers = motion.dancers();
    // Of one who is late for another: at each look of theirs the least shift at which they overlap, and nearly do, looks.
    let mut least = vec![vec![[usize::MAX; 2]; last + 1]; dancers * dancers];
    for late in 0..dancers {
        for other in (0..dancers).filter(|other| *other != late) {
            for own in (0..=last).step_by(2) {
                for shift in (0..=PARTS * 2).step_by(2).filter(|shift| own + shift <= last) {
                    let space = looked.space(looked.stands[late][own], looked.stands[other][own + shift]);
                    let known = &mut least[late * dancers + other][own];
                    if space < 0.03 {
                        known[1] = known[1].min(shift);
                    }
                    if space < -GRAZE && shift > 0 {
                        known[0] = shift;
                        break;
                    }
                }
            }
        }
    }
    let (mut touched, mut wrong) = (0, Vec::new());
    for dancer in 0..dancers {
        for half in 0..=last / 32 {
            let from = half * 32;
            let told = list.band_from((body, span), Dancer(dancer), from as f64 / PARTS as f64);
            for (late, told) in [true, false].into_iter().zip(told) {
                let pairs = (0..dancers)
                    .filter(|other| *other != dancer)
                    .map(|other| if late { dancer * dancers + other } else { other * dancers + dancer });
                let of = |since: usize, which: usize| {
                    let all = pairs.clone().flat_map(|pair| least[pair][since..].iter());
                    all.map(|known| known[which]).min().unwrap()
                };
                let (deep, near) = (of(from, 0), of(from.saturating_sub(4), 1));
                let in_counts =
                    |looks: usize| if looks > last { f64::INFINITY } else { looks as f64 / PARTS as f64 };
                touched += usize::from(told < MOST_SHIFT);
                let nearest = in_counts(near) - 1.0 / 16.0;
                if told > in_counts(deep) + WITHIN || (told < MOST_SHIFT && told < nearest) {
                    let (deep, near) = (in_counts(deep), in_counts(near));
                    let way = if late { "late" } else { "early" };
                    let at = from as f64 / PARTS as f64;
                    wrong.push(format!(
                        "{name}: {} {way} from {at}: told {told}, not {deep} ({near})",
                        dancer + 1
                    ));
                }
            }
        }
    }
    (touched, wrong)
}

/// Who takes the whole way a tenth short: on random dances whoever is told to be met first is whom the library finds, and nobody else.
#[test]
fn who_is_a_tenth_short_meets_whom_the_library_finds() {
    let mut chance = Chance(0x0123_4567_89AB_CDEF);
    let dances: Vec<Dance> = (0..120).map(|_| random_dance(&mut chance)).collect();
    let found: Vec<(usize, Vec<String>)> = dances.par_iter().map(a_tenth_short).collect();
    none_is_wrong(&found, 30);
}

fn a_tenth_short(dance: &Dance) -> (usize, Vec<String>) {
    let motion = motion_of(dance, None).unwrap();
    let span = motion.span(SpanIndex(0)).unwrap();
    let list = ToWatch::of_span(dance, &motion, SpanIndex(0), &mut || true).unwrap();
    let looked = Looked::of(&motion, span);
    let (mut touched, mut wrong) = (0, Vec::new());
    for dancer in 0..motion.dancers() {
        let own = &looked.stands[dancer];
        let (x0, y0, _) = own[0];
        let short: Vec<(f64, f64, f64)> =
            own.iter().map(|(x, y, facing)| (x0 + (x - x0) * 0.9, y0 + (y - y0) * 0.9, *facing)).collect();
        // The first look at which two are nearer than so much.
        let first = |way: &[(f64, f64, f64)], other: usize, space: f64| {
            let theirs = &looked.stands[other];
            (0..way.len()).find(|look| looked.space(way[*look], theirs[*look]) < space)
        };
        let others: Vec<usize> = (0..motion.dancers()).filter(|other| *other != dancer).collect();
        let told: Vec<&Watched> = list
            .all
            .iter()
            .filter(|one| one.kind == WatchKind::Short && one.dancers[0] == Dancer(dancer))
            .collect();
        let moves = !span.track(Dancer(dancer)).unwrap().moves().is_empty();
        // Who touches as drawn is told of as a clash; who just does or does not may be.
        let clear = |other: &&usize| first(own, **other, GRAZE).is_none();
        let deep = others.iter().filter(clear).filter_map(|other| first(&short, *other, -GRAZE)).min();
        for one in &told {
            let other = one.dancers[1].index();
            let at = first(&short, other, GRAZE).map(|look| look as f64 / PARTS as f64);
            let not_drawn = first(own, other, -GRAZE).is_none();
            if !not_drawn || at.is_none_or(|at| at > one.at + WITHIN) {
                wrong.push(format!("{}: {at:?}, {not_drawn}", one.text));
            }
            let gone = (own[(one.at * PARTS as f64) as usize].0 - x0)
                .hypot(own[(one.at * PARTS as f64) as usize].1 - y0);
            if (one.slack - 0.1 * gone).abs() > 0.02 || one.unit() != "metres" {
                wrong.push(format!("{}: {} of {gone}", one.text, one.slack));
            }
        }
        touched += told.len();
        let told = told.first().map_or(f64::INFINITY, |one| one.at);
        if moves && deep.is_some_and(|deep| told > deep as f64 / PARTS as f64 + WITHIN) {
            wrong.push(format!("{} a tenth short: told at {told}, not {deep:?}", dancer + 1));
        }
    }
    (touched, wrong)
}
