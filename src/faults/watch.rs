//! Where a dance goes wrong first: for each figure what takes least, for the side and for each dancer.

mod eyes;
mod feet;
mod figure_look;
mod in_time;
mod short;
mod spoken;
mod taps;
mod turns;

use super::aside::{Aside, asides};
use super::body::Body;
use super::slack::{MOST_SHIFT, Slack, from_on, slacks};
use super::watched::{WatchKind, Watched};
use crate::dance::{BarCounts, Dance, Dancer};
use crate::motion::{Moment, Motion, Span, SpanIndex};
use figure_look::FigureLook;
use spoken::figures;
use std::collections::HashMap;
use std::sync::Arc;

pub use eyes::Eyes;

/// The most that is told of a figure for the whole side.
const MOST: usize = 3;

/// What there is to watch for in a figure, all of it, what takes least first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToWatch {
    /// Each dancer's own.
    pub all: Vec<Watched>,
    /// Whom each dancer should have an eye on.
    pub eyes: Vec<Eyes>,
    /// How late (first) and how early each dancer may be, counts, in the order of dancers: [`MOST_SHIFT`](super::MOST_SHIFT) where nobody
    /// is touched.
    pub bands: Vec<[f64; 2]>,
    /// Those who stand still all through it, in order: they are neither late nor early.
    pub still: Vec<Dancer>,
    /// How far out of time each may be, for each time that two come near each other.
    pub slacks: Vec<Slack>,
    /// How far aside each may be then.
    pub asides: Vec<Aside>,
}

impl ToWatch {
    /// What to watch for in a figure in its place in the order, as long as it is to go on; nothing where it was stopped.
    #[must_use]
    pub fn of_span(
        dance: &Dance,
        motion: &Motion,
        index: SpanIndex,
        goes_on: &mut dyn FnMut() -> bool,
    ) -> Option<Self> {
        let span = motion.span(index)?;
        let body = Body::of(&dance.limits);
        let slacks = slacks(body, span, motion.dancers(), goes_on);
        if !goes_on() {
            return None;
        }
        let asides = asides(body, span, motion.dancers(), goes_on);
        if !goes_on() {
            return None;
        }
        let late_turn = dance.limits.jump_turn();
        let look = FigureLook { motion, span, index, body, late_turn, slacks: &slacks };
        let mut all = in_time::find(&look);
        all.extend(taps::find(&look, goes_on));
        all.extend(short::find(&look, goes_on));
        all.extend(feet::find(&look, goes_on));
        all.extend(turns::find(&look, goes_on));
        if !goes_on() {
            return None;
        }
        all.sort_by(|one, other| {
            one.rank()
                .total_cmp(&other.rank())
                .then(one.at.total_cmp(&other.at))
                .then(one.dancers.cmp(&other.dancers))
        });
        let (eyes, bands) = (eyes::find(&look), in_time::bands(&look));
        let still =
            look.tracks().filter(|(_, track)| look.is_still(track)).map(|(dancer, _)| dancer).collect();
        Some(Self { all, eyes, bands, still, slacks, asides })
    }

    /// For the whole side: at most three things, mates told together, of two who touch one thing.
    #[must_use]
    pub fn for_side(&self) -> Vec<Watched> {
        let mut told: Vec<Watched> = Vec::new();
        let mut seen: Vec<&Watched> = Vec::new();
        for watched in &self.all {
            // That one is late is told, and not that the other is then early.
            let same_meeting = |known: &&Watched| {
                let pair = |one: &Watched| one.dancers.iter().take(2).copied().collect::<Vec<_>>();
                let (one, two) = (pair(known), pair(watched));
                // When to turn is another matter than when to be there.
                let of_time = |kind: WatchKind| !matches!(kind, WatchKind::Foot | WatchKind::Turn);
                of_time(known.kind)
                    && of_time(watched.kind)
                    && one.len() == 2
                    && one.iter().all(|dancer| two.contains(dancer))
            };
            if let Some(known) = told.iter_mut().find(|known| spoken::alike(known, watched)) {
                spoken::join(known, watched, self.bands.len());
                seen.push(watched);
                continue;
            }
            if seen.iter().any(same_meeting) || told.len() == MOST {
                continue;
            }
            // Of feet and turns the first is enough: the others are as like as not its other half.
            let enough = if matches!(watched.kind, WatchKind::Foot | WatchKind::Turn) { 1 } else { 2 };
            let timed = |kind: WatchKind| matches!(kind, WatchKind::Late | WatchKind::Early);
            let like = |kind: WatchKind| kind == watched.kind || (timed(kind) && timed(watched.kind));
            if told.iter().filter(|known| like(known.kind)).count() == enough {
                continue;
            }
            seen.push(watched);
            told.push(watched.clone());
        }
        told
    }

