use super::{Choices, FigureError, NamedFigure, gip};
use crate::motion::{Ground, Plan};

/// Whole gip: all round your partner and home, facing them all the way; then the other way round (common practice, no
/// source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "whole-gip",
    title: "Whole gip",
    titles: &[],
    help: "All round your partner, facing them all the way, right shoulders; then by the left",
    choices: &[gip::APART, super::usual_choices::FIRST],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    gip::plan(ground, choices, FIGURE.name, true)
}
