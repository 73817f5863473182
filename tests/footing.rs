//! Which foot, which way, hands where.
//!
//! Sources: [MB1] C. J. Sharp and H. C. MacIlwaine, The Morris Book, Part I, Novello, 1907; [CP] common practice,
//! no source.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::doc_markdown
)]

use bellpad::dance::{
    Dance, Dancer, Figure, Foot, Landing, LeadRule, Metre, Music, OwnStep, Part, Set, Turn, TurnOn, Way, read,
};
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::limbs::Gait;
use bellpad::motion::{Clock, Motion, Weight, fill_phrase, known_steps};
use bellpad::words::lead_words;
use proptest::prelude::*;
use serde_json::Map;

/// A dance of one drawn figure in which everyone stands where they are and steps.
fn stepped(phrase: &str, bars: u32, change: impl FnOnce(&mut Dance, &mut Figure)) -> Motion {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let mut figure = Figure::drawn("steps", "Steps", bars);
    phrase.clone_into(&mut figure.phrase);
    change(&mut dance, &mut figure);
    dance.figures.push(figure);
    motion_of(&dance, None).unwrap()
}

fn feet(motion: &Motion, dancer: usize, counts: u32) -> String {
    (0..counts)
        .map(|count| match motion.pose(Dancer(dancer), f64::from(count)).weight {
            Weight::Left => 'L',
            Weight::Right => 'R',
            Weight::Both => 'B',
            Weight::Air => '-',
        })
        .collect()
}

/// What lands on each count of number 1's first figure, in small letters where nothing does and the weight stays.
fn landings(motion: &Motion) -> String {
    let feet = feet(motion, 0, motion.counts() as u32);
    let falls = motion.spans()[0].falls(Dancer(0));
    feet.chars()
        .zip(&falls)
        .map(|(foot, fall)| if fall.stays { foot.to_ascii_lowercase() } else { foot })
        .collect()
}

fn named(name: &str) -> Motion {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure(name, Map::new(), &dance.set).unwrap());
    motion_of(&dance, None).unwrap()
}

/// [MB1]: the seven step rows, 4/3, 4/2, 4/1, 4/4 and 6/3, 6/2, 6/1, lead right, with the times of the counts in the bar;
/// and their mirror, lead left. 4/1 is one bar of four steps; 6/1 is four letters over two bars, a step to each strong
/// beat (here a small letter where nothing lands and the weight stays).
#[test]
fn the_seven_steps_of_the_morris_book() {
    let four = [0.0, 0.25, 0.5, 0.75];
    let six = [0.0, 1.0 / 3.0, 0.5, 5.0 / 6.0];
    for (row, metre, phrase, right, times) in [
        ("4/3", Metre::FourFour, "ds", "RLRRLRLL", four),
        ("4/2", Metre::FourFour, "ss", "RRLLRRLL", four),
        ("4/1", Metre::FourFour, "rs", "RLRL", four),
        ("4/4", Metre::FourFour, "sh", "RRRRLLLL", four),
        ("6/3", Metre::SixEight, "ds", "RLRRLRLL", six),
        ("6/2", Metre::SixEight, "ss", "RRLLRRLL", six),
        ("6/1", Metre::SixEight, "rb", "RrLlRrLl", six),
    ] {
        let other = |foot| match foot {
            'R' => 'L',
            'r' => 'l',
            'l' => 'r',
            _ => 'R',
        };
        let left: String = right.chars().map(other).collect();
        let bars = right.len() as u32 / 4;
        for (rule, feet_wanted) in
            [(None, right), (Some(LeadRule::Right), right), (Some(LeadRule::Left), left.as_str())]
        {
            let motion = stepped(phrase, bars, |_, figure| figure.lead = rule);
            assert_eq!(landings(&motion), feet_wanted, "{row} {rule:?}");
        }
        let music = Music { metre, ..Music::default() };
        let clock = Clock::of(&music);
        let bar = 2.0 * 60.0 / music.speed;
        for (count, share) in times.iter().enumerate() {
            for later in [0.0, 4.0] {
                let at = clock.seconds(count as f64 + later);
                assert!((at - bar * (share + later / 4.0)).abs() < 1e-9, "{row} count {}", count + 1);
            }
        }
    }
}

