use crate::dance::Dance;
use crate::motion::{InBars, USUAL_PHRASE, fill_phrase, in_other_bars, known_steps};

/// Has what figures say fall as far into their bars as it did in a dance before it, where the metre of these bars has changed: the
/// ways and turns of what was drawn, its steps and its speeds. Gives the figures (indices) whose stepping does not fill the bars any
/// more, which are danced in their own steps again.
pub fn keep_in_bars(dance: &mut Dance, before: &Dance) -> Vec<usize> {
    let known = known_steps(&dance.steps);
    let mut given_up = Vec::new();
    for index in 0..dance.figures.len() {
        let Some(figure) = dance.figures.get(index) else { continue };
        let Some(was) = before.figure_index(&figure.id).and_then(|index| before.figures.get(index)) else {
            continue;
        };
        let (old, new) = (before.bar_counts(was), dance.bar_counts(figure));
        if old == new || old.bars() != new.bars() || same_counts(&old, &new) {
            continue;
        }
        let Some(figure) = dance.figures.get_mut(index) else { continue };
        let danced_to = |phrase: &str| {
            let phrase = if phrase.is_empty() { USUAL_PHRASE } else { phrase };
            InBars::danced_to(phrase, &known, &old, &new)
        };
        let whole = danced_to(&figure.phrase);
        for part in &mut figure.parts {
            if part.phrase.is_empty() {
                whole.have_part(part);
            } else {
                danced_to(&part.phrase).have_part(part);
            }
        }
        for change in &mut figure.speeds {
            change.count = whole.at(change.count);
        }
        let fills = |phrase: &str| fill_phrase(phrase, &known, new.counts() as usize).is_ok();
        let mut gives_up = false;
        let parts = figure.parts.iter_mut().map(|part| &mut part.phrase);
        for phrase in std::iter::once(&mut figure.phrase).chain(parts).filter(|phrase| !phrase.is_empty()) {
            *phrase = in_other_bars(phrase, &known, &old, &new);
            if !fills(phrase) {
                phrase.clear();
                gives_up = true;
            }
        }
        if gives_up {
            given_up.push(index);
        }
    }
    given_up
}

fn same_counts(one: &crate::dance::BarCounts, other: &crate::dance::BarCounts) -> bool {
    (0..one.bars()).all(|bar| one.in_bar(bar) == other.in_bar(bar))
}
