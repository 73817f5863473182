//! What the words tell, against an independent reading of the poses and against what the trade says.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common
//! practice, no source; [CALC] worked out from the geometry of the set.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    BarCounts, Dance, Dancer, Entry, Figure, Foot, Leg, LegFacing, Number, Part, PlaceNumber, Set, SetKind,
    Shape, Spot, Turn, Way, read,
};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, SpanIndex, Weight};
use bellpad::words::{
    CourseSaid, Facing, Fact, Going, Pass, PhraseFacts, PlaceSaid, StartTurn, Turning, facts, phrases, tell,
};
use common::{assert_refused, bellpad, done, sample, samples, text};
use proptest::prelude::*;
use serde_json::Map;
use std::fs;
use std::path::Path;

fn dance_of(name: &str, dancers: u32) -> Option<(Dance, Motion)> {
    let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
    dance.figures.push(named_figure(name, Map::new(), &dance.set).ok()?);
    let motion = motion_of(&dance, None).unwrap();
    Some((dance, motion))
}

fn told(name: &str, dancers: u32, number: usize) -> Vec<PhraseFacts> {
    let (dance, motion) = dance_of(name, dancers).unwrap();
    facts(&dance, &motion, SpanIndex(0), Dancer(number - 1))
}

fn goings(phrase: &PhraseFacts) -> Vec<&Going> {
    phrase
        .facts
        .iter()
        .filter_map(|fact| if let Fact::Go(going) = fact { Some(going) } else { None })
        .collect()
}

fn turns(phrase: &PhraseFacts) -> Vec<&Turning> {
    phrase
        .facts
        .iter()
        .filter_map(|fact| if let Fact::Turn(turn) = fact { Some(turn) } else { None })
        .collect()
}

/// Who is passed, on the way or standing.
fn passes(phrase: &PhraseFacts) -> Vec<Pass> {
    let mut passes: Vec<Pass> = goings(phrase).iter().flat_map(|going| going.passes.clone()).collect();
    passes.extend(phrase.facts.iter().filter_map(|fact| match fact {
        Fact::Passed(pass) => Some(*pass),
        _ => None,
    }));
    passes
}

fn end(phrase: &PhraseFacts) -> (PlaceSaid, Facing) {
    phrase
        .facts
        .iter()
        .find_map(|fact| if let Fact::End(a, b) = fact { Some((*a, *b)) } else { None })
        .unwrap()
}

fn start(phrase: &PhraseFacts) -> Option<Foot> {
    phrase.facts.iter().find_map(|fact| match fact {
        Fact::Start(start) if start.turn == StartTurn::First => Some(start.foot),
        _ => None,
    })
}

fn sign(way: Way) -> f64 {
    if way == Way::Left { -1.0 } else { 1.0 }
}

/// How a number is spoken of to the partner of `partner`, an index.
fn who(number: Number, partner: usize) -> String {
    if number.dancer().index() == partner { "your partner".to_owned() } else { number.to_string() }
}

fn word(way: Way) -> &'static str {
    if way == Way::Left { "left" } else { "right" }
}

/// Degrees clockwise between two counts, added up from small differences of the facing as a compass would show it.
fn turned(motion: &Motion, dancer: usize, from: f64, to: f64) -> f64 {
    let steps = ((to - from) * 128.0).ceil().max(1.0) as usize;
    let compass = |index: usize| {
        let count = from + (to - from) * index as f64 / steps as f64;
        motion.pose(Dancer(dancer), count).facing.rem_euclid(360.0)
    };
    (0..steps).map(|index| (compass(index + 1) - compass(index) + 540.0).rem_euclid(360.0) - 180.0).sum()
}

/// Another dancer as one sees them: metres ahead, and metres to the right (the cross product of the facing and the
/// way to them).
fn seen(motion: &Motion, dancer: usize, other: usize, count: f64) -> (f64, f64) {
    let (me, them) = (motion.pose(Dancer(dancer), count), motion.pose(Dancer(other), count));
    let (sin, cos) = me.facing.to_radians().sin_cos();
    let (dx, dy) = (them.x - me.x, them.y - me.y);
    (dx * sin + dy * cos, dx * cos - dy * sin)
}

fn apart(motion: &Motion, dancer: usize, other: usize, count: f64) -> f64 {
    let (ahead, right) = seen(motion, dancer, other, count);
    ahead.hypot(right)
}

