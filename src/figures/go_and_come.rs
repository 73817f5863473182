use super::{
    Choices, FigureError, NamedFigure,
    partners::{BEFORE_HALF_BAR_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Way};
use crate::motion::{Ground, Plan, TRAVELLING_PHRASE};

/// Go and come [MB1]. Bars 1-2 change places, right shoulders; bars 3-4 straight back, backwards; bars 5-8 the
/// same by left shoulders. No turning.
///
/// Two people cannot go back along one line at once, so each goes back the way they came.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "go-and-come",
    title: "Go and come",
    titles: &[],
    help: "Change places by the right shoulder and back again backwards; then by the left",
    choices: &[super::usual_choices::PASS, super::usual_choices::FIRST, super::usual_choices::TWO_BARS],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let bow = choices.number("pass") / 2.0;
    let out = choices.counts_of_bars("bars");
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, TRAVELLING_PHRASE, ground.dancers());
    plan.straight_home = true;
    plan.named_lead = Some(LeadRule::Right);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        for (begin, way) in [(0.0, first), (16.0, first.other())] {
            let middle = own.place(0.0, left_sign(way) * bow);
            part.legs.push(Leg::smooth(begin, begin + out, &[middle], own.away.x, own.away.y));
            part.legs.push(Leg::smooth(begin + 8.0, begin + 14.0, &[middle], own.home.x, own.home.y));
            part.leads.push(lead(begin, Way::Right));
        }
    }
    Ok(face_home(plan, ground, BEFORE_HALF_BAR_JUMP))
}
