use super::look::Look;
use crate::dance::{BarCounts, Dancer, Foot, Landing, Lead, LeadRule};
use crate::motion::steps::Step;
use crate::motion::{LeadChoices, LeadFrom, LeadMade, Span, Track, by_rule, fill_phrase};

/// The bars in half a figure of eight: the most that one start can speak for.
const HALF: u32 = 4;

/// What is danced from a start, at which either foot is free, until the next one: in most figures half of it.
#[derive(Clone, Copy)]
pub(super) struct Half<'a> {
    /// How many starts came before it.
    pub index: usize,
    /// The count of the figure at which it begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// The lead of its first step.
    pub made: &'a LeadMade,
}

impl Half<'_> {
    /// What a dancer calls it.
    pub fn name(&self) -> &'static str {
        match self.index {
            0 => "the first half",
            1 => "the second half",
            _ => "this half",
        }
    }

    /// The count up to which its start speaks for it, in a figure of these bars.
    pub fn speaks_until(&self, bars: &BarCounts) -> f64 {
        let (bar, inside) = bars.at(self.begin);
        self.end.min(bars.begin_of(bar + HALF) + inside)
    }
}

/// The halves of a dancer's way through a figure, in order.
pub(super) fn halves<'a>(look: &Look, span: &Span, track: &'a Track) -> Vec<Half<'a>> {
    let footing = track.footing();
    let mut halves: Vec<Half> = Vec::new();
    let mut free: Option<Foot> = None;
    for (index, made) in footing.leads().iter().enumerate() {
        if index == 0 || free.is_none() {
            let begin = made.at as f64;
            if let Some(before) = halves.last_mut() {
                before.end = begin;
            }
            halves.push(Half { index: halves.len(), begin, end: span.end() - span.begin(), made });
        }
        free = next_lead(look.motion.known(), track, made);
    }
    halves
}

/// The foot that a step leaves free; nothing where either is.
pub(super) fn next_lead(known: &[Step], track: &Track, made: &LeadMade) -> Option<Foot> {
    let fall = track.footing().falls().get(made.at)?;
    known.get(fall.step)?.next_lead(made.foot)
}

/// Whether a step lands on one foot, so that it matters which leads it.
pub(super) fn has_a_foot(known: &[Step], track: &Track, made: &LeadMade) -> bool {
    let step = track.footing().falls().get(made.at).and_then(|fall| known.get(fall.step));
    step.is_some_and(|step| step.feet.iter().any(|landing| matches!(landing, Landing::Lead | Landing::Other)))
}

/// Which foot starts a half, and by what.
pub(super) struct HalfStart {
    pub foot: Foot,
    /// What says so.
    pub by: StartBy,
    /// The rule, where one says so.
    pub rule: Option<LeadRule>,
    /// Whether the dancer faces up or down the set a count in, when a turn to do so has been made.
    pub along: bool,
}

/// What says which foot starts.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum StartBy {
    /// A rule of the dancer's, the figure's or the dance's.
    Rule,
    /// What is written in the stepping.
    Phrase,
    /// What the named figure does there.
    Named,
}

/// What governs the start of a half, beneath a lead that is drawn for the dancer; nothing where nothing does. The
/// nearest wins: the dancer's rule, what the stepping says, the figure's rule, the named figure's, the dance's.
pub(super) fn start(
    look: &Look,
    span: &Span,
    dancer: Dancer,
    track: &Track,
    half: &Half,
) -> Option<HalfStart> {
    let (plan, place, at) = (span.plan(), span.place(dancer), half.made.at);
    let (_, _, facing) = track.stand(at as f64 + 1.0);
    let along = facing.to_radians().cos().abs() > 0.7;
    if half.made.from != LeadFrom::Dancer || half.made.rule.is_some() {
        let by = if half.made.from == LeadFrom::Named { StartBy::Named } else { StartBy::Rule };
        return half.made.rule.map(|rule| HalfStart { foot: half.made.foot, by, rule: Some(rule), along });
    }
    let part = plan.part(place)?;
    let ruled = |rule: LeadRule| {
        let choices = LeadChoices {
            dancer,
            place,
            drawn: &[],
            made: &[],
            rules: &[],
            named: None,
            carried: None,
            ground: look.motion.ground(),
            stand: &|count| track.stand(count),
        };
        HalfStart {
            foot: by_rule(rule, at, half.index, &choices).0,
            by: StartBy::Rule,
            rule: Some(rule),
            along,
        }
    };
    if let Some(rule) = part.lead {
        return Some(ruled(rule));
    }
    let phrase = if part.phrase.is_empty() { &plan.phrase } else { &part.phrase };
    if phrase.contains("left") || phrase.contains("right") {
        let filled = fill_phrase(phrase, look.motion.known(), plan.counts() as usize).ok()?;
        if let Some((_, foot)) = filled.leads.iter().find(|(count, _)| *count == at) {
            return Some(HalfStart { foot: *foot, by: StartBy::Phrase, rule: None, along });
        }
    }
    if let Some(rule) = plan.lead {
        return Some(ruled(rule));
    }
    let here = |lead: &&Lead| (lead.at - at as f64).abs() < 0.5;
    if let Some(lead) = plan.named_leads.get(place.index()).and_then(|leads| leads.iter().find(here)) {
        return Some(HalfStart { foot: lead.foot, by: StartBy::Named, rule: plan.named_lead, along });
    }
    plan.dance_lead.map(ruled)
}

/// The word for a foot or a side.
pub(super) fn side(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "left",
        Foot::Right => "right",
    }
}

/// Whether a dancer's place in a figure is drawn, and not just as the named figure makes it.
pub(super) fn is_drawn(span: &Span, dancer: Dancer) -> bool {
    span.plan().is_drawn(span.place(dancer))
}

/// Where a falling function is nought between two ends, by halving.
pub(super) fn falls_to_nought(falling: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..20 {
        let middle = f64::midpoint(low, high);
        if falling(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}
