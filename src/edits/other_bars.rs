use crate::dance::{BarCounts, Dance, Figure};
use crate::motion::{InBars, Motion, USUAL_PHRASE, fill_phrase, in_other_bars, known_steps};

/// Has what a dance says fall as far into its bars as it did in a dance before it, with the motion of that, where the metre of these bars
/// has changed: the ways and turns of what was drawn, its steps and its speeds, and the speeds of strains. What the change itself brings
/// along is left as it is. Gives the figures (indices) whose own stepping does not fill the bars any more, and is given up.
pub fn keep_in_bars(dance: &mut Dance, before: (&Dance, &Motion)) -> Vec<usize> {
    let (before, motion) = before;
    keep_strains(dance, before);
    let metres = |dance: &Dance| {
        let of_strains = dance.music.strains.iter().any(|strain| strain.metre.is_some());
        of_strains || dance.figures.iter().any(|figure| !figure.metres.is_empty())
    };
    if before.music.metre == dance.music.metre && !metres(before) && !metres(dance) {
        return Vec::new();
    }
    let known = known_steps(&dance.steps);
    let mut given_up = Vec::new();
    for index in 0..dance.figures.len() {
        let Some(figure) = dance.figures.get(index) else { continue };
        let Some(was_index) = before.figure_index(&figure.id) else { continue };
        let Some(was) = before.figures.get(was_index) else { continue };
        let (old, new) = (before.bar_counts(was), dance.bar_counts(figure));
        if old.bars() != new.bars() || same_counts(&old, &new) {
            continue;
        }
        // What the figure is danced to, where it says nothing of its own.
        let span = motion.spans().iter().find(|span| span.figure == was_index);
        let usual = span.map_or_else(
            || in_other_bars(USUAL_PHRASE, &known, &BarCounts::usual(old.bars()), &old),
            |span| span.plan().phrase.clone(),
        );
        let Some(figure) = dance.figures.get_mut(index) else { continue };
        let danced_to = |phrase: &str| {
            InBars::danced_to(if phrase.is_empty() { &usual } else { phrase }, &known, &old, &new)
        };
        keep_figure(figure, was, &danced_to);
        let fills = |phrase: &str| fill_phrase(phrase, &known, new.counts() as usize).is_ok();
        let mut gives_up = false;
        let own = std::iter::once((&mut figure.phrase, Some(&was.phrase)));
        let parts = figure
            .parts
            .iter_mut()
            .enumerate()
            .map(|(index, part)| (&mut part.phrase, was.parts.get(index).map(|part| &part.phrase)));
        for (phrase, _) in
            own.chain(parts).filter(|(phrase, was)| !phrase.is_empty() && Some(&**phrase) == *was)
        {
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

/// The ways, turns and speeds of a figure.
fn keep_figure<'a>(figure: &mut Figure, was: &Figure, danced_to: &dyn Fn(&str) -> InBars<'a>) {
    let whole = danced_to(&was.phrase);
    for (part, was) in figure.parts.iter_mut().zip(&was.parts).filter(|(part, was)| *part == *was) {
        if was.phrase.is_empty() {
            whole.have_part(part);
        } else {
            danced_to(&was.phrase).have_part(part);
        }
    }
    for (strike, _) in figure.strikes.iter_mut().zip(&was.strikes).filter(|(strike, was)| *strike == *was) {
        strike.at = whole.at(strike.at);
        for count in &mut strike.again {
            *count = whole.at(*count);
        }
    }
    if figure.speeds == was.speeds {
        for change in &mut figure.speeds {
            change.count = whole.at(change.count);
        }
    }
}

/// The speeds of strains.
fn keep_strains(dance: &mut Dance, before: &Dance) {
    let metres = [before.music.metre, dance.music.metre];
    for (strain, was) in dance.music.strains.iter_mut().zip(&before.music.strains) {
        let [old, new] = [(was.metre, metres[0]), (strain.metre, metres[1])]
            .map(|(own, usual)| BarCounts::of(was.bars, own.unwrap_or(usual)));
        if strain.speeds == was.speeds && !same_counts(&old, &new) {
            let in_bars = InBars::danced_to("", &[], &old, &new);
            for change in &mut strain.speeds {
                change.count = in_bars.at(change.count);
            }
        }
    }
}

fn same_counts(one: &BarCounts, other: &BarCounts) -> bool {
    (0..one.bars()).all(|bar| one.in_bar(bar) == other.in_bar(bar))
}
