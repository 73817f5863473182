use super::{
    keep_amounts::{TurnChange, turn_changes, with_kept_amounts},
    no_mend::NoMend,
    redraw::{drag_dancer, own_part, with_part},
};
use crate::dance::{Dance, Dancer, Leg, Number, Part, PlaceNumber};
use crate::faults::{Fault, FaultKind, Faults, times_met};
use crate::figures::{Mirror, mate, mirrored, motion_of};
use crate::motion::{Motion, Move, Span, SpanIndex, ease};
use std::collections::HashMap;

/// A mend for two bodies that meet: a changed dance and what it does.
#[derive(Clone, Debug)]
pub struct Mend {
    /// The dance with the mend in it.
    pub dance: Dance,
    /// What that dance is danced as, worked out already.
    pub motion: Motion,
    /// The dancers that it moves.
    pub dancers: Vec<Dancer>,
    /// The farthest that it moves any of them from where they were at the same count, metres.
    pub moved: f64,
    /// The turns that come out otherwise by it.
    pub turns: Vec<TurnChange>,
    /// What it does, in a sentence.
    pub text: String,
}

/// Counts by which one dancer goes sooner or later.
const SHIFTS: [f64; 8] = [0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0];
/// A turn that comes out otherwise by less is not worth a word, degrees.
const TOLD: f64 = 15.0;
/// So many turns are told at the most.
const MOST_TURNS: usize = 4;
/// Metres by which a path bows out.
const BOWS: [f64; 8] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8];

/// The least change that parts two bodies that meet, keeping where legs begin and end, the turns and the steps: one of
/// them (or both) goes sooner or later along the same path, or bows out to one side. Where mates across the set, end
/// for end or by half turn have the same fault, they are mended alike. It brings no other fault, or it is no mend.
///
/// # Errors
/// When the fault is not of two bodies, both stand still, or nothing that is tried helps.
pub fn make_room(dance: &Dance, motion: &Motion, fault: &Fault) -> Result<Mend, NoMend> {
    make_room_while(dance, motion, fault, &mut || true)
}

/// The same, as long as it is to go on, which is asked again and again.
///
/// # Errors
/// As [`make_room`], and when it was stopped.
pub fn make_room_while(
    dance: &Dance,
    motion: &Motion,
    fault: &Fault,
    goes_on: &mut dyn FnMut() -> bool,
) -> Result<Mend, NoMend> {
    if let Some(why) = NoMend::of_kind(fault.kind) {
        return Err(why);
    }
    let &[one, other] = fault.dancers.as_slice() else { return Err(NoMend::NotBodies) };
    let span = motion.span(fault.span).ok_or(NoMend::NotBodies)?;
    let pair = (one.dancer(), other.dancer());
    let before = Faults::search(dance, motion, goes_on).ok_or(NoMend::Stopped)?;
    let look =
        Attempt { dance, motion, span, count: fault.counts(), mirror: mates(motion, span, &before, fault) };
    let mut tries: Vec<Try> = Vec::new();
    for dancer in [pair.0, pair.1] {
        tries.extend(SHIFTS.iter().flat_map(|by| [-by, *by]).map(|by| Try::Shift(vec![(dancer, by)])));
        tries.extend(BOWS.iter().flat_map(|by| [-by, *by]).map(|by| Try::Bow(vec![(dancer, by)])));
    }
    for by in BOWS.iter().flat_map(|by| [-by, *by]) {
        tries.push(Try::Bow(vec![(pair.0, by / 2.0), (pair.1, by / 2.0)]));
    }
    for by in SHIFTS.iter().flat_map(|by| [-by, *by]) {
        tries.push(Try::Shift(vec![(pair.0, by / 2.0), (pair.1, -by / 2.0)]));
    }
    let mut made: Vec<(f64, Try, Dance, Motion)> = tries
        .into_iter()
        .take_while(|_| goes_on())
        .filter_map(|tried| {
            let changed = look.make(&tried)?;
            let danced = motion_of(&changed, Some(motion)).ok()?;
            // What is looked at is what will be taken: with every turn's amount kept.
            let (changed, danced) = match with_kept_amounts(dance, motion, &changed, &danced) {
                Some(kept) => {
                    let danced = motion_of(&kept, Some(motion)).ok()?;
                    (kept, danced)
                }
                None => (changed, danced),
            };
            let moved = farthest(motion, &danced, span);
            (moved > 1e-6).then_some((moved, tried, changed, danced))
        })
        .collect();
    if !goes_on() {
        return Err(NoMend::Stopped);
    }
    if made.is_empty() {
        return Err(NoMend::Standing);
    }
    made.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (had, met) = (Tally::of(&before), times_met(&dance.limits, span, pair));
    let anything_meant = dance.figures.get(span.figure).is_some_and(|figure| !figure.allow.is_empty());
    let key = (fault.kind, fault.dancers.clone(), fault.span);
    for (moved, tried, changed, danced) in made {
        // While the two meet as often, and nothing is meant, nothing else needs to be looked at.
        let meet = danced.span(fault.span).map_or(0, |span| times_met(&dance.limits, span, pair));
        if meet >= met && !anything_meant {
            continue;
        }
        let after = Faults::search(&changed, &danced, goes_on).ok_or(NoMend::Stopped)?;
        let has = Tally::of(&after);
        if has.of_name(&key) < had.of_name(&key) && has.brings_none(&had) {
            let turns = turn_changes(motion, &danced, TOLD);
            let text = look.words(&tried, &turns, after.many());
            let dancers =
                Dancer::all(motion.dancers()).filter(|&dancer| moves(motion, &danced, span, dancer) > 1e-6);
            let dancers = dancers.collect();
            return Ok(Mend { dance: changed, motion: danced, dancers, moved, turns, text });
        }
    }
    Err(NoMend::None)
}

