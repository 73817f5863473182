use super::{Choice, Choices, FigureError, Kind, NamedFigure, partners::lead};
use crate::dance::limits::MOST_BARS;
use crate::dance::{BarCounts, LeadRule, Leg, Part, Turn, Way};
use crate::motion::{Ground, Plan, Stand, USUAL_PHRASE, wrap_half};

/// Solos, as in a jig: one dancer dances up and back, twice, while the others stand; then the next one, by number, or one
/// alone (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "solos",
    title: "Solos",
    help: "One dancer dances up and back while the others stand: each in turn, or one by number",
    choices: &[
        Choice {
            key: "who",
            help: "the number who dances; 0 for each in turn",
            kind: Kind::Number { usual: 0.0, least: 0.0, most: 400.0, unit: "" },
        },
        Choice {
            key: "distance",
            help: "how far up they dance",
            kind: Kind::Number { usual: 0.8, least: 0.0, most: 4.0, unit: "m" },
        },
    ],
    plan,
};

/// Bars of each solo: the usual phrase, twice.
const BARS: u32 = 8;
/// Counts of half a solo.
const HALF: f64 = 16.0;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let refuse = |why: String| FigureError::Set { figure: FIGURE.name, why };
    let dancers = ground.dancers();
    let who = choices.number("who");
    let soloists: Vec<usize> = match who {
        0.0 => (0..dancers).collect(),
        who if who.fract() != 0.0 => {
            return Err(refuse(format!("who is {who}, which is no number of a dancer")));
        }
        who if who > dancers as f64 => {
            return Err(refuse(format!("who is {who}, and the set has {dancers} dancers")));
        }
        who => vec![who as usize - 1],
    };
    let bars = BARS as usize * soloists.len();
    if bars > MOST_BARS as usize {
        return Err(refuse(format!(
            "{dancers} solos take {bars} bars, and a figure has {MOST_BARS} at the most"
        )));
    }
    let stands = |solos: usize| vec![format!("{BARS} st"); solos].join(", ");
    let mut plan = Plan::still(bars as u32, "st", dancers);
    plan.named_lead = Some(LeadRule::LeftThenRight);
    for (turn, index) in soloists.iter().enumerate() {
        let (Some(part), Some(stand)) = (plan.parts.get_mut(*index), ground.stands.get(*index)) else {
            continue;
        };
        let before = Some(turn).filter(|turn| *turn > 0).map(stands);
        let after = Some(soloists.len() - 1 - turn).filter(|after| *after > 0).map(stands);
        let solo = format!("{USUAL_PHRASE}, {USUAL_PHRASE}");
        part.phrase = before.into_iter().chain([solo]).chain(after).collect::<Vec<_>>().join(", ");
        let begin = BarCounts::usual(BARS).counts() * turn as f64;
        dance(part, begin, stand, choices.number("distance"));
    }
    Ok(plan)
}

/// A solo from a count: face up, up and back to place, twice, and face as at home again.
fn dance(part: &mut Part, begin: f64, home: &Stand, distance: f64) {
    let off = wrap_half(home.facing);
    let (up, back) = if off > 0.0 { (Way::Left, Way::Right) } else { (Way::Right, Way::Left) };
    if off.abs() > 1e-6 {
        part.turns.push(Turn::shorter(begin, begin + 1.0, up, 0.0));
        part.turns.push(Turn::shorter(begin + HALF + 9.0, begin + HALF + 11.0, back, home.facing));
    }
    for (half, way) in [(begin, Way::Left), (begin + HALF, Way::Right)] {
        if distance > 0.0 {
            part.legs.push(Leg::straight(half, half + 8.0, home.x, home.y + distance));
            part.legs.push(Leg::straight(half + 8.0, half + 12.0, home.x, home.y));
        }
        part.leads.push(lead(half, way));
    }
}
