use super::{Choice, Choices, FigureError, Kind, NamedFigure, partners::lead};
use crate::dance::{BarCounts, LeadRule, Leg, Turn, Way};
use crate::motion::{Ground, Plan, Stand, wrap_half};

/// Corners: opposites, 1-6, 2-5, 3-4 in a set of six [MB1], in turn change places with capers while the others stand
/// (common practice, no source). Danced twice, so that everyone comes home.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "corners",
    title: "Corners",
    help: "Opposites in turn change places with capers while the others stand",
    choices: &[
        Choice {
            key: "pass",
            help: "how far apart their middles are as they pass, right shoulders",
            kind: Kind::Number { usual: 0.7, least: 0.5, most: 2.0, unit: "m" },
        },
        Choice {
            key: "times",
            help: "twice to come home, or once to end with opposites changed",
            kind: Kind::Word(&["twice", "once"]),
        },
    ],
    plan,
};

/// Bars in which one pair of opposites changes: two double steps on the spot, then four capers across.
const BARS: u32 = 4;
/// Faster than this, metres a count, is too far to go in the capers alone.
const FAR: f64 = 0.7;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let dancers = ground.dancers();
    if !(2..=4).contains(&ground.ranks()) {
        return Err(FigureError::Set {
            figure: FIGURE.name,
            why: "it needs four, six or eight dancers in two files".to_owned(),
        });
    }
    let bow = choices.number("pass") / 2.0;
    let pairs = dancers / 2;
    let times = if choices.word("times") == "once" { 1 } else { 2 };
    let mut plan = Plan::still(BARS * (pairs * times) as u32, "2 ds, 4 pc", dancers);
    plan.named_lead = Some(LeadRule::Right);
    if times == 1 {
        plan.ends_in = ground.places().rev().collect();
    }
    for part in &mut plan.parts {
        let Some(other) = ground.opposite(part.place) else { continue };
        let (Some(home), Some(away)) = (ground.stand(part.place), ground.stand(other)) else { continue };
        let turn = part.place.min(other).index();
        let mut phrase = Vec::new();
        for time in 0..times {
            for pair in 0..pairs {
                phrase.push(if pair == turn { "2 ds, 4 pc" } else { "4 st" });
            }
            let begin = BarCounts::usual(BARS).counts() * (time * pairs + turn) as f64;
            let (from, to) = if time == 0 { (home, away) } else { (away, home) };
            change(part, begin, from, to, bow);
        }
        part.phrase = phrase.join(", ");
    }
    Ok(plan)
}

/// One dancer's way from corner to corner: face the opposite, cross by the right shoulder, turn right to face.
fn change(part: &mut crate::dance::Part, begin: f64, from: &Stand, to: &Stand, bow: f64) {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    let facing = dx.atan2(dy).to_degrees();
    let off = wrap_half(facing - from.facing);
    if off.abs() > 1.0 {
        let way = if off < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::to_face(begin, begin + 1.5, way, facing));
    }
    // The bow is to the dancer's own left, half-way across, and short, so that those who stand are given room.
    let along = |share: f64, left: f64| {
        (from.x + dx * share - dy / length * left, from.y + dy * share + dx / length * left)
    };
    let points = [along(0.32, 0.0), along(0.5, bow), along(0.68, 0.0)];
    let start = if length / 8.0 > FAR { begin + 2.0 } else { begin + 8.0 };
    part.legs.push(Leg::smooth(start, begin + 16.0, &points, to.x, to.y));
    part.turns.push(Turn::to_face(begin + 14.0, begin + 16.0, Way::Right, to.facing));
    part.leads.push(lead(begin, Way::Right));
}