/// A row of the book: its name, the metre, what lands on each count, the step's letters, and when in the bar.
type Row = (&'static str, Metre, &'static [Landing], &'static str, [f64; 4]);

/// [MB1]: the same seven rows as a side's own steps, written down from the book's letters and not from what is built in: 4/3 is
/// R L R R L R L L, 4/2 R R L L, 4/1 R L R L, 4/4 R R R R L L L L, 6/3 and 6/2 as 4/3 and 4/2, and 6/1 R L R L over two bars, a step
/// to each strong beat. With either lead: what lands, when in the bar, and the body on it, which stands on that foot alone.
#[test]
fn the_seven_rows_as_steps_of_the_sides_own() {
    use Landing::{Lead, Other, Stay};
    // The beginning and the half of a bar, and what is between: evenly in 4-time, two thirds of a beat later in 6-time.
    let (four, six) = ([0.0, 0.25, 0.5, 0.75], [0.0, 1.0 / 3.0, 0.5, 5.0 / 6.0]);
    let rows: [Row; 7] = [
        ("4/3", Metre::FourFour, &[Lead, Other, Lead, Lead], "RLRRLRLL", four),
        ("4/2", Metre::FourFour, &[Lead, Lead], "RRLLRRLL", four),
        ("4/1", Metre::FourFour, &[Lead], "RLRL", four),
        ("4/4", Metre::FourFour, &[Lead, Lead, Lead, Lead], "RRRRLLLL", four),
        ("6/3", Metre::SixEight, &[Lead, Other, Lead, Lead], "RLRRLRLL", six),
        ("6/2", Metre::SixEight, &[Lead, Lead], "RRLLRRLL", six),
        ("6/1", Metre::SixEight, &[Lead, Stay], "R.L.R.L.", six),
    ];
    for (row, metre, letters, right, times) in rows {
        for rule in [None, Some(LeadRule::Right), Some(LeadRule::Left)] {
            let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
            dance.music.metre = metre;
            dance.steps.push(OwnStep {
                name: format!("Row {row}"),
                short: "row".to_owned(),
                feet: letters.to_vec(),
                ..OwnStep::default()
            });
            let mut figure = Figure::drawn("steps", "Steps", right.len() as u32 / 4);
            (figure.phrase, figure.lead) = ("row".to_owned(), rule);
            dance.figures.push(figure);
            let motion = motion_of(&dance, None).unwrap();
            let clock = Clock::of_dance(&dance, &motion);
            let (falls, bar) = (motion.spans()[0].falls(Dancer(0)), 2.0 * 60.0 / dance.music.speed);
            for (count, letter) in right.chars().enumerate() {
                let said = format!("{row} {rule:?} count {}", count + 1);
                let (at, wanted) =
                    (clock.seconds(count as f64), bar * ((count / 4) as f64 + times[count % 4]));
                assert!((at - wanted).abs() < 1e-9, "{said}: {at} s, not {wanted}");
                assert_eq!(falls[count].stays, letter == '.', "{said}");
                if letter == '.' {
                    continue;
                }
                let left = (letter == 'L') != (rule == Some(LeadRule::Left));
                for dancer in (0..6).map(Dancer) {
                    let weight = motion.pose(dancer, count as f64).weight;
                    assert_eq!(weight, if left { Weight::Left } else { Weight::Right }, "{said}");
                }
                // The body itself, just after: nobody stands on the other foot, even where this one hops at once.
                let body = Gait::of(&motion, &clock, Dancer(0)).limbs(&motion, &clock, count as f64 + 0.01);
                assert_eq!(body.planted, [left, !left], "{said}");
                let sole = body.feet[usize::from(!left)].z;
                assert!(sole.abs() < 1e-9, "{said}: {sole} m over the floor");
            }
        }
    }
}

/// [MB1]: once to yourself: a strain is played before the dancing, and they jump on its last half-bar.
#[test]
fn once_to_yourself_ends_with_a_jump_on_the_last_half_bar() {
    let motion = stepped("7 st, sj", 8, |_, _| {});
    for dancer in 0..6 {
        assert_eq!(feet(&motion, dancer, 32), format!("{}-B", "B".repeat(30)));
        let hands = |count: f64| motion.pose(Dancer(dancer), count).hands;
        assert!((hands(30.0) - 1.0).abs() < 1e-9 && hands(28.0) < 1e-9, "thrown up with the jump");
    }
}

/// [CP]: after two double steps begun left the left foot is free for the first single step; begun right, the right.
#[test]
fn two_double_steps_bring_the_lead_back() {
    for (rule, foot) in [(LeadRule::Left, Weight::Left), (LeadRule::Right, Weight::Right)] {
        let motion = stepped("2 ds, 2 ss, ftj", 4, |_, figure| figure.lead = Some(rule));
        assert_eq!(motion.pose(Dancer(0), 0.0).weight, foot);
        assert_eq!(motion.pose(Dancer(0), 8.0).weight, foot);
    }
    // A jump frees the foot, so the rule speaks again after it; capers do not.
    let motion = stepped("2 ds, 2 ss, ftj", 8, |_, figure| figure.lead = Some(LeadRule::LeftThenRight));
    assert_eq!(
        (motion.pose(Dancer(0), 0.0).weight, motion.pose(Dancer(0), 16.0).weight),
        (Weight::Left, Weight::Right)
    );
    let motion = stepped("2 ds, 3 pc, ss", 8, |_, figure| figure.lead = Some(LeadRule::LeftThenRight));
    assert_eq!(feet(&motion, 0, 8), "LRLLRLRR");
    assert_eq!(
        motion.span_at(16.0).map(|_| motion.pose(Dancer(0), 16.0).weight),
        Some(Weight::Left),
        "as the steps leave it"
    );
}

/// [CP]: outside foot: facing up odds lead left and turn left 270 degrees, evens mirror; facing down, swapped.
#[test]
fn the_outside_foot() {
    let motion = named("foot-up-and-down");
    let track = |dancer: usize| motion.spans()[0].track(Dancer(dancer)).unwrap();
    for dancer in 0..6 {
        let odd = dancer % 2 == 0;
        let (first, second) = if odd { (Weight::Left, Weight::Right) } else { (Weight::Right, Weight::Left) };
        assert_eq!(motion.pose(Dancer(dancer), 0.0).weight, first);
        assert_eq!(motion.pose(Dancer(dancer), 16.0).weight, second);
        let turned = motion.pose(Dancer(dancer), 12.0).facing - motion.pose(Dancer(dancer), 8.0).facing;
        assert!((turned - if odd { -270.0 } else { 270.0 }).abs() < 1e-6);
        let turned = motion.pose(Dancer(dancer), 28.0).facing - motion.pose(Dancer(dancer), 24.0).facing;
        assert!((turned - if odd { 270.0 } else { -270.0 }).abs() < 1e-6);
    }
    assert_eq!(lead_words(track(0).footing().lead(0.0).unwrap()), "left: outside foot, facing up");
    assert_eq!(lead_words(track(0).footing().lead(16.0).unwrap()), "right: outside foot, facing down");
    assert_eq!(lead_words(track(0).footing().lead(4.0).unwrap()), "right: follows from the step before");
    // The rule itself, worked out for a drawn figure from the facing a count in, gives the same feet.
    let turned = |face: f64| {
        stepped("2 ds, 2 ss, ftj", 4, |_, figure| {
            figure.lead = Some(LeadRule::OutsideFoot);
            for place in 1..=6_u32 {
                let mut part = Part::still(place);
                let way = if (place % 2 == 1) == (face == 0.0) { Way::Left } else { Way::Right };
                part.turns.push(Turn::to_face(0.0, 1.0, way, face));
                figure.parts.push(part);
            }
        })
    };
    for (face, odd, even) in [(0.0, Weight::Left, Weight::Right), (180.0, Weight::Right, Weight::Left)] {
        let motion = turned(face);
        for dancer in 0..6 {
            assert_eq!(motion.pose(Dancer(dancer), 0.0).weight, if dancer % 2 == 0 { odd } else { even });
        }
    }
}

/// [CP]: left then right for the figures that face a partner; rounds right both halves.
#[test]
fn each_figure_leads_by_its_rule() {
    for name in ["into-line", "back-to-back", "cross-and-turn"] {
        let motion = named(name);
        for dancer in 0..6 {
            assert_eq!(motion.pose(Dancer(dancer), 0.0).weight, Weight::Left, "{name}");
            assert_eq!(motion.pose(Dancer(dancer), 16.0).weight, Weight::Right, "{name}");
        }
    }
    let motion = named("whole-rounds");
    for dancer in 0..6 {
        assert_eq!(motion.pose(Dancer(dancer), 0.0).weight, Weight::Right);
        assert_eq!(motion.pose(Dancer(dancer), 16.0).weight, Weight::Right);
        let made = motion.spans()[0].track(Dancer(dancer)).unwrap().footing().lead(16.0).unwrap().clone();
        assert_eq!(made.rule, Some(LeadRule::SameWay));
    }
}

/// The nearest choice wins: dancer, phrase, figure, named figure, dance, and right where nothing is said [MB1].
#[test]
fn the_nearest_lead_wins() {
    let lead = |motion: &Motion| motion.pose(Dancer(0), 0.0).weight;
    assert_eq!(lead(&stepped("ds", 2, |_, _| {})), Weight::Right);
    assert_eq!(lead(&stepped("ds", 2, |dance, _| dance.lead = Some(LeadRule::Left))), Weight::Left);
    let figure = stepped("ds", 2, |dance, figure| {
        dance.lead = Some(LeadRule::Left);
        figure.lead = Some(LeadRule::Right);
    });
    assert_eq!(lead(&figure), Weight::Right);
    let phrase = stepped("left, ds, right, ds", 2, |_, figure| figure.lead = Some(LeadRule::Right));
    assert_eq!(feet(&phrase, 0, 8), "LRLLRLRR");
    let dancer = stepped("left, ds, ds", 2, |_, figure| {
        figure.parts.push(Part { lead: Some(LeadRule::Right), ..Part::still(1) });
    });
    assert_eq!((lead(&dancer), dancer.pose(Dancer(1), 0.0).weight), (Weight::Right, Weight::Left));
    let number = stepped("ds", 2, |_, figure| figure.lead = Some(LeadRule::ByNumber));
    assert_eq!(
        (number.pose(Dancer(2), 0.0).weight, number.pose(Dancer(3), 0.0).weight),
        (Weight::Left, Weight::Right)
    );
    // A figure of the dance beats the named figure's own rule.
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let mut into_line = named_figure("into-line", Map::new(), &dance.set).unwrap();
    into_line.lead = Some(LeadRule::Right);
    dance.figures.push(into_line);
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(
        (motion.pose(Dancer(0), 0.0).weight, motion.pose(Dancer(0), 16.0).weight),
        (Weight::Right, Weight::Right)
    );
}

/// [CP]: the hop on the upbeat is on the foot opposite to the one about to step, in every figure of every sample: what is
/// danced on the last count before each figure is held against the first count of it.
#[test]
fn the_upbeat_hop_is_opposite_to_the_lead() {
    let (mut hopped, mut landed) = (0, 0);
    for (name, text) in bellpad::desk::SAMPLES {
        let dance = read(text.as_bytes()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        for (index, span) in motion.spans().iter().enumerate().skip(1) {
            for dancer in 0..motion.dancers() {
                let before = motion.pose(Dancer(dancer), span.begin() - 1.0);
                let first = motion.pose(Dancer(dancer), span.begin()).weight;
                let said =
                    format!("{name}, figure {index}, {}: {:?} then {first:?}", dancer + 1, before.weight);
                // Before a jump there is no hop: it stays as it landed.
                let opposite = match first {
                    Weight::Left => Weight::Right,
                    Weight::Right => Weight::Left,
                    Weight::Both | Weight::Air => Weight::Both,
                };
                match motion.known()[before.step].short.as_str() {
                    "ftj" => {
                        let just_before = motion.pose(Dancer(dancer), span.begin() - 1.25).weight;
                        let hops = opposite != Weight::Both;
                        assert_eq!(before.weight, opposite, "{said}");
                        assert_eq!(just_before, if hops { Weight::Air } else { Weight::Both }, "{said}");
                        hopped += usize::from(hops);
                    }
                    // It lands on the last count.
                    "hj" => {
                        assert_eq!(before.weight, Weight::Both, "{said}");
                        landed += 1;
                    }
                    // Stepped on into it.
                    _ => {}
                }
            }
        }
    }
    assert!(hopped > 100 && landed > 10, "{hopped} {landed}");
}

/// The counts with which the figures end a half by the jump that lands on the third count of its bar, and so hop on the
/// upbeat; whole rounds end with capers.
const HOPS: [(&str, &[f64]); 10] = [
    ("back-to-back", &[15.0, 31.0]),
    ("cross-and-turn", &[15.0, 31.0]),
    ("foot-up-and-down", &[15.0, 31.0]),
    ("half-gip", &[15.0, 31.0]),
    ("half-hey", &[15.0]),
    ("half-rounds", &[15.0, 31.0]),
    ("hey", &[15.0, 31.0]),
    ("into-line", &[15.0, 31.0]),
    ("whole-gip", &[15.0, 31.0]),
    ("whole-rounds", &[15.0]),
];
/// The travelling figures of [MB1], whose half-bar jump lands on the fourth count.
const HALF_BAR_JUMPS: [&str; 4] = ["back-to-back-backing", "cross-over", "down-and-back", "go-and-come"];

/// [CP]: the hop on the upbeat belongs to every half. In every named figure that ends its halves with the jump that lands
/// on the third count, count 4 of bar 4 is the hop before the second half and count 4 of bar 8 the one before the next
/// figure, each on the foot opposite to the one about to step. The jump is together on 1, up, down on 3.
#[test]
fn every_half_ends_with_the_hop_on_the_upbeat() {
    let mut seen = 0;
    for figure in bellpad::figures::all() {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        for name in [figure.name, "into-line", "foot-up-and-down"] {
            dance.figures.push(named_figure(name, Map::new(), &dance.set).unwrap());
            dance.figures.last_mut().unwrap().id += "-here";
        }
        let motion = motion_of(&dance, None).unwrap();
        let last = motion.spans().last().unwrap();
        for dancer in 0..6 {
            for span in motion.spans() {
                let falls = span.falls(Dancer(dancer));
                for (count, _) in falls.iter().enumerate().filter(|(_, fall)| fall.upbeat) {
                    let at = span.begin() + count as f64;
                    let weight = |later: f64| motion.pose(Dancer(dancer), at + later).weight;
                    assert_eq!(
                        (weight(-3.0), weight(-2.0), weight(-1.0)),
                        (Weight::Both, Weight::Air, Weight::Both)
                    );
                    // Off the ground for the last half count before each.
                    assert_eq!(
                        (weight(-2.25), weight(-1.25), weight(-0.75)),
                        (Weight::Air, Weight::Air, Weight::Both)
                    );
                    if at + 1.0 >= last.end() {
                        assert_eq!(weight(0.0), Weight::Both, "none at the end of the dance");
                        continue;
                    }
                    if weight(1.0) == Weight::Both && figure.name == "solos" {
                        assert_eq!(weight(0.0), Weight::Both, "none before standing");
                        continue;
                    }
                    assert_eq!(weight(-0.25), Weight::Air);
                    let wanted = match weight(1.0) {
                        Weight::Left => Weight::Right,
                        Weight::Right => Weight::Left,
                        other => panic!("{} bar {}: {other:?}", figure.name, at / 4.0),
                    };
                    assert_eq!(weight(0.0), wanted, "{} at {at}", figure.name);
                    assert_eq!(weight(0.4), wanted);
                    seen += 1;
                }
            }
        }
        // By name: nothing here asks the figure whether it hops. Corners are danced a pair at a time and end
        // with capers, and solos one at a time, so that others stand.
        let hops = HOPS.iter().find(|(name, _)| *name == figure.name).map(|(_, counts)| *counts);
        let jumps = HALF_BAR_JUMPS.contains(&figure.name);
        let in_turn = ["corners", "solos"].contains(&figure.name);
        assert!(hops.is_some() || jumps || in_turn, "{}: does it hop?", figure.name);
        for dancer in 0..6 {
            let weight = |count: f64| motion.pose(Dancer(dancer), count).weight;
            for &count in hops.unwrap_or_default() {
                let said = format!("{} at {count}, {}", figure.name, dancer + 1);
                let hop = match weight(count + 1.0) {
                    Weight::Left => Weight::Right,
                    Weight::Right => Weight::Left,
                    other => panic!("{said}: {other:?}"),
                };
                assert_eq!((weight(count - 0.25), weight(count)), (Weight::Air, hop), "{said}");
            }
            for count in [15.0, 31.0].into_iter().filter(|_| jumps) {
                let said = format!("{} at {count}, {}", figure.name, dancer + 1);
                assert_eq!((weight(count - 1.0), weight(count)), (Weight::Air, Weight::Both), "{said}");
            }
        }
    }
    assert!(seen > 200, "{seen}");
}

/// [CP]: no hop before standing, before a jump or where the side does not hop; a figure danced again before another one
/// hops for what follows it there.
#[test]
fn the_hop_follows_from_what_comes_next() {
    let dance_of = |phrases: &[&str]| {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        for (index, phrase) in phrases.iter().enumerate() {
            let mut figure = Figure::drawn(&format!("figure-{index}"), "Figure", 4);
            (*phrase).clone_into(&mut figure.phrase);
            dance.figures.push(figure);
        }
        dance
    };
    let at = |dance: &Dance, count: f64| motion_of(dance, None).unwrap().pose(Dancer(0), count).weight;
    let usual = "left, 2 ds, 2 ss, ftj";
    assert_eq!(at(&dance_of(&[usual, "right, 4 ds"]), 15.0), Weight::Left);
    assert_eq!(at(&dance_of(&[usual, "left, 4 ds"]), 15.0), Weight::Right);
    for next in ["4 st", "ftj, 3 ds", "2 pc, 3 ds"] {
        assert_eq!(at(&dance_of(&[usual, next]), 15.0), Weight::Both, "{next}");
    }
    let mut still = dance_of(&[usual, "right, 4 ds"]);
    still.hops = false;
    let motion = motion_of(&still, None).unwrap();
    assert_eq!(motion.pose(Dancer(0), 15.0).weight, Weight::Both, "a side that does not hop");
    assert_eq!(motion.spans()[0].track(Dancer(0)).unwrap().footing().upbeat(), None);
    // One figure, danced before two others: shared, but for the hop.
    let mut twice = dance_of(&["left, 2 ds, 2 ss, ftj", "right, 2 ds, 2 ss, ftj"]);
    twice.order = ["figure-0", "figure-1", "figure-0", "figure-0"].map(bellpad::dance::Entry::of).to_vec();
    let motion = motion_of(&twice, None).unwrap();
    let hops: Vec<_> = motion.spans().iter().map(|span| span.hop(Dancer(0))).collect();
    assert_eq!(hops, [Some(Foot::Left), Some(Foot::Right), Some(Foot::Right), None]);
    assert!(motion.spans()[0].repeats(&motion.spans()[2]));
}

/// What stays carries the weight on, and the next lead follows from what landed last.
#[test]
fn where_nothing_lands_the_weight_stays() {
    let motion = stepped("rb, ss, rb, ss", 2, |_, figure| figure.lead = Some(LeadRule::Left));
    assert_eq!(landings(&motion), "LlRRLlRR");
    assert_eq!(motion.pose(Dancer(0), 0.9).weight, Weight::Left, "on the floor, not hopping");
}

/// [MB1]: in 6/8 at 100 strong beats a minute count 2 of a bar comes 0.4 s after count 1 and count 3 0.6 s after it.
#[test]
fn six_eight_swings() {
    let clock = Clock::of(&Music { metre: Metre::SixEight, ..Music::default() });
    for bar in 0..50 {
        let one = f64::from(bar) * 4.0;
        assert!((clock.seconds(one + 1.0) - clock.seconds(one) - 0.4).abs() < 1e-9);
        assert!((clock.seconds(one + 2.0) - clock.seconds(one) - 0.6).abs() < 1e-9);
    }
}

/// [CP]: low on the first strong beat of bars 1 and 2, low on both strong beats of bar 3, highest in the jump.
#[test]
fn hands_are_low_on_the_beats_and_highest_in_the_jump() {
    let motion = stepped("2 ds, 2 ss, ftj", 4, |_, _| {});
    let height = |count: f64| motion.pose(Dancer(0), count).hands;
    let highest =
        (0..=16 * 8).map(|step| f64::from(step) / 8.0).max_by(|a, b| height(*a).total_cmp(&height(*b)));
    let highest = highest.unwrap();
    assert_eq!(motion.pose(Dancer(0), highest).weight, Weight::Air, "in the jump, at {highest}");
    assert!((12.0..14.0).contains(&highest));
    for low in [0.0, 4.0, 8.0, 10.0] {
        for near in [0.25, 0.5] {
            assert!(height(low) < height(low + near), "at {low}");
            assert!(low == 0.0 || height(low) < height(low - near), "at {low}");
        }
    }
    // Each hand alone, and a step of the dance's own.
    let one_hand = stepped("sw, 2 ss, ftj, sw", 4, |dance, _| {
        dance.steps.push(OwnStep {
            name: "one-hand wave".to_owned(),
            short: "sw".to_owned(),
            feet: vec![Landing::Lead, Landing::Other, Landing::Lead, Landing::Lead],
            travels: Vec::new(),
            hands: Vec::new(),
            left_hand: vec![0.0; 4],
            right_hand: vec![0.2, 0.9, 0.9, 0.2],
            ..OwnStep::default()
        });
    });
    assert_eq!(one_hand.pose(Dancer(0), 1.0).each_hand, [0.0, 0.9]);
    assert_eq!(one_hand.pose(Dancer(0), 1.0).hands, 0.9);
}

/// [CP]: a turn on the hop is in the fourth count of the double step; turns on the single steps are finished before the
/// jump, whatever the stepping.
#[test]
fn turns_follow_their_steps() {
    let turn = |phrase: &str, on: TurnOn, begin: f64| {
        let motion = stepped(phrase, 4, |_, figure| {
            let mut part = Part::still(1);
            part.turns.push(Turn::to_face(begin, begin + 1.0, Way::Left, 0.0).on(on));
            figure.parts.push(part);
        });
        let turn = motion.spans()[0].track(Dancer(0)).unwrap().turns()[0].clone();
        (turn.begin, turn.end)
    };
    assert_eq!(turn("2 ds, 2 ss, ftj", TurnOn::Hop, 0.0), (3.0, 4.0));
    assert_eq!(turn("2 ds, 2 ss, ftj", TurnOn::Hop, 7.0), (7.0, 8.0));
    assert_eq!(turn("2 ds, 2 ss, ftj", TurnOn::SingleSteps, 8.0), (8.0, 11.0));
    assert_eq!(turn("ds, 4 ss, ftj", TurnOn::SingleSteps, 2.0), (4.0, 11.0));
    assert_eq!(turn("2 ds, 2 ss, ftj", TurnOn::Start, 4.0), (4.0, 5.0));
    assert_eq!(
        turn("4 rs", TurnOn::SingleSteps, 2.0),
        (2.0, 3.0),
        "as written where there are no such steps"
    );
    // Left when the left led, right when the right did.
    for (rule, turned) in [(LeadRule::Left, -90.0), (LeadRule::Right, 270.0)] {
        let motion = stepped("2 ds, 2 ss, ftj", 4, |_, figure| {
            figure.lead = Some(rule);
            let mut part = Part::still(1);
            let turn = Turn::to_face(8.0, 11.0, Way::Right, 0.0);
            part.turns.push(Turn { by_lead: true, ..turn });
            figure.parts.push(part);
        });
        let by = motion.pose(Dancer(0), 12.0).facing - motion.pose(Dancer(0), 8.0).facing;
        assert!((by - turned).abs() < 1e-6, "{by}");
    }
}

fn phrases() -> impl Strategy<Value = String> {
    let shorts: Vec<String> = known_steps(&[]).into_iter().map(|step| step.short).collect();
    let step = prop::sample::select(shorts);
    prop::collection::vec((1..4_usize, step), 1..8).prop_map(|steps| {
        steps.iter().map(|(number, step)| format!("{number} {step}")).collect::<Vec<_>>().join(", ")
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Mirroring the lead mirrors every foot; no two landings in a row are on the same foot unless the step says hop;
    /// the weight is never undefined.
    #[test]
    fn any_phrase_can_be_danced(phrase in phrases()) {
        let known = known_steps(&[]);
        let length: usize = phrase
            .split(", ")
            .map(|item| {
                let (number, short) = item.split_once(' ').unwrap();
                let step = known.iter().find(|step| step.short == short).unwrap();
                number.parse::<usize>().unwrap() * step.counts()
            })
            .sum();
        // As many times as make whole bars.
        let times = (1..=4).find(|times| (length * times).is_multiple_of(4)).unwrap();
        let bars = (length * times / 4) as u32;
        let filled = fill_phrase(&phrase, &known, length * times).unwrap();
        let danced = |rule| stepped(&phrase, bars, |_, figure| figure.lead = Some(rule));
        let (right, left) = (danced(LeadRule::Right), danced(LeadRule::Left));
        let counts = bars * 4;
        let mirrored: String = feet(&left, 0, counts)
            .chars()
            .map(|foot| match foot { 'L' => 'R', 'R' => 'L', other => other })
            .collect();
        prop_assert_eq!(feet(&right, 0, counts), mirrored);
        let falls = right.spans()[0].track(Dancer(0)).unwrap().footing().falls();
        prop_assert_eq!(falls.len(), counts as usize);
        for (index, pair) in falls.windows(2).enumerate() {
            if pair[1].begins && !pair[1].stays && matches!(pair[1].weight, Weight::Left | Weight::Right) {
                prop_assert!(pair[0].weight != pair[1].weight, "{} at {}", phrase, index);
            }
        }
        prop_assert_eq!(filled.steps.len(), falls.iter().filter(|fall| fall.begins).count());
    }
}
