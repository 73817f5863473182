use super::{Choice, Choices, FigureError, Kind, NamedFigure, partners::lead};
use crate::dance::limits::MOST_BARS;
use crate::dance::{BarCounts, LeadRule, Leg, Part, Turn, Way};
use crate::motion::{Ground, Plan, Stand, USUAL_PHRASE, ease, wrap_half};

/// Solos, as in a jig: one dancer dances up and back, twice, while the others stand; then the next one, by number, or one
/// alone, by number or name (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "solos",
    title: "Solos",
    titles: &[],
    help: "One dancer dances up and back while the others stand: each in turn, or one by number or name",
    choices: &[
        Choice {
            key: "who",
            label: "who dances",
            help: "who dances, by number or by name; 0 for each in turn",
            kind: Kind::Dancer { nobody: "each in turn", title: "Solo of" },
        },
        Choice {
            key: "distance",
            label: "how far up",
            help: "how far up they dance; left out, less where somebody stands close before them",
            kind: Kind::Number { usual: 0.8, least: 0.0, most: 4.0, unit: "m" },
        },
    ],
    plan,
};

/// Bars of each solo: the usual phrase, twice.
const BARS: u32 = 8;
/// Counts of half a solo.
const HALF: f64 = 16.0;
/// How far a soloist's way is from the middle of whoever stands, metres: two bodies however they face, and the room that is not tight
/// (0.25 + 0.25 + 0.10 m, worked out from the usual limits).
const ROOM: f64 = 0.6;
/// The least that a soloist goes where nothing is chosen, metres; where there is less room than that they go by who stands there.
const LEAST: f64 = 0.4;
/// How far aside a way is looked for, metres, and in steps of how many.
const ASIDE: (f64, f64) = (2.0, 0.05);
/// Points on the way aside.
const BEND: u32 = 4;

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
            return Err(refuse(format!("who is {who}, and the set has {}", dancers_said(dancers))));
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
    // Danced facing up: the foot farther from the partner leads, as in all that faces up (common practice, no source), and the
    // right one where nobody has a partner [MB1].
    let files = ground.ranks() > 0;
    plan.named_lead = Some(if files { LeadRule::OutsideFoot } else { LeadRule::Right });
    for (turn, index) in soloists.iter().enumerate() {
        let (Some(part), Some(stand)) = (plan.parts.get_mut(*index), ground.stands.get(*index)) else {
            continue;
        };
        let before = Some(turn).filter(|turn| *turn > 0).map(stands);
        let after = Some(soloists.len() - 1 - turn).filter(|after| *after > 0).map(stands);
        let solo = format!("{USUAL_PHRASE}, {USUAL_PHRASE}");
        part.phrase = before.into_iter().chain([solo]).chain(after).collect::<Vec<_>>().join(", ");
        let begin = BarCounts::usual(BARS).counts() * turn as f64;
        let others: Vec<Stand> = ground
            .stands
            .iter()
            .enumerate()
            .filter(|(other, _)| other != index)
            .map(|(_, other)| *other)
            .collect();
        let chosen = choices.number("distance");
        let distance =
            if choices.is_given("distance") { chosen } else { usual_distance(chosen, stand, &others) };
        let foot = if files && stand.x < 0.0 { Way::Left } else { Way::Right };
        dance(part, (begin, foot), stand, &way_up(stand, distance, &others));
    }
    Ok(plan)
}

/// So many dancers in words.
fn dancers_said(dancers: usize) -> String {
    if dancers == 1 { "one dancer".to_owned() } else { format!("{dancers} dancers") }
}

/// How far a soloist goes where nothing is chosen: as usual, and less where somebody stands close before them.
fn usual_distance(usual: f64, home: &Stand, others: &[Stand]) -> f64 {
    let before = others.iter().filter(|other| other.y > home.y && (other.x - home.x).abs() < ROOM);
    let room = before
        .map(|other| other.y - home.y - (ROOM * ROOM - (other.x - home.x).powi(2)).sqrt())
        .fold(f64::INFINITY, f64::min);
    // To the centimetre, as people choose it.
    if room < LEAST { usual } else { usual.min((room * 100.0).floor() / 100.0) }
}

