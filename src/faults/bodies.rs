use super::{
    body::Body,
    cut::Cut,
    found::Found,
    goes_on::GoesOn,
    look::Look,
    meetings::{Meeting, TOUCH},
    near::{SLACK, Search},
    place_words,
    worst::Two,
};
use crate::dance::{Dancer, FaultKind, FaultLimits};
use crate::motion::{Ground, Motion, Span, SpanIndex};
use std::cell::Cell;
use std::collections::HashMap;

/// Bodies that touch, whichever way they face, and those that come nearer than they should (values from memory; see
/// [`FaultLimits`](crate::dance::FaultLimits)). Where there are more than are told, only those are looked at closely.
pub(super) fn find(look: &Look) -> (Cut, u64) {
    let mut met = Met::of(look);
    let mut joined = met.joined();
    for meeting in &mut joined {
        if !look.goes_on.looked() {
            return (Cut::default(), met.looks.get());
        }
        met.settle(meeting);
    }
    let (tight, clash): (Vec<Joined>, Vec<Joined>) =
        joined.into_iter().partition(|meeting| meeting.kind == FaultKind::Tight);
    let mut cut = Cut::default();
    for (kind, list) in [(FaultKind::Clash, clash), (FaultKind::Tight, tight)] {
        let span = |meeting: &Joined| met.closest_span(meeting);
        let list = cut.first(
            kind,
            list,
            |one| one.meant,
            span,
            |one, other| one.begin.total_cmp(&other.begin).then(one.pair.cmp(&other.pair)),
        );
        let told = list.iter().take_while(|_| look.goes_on.looked()).filter_map(|meeting| met.tell(meeting));
        cut.found.extend(told);
    }
    if !met.all {
        for more in &mut cut.more {
            more.at_least = true;
        }
    }
    (cut, met.looks.get())
}

/// How often two dancers come nearer than they should in a span.
#[must_use]
pub fn times_met(limits: &FaultLimits, span: &Span, pair: (Dancer, Dancer)) -> usize {
    let (mut always, limit) = (|| true, limits.apart());
    let goes_on = GoesOn::new(&mut always);
    let search = Search::new(Body::of(limits), limit, span, &goes_on);
    let (one, other) = (pair.0.min(pair.1), pair.0.max(pair.1));
    let pair = (one.index(), other.index());
    search.meetings((span.end() - span.begin()) as usize, |a, b| (a, b) == pair).len()
}

/// The meetings of a figure, and the worst of each (the count and the space) once it has been asked for.
type OfFigure = (Vec<Meeting>, Vec<Option<(f64, f64)>>);

/// The meetings of two bodies in every figure, each figure looked at once however often it is danced alike.
struct Met<'a> {
    look: &'a Look<'a>,
    found: Vec<OfFigure>,
    /// For each span, where its meetings are.
    of_span: Vec<usize>,
    looks: Cell<u64>,
    /// Whether all were looked for in every figure.
    all: bool,
}

/// A meeting as it is told: it may go on from one figure into the next.
struct Joined {
    pair: (Dancer, Dancer),
    /// The indices of its spans, and of its meetings there.
    parts: Vec<(SpanIndex, usize)>,
    /// Counts from the start of the dance.
    begin: f64,
    end: f64,
    kind: FaultKind,
    meant: bool,
}

impl<'a> Met<'a> {
    fn of(look: &'a Look<'a>) -> Self {
        let (body, apart) = (Body::of(look.limits), look.limits.apart());
        let looks = Cell::new(0);
        let mut seen: HashMap<u64, usize> = HashMap::new();
        let mut found = Vec::new();
        let mut all = true;
        let of_span = look.motion.spans().iter().map(|span| {
            *seen.entry(span.identity()).or_insert_with(|| {
                let search = Search::new(body, apart, span, look.goes_on);
                let counts = (span.end() - span.begin()) as usize;
                let told = |one, other| look.tells_clash(span, Dancer(one), Dancer(other));
                let (meetings, here) = search.meetings_until_enough(counts, |_, _| true, told);
                all &= here;
                looks.set(looks.get() + search.looks());
                let worst = vec![None; meetings.len()];
                found.push((meetings, worst));
                found.len() - 1
            })
        });
        let of_span = of_span.collect();
        Self { look, found, of_span, looks, all }
    }

