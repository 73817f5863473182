use super::{Choice, Choices, FigureError, Kind, NamedFigure};
use crate::dance::{Extra, Foot, Lead, LeadRule, Leg, Turn, Way};
use crate::motion::{Ground, Plan, TRAVELLING_PHRASE, wrap_half};

/// Down and back [MB1]. In column: bars 1-2 the file goes forward its own length, or as far as can be danced, bars 3-4 it backs to place; twice.
/// In the reversed form it turns about for the second half. It may end in column, or in column reversed, as [MB1] has both.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "down-and-back",
    title: "Down and back",
    titles: &[],
    help: "In column, forward the length of the file, as far as 4 m, and back to place backwards; twice",
    choices: &[
        Choice {
            key: "distance",
            label: "how far",
            help: "how far they go; 0 for the file's own length, up to 4 m",
            kind: Kind::Number { usual: 0.0, least: 0.0, most: 20.0, unit: "m" },
        },
        Choice {
            key: "second",
            label: "second half",
            help: "the second half: up again, or turned about and down",
            kind: Kind::Word(&["same", "reversed"]),
        },
        super::usual_choices::TWO_BARS,
        super::usual_choices::FINISH,
    ],
    plan,
};

/// As far as a file can back in six counts with steps of 0.8 m at the most (common practice, no source; worked out from it,
/// going 1.18 times as fast as the mean), metres: a file of four or more ranks does not go its own length.
const FARTHEST: f64 = 4.0;
/// How far a set goes that has no length of its own, metres.
const SHORT: f64 = 1.83;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let length = ground.length();
    let distance = match choices.number("distance") {
        0.0 if length > 0.0 => length.min(FARTHEST),
        0.0 => SHORT,
        chosen => chosen,
    };
    let out = choices.counts_of_bars("bars");
    let reversed = choices.word("second") == "reversed";
    let mut plan = Plan::still(8, TRAVELLING_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::Right);
    plan.ends = super::usual_choices::finish(choices);
    for (part, stand) in plan.parts.iter_mut().zip(&ground.stands) {
        let to_column = if wrap_half(stand.facing) > 0.0 { Way::Left } else { Way::Right };
        let (x, y) = (stand.x, stand.y);
        if wrap_half(stand.facing).abs() > 1e-6 {
            part.turns.push(Turn::to_face(0.0, 1.0, to_column, 0.0));
        }
        let facing = if reversed { 180.0 } else { 0.0 };
        let along = if reversed { -distance } else { distance };
        if reversed {
            // Turned about on the jump, away from the partner.
            part.turns.push(Turn::to_face(14.0, 16.0, to_column, facing));
        }
        part.legs = vec![
            Leg::straight(0.0, out, x, y + distance),
            Leg::straight(8.0, 14.0, x, y),
            Leg::straight(16.0, 16.0 + out, x, y + along),
            Leg::straight(24.0, 30.0, x, y),
        ];
        let last = ground.facing(part.place, plan.ends);
        let home = wrap_half(last - facing);
        if home.abs() > 1e-6 {
            // Facing so as the jump lands; about, it is away from the partner again.
            let way = match home {
                about if about.abs() > 180.0 - 1e-6 && reversed => to_column.other(),
                about if about.abs() > 180.0 - 1e-6 => to_column,
                left if left < 0.0 => Way::Left,
                _ => Way::Right,
            };
            part.turns.push(Turn::to_face(30.0, 32.0, way, last));
        }
        let lead = |at| Lead { at, foot: Foot::Right, extra: Extra::new() };
        part.leads = vec![lead(0.0), lead(16.0)];
    }
    Ok(plan)
}