/// The way up, to its end: straight, or where somebody stands in it beside them, the nearest way that has room, towards the middle
/// of the set before away from it.
fn way_up(home: &Stand, distance: f64, others: &[Stand]) -> Vec<(f64, f64)> {
    let inside = if home.x > 0.0 { -1.0 } else { 1.0 };
    let lanes = (1..=(ASIDE.0 / ASIDE.1).round() as u32).flat_map(|step| {
        let aside = f64::from(step) * ASIDE.1;
        [inside * aside, -inside * aside]
    });
    let end = |aside: f64| (home.x + aside, home.y + distance);
    // Aside in a curve that ends upwards, by the time that they have gone a little farther up, or half the way.
    let way = |aside: f64| {
        let up = (aside.abs() * 1.2).min(distance / 2.0);
        let bend = (1..=BEND).map(|point| {
            let share = f64::from(point) / f64::from(BEND);
            (home.x + aside * ease(share), home.y + up * share)
        });
        // Begun upwards, so that the curve does not swing out beyond its lane.
        let on = [0.2, 0.5].map(|more| (home.x + aside, home.y + up + more));
        let on = on.into_iter().filter(|(_, y)| *y < home.y + distance - 0.2);
        bend.chain(on).chain([end(aside)]).collect::<Vec<_>>()
    };
    let is_clear = |way: &[(f64, f64)]| {
        let mut from = (home.x, home.y);
        way.iter().all(|to| {
            let (begun, to) = (std::mem::replace(&mut from, *to), *to);
            others.iter().all(|other| far_from_way((other.x, other.y), begun, to) >= ROOM - 1e-9)
        })
    };
    let straight = vec![end(0.0)];
    if distance <= 0.0 || is_clear(&straight) {
        return straight;
    }
    lanes.map(way).find(|way| is_clear(way)).unwrap_or(straight)
}

/// How far a point is from the straight way between two others, metres.
fn far_from_way((x, y): (f64, f64), from: (f64, f64), to: (f64, f64)) -> f64 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = dx * dx + dy * dy;
    let share =
        if long > 0.0 { (((x - from.0) * dx + (y - from.1) * dy) / long).clamp(0.0, 1.0) } else { 0.0 };
    (from.0 + dx * share - x).hypot(from.1 + dy * share - y)
}

/// A solo from a count, begun on the foot of a side: face up, up by a way and back to place, twice, and face as at home again.
fn dance(part: &mut Part, (begin, foot): (f64, Way), home: &Stand, way: &[(f64, f64)]) {
    let off = wrap_half(home.facing);
    let (up, back) = if off > 0.0 { (Way::Left, Way::Right) } else { (Way::Right, Way::Left) };
    if off.abs() > 1e-6 {
        part.turns.push(Turn::shorter(begin, begin + 1.0, up, 0.0));
        part.turns.push(Turn::shorter(begin + HALF + 9.0, begin + HALF + 11.0, back, home.facing));
    }
    for half in [begin, begin + HALF] {
        if let Some((end, past)) = way.split_last()
            && *end != (home.x, home.y)
        {
            part.legs.push(leg(half, half + 8.0, past, *end));
            let back: Vec<(f64, f64)> = past.iter().rev().copied().collect();
            part.legs.push(leg(half + 8.0, half + 12.0, &back, (home.x, home.y)));
        }
        part.leads.push(lead(half, foot));
    }
}

/// A leg between two counts, straight or past a place.
fn leg(begin: f64, end: f64, past: &[(f64, f64)], (x, y): (f64, f64)) -> Leg {
    if past.is_empty() { Leg::straight(begin, end, x, y) } else { Leg::smooth(begin, end, past, x, y) }
}