    fn span(&self, index: SpanIndex) -> Option<&'a Span> {
        self.look.motion.span(index)
    }

    fn meeting(&self, (span, index): (SpanIndex, usize)) -> Option<&Meeting> {
        self.found.get(*self.of_span.get(span.index())?)?.0.get(index)
    }

    /// All of them in order of time, those that go on from one figure into the next made one.
    fn joined(&self) -> Vec<Joined> {
        let mut joined: Vec<Joined> = Vec::new();
        // For each pair that is meeting still: its place in the list, and the span in which it goes on.
        let mut open: HashMap<(Dancer, Dancer), (usize, SpanIndex)> = HashMap::new();
        let spans = self.look.motion.indexed_spans();
        for ((index, span), &found) in spans.zip(&self.of_span) {
            let (begin, counts) = (span.begin(), span.end() - span.begin());
            let Some((meetings, _)) = self.found.get(found) else { continue };
            for (which, meeting) in meetings.iter().enumerate() {
                let pair = (Dancer(meeting.one), Dancer(meeting.other));
                let before = (meeting.lasts.0 < 1e-9)
                    .then(|| open.remove(&pair))
                    .flatten()
                    .filter(|&(_, span)| span == index);
                let at = match before.and_then(|(at, _)| Some((at, joined.get_mut(at)?))) {
                    Some((at, earlier)) => {
                        earlier.parts.push((index, which));
                        earlier.end = begin + meeting.lasts.1;
                        at
                    }
                    None => {
                        joined.push(Joined {
                            pair,
                            parts: vec![(index, which)],
                            begin: begin + meeting.lasts.0,
                            end: begin + meeting.lasts.1,
                            kind: FaultKind::Clash,
                            meant: false,
                        });
                        joined.len() - 1
                    }
                };
                if meeting.lasts.1 > counts - 1e-9 && index.next().index() < self.of_span.len() {
                    open.insert(pair, (at, index.next()));
                }
            }
        }
        joined
    }

    /// Says which kind a meeting is, and whether the side means it. Its worst moment is looked for only where that
    /// hangs on it.
    fn settle(&mut self, meeting: &mut Joined) {
        let least = |part: &(SpanIndex, usize)| self.meeting(*part).map_or((0.0, 0.0), |met| met.least);
        let (floor, ceiling) = meeting
            .parts
            .iter()
            .map(least)
            .fold((f64::INFINITY, f64::INFINITY), |a, b| (a.0.min(b.0), a.1.min(b.1)));
        let touches =
            ceiling < TOUCH || (floor < TOUCH && meeting.parts.iter().any(|part| self.touch(*part)));
        meeting.kind = if touches { FaultKind::Clash } else { FaultKind::Tight };
        let figures = meeting.parts.iter().filter_map(|(span, _)| self.look.figure(self.span(*span)?));
        let kind = meeting.kind;
        let mut allowing =
            figures.flat_map(|figure| &figure.allow).filter(|allow| allow.kind == kind).peekable();
        if allowing.peek().is_none() {
            return;
        }
        let by_value = meeting.parts.len() > 1 || allowing.any(|allow| allow.up_to.is_some());
        let first = meeting.parts.first().copied().unwrap_or_default();
        let worst = if by_value { self.worst(meeting) } else { None };
        let (part, value) = worst.map_or((first, f64::INFINITY), |(part, _, space)| (part, space));
        let dancers = [meeting.pair.0, meeting.pair.1];
        meeting.meant =
            self.span(part.0).is_some_and(|span| self.look.allowed(span, kind, &dancers, value).is_some());
    }

    /// The worst of a meeting: its part, the count in that part's span, and the space.
    fn worst(&mut self, meeting: &Joined) -> Option<((SpanIndex, usize), f64, f64)> {
        let mut worst: Option<((SpanIndex, usize), f64, f64)> = None;
        for &part in &meeting.parts {
            let (at, space) = self.worst_of(part)?;
            if worst.is_none_or(|(_, _, least)| space < least - SLACK) {
                worst = Some((part, at, space));
            }
        }
        worst
    }

    /// The span in which a meeting is closest, as far as is known without looking for its worst moment: the same that
    /// it would be told in.
    fn closest_span(&self, meeting: &Joined) -> SpanIndex {
        let mut closest: Option<(SpanIndex, f64)> = None;
        for part in &meeting.parts {
            let space = self.meeting(*part).map_or(f64::INFINITY, |met| met.least.1);
            if closest.is_none_or(|(_, least)| space < least - SLACK) {
                closest = Some((part.0, space));
            }
        }
        closest.map_or_else(SpanIndex::default, |(span, _)| span)
    }

    /// Whether two bodies touch in a part of a meeting.
    fn touch(&self, part: (SpanIndex, usize)) -> bool {
        let touch = || {
            let (meeting, span) = (self.meeting(part)?, self.span(part.0)?);
            let (begin, end) = meeting.lasts;
            Some(self.two(span, meeting)?.meet(begin, end, TOUCH))
        };
        touch().unwrap_or(false)
    }

    fn two<'b>(&'b self, span: &'b Span, meeting: &Meeting) -> Option<Two<'b>> {
        let tracks = (span.track(Dancer(meeting.one))?, span.track(Dancer(meeting.other))?);
        Some(Two { body: Body::of(self.look.limits), tracks, looks: &self.looks })
    }

    fn worst_of(&mut self, part: (SpanIndex, usize)) -> Option<(f64, f64)> {
        let (span, which) = part;
        let found = *self.of_span.get(span.index())?;
        if let Some(known) = self.found.get(found)?.1.get(which)? {
            return Some(*known);
        }
        let meeting = self.meeting(part)?;
        let (at, space) = self.two(self.span(span)?, meeting)?.worst(meeting.lasts.0, meeting.lasts.1);
        // What is known to touch is told so, however near nought it is.
        let worst = (at, if meeting.least.1 < TOUCH { space.min(meeting.least.1) } else { space });
        if let Some(known) = self.found.get_mut(found).and_then(|(_, known)| known.get_mut(which)) {
            *known = Some(worst);
        }
        Some(worst)
    }

    fn tell(&mut self, meeting: &Joined) -> Option<(SpanIndex, Found)> {
        let ((index, _), at, space) = self.worst(meeting)?;
        let span = self.span(index)?;
        let lasts = (meeting.begin - span.begin(), meeting.end - span.begin());
        Some((index, tell(self.look.motion, span, meeting, at, space, lasts, self.look.limits.apart())))
    }
}