/// The moment when another dancer is nearest to being level with one's shoulders, within half a count.
fn level(motion: &Motion, dancer: usize, other: usize, about: f64) -> f64 {
    let moment = |index: i32| about + f64::from(index) / 64.0;
    let off = |index: &i32| {
        let (ahead, right) = seen(motion, dancer, other, moment(*index));
        ahead.abs() / ahead.hypot(right)
    };
    moment((-32..=32).min_by(|one, two| off(one).total_cmp(&off(two))).unwrap())
}

/// The words for an amount of turning, by hand.
fn amount(degrees: f64) -> &'static str {
    match (degrees.abs() / 45.0).round() as i32 {
        0 => "a little",
        1 => "an eighth",
        2 => "a quarter",
        3 => "three eighths",
        4 => "half round",
        5 => "five eighths",
        6 => "three quarters",
        7 => "seven eighths",
        8 => "once round",
        12 => "once and a half",
        other => panic!("{other} eighths in a named figure"),
    }
}

/// For every named figure, dancer and half: the foot, the shoulders, the turns, the place and the facing told are
/// those that the poses show.
#[test]
fn every_named_figure_is_told_as_it_is_danced() {
    let (mut phrases_seen, mut passes_seen, mut turns_seen) = (0, 0, 0);
    for figure in all() {
        for dancers in [6, 4, 8] {
            let Some((dance, motion)) = dance_of(figure.name, dancers) else {
                assert_ne!(dancers, 6, "{} can be danced by six", figure.name);
                continue;
            };
            let home = motion.poses(0.0);
            for dancer in 0..dancers as usize {
                let partner = dancer ^ 1;
                let told = tell(&dance, &motion, SpanIndex(0), Dancer(dancer));
                for (phrase, told) in facts(&dance, &motion, SpanIndex(0), Dancer(dancer)).iter().zip(&told) {
                    let at = format!("{} {dancers} number {}: {}", figure.name, dancer + 1, told.text);
                    let to = phrases::Telling {
                        bars: motion.spans()[0].bar_counts(),
                        partner: Some(Dancer(partner).number()),
                    };
                    let text = told.text.as_str();
                    assert_eq!((phrase.begin, phrase.end), (told.begin, told.end));
                    phrases_seen += 1;
                    for fact in &phrase.facts {
                        assert!(text.contains(&phrases::words(&to, fact)), "{at}");
                    }
                    if let Some(foot) = start(phrase) {
                        let (weight, said) = match foot {
                            Foot::Left => (Weight::Left, "Start left"),
                            Foot::Right => (Weight::Right, "Start right"),
                        };
                        assert_eq!(motion.pose(Dancer(dancer), phrase.begin).weight, weight, "{at}");
                        assert!(text.starts_with(said), "{at}");
                    }
                    // Turns, one by one and in all.
                    for turn in turns(phrase) {
                        let shown = turned(&motion, dancer, turn.begin, turn.end);
                        assert!((shown - sign(turn.way) * turn.degrees).abs() < 0.5, "{shown}: {at}");
                        let way = if shown < 0.0 { "left" } else { "right" };
                        assert!(text.contains(&format!("Turn {way} {}", amount(shown))), "{shown}: {at}");
                        turns_seen += 1;
                    }
                    let own: f64 = turns(phrase).iter().map(|turn| sign(turn.way) * turn.degrees).sum();
                    let way: f64 = goings(phrase).iter().map(|going| going.turned).sum();
                    let net = turned(&motion, dancer, phrase.begin, phrase.end);
                    assert!((own + way - net).abs() < 15.0, "{own:.1} and {way:.1}, not {net:.1}: {at}");
                    for pass in passes(phrase) {
                        let other = pass.number.dancer().index();
                        let moment = level(&motion, dancer, other, pass.at);
                        let (_, right) = seen(&motion, dancer, other, moment);
                        assert_eq!(right > 0.0, pass.shoulder == Way::Right, "{}: {at}", pass.number);
                        assert!(apart(&motion, dancer, other, pass.at) < 1.3, "{at}");
                        let on = word(pass.shoulder);
                        let said = [
                            format!("{} by the {on}", who(pass.number, partner)),
                            format!("{} passes you on your {on}", who(pass.number, partner)),
                        ];
                        let text = text.to_lowercase();
                        assert!(said.iter().any(|said| text.contains(said)), "{said:?}: {at}");
                        passes_seen += 1;
                    }
                    // The spot that is nearest, and what is faced there.
                    let pose = motion.pose(Dancer(dancer), phrase.end);
                    let far = |index: &usize| (home[*index].x - pose.x).hypot(home[*index].y - pose.y);
                    let spot =
                        (0..dancers as usize).min_by(|one, two| far(one).total_cmp(&far(two))).unwrap();
                    assert!(far(&spot) < 0.01, "named figures end their halves on spots: {at}");
                    let (place, facing) = end(phrase);
                    if spot == dancer {
                        assert_eq!(place, PlaceSaid::Home, "{at}");
                        assert!(text.contains("End home, facing "), "{at}");
                    } else {
                        assert_eq!(place, PlaceSaid::Spot(PlaceNumber::from_index(spot)), "{at}");
                        let whose = who(Dancer(spot).number(), partner);
                        assert!(text.contains(&format!("End in {whose}'s place, facing ")), "{at}");
                    }
                    let sees = |other: usize| {
                        let (ahead, right) = seen(&motion, dancer, other, phrase.end);
                        right.atan2(ahead).to_degrees().abs()
                    };
                    let compass = pose.facing.rem_euclid(360.0);
                    match facing {
                        Facing::Partner => {
                            assert!(sees(partner) < 23.0, "{at}");
                            assert!(text.contains(", facing your partner."), "{at}");
                        }
                        other => {
                            assert!(sees(partner) > 20.0, "{other:?}: {at}");
                            let said = match other {
                                Facing::Up => (compass + 11.0).rem_euclid(360.0) < 22.0,
                                Facing::Down => (compass - 180.0).abs() < 11.0,
                                // In two files, towards the middle line.
                                Facing::In => compass.to_radians().sin() * pose.x < 0.0,
                                Facing::Number(number) => sees(number.dancer().index()) < 11.0,
                                _ => false,
                            };
                            assert!(said, "{other:?}, compass {compass}: {at}");
                        }
                    }
                }
            }
        }
    }
    // So many that nothing was skipped.
    assert!(
        phrases_seen > 400 && passes_seen > 200 && turns_seen > 400,
        "{phrases_seen} {passes_seen} {turns_seen}"
    );
}

