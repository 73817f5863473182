//! What is new in each bar, in a clause of at most twelve words.

use super::alike::{Alike, alike};
use super::facts::{
    CourseSaid, Facing, Fact, Going, Pass, PhraseFacts, PlaceSaid, StartTurn, StepRun, TurnWhen, Turning,
};
use super::full::seen_as;
use super::gather::facts;
use super::phrases::{Telling, short};
use super::taps::{Tapping, tap_bars};
use super::tell::partner;
use crate::dance::{BarCounts, Dance, Dancer, Foot};
use crate::motion::{Motion, Span, SpanIndex};

/// A clause has no more words than this.
pub const MOST_WORDS: usize = 12;
/// Counts this near are one moment.
const SAME: f64 = 1e-6;

/// One thing said in short.
#[derive(Clone, Debug, PartialEq)]
pub enum Short {
    /// The foot that lands first of what starts in the bar.
    Foot(Foot),
    /// Setting off; with where it leads, if it is over within the bar.
    Go(Going),
    /// Somebody is passed, on the way or standing; more than one in order of time.
    Pass(Vec<Pass>),
    /// Coming to where a stretch of travelling leads that began in an earlier bar.
    Arrive(PlaceSaid),
    /// A turn that begins in the bar.
    Turn(Turning),
    /// Where the figure's phrase ends facing, where no turn says so.
    Face(Facing),
    /// What is tapped and clapped, each thing once.
    Tap(Vec<Tapping>),
    /// A step that was not danced in the bar before.
    Step(StepRun),
    /// Travelling or turning as in the bar before.
    GoOn,
    /// Standing still, all through the bar.
    Stand,
    /// Dancing on the spot, all through the bar.
    OnTheSpot,
}

/// A bar and what is new in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Clause {
    /// The bar of the figure, from 0.
    pub bar: u32,
    /// What is said, in order.
    pub said: Vec<Short>,
    /// It in words: at most [`MOST_WORDS`], without a capital letter or a full stop.
    pub text: String,
}

