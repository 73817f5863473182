use super::{
    Choices, FigureError, NamedFigure,
    partners::{BEFORE_HALF_BAR_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Turn, Way};
use crate::motion::{Ground, Plan, TRAVELLING_PHRASE};

/// Cross-over [MB1]. Bars 1-2 change places with your partner, right shoulders; bars 3-4 turn right about on the
/// spot; bars 5-8 the same again, right shoulders again.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "cross-over",
    title: "Cross over",
    titles: &[],
    help: "Change places by the right shoulder and turn right about; then the same home",
    choices: &[super::usual_choices::PASS, super::usual_choices::FIRST, super::usual_choices::TWO_BARS],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let bow = choices.number("pass") / 2.0;
    let out = choices.counts_of_bars("bars");
    let way = way_past(choices.word("first"));
    let mut plan = Plan::still(8, TRAVELLING_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::Right);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        for (begin, to, back) in [(0.0, own.away, 1.0), (16.0, own.home, -1.0)] {
            let middle = own.place(0.0, back * left_sign(way) * bow);
            part.legs.push(Leg::smooth(begin, begin + out, &[middle], to.x, to.y));
            let facing = own.facing(if back > 0.0 { 180.0 } else { 0.0 });
            // Right about when right shoulders pass; the mirror of it when left ones do.
            part.turns.push(Turn::to_face(begin + 8.0, begin + 11.0, way.other(), facing));
            part.leads.push(lead(begin, Way::Right));
        }
    }
    Ok(face_home(plan, ground, BEFORE_HALF_BAR_JUMP))
}
