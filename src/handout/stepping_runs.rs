use crate::dance::{Dance, Dancer, Foot, Metre};
use crate::motion::steps::Step;
use crate::motion::{Motion, Span};
use crate::words::first_foot;
use std::collections::BTreeMap;

/// Beyond so many dancers nobody is looked at.
const MOST_DANCERS: usize = 40;

/// Steps that fill a bar, or more bars where a step is longer than one.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    /// The indices of its steps among the known ones, and their short and full names.
    pub steps: Vec<usize>,
    pub names: Vec<(String, String)>,
    /// The foot that leads it, where one does; whether it is danced from the other as well.
    pub lead: Option<Foot>,
    pub both_leads: bool,
    pub metres: Vec<Metre>,
    /// Of each bar, which step each count is of, and which count of it.
    counts: Vec<Vec<(usize, usize)>>,
    /// The stepping before and after it where it is first danced, so that it is begun and left as there.
    pub before: Option<Around>,
    pub after: Option<Around>,
    /// Where it is first danced.
    pub first: String,
}

/// What is danced before or after a run.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Around {
    pub phrase: String,
    pub metres: Vec<Metre>,
}

/// The runs of a dance, and what is left out.
pub(super) struct Runs {
    pub all: Vec<Run>,
    /// How many bars of other runs there are.
    pub more: usize,
    /// How many dancers are not looked at.
    pub dancers_more: usize,
}

/// The different runs of steps of a dance in the order in which they first come, but for standing; no more than so many.
pub(super) fn runs(dance: &Dance, motion: &Motion, dancer: Option<Dancer>, most: usize) -> Runs {
    let mut known: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
    let mut runs: Vec<Run> = Vec::new();
    let mut more = 0;
    let dancers_more = if dancer.is_some() { 0 } else { motion.dancers().saturating_sub(MOST_DANCERS) };
    let dancers: Vec<Dancer> = dancer
        .map_or_else(|| Dancer::all(motion.dancers().min(MOST_DANCERS)).collect(), |dancer| vec![dancer]);
    for (line, span) in motion.spans().iter().enumerate() {
        let next = motion.spans().get(line + 1);
        for &dancer in &dancers {
            let all = runs_of(dance, motion, span, dancer);
            for (index, run) in all.iter().enumerate() {
                let is_stand = |step: &usize| motion.known().get(*step).is_none_or(Step::is_stand);
                if run.steps.iter().all(is_stand) {
                    continue;
                }
                if let Some(&row) = known.get(&run.steps) {
                    if let Some(other) = runs.get_mut(row) {
                        other.both_leads |= run.lead.is_some() && run.lead != other.lead;
                    }
                } else if runs.len() >= most {
                    known.insert(run.steps.clone(), usize::MAX);
                    more += run.shown().len();
                } else {
                    let around = |other: Option<&Run>| other.map(Run::as_around);
                    let before = around(index.checked_sub(1).and_then(|before| all.get(before)));
                    let next =
                        || next.and_then(|next| runs_of(dance, motion, next, dancer).into_iter().next());
                    let after = around(all.get(index + 1).cloned().or_else(next).as_ref());
                    known.insert(run.steps.clone(), runs.len());
                    runs.push(Run { before, after, ..run.clone() });
                }
            }
        }
    }
    Runs { all: runs, more, dancers_more }
}

/// The runs of steps of a dancer in a figure, from bar to bar where a step begins with the bar.
fn runs_of(dance: &Dance, motion: &Motion, span: &Span, dancer: Dancer) -> Vec<Run> {
    let Some(track) = span.track(dancer) else { return Vec::new() };
    let (falls, bars) = (track.footing().falls(), span.bar_counts());
    let name = dance.figures.get(span.figure).map_or("", |figure| figure.name.as_str());
    let mut runs: Vec<Run> = Vec::new();
    for bar in 0..bars.bars() {
        let (begin, end) = (bars.begin_of(bar) as usize, bars.begin_of(bar + 1) as usize);
        let Some(inside) = falls.get(begin..end.min(falls.len())) else { break };
        let begins = inside.first().is_some_and(|fall| fall.begins);
        if begins || runs.is_empty() {
            let lead = track.footing().lead(begin as f64).map(|made| made.foot);
            let led = first_foot(motion.known(), track.footing(), begin).is_some();
            runs.push(Run {
                steps: Vec::new(),
                names: Vec::new(),
                lead: lead.filter(|_| led),
                both_leads: false,
                metres: Vec::new(),
                counts: Vec::new(),
                before: None,
                after: None,
                first: format!("first in {name}, bar {}", bar + 1),
            });
        }
        let Some(run) = runs.last_mut() else { break };
        run.metres.push(bars.metre(bar));
        // Which step and how far in it each count is.
        let mut counts = Vec::new();
        for count in begin..begin + inside.len() {
            let until = falls.get(..=count).unwrap_or_default();
            let step = until.iter().rposition(|fall| fall.begins).unwrap_or(0);
            counts.push((falls.get(count).map_or(0, |fall| fall.step), count - step));
        }
        run.counts.push(counts);
        for fall in inside.iter().filter(|fall| fall.begins) {
            if let Some(step) = motion.known().get(fall.step) {
                run.steps.push(fall.step);
                run.names.push((step.short.clone(), step.name.clone()));
            }
        }
    }
    runs
}

impl Run {
    /// Its bars, from 0, but for those that are the same as one before, whichever foot begins: of each also how many more are the same.
    pub fn shown(&self) -> Vec<(usize, usize)> {
        let mut shown: Vec<(usize, usize)> = Vec::new();
        for (bar, like) in self.metres.iter().zip(&self.counts).enumerate() {
            let same = |(shown, _): &&mut (usize, usize)| {
                self.metres.get(*shown).zip(self.counts.get(*shown)) == Some(like)
            };
            match shown.iter_mut().find(same) {
                Some((_, more)) => *more += 1,
                None => shown.push((bar, 0)),
            }
        }
        shown
    }

    pub fn phrase(&self) -> String {
        let shorts: Vec<&str> = self.names.iter().map(|(short, _)| short.as_str()).collect();
        let lead = match self.lead {
            Some(Foot::Left) => "left, ",
            Some(Foot::Right) => "right, ",
            None => "",
        };
        format!("{lead}{}", shorts.join(", "))
    }

    pub fn as_around(&self) -> Around {
        Around { phrase: self.phrase(), metres: self.metres.clone() }
    }

    /// Its steps with how many of each in a row: `single steps`, `double step`.
    pub fn title(&self) -> String {
        let mut said: Vec<(String, usize)> = Vec::new();
        for (_, name) in &self.names {
            match said.last_mut().filter(|(known, _)| known == name) {
                Some((_, many)) => *many += 1,
                None => said.push((name.clone(), 1)),
            }
        }
        let each =
            said.into_iter().map(|(name, many)| if many > 1 { format!("{many} × {name}") } else { name });
        each.collect::<Vec<_>>().join(", ")
    }
}
