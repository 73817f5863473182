use super::caption::{bars_of, who_words};
use crate::dance::{BarCounts, Dance, Dancer};
use crate::motion::{Motion, SpanIndex};
use crate::words::{Alike, Image, clauses, side_clauses};

/// Sets larger than this have no words for their diagrams: they would be pages long.
const MOST_TOLD: usize = 40;

/// What the diagrams of a figure show, in words, for those who cannot see them.
pub(super) struct DiagramWords {
    bars: BarCounts,
    dancers: usize,
    told: Vec<Alike<Vec<(u32, String)>>>,
}

impl DiagramWords {
    /// Of a span (index) of a motion.
    pub fn of(dance: &Dance, motion: &Motion, index: SpanIndex) -> Self {
        let bars = motion.span(index).map(|span| span.bar_counts().clone()).unwrap_or_default();
        let dancers = motion.dancers();
        let told = if dancers > MOST_TOLD { Vec::new() } else { side_clauses(dance, motion, index) };
        Self { bars, dancers, told }
    }

    /// Of the diagram between two counts of the figure; where both are the same, of its start.
    pub fn at(&self, (from, to): (f64, f64)) -> String {
        if from >= to {
            return "Diagram of the start: where everybody stands.".to_owned();
        }
        let parts = self.told.iter().filter_map(|group| {
            let said = between(&self.bars, &group.told, (from, to));
            (!said.is_empty()).then(|| format!("{}: {said}", self.who(group)))
        });
        let said: Vec<String> = parts.collect();
        let when = bars_of(&self.bars, from, to);
        if said.is_empty() {
            return format!("Diagram of the floor. {when}: nothing new.");
        }
        format!("Diagram of the floor. {when}. {}.", said.join(". "))
    }

    fn who(&self, group: &Alike<Vec<(u32, String)>>) -> String {
        let same = group.those(Image::Same);
        let all = same.len() == self.dancers;
        let mut who = if all { "all".to_owned() } else { who_words(&same, self.dancers) };
        for (image, word) in [(Image::Mirror, "mirror"), (Image::About, "turned about")] {
            let others = group.those(image);
            if !others.is_empty() {
                who += &format!(" ({} {word})", who_words(&others, self.dancers));
            }
        }
        who
    }
}

/// What a dancer's own diagram between two counts of a figure shows.
pub(super) fn own_diagram_words(
    dance: &Dance,
    motion: &Motion,
    index: SpanIndex,
    dancer: Dancer,
    counts: (f64, f64),
) -> String {
    let Some(span) = motion.span(index) else { return String::new() };
    let bars = span.bar_counts();
    let said = between(bars, &clauses(dance, motion, index, dancer), counts);
    let said = if said.is_empty() { "nothing new".to_owned() } else { said };
    format!("Diagram of your own way. {}: {said}.", bars_of(bars, counts.0, counts.1))
}

/// The clauses of the bars that begin between two counts.
fn between(bars: &BarCounts, told: &[(u32, String)], (from, to): (f64, f64)) -> String {
    let here: Vec<&(u32, String)> = told
        .iter()
        .filter(|(bar, _)| {
            (from..to - 1e-6).contains(&bars.begin_of(*bar))
                || from > bars.begin_of(*bar) && from < bars.begin_of(bar + 1)
        })
        .collect();
    let many = here.len() > 1;
    let said = here
        .into_iter()
        .map(|(bar, said)| if many { format!("bar {}, {said}", bar + 1) } else { said.clone() });
    said.collect::<Vec<_>>().join("; ")
}
