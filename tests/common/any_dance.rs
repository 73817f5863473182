//! Any dance at all that a file may say: sets, music, steps of its own, named and drawn figures, turns, taps, orders and texts.

use super::any_text::{abc, name, text};
use super::draws::Draws;
use bellpad::dance::{
    Allow, ClearFloor, Dance, Ends, EndsIn, Entry, Extra, FaultKind, FaultLimits, Figure, Foot, FreeFoot,
    FreePlace, Grip, Holding, Inside, Landing, Lead, LeadRule, Leg, LegFacing, Metre, OwnStep, Part, Person,
    PhotoMark, PlaceNumber, Point, Set, SetKind, Shape, SpeedChange, Spot, Stance, Strain, Strength, Strike,
    StrikeEnd, StrikePart, Striker, Struck, Turn, TurnOn, Underlay, Way, Waypoint, follow_tune,
};
use bellpad::figures::{Kind, all, motion_of_figure, named_figure};
use bellpad::motion::known_steps;
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// Bars of all the figures of an order together, at most.
const MOST_BARS: u32 = 48;

/// A dance.
pub fn any_dance(draws: &mut Draws) -> Dance {
    let mut dance = Dance::new(&text(draws), set(draws));
    (dance.side, dance.tradition) = (text(draws), text(draws));
    (dance.author, dance.notes) = (text(draws), text(draws));
    dance.holding = draws.one_of(&[Holding::Handkerchiefs, Holding::Sticks, Holding::Nothing]);
    dance.grip = draws.one_of(&[Grip::Middle, Grip::End]);
    dance.lead = draws.maybe(4, |draws| draws.one_of(&LeadRule::ALL));
    dance.hops = !draws.once_in(4);
    if draws.once_in(4) {
        dance.height = draws.between(1.4, 2.1);
    }
    dance.extra = extra(draws);
    if let Some(floor) = draws.maybe(3, floor) {
        dance.floor = Some(floor);
    }
    if draws.once_in(5) {
        dance.limits = limits(draws);
    }
    music(draws, &mut dance);
    dance.steps = own_steps(draws);
    order(draws, &mut dance);
    people(draws, &mut dance);
    underlay(draws, &mut dance);
    dance
}

fn extra(draws: &mut Draws) -> Extra {
    let mut extra = Map::new();
    if draws.once_in(8) {
        let value = draws.one_of(&[json!(null), json!([1, {"a": "b"}]), json!("x"), json!(1e300)]);
        extra.insert("later".to_owned(), value);
    }
    extra
}

fn set(draws: &mut Draws) -> Set {
    let kind = draws.one_of(&[SetKind::Longways, SetKind::Longways, SetKind::Ring, SetKind::Spots]);
    let dancers = match draws.below(10) {
        0 => 1,
        1 => 2 * draws.whole(7, 12),
        _ if kind == SetKind::Longways => 2 * draws.whole(1, 6),
        _ => draws.whole(2, 12),
    };
    let mut set = Set::longways(dancers, 2.4, 1.8);
    if draws.once_in(2) {
        (set.across, set.along) = (draws.between(0.3, 6.0), draws.between(0.3, 6.0));
    }
    set.kind = kind;
    if kind == SetKind::Ring {
        set.radius = draws.maybe(2, |draws| draws.between(0.1, 8.0));
    }
    if kind == SetKind::Spots {
        set.spots = (0..dancers)
            .map(|_| Spot {
                x: draws.between(-4.0, 4.0),
                y: draws.between(-6.0, 6.0),
                facing: draws.one_of(&[0.0, 90.0, 180.0, 270.0, -45.0, 720.0, 33.3]),
                extra: extra(draws),
            })
            .collect();
    }
    set
}

fn floor(draws: &mut Draws) -> ClearFloor {
    ClearFloor {
        across: draws.between(0.5, 20.0),
        along: draws.between(0.5, 20.0),
        x: draws.between(-2.0, 2.0),
        y: draws.between(-2.0, 2.0),
        extra: extra(draws),
    }
}

fn limits(draws: &mut Draws) -> FaultLimits {
    let mut limits = FaultLimits::default();
    for (key, _, least, most, _) in FaultLimits::default().given() {
        if draws.once_in(3) {
            let usual = most.min(10.0).max(least);
            *limits.slot(key).unwrap() = Some(draws.between(least, usual));
        }
    }
    limits
}

