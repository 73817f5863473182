use super::{Choice, Choices, FigureError, Kind, NamedFigure};
use crate::dance::{Extra, Foot, Lead, Leg, LegFacing, Stance, Turn, Way};
use crate::motion::{Ground, Plan, wrap_half};

/// Whole rounds, by the same-way rule: spin right at the start of each half, start right both times, and keep
/// going the same way round. Half 1: half-way round, face your partner, jump. Half 2: the rest of the way, and
/// finish facing up with four capers (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "whole-rounds",
    title: "Whole rounds",
    help: "Half-way round the circle, then the rest of the way, finishing with four capers up",
    bars: 8,
    choices: &[Choice {
        key: "way",
        help: "which way round, seen from above",
        kind: Kind::Word(&["clockwise", "anticlockwise"]),
    }],
    plan,
};

/// Points on the way round half a circle.
const POINTS: usize = 7;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let sign = if choices.word("way") == "anticlockwise" { -1.0 } else { 1.0 };
    let mut plan = Plan::still(FIGURE.bars, "2 ds, 2 ss, ftj, 2 ds, 4 pc", ground.dancers());
    plan.ends = Stance::Column;
    let circle = Circle::of(ground);
    for (index, (part, stand)) in plan.parts.iter_mut().zip(&ground.stands).enumerate() {
        let Some(round) = circle.rounds.get(index) else { continue };
        let foot = |at| Lead { at, foot: Foot::Right, extra: Extra::new() };
        part.leads = vec![foot(0.0), foot(16.0)];
        if round.radius < 0.05 {
            part.turns = vec![
                Turn::to_face(0.0, 3.0, Way::Right, stand.facing),
                Turn::to_face(16.0, 20.0, Way::Right, 0.0),
            ];
            continue;
        }
        for (half, begin, end, turned) in [(0.0, 0.0, 12.0, 0.0), (16.0, 16.0, 28.0, 180.0)] {
            let points: Vec<(f64, f64)> = (1..=POINTS)
                .map(|point| circle.place(round, point as f64 / (POINTS + 1) as f64, turned, sign))
                .collect();
            let (x, y) = if half == 0.0 { (-stand.x, -stand.y) } else { (stand.x, stand.y) };
            part.legs.push(Leg::smooth(begin, end, &points, x, y).facing(LegFacing::Forwards));
            // The spin ends facing along the circle, where the dancer is a quarter of this half round.
            let along = round.angle + turned + sign * (0.25 * 180.0 + 90.0);
            part.turns.push(Turn::to_face(begin, begin + 3.0, Way::Right, along));
        }
        let there = ground
            .opposite(index)
            .and_then(|other| ground.stands.get(other))
            .map_or(stand.facing + 180.0, |other| other.facing);
        part.turns.insert(1, Turn::to_face(9.5, 12.0, Way::Right, there));
        let arriving = round.angle + sign * 90.0;
        let way = if wrap_half(-arriving) < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::to_face(25.0, 28.0, way, 0.0));
    }
    Ok(plan)
}

/// The circle that a set makes when it dances round its middle.
struct Circle {
    /// Metres.
    radius: f64,
    rounds: Vec<Round>,
}

/// Where a dancer joins the circle.
struct Round {
    /// Degrees clockwise from up, seen from the middle.
    angle: f64,
    /// Metres from the middle.
    radius: f64,
    /// Degrees to move round so that all are evenly spread.
    spread: f64,
}

impl Circle {
    fn of(ground: &Ground) -> Self {
        let mut rounds: Vec<Round> = ground
            .stands
            .iter()
            .map(|stand| Round {
                angle: stand.x.atan2(stand.y).to_degrees(),
                radius: stand.x.hypot(stand.y),
                spread: 0.0,
            })
            .collect();
        let count = rounds.len().max(1) as f64;
        let radius = rounds.iter().map(|round| round.radius).sum::<f64>() / count;
        let mut order: Vec<usize> = (0..rounds.len()).collect();
        let angle = |index: &usize| rounds.get(*index).map_or(0.0, |round| round.angle);
        order.sort_by(|one, other| angle(one).total_cmp(&angle(other)));
        let even: Vec<f64> = (0..order.len()).map(|rank| 360.0 * rank as f64 / count).collect();
        let mean = order.iter().zip(&even).map(|(index, even)| angle(index) - even).sum::<f64>() / count;
        for (index, even) in order.iter().zip(&even) {
            if let Some(round) = rounds.get_mut(*index) {
                round.spread = wrap_half(even + mean - round.angle);
            }
        }
        Self { radius, rounds }
    }

    /// The place of a dancer a share of half a circle on from `turned` degrees round.
    fn place(&self, round: &Round, share: f64, turned: f64, sign: f64) -> (f64, f64) {
        let joined = (share.min(1.0 - share) / 0.3).min(1.0);
        let joined = joined * joined * (3.0 - 2.0 * joined);
        let radius = round.radius + (self.radius - round.radius) * joined;
        let angle = round.angle + turned + sign * 180.0 * share + round.spread * joined;
        let (sin, cos) = angle.to_radians().sin_cos();
        (radius * sin, radius * cos)
    }
}
