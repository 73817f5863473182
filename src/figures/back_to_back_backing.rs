use super::{
    Choice, Choices, FigureError, Kind, NamedFigure,
    partners::{BEFORE_HALF_BAR_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Way};
use crate::motion::{Ground, Plan, TRAVELLING_PHRASE};

/// Back to back, backing [MB1]. Half 1: forward passing right shoulders, across to the right behind your partner,
/// backwards home passing left shoulders. Half 2 the mirror of it. Nobody turns.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "back-to-back-backing",
    title: "Back to back, backing",
    titles: &[],
    help: "Forward by the right shoulder, behind your partner, home backwards by the left; then the mirror",
    choices: &[
        super::usual_choices::PASS,
        Choice {
            key: "behind",
            label: "out behind them",
            help: "how far beyond the middle line they go behind their partner",
            kind: Kind::Number { usual: 0.5, least: 0.3, most: 1.5, unit: "m" },
        },
        super::usual_choices::FIRST,
    ],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let bow = choices.number("pass") / 2.0;
    let behind = choices.number("behind");
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, TRAVELLING_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::Right);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        for (begin, way) in [(0.0, first), (16.0, first.other())] {
            let left = left_sign(way);
            let round = [
                own.place(-own.half_way() * 0.45, left * bow),
                own.place(0.0, left * bow),
                own.place(behind, 0.0),
                own.place(0.0, -left * bow),
                own.place(-own.half_way() * 0.45, -left * bow),
            ];
            part.legs.push(Leg::smooth(begin, begin + 14.0, &round, own.home.x, own.home.y));
            part.leads.push(lead(begin, Way::Right));
        }
    }
    Ok(face_home(plan, ground, BEFORE_HALF_BAR_JUMP))
}