fn speeds(draws: &mut Draws, counts: f64) -> Vec<SpeedChange> {
    let mut count = 0.0;
    let mut changes = Vec::new();
    for _ in 0..draws.below(4) {
        let change = SpeedChange::at(count, draws.between(20.0, 220.0));
        changes.push(if draws.once_in(2) { change.eased() } else { change });
        count = (count + 0.5 + draws.between(0.0, counts)).min(10_000.0);
    }
    changes
}

fn music(draws: &mut Draws, dance: &mut Dance) {
    dance.music.metre = draws.one_of(&Metre::ALL);
    dance.music.speed =
        if draws.once_in(6) { draws.between(10.0, 400.0) } else { draws.between(60.0, 140.0) };
    dance.music.upbeat = draws.one_of(&[0, 0, 1, 2, 6]);
    if draws.once_in(2) {
        dance.music.abc = abc(draws);
        if draws.once_in(2)
            && let Ok(music) = follow_tune(&dance.music)
        {
            dance.music = music;
            return;
        }
    }
    dance.music.strains = (0..draws.below(4))
        .map(|index| Strain {
            name: draws.one_of(&["A", "B", "C", "Dm", "鵝"]).repeat(1 + index % 2),
            bars: draws.whole(1, 12),
            metre: draws.maybe(4, |draws| draws.one_of(&Metre::ALL)),
            speeds: if draws.once_in(4) { speeds(draws, 16.0) } else { Vec::new() },
            extra: extra(draws),
        })
        .collect();
    let names: Vec<String> = dance.music.strains.iter().map(|strain| strain.name.clone()).collect();
    if !names.is_empty() {
        dance.music.played = draws.many(0, 4, |draws| draws.one_of(&names));
    }
}

fn own_steps(draws: &mut Draws) -> Vec<OwnStep> {
    let landings =
        [Landing::Lead, Landing::Other, Landing::Both, Landing::Air, Landing::Upbeat, Landing::Stay];
    let make = |draws: &mut Draws| {
        let counts = draws.whole(1, 8) as usize;
        let mut step = OwnStep {
            name: name(draws),
            short: draws.one_of(&["q", "zz", "ds", "шаг", "x1", "步"]).to_owned(),
            feet: (0..counts).map(|_| draws.one_of(&landings)).collect(),
            hands_follow_lead: draws.once_in(3),
            extra: extra(draws),
            ..OwnStep::default()
        };
        let mut list = |list: &mut Vec<f64>, least: f64, most: f64| {
            if draws.once_in(3) {
                *list = (0..counts).map(|_| draws.between(least, most)).collect();
            }
        };
        list(&mut step.travels, 0.0, 2.0);
        list(&mut step.hands, 0.0, 1.0);
        list(&mut step.left_hand, 0.0, 1.0);
        list(&mut step.right_hand, 0.0, 1.0);
        list(&mut step.rise, 0.0, 0.6);
        list(&mut step.left_forward, -0.65, 0.65);
        list(&mut step.right_forward, -0.65, 0.65);
        list(&mut step.circles, -3.0, 3.0);
        if draws.once_in(3) {
            let free = |draws: &mut Draws| FreeFoot {
                at: draws.one_of(&FreePlace::ALL),
                height: draws.between(0.0, 1.2),
                circles: draws.one_of(&[0.0, 0.0, 1.0, -2.5]),
                extra: extra(draws),
            };
            step.free = (0..counts).map(|_| free(draws)).collect();
        }
        step
    };
    let many = draws.below(3) as u32;
    let mut steps = draws.many(0, many, make);
    // Each has letters of its own.
    let mut letters = BTreeSet::new();
    steps.retain(|step| letters.insert(step.short.clone()));
    steps
}

/// A stepping that fills so many counts, or a half or a quarter of them.
pub fn phrase(draws: &mut Draws, own: &[OwnStep], counts: usize) -> String {
    let known: Vec<(String, usize)> =
        known_steps(own).iter().map(|step| (step.short.clone(), step.counts())).collect();
    let parts: Vec<usize> = [1, 2, 4].into_iter().filter(|parts| counts.is_multiple_of(*parts)).collect();
    let wanted = counts / draws.one_of(&parts);
    let (mut said, mut at) = (Vec::new(), 0);
    while at < wanted {
        let fitting: Vec<&(String, usize)> = known.iter().filter(|(_, takes)| at + takes <= wanted).collect();
        let (short, takes) = draws.one_of(&fitting).clone();
        let most = ((wanted - at) / takes).min(3);
        let times = draws.whole(1, most as u32) as usize;
        if draws.once_in(6) {
            said.push(draws.one_of(&["left", "right"]).to_owned());
        }
        said.push(if times > 1 { format!("{times} {short}") } else { short });
        at += times * takes;
    }
    said.join(", ")
}

