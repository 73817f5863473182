//! What the diagrams of a sheet teach, read from their SVG alone: every turn of more than 45 degrees has its arc, the way round it
//! goes, as long as it is and with its amount; every half its first feet. What there should be is worked out here from `Motion::pose`,
//! sampled finely, with sums of the test's own [CALC].
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Extra, Holding, Set, read};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::handout::{Shown, diagram_marks, halves, moments};
use bellpad::motion::{Motion, SpanIndex, Weight};
use bellpad::picture::{Frame, PAPER, marks_to_svg, span_bounds};
use common::samples;
use resvg::usvg::roxmltree::{Document, Node};
use std::fs;

/// Points to a metre in the diagrams that are read here.
const SCALE: f64 = 60.0;

fn wrapped(degrees: f64) -> f64 {
    (degrees + 180.0).rem_euclid(360.0) - 180.0
}

/// A turn by the poses: degrees, clockwise positive.
fn turns_by_pose(motion: &Motion, dancer: Dancer, begin: f64, from: f64, to: f64) -> Vec<f64> {
    let looks = ((to - from) * 16.0).ceil() as u32;
    let pose = |look: u32| {
        let count = begin + from + (to - from) * f64::from(look) / f64::from(looks);
        motion.pose(dancer, count.min(begin + to - 1e-7))
    };
    // What is turned at each look, less what the way alone brings: there the bend of the way is the turn.
    let mut runs: Vec<(f64, u32)> = Vec::new();
    let (mut before, mut heading) = (pose(0), None::<f64>);
    for look in 1..=looks {
        let now = pose(look);
        let (dx, dy) = (now.x - before.x, now.y - before.y);
        let turned = now.facing - before.facing;
        let way = (dx.hypot(dy) > 0.004).then(|| dx.atan2(dy).to_degrees());
        let with_way = heading.zip(way).is_some_and(|(one, other)| {
            let bend = wrapped(other - one);
            bend.abs() < 60.0 && (turned - bend).abs() < 0.4 * turned.abs()
        });
        (before, heading) = (now, way);
        if turned.abs() < 0.25 || with_way {
            continue;
        }
        match runs.last_mut() {
            // A rest of more than 0.3 of a count parts two turns.
            Some((amount, last)) if *amount * turned > 0.0 && f64::from(look - 1 - *last) / 16.0 <= 0.3 => {
                *amount += turned;
                *last = look;
            }
            _ => runs.push((turned, look)),
        }
    }
    runs.into_iter().map(|(amount, _)| amount).filter(|amount| amount.abs() >= 45.0).collect()
}

fn numbers(text: &str) -> Vec<f64> {
    text.split([' ', ',']).filter(|part| !part.is_empty()).map(|part| part.parse().unwrap()).collect()
}

/// An arc that is drawn: whose it is, and how far it goes round its body, degrees clockwise; the head included.
#[derive(Debug)]
struct Arc {
    middle: [f64; 2],
    radius: f64,
    goes: f64,
    even: bool,
}

