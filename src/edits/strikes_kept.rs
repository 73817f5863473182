//! What becomes of strikes where a set is smaller or a figure shorter.

use super::strikes::have_counts;
use crate::dance::{Dance, Figure, Strike, Striker, Struck, shown_name};

/// Takes away the strikes by and on places that a set of so many has not.
pub(super) fn keep_in_set(figure: &mut Figure, dancers: u32) {
    let is_in = |strike: &Strike| {
        let by = if let Striker::Place(place) = strike.by { place.is_in(dancers) } else { true };
        let on = if let Struck::Place(place) = strike.on { place.is_in(dancers) } else { true };
        by && on
    };
    figure.strikes.retain(is_in);
}

/// Takes away what is struck after a figure of so many counts has ended.
pub(super) fn keep_in_counts(figure: &mut Figure, counts: f64) {
    for strike in &mut figure.strikes {
        let rest: Vec<f64> = strike.counts().filter(|count| *count < counts).collect();
        strike.at = f64::NAN;
        have_counts(strike, rest.into_iter());
    }
    figure.strikes.retain(|strike| !strike.at.is_nan());
}

/// What is no longer struck after a change that does not say so itself, in words; nothing where all is. Figures are the same by their ids.
#[must_use]
pub fn strikes_lost(before: &Dance, after: &Dance) -> Option<String> {
    let many = |figure: &Figure| figure.strikes.iter().map(|strike| strike.counts().count()).sum::<usize>();
    let lost = after.figures.iter().filter_map(|figure| {
        let was = before.figure_index(&figure.id).and_then(|index| before.figures.get(index))?;
        let lost = many(was).saturating_sub(many(figure));
        let taps = if lost == 1 { "tap" } else { "taps" };
        (lost > 0).then(|| format!("{lost} {taps} of {}", shown_name(&figure.name)))
    });
    let lost: Vec<String> = lost.collect();
    (!lost.is_empty()).then(|| {
        format!("There is no place or no time any more for {}. Undo brings them back", lost.join(", "))
    })
}