/// What names faults that are counted together: the kind, the dancers, and the place in the order.
type Key = (FaultKind, Vec<Number>, SpanIndex);

/// How many faults there are that are not meant: of each name, and of each kind, with those that are not told.
struct Tally {
    named: HashMap<Key, usize>,
    kinds: HashMap<FaultKind, usize>,
    /// The kinds of which not all are told.
    cut: Vec<FaultKind>,
}

impl Tally {
    fn of(faults: &Faults) -> Self {
        let (mut named, mut kinds) = (HashMap::new(), HashMap::new());
        for fault in faults.iter().filter(|fault| fault.allowed.is_none()) {
            *named.entry((fault.kind, fault.dancers.clone(), fault.span)).or_insert(0) += 1;
            *kinds.entry(fault.kind).or_insert(0) += 1;
        }
        for more in faults.more() {
            *kinds.entry(more.kind).or_insert(0) += more.more - more.meant;
        }
        Self { named, kinds, cut: faults.more().iter().map(|more| more.kind).collect() }
    }

    fn of_name(&self, key: &Key) -> usize {
        self.named.get(key).copied().unwrap_or(0)
    }

    /// Whether there is no fault that was not there before. Where not all of a kind are told, there are no more of it.
    fn brings_none(&self, before: &Self) -> bool {
        let is_cut = |kind: &FaultKind| self.cut.contains(kind) || before.cut.contains(kind);
        self.named.iter().all(|(key, many)| is_cut(&key.0) || *many <= before.of_name(key))
            && self.kinds.iter().all(|(kind, many)| *many <= before.kinds.get(kind).copied().unwrap_or(0))
    }
}

/// The symmetry under which other dancers have the same fault at the same time.
fn mates(motion: &Motion, span: &Span, faults: &[Fault], fault: &Fault) -> Option<Mirror> {
    let ground = motion.ground();
    let places = |fault: &Fault| -> Vec<PlaceNumber> {
        let mut places: Vec<PlaceNumber> =
            fault.dancers.iter().map(|number| span.place(number.dancer())).collect();
        places.sort_unstable();
        places
    };
    let own = places(fault);
    [Mirror::Across, Mirror::HalfTurn, Mirror::EndForEnd].into_iter().find(|&mirror| {
        let images: Option<Vec<PlaceNumber>> = own.iter().map(|&place| mate(ground, place, mirror)).collect();
        let Some(mut images) = images else { return false };
        images.sort_unstable();
        images.iter().all(|place| !own.contains(place))
            && faults.iter().any(|other| {
                other.kind == fault.kind
                    && other.span == fault.span
                    && (other.counts() - fault.counts()).abs() < 0.05
                    && places(other) == images
            })
    })
}