/// A named figure with choices by chance, where the set can dance it.
fn named(draws: &mut Draws, set: &Set) -> Option<Figure> {
    let figure = draws.one_of(&all());
    let mut with = Map::new();
    for choice in figure.choices {
        if !draws.once_in(3) {
            continue;
        }
        let value: Value = match choice.kind {
            Kind::Number { least, most, .. } if choice.is_whole() => {
                json!(draws.between(least, most).round())
            }
            // Near to what is usual more often: far from it many sets are too close for it.
            Kind::Number { least, most, usual, .. } => {
                let most = if draws.once_in(2) { (usual * 1.3).clamp(least, most) } else { most };
                json!(draws.between(least, most))
            }
            Kind::Dancer { .. } => json!(draws.whole(0, set.dancers)),
            Kind::Word(words) => json!(draws.one_of(words)),
        };
        with.insert(choice.key.to_owned(), value);
    }
    named_figure(figure.name, with, set).ok()
}

fn leg(draws: &mut Draws, begin: f64, end: f64) -> Leg {
    let reach = if draws.once_in(8) { 12.0 } else { 3.0 };
    let place = |draws: &mut Draws| (draws.between(-reach, reach), draws.between(-reach, reach));
    let (x, y) = place(draws);
    let mut leg = Leg::straight(begin, end, x, y);
    leg.to = Point { extra: extra(draws), ..Point::new(x, y) };
    leg.facing = draws.one_of(&[
        LegFacing::Held,
        LegFacing::Forwards,
        LegFacing::Backwards,
        LegFacing::Left,
        LegFacing::Right,
    ]);
    leg.shape = draws.one_of(&[Shape::Straight, Shape::Smooth, Shape::Arc]);
    if leg.shape == Shape::Arc {
        let sweep = draws.between(0.1, 359.0);
        leg.sweep = Some(if draws.once_in(2) { -sweep } else { sweep });
    } else {
        let mut at = begin;
        for _ in 0..draws.below(4) {
            let (x, y) = place(draws);
            let mut point = Waypoint::new(x, y);
            let next = at + draws.between(0.1, 1.0);
            if draws.once_in(3) && next < end {
                point.at = Some(next);
                at = next;
            }
            leg.through.push(point);
        }
    }
    if draws.once_in(5) {
        leg.pace = draws.many(0, 4, |draws| draws.between(0.0, 1.0));
        leg.pace.sort_by(f64::total_cmp);
        leg.pace.push(1.0);
    }
    leg
}

fn turn(draws: &mut Draws, own: &[OwnStep], begin: f64, end: f64) -> Turn {
    let face = draws.one_of(&[0.0, 90.0, 180.0, 270.0, -90.0, 45.0, 1000.0, 12.34]);
    let mut turn = Turn::to_face(begin, end, draws.one_of(&[Way::Left, Way::Right]), face);
    match draws.below(3) {
        0 => (turn.by, turn.face) = (Some(draws.one_of(&[90.0, 180.0, 360.0, 0.0, 777.7])), None),
        1 => turn.by = Some(draws.one_of(&[0.0, 90.0, 270.0, 450.0])),
        _ => turn.spins = draws.one_of(&[0, 0, 1, 3]),
    }
    turn.by_lead = draws.once_in(6);
    let shorts: Vec<String> = known_steps(own).into_iter().map(|step| step.short).collect();
    turn.on = draws.maybe(4, |draws| match draws.below(4) {
        0 => TurnOn::Start,
        1 => TurnOn::Hop,
        2 => TurnOn::SingleSteps,
        _ => TurnOn::Step(draws.one_of(&shorts)),
    });
    turn
}

/// Stretches of time in order, on counts and between them.
fn stretches(draws: &mut Draws, counts: f64, longest: f64) -> Vec<(f64, f64)> {
    let on_count = draws.once_in(2);
    let (mut at, mut all) = (0.0, Vec::new());
    while all.len() < 24 {
        let (wait, long) = (draws.between(0.0, longest), draws.between(0.3, longest));
        let (mut begin, mut end) = (at + wait, at + wait + long);
        if on_count {
            (begin, end) = (begin.round().max(at), end.round());
            end = end.max(begin + 1.0);
        }
        if end > counts {
            break;
        }
        all.push((begin, end));
        at = end;
    }
    all
}

