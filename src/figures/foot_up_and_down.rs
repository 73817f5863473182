use super::{Choice, Choices, FigureError, Kind, Mirror, NamedFigure, mirrored};
use crate::dance::{Extra, Foot, Lead, LeadRule, Leg, Part, Turn, TurnOn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Foot up and down. Half 1: face up, dance up and back to place by the outside-foot rule: start on the foot
/// farther from your partner, turn away from them the long way, finish facing them. Half 2: the same facing
/// down, or up again (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "foot-up-and-down",
    title: "Foot up and down",
    titles: &[("second", "up", "Foot up twice")],
    help: "Up and back, turning away from your partner; then the same down, or up again",
    choices: &[
        Choice {
            key: "distance",
            label: "how far",
            help: "how far up and down they dance",
            kind: Kind::Number { usual: 1.0, least: 0.0, most: 4.0, unit: "m" },
        },
        super::usual_choices::TWO_BARS,
        Choice {
            key: "second",
            label: "second half",
            help: "the second half: down, or up again",
            kind: Kind::Word(&["down", "up"]),
        },
    ],
    plan,
};

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let distance = choices.number("distance");
    let out = choices.counts_of_bars("bars");
    // Which way the second half faces and goes, and the way that is from the partner for the left file.
    let (facing, second, way) = match choices.word("second") {
        "up" => (0.0, distance, Way::Left),
        _ => (180.0, -distance, Way::Right),
    };
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::OutsideFoot);
    for (part, stand) in plan.parts.iter_mut().zip(&ground.stands) {
        // Danced as if in the left file; the right file is its mirror across the set.
        let right_file = stand.x > 1e-9;
        let x = if right_file { -stand.x } else { stand.x };
        let home = if right_file { -stand.facing } else { stand.facing };
        let mut left = Part::still(part.place);
        if distance > 0.0 {
            left.legs = vec![
                Leg::straight(0.0, out, x, stand.y + distance),
                Leg::straight(8.0, 12.0, x, stand.y),
                Leg::straight(16.0, 16.0 + out, x, stand.y + second),
                Leg::straight(24.0, 28.0, x, stand.y),
            ];
        }
        left.turns = vec![
            Turn::to_face(0.0, 1.0, Way::Left, 0.0).on(TurnOn::Start),
            Turn::to_face(8.0, 11.0, Way::Left, home).on(TurnOn::SingleSteps),
            Turn::to_face(16.0, 17.0, way, facing).on(TurnOn::Start),
            Turn::to_face(24.0, 27.0, way, home).on(TurnOn::SingleSteps),
        ];
        left.leads = vec![
            Lead { at: 0.0, foot: Foot::Left, extra: Extra::new() },
            Lead { at: 16.0, foot: way.foot(), extra: Extra::new() },
        ];
        *part = if right_file { mirrored(&left, Mirror::Across, part.place) } else { left };
    }
    Ok(plan)
}