/// A change to try: dancers with counts later, or metres to their right along the path.
enum Try {
    Shift(Vec<(Dancer, f64)>),
    Bow(Vec<(Dancer, f64)>),
}

/// What is tried on.
struct Attempt<'a> {
    dance: &'a Dance,
    motion: &'a Motion,
    span: &'a Span,
    /// Counts from the start of the dance.
    count: f64,
    mirror: Option<Mirror>,
}

impl Attempt<'_> {
    /// The dance with a change; nothing where it cannot be made.
    fn make(&self, tried: &Try) -> Option<Dance> {
        let mut dance = self.dance.clone();
        let changes = match tried {
            Try::Shift(changes) | Try::Bow(changes) => changes,
        };
        for &(dancer, by) in changes {
            dance = match tried {
                Try::Shift(_) => self.shifted(&dance, dancer, by)?,
                Try::Bow(_) => self.bowed(&dance, dancer, by)?,
            };
            if let Some(mirror) = self.mirror {
                dance = self.with_mate(&dance, dancer, mirror)?;
            }
        }
        Some(dance)
    }

    /// The leg that a dancer is well under way on then.
    fn under_way(&self, dancer: Dancer) -> Option<(usize, &Move)> {
        let local = self.count - self.span.begin();
        let (index, danced) = self.span.track(dancer)?.move_at(local)?;
        let inside = local > danced.begin + 0.25 && local < danced.end - 0.25;
        (inside && danced.course.length() > 0.05).then_some((index, danced))
    }

    /// One dancer later by so many counts when they meet, sooner if it is below nought.
    fn shifted(&self, dance: &Dance, dancer: Dancer, by: f64) -> Option<Dance> {
        let (index, danced) = self.under_way(dancer)?;
        let mut part = own_part(self.span, dancer)?;
        let leg = part.legs.get_mut(index)?;
        if leg.through.iter().any(|point| point.at.is_some()) {
            return None;
        }
        leg.pace = shifted_pace(leg, danced, self.count - self.span.begin(), by)?;
        Some(with_part(dance, self.span.figure, part))
    }

    /// One dancer out to their right of the path by so many metres when they meet.
    fn bowed(&self, dance: &Dance, dancer: Dancer, by: f64) -> Option<Dance> {
        let (_, danced) = self.under_way(dancer)?;
        let on = danced.course.at(danced.pace.at(self.count - self.span.begin()));
        let (sin, cos) = on.heading.to_radians().sin_cos();
        drag_dancer(dance, self.motion, dancer, self.count, on.x + by * cos, on.y - by * sin).ok()
    }

    /// The mate of a dancer changed alike, if they danced alike before.
    fn with_mate(&self, dance: &Dance, dancer: Dancer, mirror: Mirror) -> Option<Dance> {
        let place = self.span.place(dancer);
        let image = mate(self.motion.ground(), place, mirror)?;
        let parts = &self.span.plan().parts;
        let (own, theirs) = (parts.get(place.index())?, parts.get(image.index())?);
        if !dances_alike(&mirrored(own, mirror, image), theirs) {
            return None;
        }
        let changed = dance.figures.get(self.span.figure)?.part(place)?;
        Some(with_part(dance, self.span.figure, mirrored(changed, mirror, image)))
    }

    fn words(&self, tried: &Try, turns: &[TurnChange], others: usize) -> String {
        let (changes, shift) = match tried {
            Try::Shift(changes) => (changes, true),
            Try::Bow(changes) => (changes, false),
        };
        let mut parts = Vec::new();
        for &(dancer, by) in changes {
            let who = dancer;
            let mut part = if shift {
                let when = if by < 0.0 { "sooner" } else { "later" };
                let far = match by.abs() {
                    0.5 => "half a count".to_owned(),
                    1.0 => "a count".to_owned(),
                    by => format!("{by} counts"),
                };
                format!("{who} goes {far} {when}")
            } else {
                let side = if by < 0.0 { "left" } else { "right" };
                format!("{who} bows {:.2} m out to the {side}", by.abs())
            };
            if let Some(mirror) = self.mirror
                && let Some(image) = mate(self.motion.ground(), self.span.place(dancer), mirror)
                && let Some(other) =
                    Dancer::all(self.motion.dancers()).find(|&other| self.span.place(other) == image)
            {
                part += &format!(" ({other} to match)");
            }
            parts.push(part);
        }
        let turns: Vec<String> = turns.iter().take(MOST_TURNS).map(TurnChange::words).collect();
        let rest = match others {
            0 => "then all is clear".to_owned(),
            1 => "one other fault is left".to_owned(),
            many => format!("{many} other faults are left"),
        };
        let done = std::iter::once(parts.join(" and ")).chain(turns);
        done.chain([rest]).collect::<Vec<_>>().join("; ")
    }
}

