use super::{
    Choice, Choices, FigureError, Kind, NamedFigure,
    partners::lead,
    rounds::{Circle, HalfRound, WAY, facing_there, finish},
};
use crate::dance::{EndsIn, LeadRule, SetKind, Stance, Turn, Way};
use crate::motion::{Ground, Plan};

/// Whole rounds, by the same-way rule: spin right at the start of each half, start right both times, and keep
/// going the same way round. Half 1: half-way round, face your partner, jump. Half 2: the rest of the way, and
/// finish facing up with four capers, or all in: in a ring that faces the middle (common practice, no source). A set in two files
/// stays on the circle for that, as the end of a dance may be [MB1], and so ends anywhere.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "whole-rounds",
    title: "Whole rounds",
    titles: &[],
    help: "Half-way round the circle, then the rest of the way, finishing with four capers up, or all in",
    choices: &[
        WAY,
        Choice {
            key: "finish",
            label: "they end",
            help: "at home facing up, or all in: in a ring that faces the middle",
            kind: Kind::Word(&["up", "in"]),
        },
    ],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let sign = if choices.word("way") == "anticlockwise" { -1.0 } else { 1.0 };
    let mut plan = Plan::still(8, "2 ds, 2 ss, ftj, 2 ds, 4 pc", ground.dancers());
    plan.named_lead = Some(LeadRule::SameWay);
    let all_in = choices.word("finish") == "in";
    let stays = all_in && ground.kind == SetKind::Longways && ground.dancers() > 1;
    if !all_in {
        plan.ends = Stance::Column;
    }
    if stays {
        plan.spots = EndsIn::Anywhere;
    }
    let circle = Circle::of(ground);
    for (part, stand) in plan.parts.iter_mut().zip(&ground.stands) {
        part.leads = vec![lead(0.0, Way::Right), lead(16.0, Way::Right)];
        let last = if all_in { stand.facing } else { 0.0 };
        if circle.is_middle(part.place) {
            // Nowhere to go round: a turn on the spot in each half.
            part.turns = vec![
                Turn { spins: 1, ..Turn::to_face(0.0, 4.0, Way::Right, stand.facing) },
                Turn { spins: 1, ..Turn::to_face(16.0, 20.0, Way::Right, last) },
            ];
            continue;
        }
        let there = facing_there(ground, part.place);
        circle.dance(part, HalfRound::first(stand.facing, sign));
        part.turns.push(finish(9.5, 12.0, sign, there));
        let second = HalfRound {
            begin: 16.0,
            end: 28.0,
            from: there,
            turned: 180.0 * sign,
            sign,
            spin: Way::Right,
            stays,
        };
        circle.dance(part, second);
        let last = if stays { circle.facing_in(part.place, second) } else { last };
        part.turns.push(finish(25.0, 28.0, sign, last));
    }
    Ok(plan)
}