fn pairs(node: Node) -> Vec<[f64; 2]> {
    numbers(node.attribute("points").unwrap()).chunks(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// The arcs about some middles: lines whose points are all as far from one of them.
fn arcs(document: &Document, middles: &[[f64; 2]]) -> Vec<Arc> {
    let nodes: Vec<Node> = document.root_element().children().filter(Node::is_element).collect();
    let mut found = Vec::new();
    for pair in nodes.windows(2) {
        if !pair[0].has_tag_name("polyline") || !pair[1].has_tag_name("polygon") {
            continue;
        }
        let (line, head) = (pairs(pair[0]), pairs(pair[1]));
        let even = match pair[0].attribute("stroke").unwrap() {
            "#0072b2" => true,
            "#d55e00" => false,
            _ => continue,
        };
        for middle in middles {
            let far = |point: &[f64; 2]| (point[0] - middle[0]).hypot(point[1] - middle[1]);
            let radius = far(&line[0]);
            let round = line.iter().all(|point| (far(point) - radius).abs() < 0.35);
            if !round
                || !(0.45 * SCALE..0.95 * SCALE).contains(&radius)
                || (far(&head[0]) - radius).abs() > 0.35
            {
                continue;
            }
            let angle = |point: &[f64; 2]| (point[0] - middle[0]).atan2(middle[1] - point[1]).to_degrees();
            let all: Vec<f64> = line.iter().chain(head.first()).map(angle).collect();
            let goes = all.windows(2).map(|pair| wrapped(pair[1] - pair[0])).sum();
            found.push(Arc { middle: *middle, radius, goes, even });
            break;
        }
    }
    found
}

/// Words of a diagram: what they say, their colour and about where.
fn words(document: &Document) -> Vec<(String, String, [f64; 2])> {
    let labelled = document.descendants().filter(|node| node.attribute("aria-label").is_some());
    labelled
        .map(|node| {
            let place = node.attribute("transform").unwrap();
            let place = numbers(place.trim_start_matches("translate(").trim_end_matches(')'));
            let text = node.attribute("aria-label").unwrap().to_owned();
            (text, node.attribute("fill").unwrap().to_owned(), [place[0] + 3.0, place[1] - 3.0])
        })
        .collect()
}

/// The amount in words, as quarters.
fn amount(text: &str) -> Option<f64> {
    let mut whole = 0.0;
    let mut part = 0.0;
    for letter in text.chars() {
        match letter {
            '¼' => part = 1.0,
            '½' => part = 2.0,
            '¾' => part = 3.0,
            digit if digit.is_ascii_digit() => whole = whole * 10.0 + f64::from(digit.to_digit(10).unwrap()),
            _ => return None,
        }
    }
    Some(whole * 4.0 + part)
}

/// Reads every diagram of a figure; gives how many turns and first feet there were.
fn read_figure(motion: &Motion, index: SpanIndex, name: &str) -> (usize, usize) {
    let span = motion.span(index).unwrap();
    let (mut turns, mut feet) = (0, 0);
    let bounds = span_bounds(motion, span, 1.0);
    let size = [(bounds[2] - bounds[0]) * SCALE, (bounds[3] - bounds[1]) * SCALE];
    let frame = Frame::fit(bounds, [0.0, 0.0, size[0] as f32, size[1] as f32], 0.0);
    let all = moments(motion, span, None);
    assert!(all.windows(2).all(|pair| pair[0].1 == pair[1].0), "{name}: {all:?}");
    assert_eq!(all.last().unwrap().1, span.bar_counts().counts(), "{name}: {all:?}");
    for &(from, to) in &all {
        let shown = Shown { span: index, counts: (from, to), own: None, holding: Holding::default() };
        let mut marks = Vec::new();
        diagram_marks(&mut marks, motion, &shown, [0.0, 0.0, size[0] as f32, size[1] as f32], &frame);
        let lengths = size.map(|length| length.to_string());
        let svg = marks_to_svg(size.map(|of| of as f32), &lengths, PAPER.floor, &marks, ("", ""));
        let document = Document::parse(&svg).unwrap();
        let where_of = |dancer: Dancer, count: f64| {
            let pose = motion.pose(dancer, span.begin() + count.min(span.bar_counts().counts() - 1e-6));
            frame.to_picture(pose.x, pose.y).map(f64::from)
        };
        let dancers: Vec<Dancer> = Dancer::all(motion.dancers()).collect();
        let middles: Vec<[f64; 2]> = dancers.iter().map(|dancer| where_of(*dancer, to)).collect();
        let drawn = arcs(&document, &middles);
        let said = words(&document);
        let mut wanted_all = 0;
        for (dancer, middle) in dancers.iter().zip(&middles) {
            let wanted =
                if to > from { turns_by_pose(motion, *dancer, span.begin(), from, to) } else { Vec::new() };
            let even = dancer.number().get() % 2 == 0;
            let mut own: Vec<&Arc> = drawn
                .iter()
                .filter(|arc| {
                    arc.even == even && (arc.middle[0] - middle[0]).hypot(arc.middle[1] - middle[1]) < 0.05
                })
                .collect();
            own.sort_by(|one, other| one.radius.total_cmp(&other.radius));
            let at = format!("{name}, {} from {from} to {to}", dancer.number());
            assert_eq!(own.len(), wanted.len(), "{at}: turns {wanted:?}, arcs {own:?}");
            for (arc, turn) in own.iter().zip(&wanted) {
                // Arcs of nearly a whole turn or more stop short of their beginning.
                let shown = turn.clamp(-330.0, 330.0);
                assert!((arc.goes - shown).abs() < 12.0, "{at}: a turn of {turn} is drawn as {arc:?}");
                let quarters = (turn.abs() / 90.0).round().max(1.0);
                let colour = if even { "#0072b2" } else { "#aa4a00" };
                let near = said.iter().any(|(text, fill, place)| {
                    let far = (place[0] - middle[0]).hypot(place[1] - middle[1]);
                    fill == colour && amount(text) == Some(quarters) && far < arc.radius + 0.45 * SCALE
                });
                assert!(near, "{at}: no amount {quarters} beside a turn of {turn}: {said:?}");
                turns += 1;
            }
            wanted_all += wanted.len();
        }
        assert_eq!(drawn.len(), wanted_all, "{name} from {from} to {to}: arcs of nobody");
        // The first feet of the halves that begin here.
        for begin in halves(span.bar_counts()) {
            if !(from..to).contains(&begin) {
                continue;
            }
            for dancer in &dancers {
                let Some(foot) = first_foot_by_pose(motion, *dancer, span.begin() + begin) else { continue };
                let even = dancer.number().get() % 2 == 0;
                let colour = if even { "#0072b2" } else { "#aa4a00" };
                let start = where_of(*dancer, begin);
                let near = said.iter().any(|(text, fill, place)| {
                    let far = (place[0] - start[0]).hypot(place[1] - start[1]);
                    (text == foot || *text == format!("{}{foot}", dancer.number()))
                        && fill == colour
                        && far < 0.75 * SCALE
                });
                assert!(
                    near,
                    "{name}: {} starts {foot} at {begin}, and no letter says so: {said:?}",
                    dancer.number()
                );
                feet += 1;
            }
        }
    }
    (turns, feet)
}

/// The foot that carries the weight half a count after a half has begun, where one alone does and the dancer then goes on to
/// the other: a step with a first foot.
fn first_foot_by_pose(motion: &Motion, dancer: Dancer, begin: f64) -> Option<&'static str> {
    let weight = |count: f64| motion.pose(dancer, begin + count).weight;
    match (weight(0.25), weight(1.25)) {
        (Weight::Left, Weight::Right | Weight::Left) => Some("L"),
        (Weight::Right, Weight::Left | Weight::Right) => Some("R"),
        _ => None,
    }
}

#[test]
fn every_turn_and_first_foot_of_the_samples_is_in_its_diagram() {
    let (mut turns, mut feet) = (0, 0);
    for path in samples() {
        let dance = read(&fs::read(&path).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        for (index, span) in motion.indexed_spans() {
            let name = format!("{} of {}", dance.figures[span.figure].name, dance.title);
            let found = read_figure(&motion, index, &name);
            turns += found.0;
            feet += found.1;
        }
    }
    eprintln!("{turns} turns, {feet} first feet");
    assert!(turns > 200 && feet > 200, "{turns} turns, {feet} first feet");
}

#[test]
fn every_turn_and_first_foot_of_the_named_figures_is_in_its_diagram() {
    let (mut turns, mut feet) = (0, 0);
    for figure in all() {
        for dancers in [4, 6, 8] {
            let mut dance = Dance::new("One", Set::longways(dancers, 2.4, 1.8));
            let Ok(named) = named_figure(figure.name, Extra::new(), &dance.set) else { continue };
            dance.figures.push(named);
            let Ok(motion) = motion_of(&dance, None) else { continue };
            let found = read_figure(&motion, SpanIndex(0), &format!("{} for {dancers}", figure.name));
            turns += found.0;
            feet += found.1;
        }
    }
    eprintln!("{turns} turns, {feet} first feet");
    assert!(turns > 150 && feet > 150, "{turns} turns, {feet} first feet");
}