fn part(draws: &mut Draws, place: u32, own: &[OwnStep], counts: f64) -> Part {
    let mut part = Part::still(place);
    for (begin, end) in stretches(draws, counts, 6.0) {
        part.legs.push(leg(draws, begin, end));
    }
    if draws.once_in(2) {
        for (begin, end) in stretches(draws, counts, 8.0) {
            part.turns.push(turn(draws, own, begin, end));
        }
    }
    let feet = [Foot::Left, Foot::Right];
    part.leads = (0..draws.below(3))
        .map(|_| Lead { at: draws.between(0.0, counts), foot: draws.one_of(&feet), extra: extra(draws) })
        .collect();
    part.lead = draws.maybe(5, |draws| draws.one_of(&LeadRule::ALL));
    if draws.once_in(4) {
        part.phrase = phrase(draws, own, counts as usize);
    }
    part
}

fn strike(draws: &mut Draws, dancers: u32, counts: f64) -> Strike {
    let moment = |draws: &mut Draws| {
        let count = draws.between(0.0, counts);
        (if draws.once_in(3) { count } else { count.floor() }).min(counts - 0.01)
    };
    let by = draws.one_of(&[Striker::All, Striker::Odds, Striker::Evens, Striker::Place(PlaceNumber(1))]);
    let by =
        if let Striker::Place(_) = by { Striker::Place(PlaceNumber(draws.whole(1, dancers))) } else { by };
    let all_on = [Struck::Partner, Struck::Opposite, Struck::Up, Struck::Down, Struck::Ground, Struck::Own];
    let on = match draws.below(7) {
        6 => Struck::Place(PlaceNumber(draws.whole(1, dancers))),
        index => all_on[index],
    };
    let on = match (by, on) {
        (Striker::Place(own), Struck::Place(place)) if own == place => Struck::Own,
        (_, on) => on,
    };
    let at = moment(draws);
    let mut strike = Strike::new(at, by, draws.one_of(&StrikeEnd::ALL), on);
    if strike.end.is_of_stick() {
        strike.hand = draws.maybe(5, |draws| draws.one_of(&[Foot::Left, Foot::Right]));
    }
    if on.is_somebody() {
        strike.their = draws.maybe(2, |draws| draws.one_of(&StrikeEnd::ALL));
    }
    if on == Struck::Own {
        strike.part = draws.maybe(2, |draws| draws.one_of(&StrikePart::ALL));
    }
    if strike.takes_height() {
        strike.height = draws.maybe(4, |draws| draws.between(0.0, 2.5));
    }
    if strike.is_on_a_stick() {
        strike.their_hand = draws.maybe(5, |draws| draws.one_of(&[Foot::Left, Foot::Right]));
    }
    strike.stay = draws.once_in(6);
    strike.again = draws.many(0, 3, moment).into_iter().filter(|count| *count > at).collect();
    strike.again.sort_by(f64::total_cmp);
    strike.again.dedup();
    strike.extra = extra(draws);
    strike
}

/// What is drawn into a figure of so many counts, or said of it.
fn draw(draws: &mut Draws, dance: &Dance, figure: &mut Figure, everyone: bool) {
    let (dancers, counts) = (dance.set.dancers, dance.bar_counts(figure).counts());
    for place in 1..=dancers {
        if draws.once_in(if everyone { 2 } else { 5 }) {
            let known = figure.parts.iter().any(|part| part.place == PlaceNumber(place));
            if !known {
                figure.parts.push(part(draws, place, &dance.steps, counts));
            }
        }
    }
    if draws.once_in(2) {
        figure.strikes = draws.many(0, 8, |draws| strike(draws, dancers, counts));
    }
    if draws.once_in(4) {
        figure.allow = draws.many(1, 3, |draws| Allow {
            kind: draws.one_of(&FaultKind::ALL),
            places: draws.many(0, 2, |draws| PlaceNumber(draws.whole(1, dancers))),
            up_to: draws.maybe(2, |draws| draws.between(-1.0, 10.0)),
            reason: name(draws),
            extra: extra(draws),
        });
    }
    if draws.once_in(4) {
        figure.speeds = speeds(draws, counts);
    }
    if draws.once_in(3) {
        figure.ends = Ends {
            spots: draws.maybe(2, |draws| draws.one_of(&EndsIn::ALL)),
            stance: draws.maybe(2, |draws| draws.one_of(&Stance::ALL)),
        };
    }
    figure.straight_home = draws.once_in(6);
    figure.lead = draws.maybe(4, |draws| draws.one_of(&LeadRule::ALL));
    figure.notes = text(draws);
    figure.extra = extra(draws);
}