/// The bars (from 0) of a span (index) of a motion, and what is new in each of them for a dancer: at most [`MOST_WORDS`] words each,
/// such as `left about on the single steps, face partner`.
#[must_use]
pub fn clauses(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<(u32, String)> {
    clauses_told(dance, motion, span, dancer).into_iter().map(|clause| (clause.bar, clause.text)).collect()
}

/// The same, with what each clause says.
#[must_use]
pub fn clauses_told(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<Clause> {
    let facts = facts(dance, motion, span, dancer);
    let Some(span) = motion.span(span) else { return Vec::new() };
    let to = Telling { bars: span.bar_counts(), partner: partner(motion, dancer) };
    figure_clauses(motion, span, dancer, &to, &facts)
}

/// The clauses of everybody, those together of whom the same is said.
#[must_use]
pub fn side_clauses(dance: &Dance, motion: &Motion, span: SpanIndex) -> Vec<Alike<Vec<(u32, String)>>> {
    let all: Vec<Vec<PhraseFacts>> =
        Dancer::all(motion.dancers()).map(|dancer| facts(dance, motion, span, dancer)).collect();
    let Some(span) = motion.span(span) else { return Vec::new() };
    let bars = span.bar_counts();
    alike(motion.dancers(), |dancer, image| {
        // What is tapped has no image.
        if image != super::Image::Same && !tap_bars(motion, span, dancer).is_empty() {
            return None;
        }
        let (facts, partner) = seen_as(motion, dancer, image, all.get(dancer.index())?)?;
        let told = figure_clauses(motion, span, dancer, &Telling { bars, partner }, &facts);
        Some(told.into_iter().map(|clause| (clause.bar, clause.text)).collect())
    })
}

fn figure_clauses(
    motion: &Motion,
    span: &Span,
    dancer: Dancer,
    to: &Telling,
    facts: &[PhraseFacts],
) -> Vec<Clause> {
    let bars = to.bars;
    let taps = tap_bars(motion, span, dancer);
    let mut before: Vec<StepRun> = Vec::new();
    (0..bars.bars())
        .map(|bar| {
            let within = (bars.begin_of(bar), bars.begin_of(bar + 1));
            let steps = steps(motion, span, dancer, within);
            let mut said = told_in(bars, facts, bar);
            let tapped = taps.iter().find(|(at, _)| *at == bar).map(|(_, taps)| {
                let mut each: Vec<Tapping> = taps.facts.iter().map(|fact| fact.what).collect();
                each.dedup();
                each
            });
            said.extend(tapped.filter(|each| !each.is_empty()).map(Short::Tap));
            let stands = steps.is_empty();
            let new: Vec<StepRun> = steps
                .iter()
                .filter(|run| !before.iter().any(|known| known.short == run.short))
                .filter(|run| !said.iter().any(|short| is_on(short, run)))
                .cloned()
                .collect();
            said.extend(new.into_iter().map(|run| Short::Step(going_on(motion, (span, dancer), run, bar))));
            if !said.iter().any(|short| {
                !matches!(short, Short::Foot(_) | Short::Tap(_) | Short::Step(_) | Short::Face(_))
            }) {
                let state = if goes_on(facts, within) {
                    Some(Short::GoOn)
                } else if stands {
                    Some(Short::Stand)
                } else {
                    said.is_empty().then_some(Short::OnTheSpot)
                };
                said.extend(state);
            }
            before = steps;
            let (said, text) = cut(to, said);
            Clause { bar, said, text }
        })
        .collect()
}

/// A step that is new in a bar, with how often it is danced until the first bar without it.
fn going_on(motion: &Motion, (span, dancer): (&Span, Dancer), mut run: StepRun, bar: u32) -> StepRun {
    let bars = span.bar_counts();
    for bar in bar + 1..bars.bars() {
        let within = (bars.begin_of(bar), bars.begin_of(bar + 1));
        let here = steps(motion, span, dancer, within).into_iter().find(|other| other.short == run.short);
        let Some(here) = here else { break };
        run.many += here.many;
    }
    run
}

/// Whether a turn says already that it is danced on a step.
fn is_on(short: &Short, run: &StepRun) -> bool {
    matches!(short, Short::Turn(Turning { when: TurnWhen::Steps(on), .. }) if on.short == run.short)
}

/// What begins or is reached in a bar, in order.
fn told_in(bars: &BarCounts, facts: &[PhraseFacts], bar: u32) -> Vec<Short> {
    let (begin, end) = (bars.begin_of(bar), bars.begin_of(bar + 1));
    let starts = |count: f64| count >= begin - SAME && count < end - SAME;
    let ends = |count: f64| count > begin + SAME && count <= end + SAME;
    let mut timed: Vec<(f64, u8, Short)> = Vec::new();
    let mut pass = |pass: &Pass| {
        if starts(pass.at) {
            timed.push((pass.at, 2, Short::Pass(vec![*pass])));
        }
    };
    for phrase in facts {
        for fact in &phrase.facts {
            match fact {
                Fact::Passed(by) => pass(by),
                Fact::Go(going) => going.passes.iter().for_each(&mut pass),
                _ => {}
            }
        }
    }
    for phrase in facts {
        for fact in &phrase.facts {
            match fact {
                Fact::Start(start) if starts(start.at) && start.turn != StartTurn::Again => {
                    timed.push((start.at - 0.5, 0, Short::Foot(start.foot)));
                }
                Fact::Go(going) if starts(going.begin) => {
                    let to = going.to.filter(|_| ends(going.end));
                    timed.push((going.begin, 1, Short::Go(Going { to, ..going.clone() })));
                }
                Fact::Go(going) if ends(going.end) => {
                    let faced = matches!(going.course, CourseSaid::RoundOther(..));
                    let to = going.to.filter(|to| !(faced && matches!(to, PlaceSaid::FaceToFace(_))));
                    timed.extend(to.map(|to| (going.end, 4, Short::Arrive(to))));
                }
                Fact::Turn(turn) if starts(turn.begin) => {
                    let first = if turn.when == TurnWhen::Start { 0 } else { 3 };
                    timed.push((turn.begin, first, Short::Turn(turn.clone())));
                }
                Fact::End(_, facing) if ends(phrase.end) => {
                    let turned = phrase
                        .facts
                        .iter()
                        .any(|fact| matches!(fact, Fact::Turn(turn) if turn.to == Some(*facing)));
                    let went = phrase
                        .facts
                        .iter()
                        .any(|fact| matches!(fact, Fact::Go(going) if going.turned.abs() > 45.0));
                    if went && !turned {
                        timed.push((phrase.end, 5, Short::Face(*facing)));
                    }
                }
                _ => {}
            }
        }
    }
    timed.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let mut said: Vec<Short> = Vec::new();
    for (_, _, short) in timed {
        match (said.last_mut(), short) {
            (Some(Short::Pass(passes)), Short::Pass(more)) => passes.extend(more),
            (_, short) => said.push(short),
        }
    }
    said
}

/// Whether a stretch of travelling or a turn that began before is under way.
fn goes_on(facts: &[PhraseFacts], (begin, end): (f64, f64)) -> bool {
    let under_way = |from: f64, to: f64| from < end - SAME && to > begin + 0.5;
    facts.iter().flat_map(|phrase| &phrase.facts).any(|fact| match fact {
        Fact::Go(going) => under_way(going.begin, going.end),
        Fact::Turn(turn) => under_way(turn.begin, turn.end),
        _ => false,
    })
}

/// The steps but standing that are danced in a bar, each once.
fn steps(motion: &Motion, span: &Span, dancer: Dancer, (begin, end): (f64, f64)) -> Vec<StepRun> {
    let Some(track) = span.track(dancer) else { return Vec::new() };
    let falls = track.footing().falls();
    let mut runs: Vec<StepRun> = Vec::new();
    for fall in falls.get(begin as usize..(end as usize).min(falls.len())).unwrap_or_default() {
        let Some(step) = motion.known().get(fall.step).filter(|step| !step.is_stand()) else { continue };
        match runs.iter_mut().find(|run| run.short == step.short) {
            Some(run) => run.many += usize::from(fall.begins),
            None => runs.push(StepRun { many: 1, short: step.short.clone(), name: step.name.clone() }),
        }
    }
    runs
}

/// What is said in so few words as a clause has, and it in words: what is least missed goes first, turns and passes last of all.
fn cut(to: &Telling, mut said: Vec<Short>) -> (Vec<Short>, String) {
    for less in 0..=8_u8 {
        let text = short::line(to, &said);
        if text.split_whitespace().count() <= MOST_WORDS {
            return (said, text);
        }
        if let Some(tight) = short::tight_line(to, &said).filter(|_| less >= 3) {
            return (said, tight);
        }
        for short in &mut said {
            match short {
                Short::Turn(turn) if less == 2 => turn.when = TurnWhen::Counts,
                Short::Turn(turn) if less == 5 => turn.to = None,
                Short::Go(going) if less == 1 => going.beside = None,
                Short::Go(going) if less == 6 => going.to = None,
                _ => {}
            }
        }
        let kept = |short: &Short| match short {
            Short::Step(_) => less != 0,
            Short::Face(_) => less != 4,
            Short::Foot(_) => less != 3,
            Short::Arrive(_) | Short::Tap(_) => less != 6,
            Short::Go(_) => less != 7,
            _ => true,
        };
        // What is all that there is to say is said, however long its name is.
        if said.iter().any(kept) {
            said.retain(kept);
        }
    }
    while short::tight_line(to, &said).is_none() && said.len() > 1 {
        said.pop();
    }
    if let Some(Short::Pass(passes)) = said.first_mut() {
        passes.truncate(4);
    }
    let text = short::tight_line(to, &said).unwrap_or_else(|| {
        let line = short::line(to, &said);
        line.split_whitespace().take(MOST_WORDS).collect::<Vec<_>>().join(" ") + "…"
    });
    (said, text)
}