/// The shares of a leg's way done by the end of each half count, so that its dancer is where they were at a count so
/// many counts later (sooner below nought). It dies away towards both ends. Nothing where they would have to go back.
fn shifted_pace(leg: &Leg, danced: &Move, at: f64, by: f64) -> Option<Vec<f64>> {
    let length = danced.course.length();
    let (before, after) = (at - leg.begin, leg.end - at);
    // The steepest of the ease is one and a half times its mean.
    if 1.5 * by.abs() >= 0.9 * before.min(after) {
        return None;
    }
    let divisions = ((leg.end - leg.begin) * 2.0).round().clamp(2.0, 200.0);
    let mut pace = Vec::with_capacity(divisions as usize);
    let mut done: f64 = 0.0;
    for index in 1..=divisions as u32 {
        let count = leg.begin + (leg.end - leg.begin) * f64::from(index) / divisions;
        let share = if count < at { (count - leg.begin) / before } else { (leg.end - count) / after };
        let was = danced.pace.at(count - by * ease(share));
        done = done.max((was / length * 10_000.0).round() / 10_000.0).min(1.0);
        pace.push(done);
    }
    if let Some(last) = pace.last_mut() {
        *last = 1.0;
    }
    Some(pace)
}

/// Whether two parts take a dancer the same way, to a millimetre: leads and keys apart.
fn dances_alike(one: &Part, other: &Part) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-3;
    one.legs.len() == other.legs.len()
        && one.turns.len() == other.turns.len()
        && one.legs.iter().zip(&other.legs).all(|(one, other)| {
            near(one.begin, other.begin)
                && near(one.end, other.end)
                && near(one.to.x, other.to.x)
                && near(one.to.y, other.to.y)
                && one.shape == other.shape
                && one.through.len() == other.through.len()
                && one.through.iter().zip(&other.through).all(|(a, b)| near(a.x, b.x) && near(a.y, b.y))
        })
}

/// The farthest that any dancer is moved within a span, metres.
fn farthest(before: &Motion, after: &Motion, span: &Span) -> f64 {
    Dancer::all(before.dancers()).map(|dancer| moves(before, after, span, dancer)).fold(0.0, f64::max)
}

/// How far one dancer is moved within a span at the most, metres, by quarters of a count.
fn moves(before: &Motion, after: &Motion, span: &Span, dancer: Dancer) -> f64 {
    let steps = ((span.end() - span.begin()) * 4.0) as u32;
    (0..steps)
        .map(|step| {
            let count = span.begin() + f64::from(step) / 4.0;
            let (was, is) = (before.pose(dancer, count), after.pose(dancer, count));
            (was.x - is.x).hypot(was.y - is.y)
        })
        .fold(0.0, f64::max)
}