/// Whoever goes by from ahead to behind, or from behind to ahead, near and with a steady facing, is told, with the
/// shoulder that they went by.
#[test]
fn nobody_who_is_passed_is_left_out() {
    let mut seen_passing = 0;
    for figure in all() {
        let (dance, motion) = dance_of(figure.name, 6).unwrap();
        for dancer in 0..6 {
            for phrase in facts(&dance, &motion, SpanIndex(0), Dancer(dancer)) {
                for other in (0..6).filter(|other| *other != dancer) {
                    let steps = ((phrase.end - phrase.begin) * 32.0) as usize;
                    let mut ahead: Option<(bool, f64)> = None;
                    for count in (0..=steps).map(|step| phrase.begin + step as f64 / 32.0) {
                        let (forward, right) = seen(&motion, dancer, other, count);
                        let far = forward.hypot(right);
                        if far > 1.2 || forward.abs() < far * 0.7 {
                            ahead = ahead.filter(|_| far <= 1.2);
                            continue;
                        }
                        let now = forward > 0.0;
                        if let Some((before, since)) = ahead
                            && before != now
                            && turned(&motion, dancer, since, count).abs() < 5.0
                        {
                            let middle = level(&motion, dancer, other, f64::midpoint(since, count));
                            let right = seen(&motion, dancer, other, middle).1 > 0.0;
                            let way = if right { Way::Right } else { Way::Left };
                            let told = passes(&phrase).iter().any(|pass| {
                                pass.number == Dancer(other).number()
                                    && pass.shoulder == way
                                    && (pass.at - middle).abs() < 1.5
                            });
                            let name = figure.name;
                            assert!(told, "{name}: {} passes {} at {middle}", dancer + 1, other + 1);
                            seen_passing += 1;
                        }
                        ahead = Some((now, count));
                    }
                }
            }
        }
    }
    assert!(seen_passing > 60, "{seen_passing}");
}

fn shoulders(phrase: &PhraseFacts, number: u32) -> Vec<Way> {
    passes(phrase).iter().filter(|pass| pass.number == number).map(|pass| pass.shoulder).collect()
}