    /// For one dancer at a count of the figure, as one line: what takes least, and whom to have an eye on in this phrase.
    #[must_use]
    pub fn words_for(&self, dancer: Dancer, count: f64) -> Option<String> {
        let own = self.line_for(dancer).map(ToOwned::to_owned);
        let in_phrase =
            |eyes: &&Eyes| eyes.dancer == dancer && (eyes.phrase.0..eyes.phrase.1).contains(&count);
        let eyes = self.eyes.iter().filter(in_phrase).map(Eyes::words);
        let both: Vec<String> = own.into_iter().chain(eyes).collect();
        (!both.is_empty()).then(|| both.join("; "))
    }

    /// How late and how early a dancer may be, as it is said: `may be 0.75 counts late or 1.18 early before they meet somebody`. Rounded down,
    /// so that it is never said to be more; what was not worked out is said to be so. Nothing of those who stand still.
    #[must_use]
    pub fn band_words(&self, dancer: Dancer) -> Option<String> {
        let Dancer(index) = dancer;
        if self.still.contains(&dancer) {
            return None;
        }
        let [late, early] = self.bands.get(index).copied()?;
        let open = |band: f64, is_late: bool| {
            self.slacks.iter().any(|slack| {
                slack.dancer == dancer
                    && !slack.met
                    && is_late == (slack.counts >= 0.0)
                    && slack.counts.abs() <= band
            })
        };
        Some(band_said([(late, open(late, true)), (early, open(early, false))]))
    }

    /// How late (first) and how early a dancer may be who is so only from a count of the figure on, counts: as [`bands`](Self::bands), of what
    /// is then still to come. Who is late stands for a while and goes on from there; who is early is ahead from then on. For bodies as the dance
    /// has them, in the figure that was looked over.
    #[must_use]
    pub fn band_from(&self, (body, span): (Body, &Span), dancer: Dancer, count: f64) -> [f64; 2] {
        from_on(body, span, (dancer, count), &self.slacks).map(|(counts, _)| counts)
    }

    /// The same from a count of the figure on, as it is said, or in few words: `from here on 0.5 late, 1.93 early`. Nothing of those who stand
    /// still.
    #[must_use]
    pub fn band_from_words(
        &self,
        (body, span): (Body, &Span),
        dancer: Dancer,
        count: f64,
        few: bool,
    ) -> Option<String> {
        if self.still.contains(&dancer) || dancer.index() >= self.bands.len() {
            return None;
        }
        let band = from_on(body, span, (dancer, count), &self.slacks);
        if !few {
            return Some(format!("from here on {}", band_said(band)));
        }
        let [late, early] = band.map(|(counts, _)| figures(counts));
        Some(format!("from here on {late} late, {early} early"))
    }

    /// How far aside a dancer may be, as it is said: `may be 0.31 m aside; then touches 5, to the left, bar 2 count 3`. Rounded down; nothing
    /// where they come near nobody.
    #[must_use]
    pub fn aside_words(&self, dancer: Dancer, bars: &BarCounts) -> Option<String> {
        let own = self.asides.iter().filter(|aside| aside.dancer == dancer);
        let least = own.min_by(|one, two| one.metres.total_cmp(&two.metres))?;
        let metres = (least.metres * 100.0 + 1e-9).floor() / 100.0;
        let moment = Moment::at(bars, (least.at * 4.0).round() / 4.0);
        Some(format!(
            "may be {metres:.2} m aside; more {} touches {}, bar {} count {}",
            least.side, least.other, moment.bar, moment.count
        ))
    }

    /// All that one dancer has to watch: what takes least, and what the side's list says of them, as it says it of them alone.
    #[must_use]
    pub fn own_list(&self, dancer: Dancer) -> Vec<Watched> {
        let mut own: Vec<&Watched> = self.for_dancer(dancer).into_iter().collect();
        for told in self.for_side().iter().filter(|told| told.watchers().contains(&dancer)) {
            let same = |one: &&Watched| {
                one.watchers().contains(&dancer)
                    && one.kind == told.kind
                    && one.said == told.said
                    && (one.at - told.at).abs() < 0.2
            };
            own.extend(self.all.iter().find(same).filter(|same| !own.contains(same)));
        }
        own.into_iter().cloned().collect()
    }

    /// The same as a sentence to that dancer alone, without their number before it.
    #[must_use]
    pub fn line_for(&self, dancer: Dancer) -> Option<&str> {
        let text = self.for_dancer(dancer)?.text.as_str();
        Some(text.strip_prefix(&format!("{dancer}: ")).unwrap_or(text))
    }

