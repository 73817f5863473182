use crate::dance::{Dance, Strike, shown_name};
use crate::edits::StrikeAt;
use crate::motion::Moment;
use crate::words::strike_noun;

/// A strike of a figure, where there is one.
pub(super) fn strike_of(dance: &Dance, figure: usize, at: StrikeAt) -> Option<&Strike> {
    dance.figures.get(figure)?.strikes.get(at.strike)
}

/// What a figure is called.
pub(super) fn figure_name(dance: &Dance, figure: usize) -> String {
    dance.figures.get(figure).map_or_else(String::new, |figure| shown_name(&figure.name))
}

/// `the tap at bar 2:3 of Lanterns`.
pub(super) fn words_of(dance: &Dance, figure: usize, at: StrikeAt) -> String {
    let Some((told, strike)) = dance.figures.get(figure).zip(strike_of(dance, figure, at)) else {
        return "a tap".to_owned();
    };
    let count = strike.counts().nth(at.which).unwrap_or(strike.at);
    let moment = Moment::at(&dance.bar_counts(told), count);
    format!("the {} at bar {moment} of {}", strike_noun(strike), shown_name(&told.name))
}
