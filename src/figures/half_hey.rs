use super::{
    Choices, FigureError, NamedFigure,
    hey::{INSIDE, OUTSIDE, TIMING, TOPS, half_hey_parts, put_in_both_files},
    usual_choices::{FINISH, finish},
};
use crate::dance::{LeadRule, PlaceNumber, Stance, Turn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE, wrap_half};

/// Half hey [MB1]: four bars; ends reversed, tops at the bottom, bottoms at the top, middles home. In column reversed the tops then
/// lead it down.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "half-hey",
    title: "Half hey",
    titles: &[],
    help: "Half of the hey: the ends change and the middles come home",
    choices: &[INSIDE, OUTSIDE, TIMING, TOPS, FINISH],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let parts = half_hey_parts(ground, choices, FIGURE.name)?;
    let mut plan = Plan::still(4, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::OutsideFoot);
    plan.ends = finish(choices);
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
    if plan.ends != Stance::Front {
        for (part, end) in plan.parts.iter_mut().zip(&plan.ends_in) {
            let face = ground.facing(*end, plan.ends);
            let by = wrap_half(face - ground.facing(*end, Stance::Front));
            // From front in the jump, facing so as it has landed.
            let way = if by < 0.0 { Way::Left } else { Way::Right };
            part.turns.push(Turn::to_face(14.0, 16.0, way, face));
        }
    }
    Ok(plan)
}
