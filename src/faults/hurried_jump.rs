use super::{found::Found, look::Look, numbers::numbers};
use crate::dance::{Dancer, FaultKind};
use crate::motion::limbs::Flight;
use crate::motion::steps::Step;
use crate::motion::{Clock, Footfall, Span, SpanIndex, Weight};
use std::collections::{BTreeMap, btree_map::Entry};

/// Under this share of what the step asks for a jump is no longer that jump (chosen for this program).
const LEAST: f64 = 0.5;
/// A hop or a spring onto a foot that is to be so high, metres, is held to it too; the usual hop gives way to the tempo.
const HIGH_HOP: f64 = 0.1;

/// Jumps for which the tempo leaves no time for half of the height that the step asks for, h = g t^2 / 8 [CALC], and those that would have
/// a body in the air for longer than anybody jumps. Of a figure those that begin in it.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let all = Dancer::all(look.motion.dancers()).flat_map(|dancer| {
        let falls = span.track(dancer).map_or(&[][..], |track| track.footing().falls());
        let mut feet = Feet::default();
        let jumps = feet.dance(falls, look.motion.known(), span.begin());
        jumps.into_iter().map(move |jump| (dancer, jump))
    });
    found.extend(told(look, span, all));
}

/// Those that begin in one figure and land in another, or are the first thing in theirs: what is before it is looked at as well.
pub(super) fn find_between(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let known = look.motion.known();
    let mut feet: Vec<Feet> = Dancer::all(look.motion.dancers()).map(|_| Feet::standing()).collect();
    for (index, span) in look.motion.indexed_spans() {
        let mut jumps = Vec::new();
        for (dancer, feet) in Dancer::all(look.motion.dancers()).zip(&mut feet) {
            let Some(track) = span.track(dancer) else { continue };
            let falls = track.footing().falls();
            let first = falls.iter().position(lands).map_or(falls.len(), |first| first + 1);
            let head = feet.dance(falls.get(..first).unwrap_or_default(), known, span.begin());
            jumps.extend(head.into_iter().map(|jump| (dancer, jump)));
            // From the beginning of the step with the last landing on.
            let last = falls.iter().rposition(lands).unwrap_or(falls.len());
            let until = falls.get(..=last).unwrap_or_default();
            let step = until.iter().rposition(|fall| fall.begins).unwrap_or(0);
            feet.dance(falls.get(step..).unwrap_or_default(), known, span.begin() + step as f64);
        }
        // Whoever is in the air still at the end comes down there.
        if index.next().index() == look.motion.spans().len() {
            let down = |(dancer, feet): (Dancer, &mut Feet)| Some((dancer, feet.come_down(span.end())?));
            jumps.extend(Dancer::all(look.motion.dancers()).zip(&mut feet).filter_map(down));
        }
        found.extend(told(look, span, jumps.into_iter()).into_iter().map(|found| (index, found)));
    }
}

/// Whether a foot lands.
fn lands(fall: &Footfall) -> bool {
    fall.weight != Weight::Air && !fall.stays
}

/// What is to be told of some jumps.
fn told(look: &Look, span: &Span, jumps: impl Iterator<Item = (Dancer, Jump)>) -> Vec<Found> {
    let mut told: Vec<Found> = Vec::new();
    let mut known: BTreeMap<(u64, u64), usize> = BTreeMap::new();
    for (dancer, jump) in jumps {
        let flight = jump.flight(look.clock);
        let air = jump.air.map(|counts| counts.map(|count| look.clock.seconds(count)));
        // Over one count in the air it may spring off a little later.
        let late = air.filter(|[first, last]| last > first && flight.begin > first + 1e-6);
        if flight.height >= LEAST * jump.asked && late.is_none() {
            continue;
        }
        // Those who jump together are told together.
        let known = known.entry((jump.lands.to_bits(), flight.height.to_bits()));
        if let Entry::Occupied(known) = known {
            if let Some(same) = told.get_mut(*known.get()) {
                same.dancers.push(dancer);
            }
            continue;
        }
        known.or_insert(told.len());
        let begin = span.begin();
        let spot = span.track(dancer).map(|track| track.stand(jump.lands - begin));
        let text = if let Some([first, _]) = late {
            format!("to be in the air for {:.1} seconds, and nobody jumps so high", flight.end - first)
        } else {
            format!(
                "time for a jump of {:.2} m only, where the step asks for {:.2} m",
                flight.height, jump.asked
            )
        };
        told.push(Found {
            kind: FaultKind::HurriedJump,
            at: (jump.air.map_or(jump.lands, |[first, _]| first) - begin).max(0.0),
            lasts: (jump.floor - begin, jump.lands - begin),
            dancers: vec![dancer],
            value: flight.height,
            limit: LEAST * jump.asked,
            text,
            spot: spot.map(|(x, y, _)| (x, y)),
        });
    }
    for jump in &mut told {
        jump.text = match jump.dancers.as_slice() {
            [one] => format!("{one} has {}", jump.text),
            all if all.len() == look.motion.dancers() => format!("everybody has {}", jump.text),
            some => format!("{} have {}", numbers(some), jump.text),
        };
    }
    told
}