fn tell(
    motion: &Motion,
    span: &Span,
    meeting: &Joined,
    at: f64,
    space: f64,
    lasts: (f64, f64),
    apart: f64,
) -> Found {
    let (ground, (one, other)) = (motion.ground(), meeting.pair);
    let place = |dancer: Dancer| {
        span.track(dancer).map_or((0.0, 0.0), |track| {
            let (x, y, _) = track.stand(at);
            (x, y)
        })
    };
    let ((ax, ay), (bx, by)) = (place(one), place(other));
    let (x, y) = (f64::midpoint(ax, bx), f64::midpoint(ay, by));
    let clash = meeting.kind == FaultKind::Clash;
    let who = who(ground, span, one, other);
    let place = place_words(ground, x, y);
    let text = if clash {
        let middles = (bx - ax).hypot(by - ay);
        format!("{who} meet {place}: only {middles:.2} m between their middles")
    } else {
        format!("{who} come close {place}: {space:.2} m between them")
    };
    Found {
        kind: meeting.kind,
        at,
        lasts,
        dancers: vec![one, other],
        value: space,
        limit: if clash { 0.0 } else { apart },
        text,
        spot: Some((x, y)),
    }
}

/// Two dancers, with what they are in the set: `1 and 5 (top and bottom)`.
fn who(ground: &Ground, span: &Span, one: Dancer, other: Dancer) -> String {
    let names = (ground.rank_name(span.place(one)), ground.rank_name(span.place(other)));
    let numbers = format!("{one} and {other}");
    match names {
        ("", _) | (_, "") => numbers,
        (name, same) if name == same => format!("{numbers} ({name}s)"),
        (name, another) => format!("{numbers} ({name} and {another})"),
    }
}