/// [CP]: forward to the left until partners stand side by side on the middle line, right shoulders together; a quarter
/// turn left on the hop of the second double step; straight home, turning left; then by the right.
#[test]
fn into_line_is_told() {
    for number in 1..=6_u32 {
        let partner = ((number - 1) ^ 1) + 1;
        let told = told("into-line", 6, number as usize);
        for (phrase, way, shoulder) in [(&told[0], Way::Left, Way::Right), (&told[1], Way::Right, Way::Left)]
        {
            let out = goings(phrase)[0].clone();
            assert_eq!(out.to, Some(PlaceSaid::Beside(Number(partner), shoulder, true)));
            assert_eq!(out.course, CourseSaid::Straight(0, Some(way)));
            assert_eq!(turns(phrase).iter().map(|turn| turn.way).collect::<Vec<_>>(), [way, way]);
            assert!((turns(phrase)[0].degrees - 90.0).abs() < 0.1);
            assert_eq!(goings(phrase)[1].to, Some(PlaceSaid::Home));
            assert_eq!(end(phrase), (PlaceSaid::Home, Facing::Partner));
        }
        let (dance, motion) = dance_of("into-line", 6).unwrap();
        let words = &tell(&dance, &motion, SpanIndex(0), Number(number).dancer())[0].text;
        for said in [
            "Start left (left in the first half)",
            "side by side with your partner on the middle line, right shoulders together",
            "Turn left a quarter on the hop of bar 2",
            "Straight home",
            "on the single steps",
            "Steps: two double steps, two single steps, jump, hop left.",
        ] {
            assert!(words.contains(said), "{said:?} is not in {words}");
        }
    }
}

/// [CP]: right past and behind the partner, backs together, before any turn begins. [MB1] backing: forward passing
/// right shoulders, backwards home passing left ones; the second half the mirror of it; nobody turns.
#[test]
fn both_back_to_backs_are_told() {
    for number in 1..=6_u32 {
        let partner = ((number - 1) ^ 1) + 1;
        let turning = told("back-to-back", 6, number as usize);
        for (phrase, shoulder) in [(&turning[0], Way::Right), (&turning[1], Way::Left)] {
            let out = goings(phrase)[0].clone();
            assert_eq!(out.to, Some(PlaceSaid::BackToBack(Number(partner))));
            assert_eq!(shoulders(phrase, partner).first(), Some(&shoulder));
            assert!(turns(phrase).iter().all(|turn| turn.begin > out.end), "back to back before any turn");
        }
        let backing = told("back-to-back-backing", 6, number as usize);
        for (phrase, first, then) in
            [(&backing[0], Way::Right, Way::Left), (&backing[1], Way::Left, Way::Right)]
        {
            assert_eq!(shoulders(phrase, partner), [first, then]);
            assert!(turns(phrase).is_empty(), "nobody turns");
            let courses: Vec<_> = goings(phrase).iter().map(|going| going.course).collect();
            assert!(matches!(courses.first(), Some(CourseSaid::Straight(0, _))), "forward: {courses:?}");
            assert!(matches!(courses.last(), Some(CourseSaid::Straight(4, _))), "backwards: {courses:?}");
            // Across to the right behind the partner, and to the left in the mirror of it.
            let across = if first == Way::Right { 2 } else { 6 };
            assert!(
                courses.iter().any(|course| matches!(course, CourseSaid::Straight(way, _) if *way == across)),
                "{courses:?}"
            );
        }
    }
}

/// [MB1]: the cross-over passes right shoulders both times, with a turn right about after each; go-and-come passes
/// right shoulders out and back, then left ones, and nobody turns.
#[test]
fn crossing_figures_pass_the_shoulders_of_the_morris_book() {
    for dancers in [4, 6, 8] {
        for number in 1..=dancers {
            let partner = ((number - 1) ^ 1) + 1;
            for phrase in told("cross-over", dancers, number as usize) {
                assert_eq!(shoulders(&phrase, partner), [Way::Right]);
                let turns = turns(&phrase);
                assert_eq!(turns.len(), 1);
                assert!(turns[0].way == Way::Right && (turns[0].degrees - 180.0).abs() < 0.1);
            }
            let come = told("go-and-come", dancers, number as usize);
            assert_eq!(shoulders(&come[0], partner), [Way::Right; 2]);
            assert_eq!(shoulders(&come[1], partner), [Way::Left; 2]);
            for phrase in &come {
                assert!(turns(phrase).is_empty(), "no turning");
                let ways: Vec<_> = goings(phrase)
                    .iter()
                    .map(|going| match going.course {
                        CourseSaid::Straight(way, _) => way,
                        other => panic!("{other:?}"),
                    })
                    .collect();
                assert_eq!(ways, [0, 4], "forward, then backwards");
            }
            // [CP] and [CALC]: cross and turn; odds face up after the quarter turn of the first half, evens down.
            let turned = told("cross-and-turn", dancers, number as usize);
            assert_eq!(shoulders(&turned[0], partner), [Way::Right]);
            assert_eq!(shoulders(&turned[1], partner), [Way::Left]);
            let quarter = turns(&turned[0])[0].clone();
            assert!((quarter.degrees - 90.0).abs() < 0.1 && quarter.way == Way::Left);
            assert_eq!(quarter.to, Some(if number % 2 == 1 { Facing::Up } else { Facing::Down }));
            assert_eq!(end(&turned[0]), (PlaceSaid::Spot(PlaceNumber(partner)), Facing::Partner));
        }
    }
}