/// A jump: the count of the floor before it, its first and last count in the air if it has some, and the count on which it lands; all from
/// the start of the dance.
pub(super) struct Jump {
    floor: f64,
    /// The last count on which the weight stayed on it, or that of the floor.
    stays: f64,
    air: Option<[f64; 2]>,
    lands: f64,
    /// How high the step asks for it, metres.
    asked: f64,
}

impl Jump {
    /// When it is in the air.
    pub fn flight(&self, clock: &Clock) -> Flight {
        let air = self.air.map(|counts| counts.map(|count| clock.seconds(count)));
        let floor = (clock.seconds(self.floor), clock.seconds(self.stays));
        Flight::landing(clock.seconds(self.lands), floor, air, self.asked)
    }

    /// The count on which the feet were on the floor before it, from the start of the dance.
    pub fn from(&self) -> f64 {
        self.floor
    }
}

/// Where the feet of somebody have come to: the counts of the last landing, of the last count on which the weight stayed and of those in
/// the air since then, from the start of the dance, and how high the step asks for these.
#[derive(Default)]
pub(super) struct Feet {
    /// Nothing where it is not known, as at the beginning of a figure.
    floor: Option<f64>,
    stays: Option<f64>,
    air: Option<([f64; 2], f64)>,
}

/// Before the dance everybody stands for so long, counts.
const STANDS: f64 = 10.0;

impl Feet {
    /// Of somebody before the dance.
    fn standing() -> Self {
        Self::planted(-STANDS)
    }

    /// Of somebody whose feet were on the floor at a count, from the start of the dance.
    pub fn planted(count: f64) -> Self {
        Self { floor: Some(count), ..Self::default() }
    }

    /// The jump of somebody who is in the air and lands at a count, from the start of the dance.
    fn come_down(&mut self, count: f64) -> Option<Jump> {
        let ((counts, asked), floor) = (self.air.take()?, self.floor?);
        Some(Jump { floor, stays: self.stays.unwrap_or(floor), air: Some(counts), lands: count, asked })
    }

    /// Goes on through some counts, the first of which is so many from the start of the dance: the jumps that land in them, and the hops that
    /// are to be high, of which it is known where they begin.
    pub fn dance(&mut self, falls: &[Footfall], known: &[Step], begin: f64) -> Vec<Jump> {
        let mut jumps = Vec::new();
        let (mut inside, mut last) = (0, None);
        for (index, fall) in falls.iter().enumerate() {
            let count = begin + index as f64;
            inside = if fall.begins || last != Some(fall.step) { 0 } else { inside + 1 };
            last = Some(fall.step);
            let rise = || known.get(fall.step).and_then(|step| step.rise.get(inside)).copied().unwrap_or(0.0);
            if fall.weight == Weight::Air {
                let ([first, _], asked) = self.air.unwrap_or(([count; 2], 0.0));
                self.air = Some(([first, count], asked.max(rise())));
                continue;
            }
            if fall.stays {
                self.stays = Some(count);
                continue;
            }
            let air = self.air.take();
            if let Some(floor) = self.floor {
                let stays = self.stays.unwrap_or(floor);
                if let Some((counts, asked)) = air {
                    jumps.push(Jump { floor, stays, air: Some(counts), lands: count, asked });
                } else if count > 0.0 && rise() >= HIGH_HOP {
                    jumps.push(Jump { floor, stays, air: None, lands: count, asked: rise() });
                }
            }
            (self.floor, self.stays) = (Some(count), None);
        }
        jumps
    }
}
