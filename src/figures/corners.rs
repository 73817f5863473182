use super::{
    Choice, Choices, FigureError, Kind, NamedFigure, corners_of_the_book as book, partners::lead,
    way_over::WayOver,
};
use crate::dance::{BarCounts, LeadRule, Leg, Part, Turn, Way};
use crate::motion::{Ground, Plan, Stand, wrap_half};

/// Corners: opposites, 1-6, 2-5, 3-4 in a set of six [MB1], in turn change places with capers while the others stand
/// (common practice, no source), or as the book has it [MB1]. Danced twice, so that everyone comes home.
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "corners",
    title: "Corners",
    titles: &[],
    help: "Opposites in turn change places with capers while the others stand",
    choices: &[
        Choice {
            key: "pass",
            label: "apart as they pass",
            help: "how far apart their middles are as they pass, right shoulders",
            kind: Kind::Number { usual: 0.7, least: 0.5, most: 2.0, unit: "m" },
        },
        Choice {
            key: "times",
            label: "times",
            help: "twice to come home, or once to end with opposites changed",
            kind: Kind::Word(&["twice", "once"]),
        },
        Choice {
            key: "form",
            label: "form",
            help: "with capers, four bars for a pair, or as the Morris Book has it, eight bars for a pair",
            kind: Kind::Word(&["capers", "book"]),
        },
        Choice {
            key: "pair",
            label: "which pair",
            help: "which pair of opposites changes: pair 1 is number 1 and the bottom of the other file; 0 for each in turn",
            kind: Kind::Number { usual: 0.0, least: 0.0, most: 4.0, unit: "" },
        },
    ],
    plan,
};

/// Bars in which one pair of opposites changes: two double steps on the spot, then four capers across.
const BARS: u32 = 4;
/// What a pair steps in them, and what those step who stand.
const PHRASE: &str = "2 ds, 4 pc";
const WAIT: &str = "4 st";
/// Faster than this, metres a count, is too far to go in the capers alone.
const FAR: f64 = 0.7;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let dancers = ground.dancers();
    if !(2..=4).contains(&ground.ranks()) || ground.ranks() * 2 != dancers {
        return Err(FigureError::Set {
            figure: FIGURE.name,
            why: "it needs four, six or eight dancers in two files".to_owned(),
        });
    }
    let bow = choices.number("pass") / 2.0;
    let pairs = dancers / 2;
    let turns: Vec<usize> = match choices.number("pair") {
        0.0 => (0..pairs).collect(),
        pair if pair.fract() == 0.0 && pair <= pairs as f64 => vec![pair as usize - 1],
        pair => {
            let why = format!("it has {pairs} pairs of opposites, from 1 to {pairs}, and pair is {pair}");
            return Err(FigureError::Set { figure: FIGURE.name, why });
        }
    };
    let all = turns.len() == pairs;
    let times = if choices.word("times") == "once" { 1 } else { 2 };
    let of_the_book = choices.word("form") == "book";
    let bars = if of_the_book { book::BARS } else { BARS };
    // Whose turn it is, in order.
    let turns = turns.repeat(times);
    let mut plan = Plan::still(bars * turns.len() as u32, "st", dancers);
    plan.named_lead = Some(LeadRule::Right);
    for part in &mut plan.parts {
        let Some(other) = ground.opposite(part.place) else { continue };
        let (Some(home), Some(away)) = (ground.stand(part.place), ground.stand(other)) else { continue };
        let own = part.place.min(other).index();
        let mut phrase = Vec::new();
        let (mut from, mut to) = (home, away);
        for (index, turn) in turns.iter().enumerate() {
            let begin = BarCounts::usual(bars).counts() * index as f64;
            // After the last pair the whole side takes up what comes next [MB1]; after one pair alone that may be another pair.
            let next = turns.get(index + 1).map_or(all, |next| *next == own);
            phrase.push(match (*turn == own, of_the_book) {
                (true, true) => book::PHRASE,
                (true, false) => PHRASE,
                (false, true) if next => book::WAIT_AND_JUMP,
                (false, true) => book::WAIT,
                (false, false) => WAIT,
            });
            if *turn != own {
                continue;
            }
            let over = WayOver::between(from, to);
            let standing = ground.places().zip(&ground.stands);
            let standing =
                standing.filter(|(place, _)| ![part.place, other].contains(place)).map(|(_, stand)| stand);
            let way = over.points(bow, standing);
            if of_the_book {
                book::change(part, begin, &over, (from, to), &way);
            } else {
                change(part, begin, &over, (from, to), &way);
                // One who has just come across goes on with the foot that is free.
                if index.checked_sub(1).and_then(|before| turns.get(before)) != Some(&own) {
                    part.leads.push(lead(begin, Way::Right));
                }
            }
            (from, to) = (to, from);
        }
        part.phrase = phrase.join(", ");
        if times == 1
            && turns.contains(&own)
            && let Some(end) = plan.ends_in.get_mut(part.place.index())
        {
            *end = other;
        }
    }
    Ok(plan)
}

/// One dancer's way from corner to corner: face the opposite, cross by the right shoulder, turn right to face.
fn change(part: &mut Part, begin: f64, over: &WayOver, (from, to): (&Stand, &Stand), way: &[(f64, f64)]) {
    let off = wrap_half(over.facing - from.facing);
    if off.abs() > 1.0 {
        let way = if off < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::to_face(begin, begin + 1.5, way, over.facing));
    }
    let start = if over.length / 8.0 > FAR { begin + 2.0 } else { begin + 8.0 };
    part.legs.push(Leg::smooth(start, begin + 16.0, way, to.x, to.y));
    part.turns.push(Turn::to_face(begin + 14.0, begin + 16.0, Way::Right, to.facing));
}
