use super::{
    Choice, Choices, FigureError, Kind, NamedFigure,
    partners::{BEFORE_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Turn, TurnOn};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Back to back, turning, by the left-then-right rule. As into line, but go right past and behind your partner,
/// backs together, before any turn begins: a quarter turn on the hop of the second double step, then straight home,
/// turning on the single steps (common practice, no source).
///
/// Two people cannot come straight home along one line at once, so behind their partner each goes on to the other
/// side and comes home past the other shoulder.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "back-to-back",
    title: "Back to back",
    titles: &[],
    help: "Right past and behind your partner, backs together; then turn straight home; then by the left",
    choices: &[
        super::usual_choices::PASS,
        Choice {
            key: "behind",
            label: "out behind them",
            help: "how far beyond the middle line they go behind their partner",
            kind: Kind::Number { usual: 0.3, least: 0.2, most: 1.5, unit: "m" },
        },
        super::usual_choices::FIRST,
    ],
    plan,
};

/// How far to the other side each has gone before coming home, metres: far enough that bodies clear however they
/// are turned.
const ASIDE: f64 = 0.45;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let bow = choices.number("pass") / 2.0;
    let behind = choices.number("behind");
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.straight_home = true;
    plan.named_lead = Some(LeadRule::LeftThenRight);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        for (begin, way) in [(0.0, first), (16.0, first.other())] {
            let left = left_sign(way);
            let (x, y) = own.place(behind, 0.0);
            let past = [own.place(0.0, left * bow), own.place(behind * 0.9, left * bow * 0.7)];
            part.legs.push(Leg::smooth(begin, begin + 4.0, &past, x, y));
            let (x, y) = own.place(behind, -left * ASIDE);
            part.legs.push(Leg::straight(begin + 4.0, begin + 7.0, x, y));
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