/// [CP] and [CALC]: whole rounds go the same way in both halves, spin right and start right in both; half-way round, 1
/// is where 6 was, 3 where 4 was and 5 where 2 was, facing partners; they finish facing up. Half rounds come back.
#[test]
fn rounds_are_told() {
    for (number, other) in [(1, 6), (3, 4), (5, 2), (2, 5), (4, 3), (6, 1)] {
        for (name, back) in [("whole-rounds", Way::Right), ("half-rounds", Way::Left)] {
            let told = told(name, 6, number);
            for (phrase, way) in [(&told[0], Way::Right), (&told[1], back)] {
                let rounds: Vec<_> = goings(phrase)
                    .iter()
                    .map(|going| match going.course {
                        CourseSaid::Round(way, degrees) => (way, (degrees - 180.0).abs() < 1.0),
                        other => panic!("{name}: {other:?}"),
                    })
                    .collect();
                assert_eq!(rounds, [(way, true)]);
                assert_eq!(turns(phrase)[0].way, way, "the spin");
                assert!(turns(phrase)[0].degrees > 180.0);
                assert_eq!(start(phrase), Some(if way == Way::Left { Foot::Left } else { Foot::Right }));
            }
            assert_eq!(end(&told[0]), (PlaceSaid::Spot(PlaceNumber(other)), Facing::Partner));
            let last = if name == "whole-rounds" { Facing::Up } else { Facing::Partner };
            assert_eq!(end(&told[1]), (PlaceSaid::Home, last));
        }
    }
}

/// [MB1]: in a half hey ends change and middles come home, and the second half hey undoes the first. [CP]: from the top
/// inside to the middle, then outside; middles up the outside first.
#[test]
fn the_hey_is_told() {
    for (number, other) in [(1, 5), (2, 6), (5, 1), (6, 2), (3, 3), (4, 4)] {
        let told = told("hey", 6, number);
        let place =
            if number == other { PlaceSaid::Home } else { PlaceSaid::Spot(PlaceNumber(other as u32)) };
        assert_eq!(end(&told[0]), (place, Facing::Partner));
        assert_eq!(end(&told[1]), (PlaceSaid::Home, Facing::Partner));
        let words: String = told[0]
            .facts
            .iter()
            .map(|fact| phrases::words(&phrases::Telling::alone(&BarCounts::usual(8)), fact))
            .collect::<Vec<_>>()
            .join(" ");
        let first = match number {
            1 | 2 => "Down the inside of your file",
            3 | 4 => "up the outside of your file",
            _ => "Up the inside of your file",
        };
        let then = match number {
            1 | 2 => "Down the outside of your file",
            3 | 4 => "Down the inside of your file",
            _ => "Up the outside of your file",
        };
        let (one, two) = (words.find(first), words.find(then));
        assert!(one.is_some() && two.is_some() && one < two, "{words}");
        // [CP]: the inside strand runs shoulder to shoulder with the partner.
        let partner = ((number - 1) ^ 1) + 1;
        assert!(words.contains(&format!("shoulder to shoulder with {partner}")), "{words}");
    }
}

/// [CP]: foot up: on the outside foot, and away from the partner the long way round.
#[test]
fn foot_up_is_told() {
    for number in 1..=6 {
        let told = told("foot-up-and-down", 6, number);
        for (phrase, up) in [(&told[0], true), (&told[1], false)] {
            let left = (number % 2 == 1) == up;
            let (way, foot) = if left { (Way::Left, Foot::Left) } else { (Way::Right, Foot::Right) };
            assert_eq!(start(phrase), Some(foot));
            let turned: Vec<_> = turns(phrase).iter().map(|turn| (turn.way, turn.degrees.round())).collect();
            assert_eq!(turned, [(way, 90.0), (way, 270.0)]);
            assert_eq!(turns(phrase)[0].to, Some(if up { Facing::Up } else { Facing::Down }));
            assert_eq!(end(phrase), (PlaceSaid::Home, Facing::Partner));
        }
    }
}

