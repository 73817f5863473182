use super::{
    Choices, FigureError, NamedFigure,
    partners::lead,
    rounds::{Circle, HalfRound, WAY, facing_there, finish},
};
use crate::dance::{Turn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Half rounds: half-way round and back the way you came (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "half-rounds",
    title: "Half rounds",
    titles: &[],
    help: "Half-way round the circle, and back the way you came",
    choices: &[WAY],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let sign = if choices.word("way") == "anticlockwise" { -1.0 } else { 1.0 };
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    let circle = Circle::of(ground);
    for (part, stand) in plan.parts.iter_mut().zip(&ground.stands) {
        // Out by the right and back by the left, each with its own spin.
        part.leads = vec![lead(0.0, Way::Right), lead(16.0, Way::Left)];
        if circle.is_middle(part.place) {
            part.turns = vec![
                Turn { spins: 1, ..Turn::to_face(0.0, 4.0, Way::Right, stand.facing) },
                Turn { spins: 1, ..Turn::to_face(16.0, 20.0, Way::Left, stand.facing) },
            ];
            continue;
        }
        let there = facing_there(ground, part.place);
        circle.dance(part, HalfRound::first(stand.facing, sign));
        part.turns.push(finish(9.5, 12.0, sign, there));
        let turned = 180.0 * sign;
        let back = HalfRound {
            begin: 16.0,
            end: 28.0,
            from: there,
            turned,
            sign: -sign,
            spin: Way::Left,
            stays: false,
        };
        circle.dance(part, back);
        part.turns.push(finish(25.5, 28.0, -sign, stand.facing));
    }
    Ok(plan)
}
