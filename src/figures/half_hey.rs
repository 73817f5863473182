use super::{
    Choices, FigureError, NamedFigure,
    hey::{INSIDE, OUTSIDE, TIMING, TOPS, half_hey_parts, put_in_both_files},
};
use crate::dance::{LeadRule, PlaceNumber};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Half hey [MB1]: four bars; ends reversed, tops at the bottom, bottoms at the top, middles home.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "half-hey",
    title: "Half hey",
    titles: &[],
    help: "Half of the hey: the ends change and the middles come home",
    choices: &[INSIDE, OUTSIDE, TIMING, TOPS],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let parts = half_hey_parts(ground, choices, FIGURE.name)?;
    let mut plan = Plan::still(4, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::OutsideFoot);
    let ranks = parts.len();
    for (rank, part) in parts.iter().enumerate() {
        put_in_both_files(&mut plan, rank, part);
        for (place, there) in
            PlaceNumber::of_rank(rank).into_iter().zip(PlaceNumber::of_rank(ranks - 1 - rank))
        {
            if let Some(end) = plan.ends_in.get_mut(place.index()) {
                *end = there;
            }
        }
    }
    Ok(plan)
}
