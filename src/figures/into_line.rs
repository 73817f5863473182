use super::{
    Choice, Choices, FigureError, Kind, NamedFigure,
    partners::{BEFORE_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Turn, TurnOn};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Into line, by the left-then-right rule. Half 1: forward on the first double step, to the left, until partners
/// stand side by side on the middle line, right shoulders together; the second double step on the spot, a quarter
/// turn left on its hop; then straight home, turning left on the single steps. Half 2 by the right (common
/// practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "into-line",
    title: "Into line",
    titles: &[],
    help: "Meet your partner side by side on the middle line, right shoulders; turn home; then by the left",
    choices: &[
        Choice {
            key: "pass",
            label: "apart in the line",
            help: "how far apart partners' middles are in the line",
            kind: Kind::Number { usual: 0.7, least: 0.4, most: 2.0, unit: "m" },
        },
        super::usual_choices::FIRST,
        super::usual_choices::ONE_BAR,
    ],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let side = choices.number("pass") / 2.0;
    let out = choices.counts_of_bars("bars").min(7.0);
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.straight_home = true;
    plan.named_lead = Some(LeadRule::LeftThenRight);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        for (begin, way) in [(0.0, first), (16.0, first.other())] {
            let (x, y) = own.place(0.0, left_sign(way) * side);
            part.legs.push(Leg::straight(begin, begin + out, x, y));
            part.legs.push(Leg::straight(begin + 8.0, begin + 12.0, own.home.x, own.home.y));
            let quarter = Turn::to_face(begin + 7.0, begin + 8.0, way, own.facing(90.0 * way.sign()));
            part.turns.push(quarter.on(TurnOn::Hop));
            let home = Turn::to_face(begin + 8.0, begin + 11.0, way, own.facing(0.0));
            part.turns.push(home.on(TurnOn::SingleSteps));
            part.leads.push(lead(begin, way));
        }
    }
    Ok(face_home(plan, ground, BEFORE_JUMP))
}