    /// For one dancer: what takes least.
    #[must_use]
    pub fn for_dancer(&self, dancer: Dancer) -> Option<&Watched> {
        self.all.iter().find(|watched| watched.watchers().contains(&dancer))
    }
}

/// How late and how early, counts, as it is said, rounded down; and of each whether more was not worked out.
fn band_said([(late, late_open), (early, early_open)]: [(f64, bool); 2]) -> String {
    let meets = "before they meet somebody";
    let said = match (late < MOST_SHIFT, early < MOST_SHIFT) {
        (true, true) => format!("may be {} counts late or {} early {meets}", figures(late), figures(early)),
        (true, false) => format!("may be {} counts late {meets}; early by 2 they meet nobody", figures(late)),
        (false, true) => {
            format!("may be {} counts early {meets}; late by 2 they meet nobody", figures(early))
        }
        (false, false) => "may be 2 counts late or early and meets nobody".to_owned(),
    };
    match (late_open, early_open) {
        (false, false) => said,
        (true, true) => format!(
            "may be {} counts late or {} early; more was not worked out",
            figures(late),
            figures(early)
        ),
        (true, false) => format!("{said}; more late was not worked out"),
        (false, true) => format!("{said}; more early was not worked out"),
    }
}

/// What to watch for in a whole dance: a list for each line of the running order, worked out once for those that are danced alike.
#[must_use]
pub fn watch_dance(
    dance: &Dance,
    motion: &Motion,
    goes_on: &mut dyn FnMut() -> bool,
) -> Option<Vec<Arc<ToWatch>>> {
    let mut seen: HashMap<u64, Arc<ToWatch>> = HashMap::new();
    motion
        .indexed_spans()
        .map(|(index, span)| {
            if let Some(known) = seen.get(&span.identity()) {
                return Some(Arc::clone(known));
            }
            let made = Arc::new(ToWatch::of_span(dance, motion, index, goes_on)?);
            seen.insert(span.identity(), Arc::clone(&made));
            Some(made)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_are_said_rounded_down() {
        let bands = vec![[0.89, 1.2], [0.5, 2.0], [2.0, 0.04], [2.0, 2.0]];
        let list = ToWatch { bands, ..ToWatch::default() };
        let said: Vec<String> = (0..5).filter_map(|index| list.band_words(Dancer(index))).collect();
        assert_eq!(
            said,
            [
                "may be 0.87 counts late or 1.18 early before they meet somebody",
                "may be 0.5 counts late before they meet somebody; early by 2 they meet nobody",
                "may be 0 counts early before they meet somebody; late by 2 they meet nobody",
                "may be 2 counts late or early and meets nobody",
            ]
        );
    }

    #[test]
    fn what_was_not_worked_out_is_said_to_be_so() {
        let open = |counts: f64| Slack {
            dancer: Dancer(0),
            other: Dancer(1),
            counts,
            at: 8.0,
            due: 8.0,
            until: 8.0,
            met: false,
        };
        let list = |bands: [f64; 2], slacks: Vec<Slack>| {
            ToWatch { bands: vec![bands], slacks, ..ToWatch::default() }.band_words(Dancer(0)).unwrap()
        };
        assert_eq!(
            list([0.5, 2.0], vec![open(0.5)]),
            "may be 0.5 counts late before they meet somebody; early by 2 they meet nobody; more late was not worked out"
        );
        assert_eq!(
            list([0.5, 0.25], vec![open(0.5), open(-0.25)]),
            "may be 0.5 counts late or 0.25 early; more was not worked out"
        );
        // What was not worked out beyond what is told does not matter.
        assert!(!list([0.5, 2.0], vec![open(0.75)]).contains("worked out"));
    }

    #[test]
    fn a_line_for_a_dancer_has_their_own_and_whom_to_watch_in_this_phrase() {
        let eyes = |from: f64, other: usize, side| Eyes {
            dancer: Dancer(2),
            phrase: (from, from + 16.0),
            other: Dancer(other),
            side,
            what: "",
        };
        let list = ToWatch {
            eyes: vec![eyes(0.0, 4, "in front"), eyes(16.0, 3, "on the left")],
            ..ToWatch::default()
        };
        assert_eq!(list.words_for(Dancer(2), 15.9).as_deref(), Some("an eye on 5, in front"));
        assert_eq!(list.words_for(Dancer(2), 16.0).as_deref(), Some("an eye on 4, on the left"));
        assert_eq!(list.words_for(Dancer(1), 0.0), None);
    }
}