/// The words of *Nine Geese Home*, all numbers, as read over line by line. `BELLPAD_GOLDEN=write` writes them afresh:
/// read what changed before you keep it.
#[test]
fn nine_geese_home_reads_as_it_was_read_over() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/nine-geese-home.crib.txt");
    let now = done(["crib", text(&sample("nine-geese-home"))]);
    if std::env::var_os("BELLPAD_GOLDEN").is_some_and(|value| value == "write") {
        fs::write(&path, &now).unwrap();
        return;
    }
    let kept = fs::read_to_string(&path).expect("the words that were read over");
    let kept = kept.replace("\r\n", "\n");
    let differs = kept.lines().zip(now.lines()).position(|(kept, now)| kept != now);
    assert!(
        kept == now,
        "the words differ from {} at line {}; run with BELLPAD_GOLDEN=write and read the difference aloud",
        path.display(),
        differs.unwrap_or(kept.lines().count().min(now.lines().count())) + 1
    );
}

/// What the verb prints keeps to 80 columns, has every number and figure, and can be one number or one figure.
#[test]
fn crib_prints_what_is_asked_for() {
    for file in samples() {
        let printed = done(["crib", text(&file)]);
        assert!(printed.lines().all(|line| line.chars().count() <= 80), "{printed}");
        let dance = read(&fs::read(&file).unwrap()).unwrap();
        for number in 1..=dance.set.dancers {
            assert!(printed.lines().any(|line| line.starts_with(&format!("Number {number}"))), "{number}");
        }
        for figure in &dance.figures {
            assert!(printed.contains(&figure.name), "{}", figure.name);
        }
    }
    let file = sample("nine-geese-home");
    let one = done(["crib", text(&file), "--dancer", "3", "--figure", "Into line"]);
    assert!(one.contains("Number 3, Wren Aldous"), "{one}");
    assert!(one.contains("Into line, bars 1 to 8"), "bars are the figure's own: {one}");
    assert!(!one.contains("Number 2") && !one.contains("Hey"), "{one}");
    let all = done(["crib", text(&file), "--dancer", "3"]);
    assert!(all.contains("Into line, bars 57 to 64\n"), "a call that repeats the name is not said: {all}");
    assert!(all.contains("Foot up and down, bars 9 to 16 (call: Foot up, at bar 7:1)"), "{all}");
    let said = "As in bars 17 to 24.";
    assert_eq!(all.matches(said).count(), 6, "the chorus is told once: {all}");
}

#[test]
fn crib_refuses_what_is_not_there() {
    let file = sample("nine-geese-home");
    let name = "nine-geese-home.dance.json";
    for number in ["0", "7", "4000000000"] {
        assert_refused(&bellpad(["crib", text(&file), "--dancer", number]), &[name, number, "1 to 6"]);
    }
    assert_refused(&bellpad(["crib", text(&file), "--figure", "polka"]), &[name, "polka", "hey"]);
    assert_refused(&bellpad(["crib", "no-such.dance.json"]), &["no-such.dance.json"]);
    assert_refused(&bellpad(["crib", text(&file), "--dancer", "x"]), &["--dancer", "x"]);
    assert_refused(&bellpad(["crib"]), &["FILE"]);
}

/// A dance with nothing in it says so.
#[test]
fn an_empty_dance_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("empty.dance.json");
    done(["new", text(&path), "--dancers", "2"]);
    let printed = done(["crib", text(&path)]);
    assert_eq!(printed.matches("No figures yet.").count(), 1, "{printed}");
    let dance = read(&fs::read(&path).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    assert!(tell(&dance, &motion, SpanIndex(0), Dancer(0)).is_empty());
}

