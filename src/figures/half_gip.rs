use super::{Choices, FigureError, NamedFigure, gip};
use crate::motion::{Ground, Plan};

/// Half gip: half-way round your partner to the other side and back the way you came, facing them all the way; then by the
/// other shoulder (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "half-gip",
    title: "Half gip",
    titles: &[],
    help: "Half-way round your partner and back, facing them all the way, right shoulders; then by the left",
    choices: &[gip::APART, super::usual_choices::FIRST],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    gip::plan(ground, choices, FIGURE.name, false)
}
