use super::arrange::{free_id, with_written_order};
use crate::dance::{BarCounts, Dance, Entry, Figure};
use crate::motion::{in_other_bars, known_steps};

/// What the line is called.
const NAME: &str = "Once to yourself";
/// Bars of it where the tune says nothing.
const BARS: u32 = 8;

/// Whether the dance begins with the music played once while everybody stands.
#[must_use]
pub fn is_once_to_yourself(dance: &Dance) -> bool {
    first_figure(dance).is_some_and(|figure| figure.name.eq_ignore_ascii_case(NAME))
}

fn first_figure(dance: &Dance) -> Option<&Figure> {
    let first = *dance.danced().first()?;
    dance.figures.get(first)
}

/// The dance with the first strain played before the dancing: all stand, and jump on its last half-bar [MB1].
#[must_use]
pub fn with_once_to_yourself(dance: &Dance) -> Dance {
    let mut made = with_written_order(dance);
    let strain = dance.music.strains.first();
    let bars = strain.map_or(BARS, |strain| strain.bars.max(1));
    let mut figure = Figure::drawn(&free_id(dance, "once-to-yourself"), NAME, bars);
    let stands = match bars {
        1 => "sj".to_owned(),
        2 => "st, sj".to_owned(),
        bars => format!("{} st, sj", bars - 1),
    };
    let name = strain.map_or_else(String::new, |strain| strain.name.clone());
    made.order.insert(0, Entry { strain: name, ..Entry::of(&figure.id) });
    made.figures.push(figure.clone());
    let counts = made.bar_counts(&figure);
    figure.phrase = in_other_bars(&stands, &known_steps(&dance.steps), &BarCounts::usual(bars), &counts);
    if let Some(last) = made.figures.last_mut() {
        *last = figure;
    }
    made
}

/// The dance that begins with its dancing.
#[must_use]
pub fn without_once_to_yourself(dance: &Dance) -> Dance {
    if !is_once_to_yourself(dance) {
        return dance.clone();
    }
    let mut made = with_written_order(dance);
    let id = made.order.remove(0).figure;
    if made.order.iter().all(|entry| entry.figure != id) {
        made.figures.retain(|figure| figure.id != id);
    }
    made
}