/// The drawn choruses: forward to meet, back, and turn once round on the single steps, first left, then right, as their
/// own notes say.
#[test]
fn drawn_choruses_are_told() {
    let dance = read(&fs::read(sample("nine-geese-home")).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    for dancer in 0..6 {
        let told = tell(&dance, &motion, SpanIndex(2), Dancer(dancer));
        for (told, (way, bar, from)) in told.iter().zip([("left", 3, ""), ("right", 7, " in bar 5")]) {
            for said in [
                &format!("Start {way}{from} (as drawn)."),
                "Forward one pace to meet your partner face to face",
                "Backwards one pace, home",
                &format!("Turn {way} once round on the single steps of bar {bar}, to face your partner."),
            ] {
                assert!(told.text.contains(said), "{said:?} is not in {}", told.text);
            }
        }
    }
    let candle = read(&fs::read(sample("ferrymans-candle")).unwrap()).unwrap();
    let motion = motion_of(&candle, None).unwrap();
    let told = tell(&candle, &motion, SpanIndex(3), Dancer(0));
    // Its arc turns clockwise, which is to the right.
    assert!(told[0].text.contains("half a circle to the right"), "{}", told[0].text);
    assert!(told[1].text.contains("half a circle to the left"), "{}", told[1].text);
}

/// [CALC]: whoever stands facing up and is gone by on the right is told so; in a ring everyone faces in, and turned about
/// they face out.
#[test]
fn those_who_stand_are_told_who_goes_by() {
    let mut set = Set::longways(2, 2.4, 1.8);
    set.kind = SetKind::Spots;
    set.spots =
        [(0.0, 0.0), (0.7, -2.0)].map(|(x, y)| Spot { x, y, facing: 0.0, extra: Map::new() }).to_vec();
    let mut dance = Dance::new("By", set);
    let mut figure = Figure::drawn("by", "By", 4);
    let mut part = Part::still(2);
    part.legs.push(Leg::straight(4.0, 8.0, 0.7, 2.0));
    figure.parts.push(part);
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    let stands = &tell(&dance, &motion, SpanIndex(0), Dancer(0))[0].text;
    assert!(stands.contains("2 passes you on your right in bar 2."), "{stands}");
    assert!(stands.contains("Dance on the spot.") && stands.contains("End home, facing up."), "{stands}");
    let goes = &tell(&dance, &motion, SpanIndex(0), Dancer(1))[0].text;
    assert!(
        goes.contains("Forward five and a half paces, passing 1 by the left shoulder, by the end of bar 2."),
        "{goes}"
    );
    assert!(goes.contains("End five and a half paces above your place, facing up."), "{goes}");

    let mut set = Set::longways(5, 2.4, 1.8);
    set.kind = SetKind::Ring;
    let mut dance = Dance::new("Ring", set);
    let mut figure = Figure::drawn("about", "About", 2);
    for place in 1..=5 {
        let mut part = Part::still(place);
        part.turns.push(Turn { by: Some(180.0), face: None, ..Turn::to_face(4.0, 8.0, Way::Left, 0.0) });
        figure.parts.push(part);
    }
    figure.parts.truncate(4);
    figure.phrase = "2 st".to_owned();
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    let out = |dancer: usize| tell(&dance, &motion, SpanIndex(0), Dancer(dancer))[0].text.clone();
    // 1, at the top, faces down to begin with, so it faces up when it has turned about.
    assert_eq!(out(0), "Turn left half round in bar 2, to face up. End home, facing up.");
    assert_eq!(
        out(1),
        "Turn left half round in bar 2, to face out, away from the set. End home, facing out, away from the set."
    );
    assert_eq!(out(4), "Stand still. End home, facing in.");
}

/// A pace is 0.75 m, half paces are told and what is short is in metres (chosen for this program).
#[test]
fn distances_are_in_paces() {
    for (metres, said) in [
        (0.3, "0.3 m"),
        (0.375, "half a pace"),
        (0.75, "one pace"),
        (1.2, "one and a half paces"),
        (3.0, "four paces"),
        (9.75, "13 paces"),
    ] {
        assert_eq!(phrases::distance(metres), said);
    }
}

fn set() -> impl Strategy<Value = Set> {
    let spots = prop::collection::vec((-5.0..5.0, -5.0..5.0, 0.0..360.0), 1..9);
    prop_oneof![
        (prop_oneof![8 => 1_u32..13, 1 => 399_u32..401], 0.1..4.0, 0.1..4.0)
            .prop_map(|(dancers, across, along)| Set::longways(dancers, across, along)),
        (prop_oneof![8 => 1_u32..13, 1 => Just(400_u32)]).prop_map(|dancers| {
            let mut set = Set::longways(dancers, 2.4, 1.8);
            set.kind = SetKind::Ring;
            set
        }),
        spots.prop_map(|spots| {
            let mut set = Set::longways(spots.len() as u32, 2.4, 1.8);
            set.kind = SetKind::Spots;
            set.spots =
                spots.into_iter().map(|(x, y, facing)| Spot { x, y, facing, extra: Map::new() }).collect();
            set
        }),
    ]
}

fn leg() -> impl Strategy<Value = Leg> {
    let facing = prop_oneof![
        Just(LegFacing::Held),
        Just(LegFacing::Forwards),
        Just(LegFacing::Backwards),
        Just(LegFacing::Left),
        Just(LegFacing::Right)
    ];
    ((0.01..8.0, -4.0..4.0, -4.0..4.0), (-4.0..4.0, -4.0..4.0, -700.0..700.0), 0..3, facing).prop_map(
        |((length, x, y), (by_x, by_y, sweep), shape, facing)| {
            let mut leg = match shape {
                0 => Leg::straight(0.0, length, x, y),
                1 => Leg::smooth(0.0, length, &[(by_x, by_y)], x, y),
                _ => {
                    let mut leg = Leg::straight(0.0, length, x, y);
                    leg.shape = Shape::Arc;
                    leg.sweep = Some(sweep);
                    leg
                }
            };
            leg.facing = facing;
            leg
        },
    )
}

fn part() -> impl Strategy<Value = (usize, Part)> {
    let turn = (0.01..4.0, any::<bool>(), 0.0..900.0);
    (
        0..500_usize,
        prop::collection::vec((leg(), 0.0..4.0), 0..4),
        prop::collection::vec((turn, 0.0..6.0), 0..4),
    )
        .prop_map(|(place, legs, turns)| {
            let mut part = Part::still(1);
            let mut now = 0.0;
            for (mut leg, wait) in legs {
                let length = leg.end - leg.begin;
                leg.begin = now + wait;
                leg.end = leg.begin + length;
                now = leg.end;
                part.legs.push(leg);
            }
            now = 0.0;
            for ((length, left, by), wait) in turns {
                let way = if left { Way::Left } else { Way::Right };
                let begin: f64 = now + wait;
                part.turns.push(Turn {
                    by: Some(by),
                    face: None,
                    ..Turn::to_face(begin, begin + length, way, 0.0)
                });
                now = begin + length;
            }
            (place, part)
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, ..ProptestConfig::default() })]

    /// Whatever is drawn is told without a slip: phrases that fill the figure, whole sentences, no number with more
    /// than one decimal.
    #[test]
    fn anything_drawn_can_be_told(set in set(), bars in 12_u32..21, parts in prop::collection::vec(part(), 0..5)) {
        let dancers = set.dancers as usize;
        let mut dance = Dance::new("Drawn", set);
        let mut figure = Figure::drawn("drawn", "Drawn", bars);
        for (place, mut part) in parts {
            part.place = PlaceNumber::from_index(place % dancers);
            if figure.part(part.place).is_none() {
                figure.parts.push(part);
            }
        }
        figure.parts.sort_by_key(|part| part.place);
        dance.figures.push(figure);
        dance.order = vec![Entry::of("drawn"), Entry::of("drawn")];
        let motion = motion_of(&dance, None).unwrap();
        for span in 0..2 {
            for dancer in (0..dancers).step_by(dancers / 8 + 1) {
                let told = tell(&dance, &motion, SpanIndex(span), Dancer(dancer));
                prop_assert_eq!(told[0].begin, 0.0);
                prop_assert_eq!(told.last().unwrap().end, f64::from(bars * 4));
                for pair in told.windows(2) {
                    prop_assert_eq!(pair[0].end, pair[1].begin);
                }
                for phrase in &told {
                    let text = phrase.text.as_str();
                    prop_assert!(text.ends_with('.') && !text.contains("  ") && !text.contains(" ,"), "{}", text);
                    prop_assert!(!text.contains("NaN") && !text.contains("inf ") && text.contains("End "), "{}", text);
                    let decimals = text.split(|letter: char| !letter.is_ascii_digit() && letter != '.').any(|word| {
                        word.trim_end_matches('.').split_once('.').is_some_and(|(_, rest)| rest.len() > 1)
                    });
                    prop_assert!(!decimals, "{}", text);
                }
            }
            prop_assert!(tell(&dance, &motion, SpanIndex(span), Dancer(dancers)).is_empty());
        }
        prop_assert!(tell(&dance, &motion, SpanIndex(2), Dancer(0)).is_empty());
    }
}

/// Where the words say which way a dancer faces as the reason for a foot, it is the foot farther from the partner:
/// facing up, odds start left and evens right; facing down the other way about (common practice, no source).
#[test]
fn the_reason_for_an_outside_foot_is_true() {
    let mut reasons = 0;
    for figure in bellpad::figures::all() {
        for dancers in [4, 6, 8] {
            let Some((dance, motion)) = dance_of(figure.name, dancers) else { continue };
            for number in 1..=dancers as usize {
                for told in tell(&dance, &motion, SpanIndex(0), Dancer(number - 1)) {
                    for (reason, odds_start) in [("as you face up", "left"), ("as you face down", "right")] {
                        let Some((before, _)) = told.text.split_once(reason) else { continue };
                        let start = before.rsplit("Start ").next().unwrap();
                        let starts_left = start.starts_with("left");
                        assert_eq!(
                            starts_left == (odds_start == "left"),
                            number % 2 == 1,
                            "{} of {dancers}, {number}: {}",
                            figure.name,
                            told.text
                        );
                        reasons += 1;
                    }
                }
            }
        }
    }
    assert!(reasons > 20, "{reasons}");
}
