use super::{Choice, Choices, FigureError, Kind, NamedFigure};
use crate::dance::{Extra, Foot, Lead, Leg, Turn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Cross and turn. Half 1: start left, change places passing right shoulders on the first double step, a
/// quarter turn left on its hop to face up or down the set; the second double step on the spot; turn left to
/// face your partner; jump. Half 2: home by the right (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "cross-and-turn",
    title: "Cross and turn",
    help: "Change places by the right shoulder and turn to face; then home by the left",
    bars: 8,
    choices: &[
        Choice {
            key: "pass",
            help: "how far apart partners' middles are as they pass",
            kind: Kind::Number { usual: 0.7, least: 0.4, most: 2.0, unit: "m" },
        },
        Choice {
            key: "first",
            help: "the shoulder passed in the first half",
            kind: Kind::Word(&["right", "left"]),
        },
    ],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    if ground.ranks() == 0 {
        return Err(FigureError::Set {
            figure: FIGURE.name,
            why: "it is danced with a partner, and this set has no pairs".to_owned(),
        });
    }
    let bow = choices.number("pass") / 2.0;
    // Going to your own left past a facing partner puts right shoulders together.
    let first = if choices.word("first") == "left" { Way::Right } else { Way::Left };
    let mut plan = Plan::still(FIGURE.bars, USUAL_PHRASE, ground.dancers());
    for (index, part) in plan.parts.iter_mut().enumerate() {
        let Some((home, away)) =
            ground.stands.get(index).zip(ground.partner(index).and_then(|other| ground.stands.get(other)))
        else {
            continue;
        };
        let mut here = home;
        for (half, way) in [(0.0, first), (16.0, first.other())] {
            let there = if half == 0.0 { away } else { home };
            // Up the set is to the left of a dancer who faces right across it.
            let across = (there.x - here.x).signum();
            let y = home.y - way.sign() * across * bow;
            part.legs.push(Leg::smooth(half, half + 4.0, &[(0.0, y)], there.x, there.y));
            let quarter = if across > 0.0 { 90.0 } else { 270.0 } + 90.0 * way.sign();
            part.turns.push(Turn::to_face(half + 3.0, half + 4.0, way, quarter));
            let facing = if across > 0.0 { 270.0 } else { 90.0 };
            part.turns.push(Turn::to_face(half + 8.0, half + 11.0, way, facing));
            let foot = if way == Way::Left { Foot::Left } else { Foot::Right };
            part.leads.push(Lead { at: half, foot, extra: Extra::new() });
            here = there;
        }
    }
    Ok(plan)
}