fn figure(draws: &mut Draws, dance: &Dance, index: usize) -> Figure {
    let found = if draws.once_in(2) { named(draws, &dance.set) } else { None };
    let is_named = found.is_some();
    let mut figure = found.unwrap_or_else(|| Figure::drawn("f", "F", draws.whole(1, 12)));
    figure.id = format!("f{index}");
    if draws.once_in(2) {
        figure.name = name(draws);
    }
    if !is_named || draws.once_in(5) {
        for _ in 0..draws.below(3) {
            figure.metres.insert(draws.whole(1, figure.bars), draws.one_of(&Metre::ALL));
        }
        let counts = dance.bar_counts(&figure).counts() as usize;
        figure.phrase = phrase(draws, &dance.steps, counts);
    }
    let before = figure.clone();
    let once = draws.once_in(3);
    if !is_named || once {
        draw(draws, dance, &mut figure, !is_named);
    }
    // What a named figure cannot be danced with is left out: it is told to whoever writes it.
    let mut alone = dance.clone();
    for figure in [figure, before] {
        alone.figures = vec![figure.clone()];
        if motion_of_figure(&alone, 0).is_ok() {
            return figure;
        }
    }
    let mut drawn = Figure::drawn(&format!("f{index}"), "F", 2);
    drawn.phrase = "st".to_owned();
    drawn
}

fn order(draws: &mut Draws, dance: &mut Dance) {
    // The metre of a figure is that of the strain of its first line, so lines come before figures.
    let figures = draws.whole(1, 4) as usize;
    let mut strains: Vec<String> = dance.music.strains.iter().map(|strain| strain.name.clone()).collect();
    strains.push(String::new());
    strains.push("nowhere".to_owned());
    let lines = draws.below(8);
    dance.order = (0..lines)
        .map(|_| Entry {
            figure: format!("f{}", draws.below(figures)),
            strain: draws.one_of(&strains),
            call: text(draws),
            call_before: draws.maybe(4, |draws| draws.between(0.0, 16.0)),
            extra: extra(draws),
        })
        .collect();
    for index in 0..figures {
        let made = figure(draws, dance, index);
        dance.figures.push(made);
    }
    let mut bars = 0;
    let many = |id: &str| dance.figures.iter().find(|figure| figure.id == id).map_or(0, |figure| figure.bars);
    let kept: Vec<Entry> = dance
        .order
        .iter()
        .filter(|entry| {
            bars += many(&entry.figure);
            bars <= MOST_BARS
        })
        .cloned()
        .collect();
    // With its first line a figure would lose its metre.
    let same = |dance: &Dance, order: &[Entry]| {
        dance.figures.iter().all(|figure| {
            let first = |order: &[Entry]| order.iter().find(|entry| entry.figure == figure.id).cloned();
            first(order) == first(&dance.order)
        })
    };
    if same(dance, &kept) {
        dance.order = kept;
    }
}

fn people(draws: &mut Draws, dance: &mut Dance) {
    for number in 1..=dance.set.dancers {
        if draws.once_in(3) {
            dance.people.push(Person {
                number: bellpad::dance::Number(number),
                name: text(draws),
                left_handed: draws.once_in(4),
                extra: extra(draws),
            });
        }
    }
}

fn underlay(draws: &mut Draws, dance: &mut Dance) {
    if !draws.once_in(6) {
        return;
    }
    let mark = |draws: &mut Draws| {
        let pixel = [draws.between(0.0, 4000.0), draws.between(0.0, 4000.0)];
        PhotoMark::new(pixel, [draws.between(-5.0, 5.0), draws.between(-5.0, 5.0)])
    };
    dance.underlay = draws.many(1, 2, |draws| Underlay {
        path: format!("{}.jpg", name(draws)),
        inside: draws.maybe(2, |_| Inside::new("QUJD".to_owned())).unwrap_or_default(),
        fingerprint: draws.maybe(2, |_| "0a".repeat(32)).unwrap_or_default(),
        marks: draws.many(0, 3, mark),
        strength: draws.one_of(&Strength::ALL),
        locked: draws.once_in(2),
        figure: draws.maybe(2, |_| "f0".to_owned()),
        extra: extra(draws),
    });
}
