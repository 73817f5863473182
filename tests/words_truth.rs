//! Words that have to be true: rounds are told as going round and heys as heys in sets of every size, and whoever is told
//! which foot starts lands on it first, by an independent reading of the poses, over the sample dances and some hundred
//! made-up ones.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Dancer, Entry, Extra, Figure, Foot, Landing, Lead, LeadRule, Leg, LegFacing, OwnStep, Part,
    PlaceNumber, Set, Way, read,
};
use bellpad::figures::{motion_of, named_figure};
use bellpad::handout::{caption, diagram_times};
use bellpad::motion::{Motion, SpanIndex, Weight, known_steps};
use bellpad::words::phrases::named as named_steps;
use bellpad::words::{CourseSaid, Fact, Going, PhraseFacts, PlaceSaid, facts, now, tell};
use common::samples;
use rand_free::Dice;
use serde_json::{Map, json};
use std::fs;

/// Metres across and from rank to rank: those of the samples, of the book's rough square [MB1], and smaller and larger.
const SIZES: [(f64, f64); 5] = [(2.4, 1.8), (3.66, 1.83), (2.0, 1.5), (1.8, 1.2), (3.0, 2.2)];

/// Chance that is the same on every run.
mod rand_free {
    pub struct Dice(pub u64);

    impl Dice {
        /// A number below another.
        pub fn below(&mut self, most: usize) -> usize {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((self.0 >> 33) as usize) % most
        }

        pub fn one_of<T: Clone>(&mut self, of: &[T]) -> T {
            of[self.below(of.len())].clone()
        }
    }
}

fn named(name: &str, dancers: u32, (across, along): (f64, f64), with: Extra) -> Option<(Dance, Motion)> {
    let mut dance = Dance::new("Test", Set::longways(dancers, across, along));
    dance.figures.push(named_figure(name, with, &dance.set).ok()?);
    let motion = motion_of(&dance, None).unwrap();
    Some((dance, motion))
}

fn goings(phrase: &PhraseFacts) -> Vec<&Going> {
    phrase
        .facts
        .iter()
        .filter_map(|fact| if let Fact::Go(going) = fact { Some(going) } else { None })
        .collect()
}

/// Half-way round from anywhere is straight across the middle of the set, which is [CALC]: where `opposite` stands.
#[test]
fn rounds_are_told_as_going_round_in_sets_of_every_size() {
    let mut halves = 0;
    for name in ["whole-rounds", "half-rounds"] {
        for dancers in (2..=16).step_by(2).chain([24, 40]) {
            for size in SIZES {
                for (first, words) in [(Way::Right, "clockwise"), (Way::Left, "anticlockwise")] {
                    let mut with = Map::new();
                    with.insert("way".to_owned(), json!(words));
                    let (dance, motion) = named(name, dancers, size, with).unwrap();
                    for dancer in 0..dancers as usize {
                        let told = tell(&dance, &motion, SpanIndex(0), Dancer(dancer));
                        for (half, phrase) in
                            facts(&dance, &motion, SpanIndex(0), Dancer(dancer)).iter().enumerate()
                        {
                            let text = &told[half].text;
                            let at =
                                format!("{name} of {dancers}, {size:?}, {words}, {}: {text}", dancer + 1);
                            let way = if half == 1 && name == "half-rounds" { first.other() } else { first };
                            let [going] = goings(phrase)[..] else { panic!("one way round: {at}") };
                            let CourseSaid::Round(told, degrees) = going.course else { panic!("{at}") };
                            assert_eq!(told, way, "{at}");
                            assert!((degrees - 180.0).abs() < 1.0, "{degrees}: {at}");
                            let to = if half == 0 {
                                PlaceSaid::Spot(PlaceNumber((dancers as usize - dancer) as u32))
                            } else {
                                PlaceSaid::Home
                            };
                            assert_eq!(going.to, Some(to), "{at}");
                            let clock = if way == Way::Right { ", clockwise" } else { ", anticlockwise" };
                            assert!(text.contains(&format!("half-way round the set{clock}")), "{at}");
                            // Nobody passes or goes beside another in a round.
                            for word in ["file", "shoulder", "passing", "middle line", "circle"] {
                                assert!(!text.contains(word), "{word}: {at}");
                            }
                            halves += 1;
                        }
                    }
                }
            }
        }
    }
    assert_eq!(halves, 2 * 5 * 2 * 2 * (2 + 4 + 6 + 8 + 10 + 12 + 14 + 16 + 24 + 40));
}

/// Facing the partner all the way (common practice, no source), everyone goes round that one and not round the set; to the left
/// of what one faces is clockwise round it, seen from above (worked out).
#[test]
fn gips_are_told_as_going_round_a_partner() {
    let mut seen = 0;
    for name in ["whole-gip", "half-gip"] {
        for dancers in [2, 4, 6, 8, 12] {
            for size in SIZES {
                let (dance, motion) = named(name, dancers, size, Map::new()).unwrap();
                for dancer in 0..dancers as usize {
                    let partner = dancer ^ 1;
                    let told = tell(&dance, &motion, SpanIndex(0), Dancer(dancer));
                    for (half, phrase) in
                        facts(&dance, &motion, SpanIndex(0), Dancer(dancer)).iter().enumerate()
                    {
                        let text = &told[half].text;
                        let at = format!("{name} of {dancers}, {size:?}, {}: {text}", dancer + 1);
                        for word in ["the set", "circle", "curve", "place", "file"] {
                            assert!(!text.contains(word), "{word}: {at}");
                        }
                        let rounds: Vec<&Going> = goings(phrase)
                            .into_iter()
                            .filter(|going| matches!(going.course, CourseSaid::RoundOther(..)))
                            .collect();
                        assert!((1..=2).contains(&rounds.len()), "{at}");
                        for going in rounds {
                            let CourseSaid::RoundOther(way, degrees, number) = going.course else { continue };
                            assert_eq!(number.get() as usize, partner + 1, "{at}");
                            // By the poses: how the way to the partner goes round, and that it is faced.
                            let mut swept = 0.0;
                            let mut before: Option<f64> = None;
                            for look in 0..=40 {
                                let count = going.begin + (going.end - going.begin) * f64::from(look) / 40.0;
                                let (one, other) =
                                    (motion.pose(Dancer(dancer), count), motion.pose(Dancer(partner), count));
                                let bearing = (other.x - one.x).atan2(other.y - one.y).to_degrees();
                                let aside = (bearing - one.facing + 180.0).rem_euclid(360.0) - 180.0;
                                assert!(aside.abs() < 30.0, "{aside} at {count}: {at}");
                                if let Some(before) = before {
                                    swept += (bearing - before + 180.0).rem_euclid(360.0) - 180.0;
                                }
                                before = Some(bearing);
                            }
                            assert!((swept - way.sign() * degrees).abs() < 20.0, "{swept} {degrees}: {at}");
                            let to_the = if way == Way::Right { "to your left" } else { "to your right" };
                            let said =
                                format!("round your partner {to_the}, facing your partner all the way");
                            assert!(text.contains(&said) || degrees < 157.0, "{said}: {at}");
                            seen += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(seen >= 2 * 5 * 2 * 32, "{seen}");
}

/// [MB1]: each file dances a figure of eight lying along the file, so everyone goes along the inside of it and the outside,
/// up and down, and nobody goes round the set.
#[test]
fn heys_are_told_as_heys_in_sets_of_every_size() {
    let mut seen = 0;
    for name in ["hey", "half-hey"] {
        for dancers in (2..=16).step_by(2) {
            for size in SIZES {
                let Some((dance, motion)) = named(name, dancers, size, Map::new()) else { continue };
                for dancer in 0..dancers as usize {
                    let told = tell(&dance, &motion, SpanIndex(0), Dancer(dancer));
                    for (phrase, told) in
                        facts(&dance, &motion, SpanIndex(0), Dancer(dancer)).iter().zip(&told)
                    {
                        let at = format!("{name} of {dancers}, {size:?}, {}: {}", dancer + 1, told.text);
                        let round = |going: &&Going| matches!(going.course, CourseSaid::Round(..));
                        assert!(!goings(phrase).iter().any(round), "{at}");
                        for lane in ["the inside of your file", "the outside of your file"] {
                            assert!(told.text.contains(lane), "{lane}: {at}");
                        }
                        seen += 1;
                    }
                }
            }
        }
    }
    assert!(seen >= 5 * (6 + 8) * 3, "{seen}");
}

/// Whoever casts down the outside of a long set stays on their own side of it: that is told by the file.
#[test]
fn a_cast_down_a_long_set_is_no_round() {
    let mut dance = Dance::new("Cast", Set::longways(12, 2.4, 1.8));
    let mut figure = Figure::drawn("cast", "Cast", 4);
    let mut part = Part::still(1);
    let way = [(-1.9, 5.0), (-2.2, 3.0), (-2.2, 0.0), (-2.2, -3.0), (-1.9, -5.0)];
    part.legs.push(Leg::smooth(0.0, 14.0, &way, -1.2, -4.5).facing(LegFacing::Forwards));
    figure.parts.push(part);
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    let text = &tell(&dance, &motion, SpanIndex(0), Dancer(0))[0].text;
    assert!(text.contains("own the outside of your file") && !text.contains("round the set"), "{text}");
}

/// Two who go round each other in a small ring go round the middle of the set, however near it is.
#[test]
fn two_go_round_each_other() {
    let (dance, motion) = named("whole-rounds", 2, (1.0, 1.8), Map::new()).unwrap();
    let text = &tell(&dance, &motion, SpanIndex(0), Dancer(0))[0].text;
    assert!(text.contains("half-way round the set, clockwise"), "{text}");
    let (dance, motion) = named("cross-over", 2, (2.4, 1.8), Map::new()).unwrap();
    let text = &tell(&dance, &motion, SpanIndex(0), Dancer(0))[0].text;
    assert!(!text.contains("round the set"), "who crosses does not go round: {text}");
}

fn own_steps() -> Vec<OwnStep> {
    use Landing::{Air, Both, Lead, Other};
    let step = |name: &str, short: &str, feet: &[Landing]| OwnStep {
        name: name.to_owned(),
        short: short.to_owned(),
        feet: feet.to_vec(),
        travels: Vec::new(),
        hands: Vec::new(),
        left_hand: Vec::new(),
        right_hand: Vec::new(),
        ..OwnStep::default()
    };
    vec![
        step("back step", "bk", &[Other, Lead]),
        step("drop", "dr", &[Both, Lead, Other, Other]),
        step("step and land", "sl", &[Lead, Both]),
        step("leap", "lp", &[Air, Other, Lead, Lead]),
        step("long step", "lg", &[Lead, Other, Lead, Other, Lead, Other, Lead, Lead]),
        // It takes the short name of one that is built in.
        step("split jump", "hj", &[Lead, Air]),
    ]
}

/// A phrase of steps that fills so many counts.
fn phrase(dice: &mut Dice, counts: usize) -> String {
    let known = known_steps(&own_steps());
    let steps: Vec<(&str, usize)> = known.iter().map(|step| (step.short.as_str(), step.feet.len())).collect();
    let (mut said, mut at) = (Vec::new(), 0);
    while at < counts {
        let (short, takes) = dice.one_of(&steps);
        if at + takes <= counts {
            if dice.below(4) == 0 {
                said.push(dice.one_of(&["left", "right"]).to_owned());
            }
            said.push(short.to_owned());
            at += takes;
        }
    }
    said.join(", ")
}

/// A dance with two figures of chance: stepping, rules, leads drawn for a dancer, and who is where.
fn made_up(seed: u64) -> Dance {
    let mut dice = Dice(seed);
    let dancers = dice.one_of(&[1, 2, 4, 6, 8]);
    let mut dance = Dance::new("Made up", Set::longways(dancers, 2.4, 1.8));
    dance.steps = own_steps();
    let rules: Vec<Option<LeadRule>> = [None, None].into_iter().chain(LeadRule::ALL.map(Some)).collect();
    dance.lead = dice.one_of(&rules);
    for index in 0..2 {
        let bars = dice.one_of(&[1, 2, 4, 5, 8, 8, 12]);
        let mut figure = Figure::drawn(&format!("f{index}"), &format!("Figure {index}"), bars);
        figure.lead = dice.one_of(&rules);
        let counts = bars as usize * 4;
        let half = if counts.is_multiple_of(2) && dice.below(2) == 0 { counts / 2 } else { counts };
        figure.phrase = phrase(&mut dice, half);
        for place in 1..=dancers {
            if dice.below(3) > 0 {
                continue;
            }
            let mut part = Part::still(place);
            if dice.below(2) == 0 {
                part.phrase = phrase(&mut dice, counts);
            }
            if dice.below(2) == 0 {
                let at = dice.below(counts) as f64;
                part.leads.push(Lead {
                    at,
                    foot: dice.one_of(&[Foot::Left, Foot::Right]),
                    extra: Map::new(),
                });
            }
            part.lead = dice.one_of(&rules);
            if dice.below(2) == 0 {
                let begin = dice.below(counts) as f64;
                part.legs.push(Leg::straight(begin, begin + 1.0, 0.3, f64::from(place) * 0.2));
            }
            figure.parts.push(part);
        }
        dance.figures.push(figure);
    }
    dance.order = ["f0", "f1", "f0"].map(Entry::of).to_vec();
    dance
}

fn dances() -> Vec<Dance> {
    let mut dances: Vec<Dance> =
        samples().iter().map(|file| read(&fs::read(file).unwrap()).unwrap()).collect();
    dances.extend((0..400).map(made_up));
    dances
}

fn one_foot(weight: Weight) -> Option<&'static str> {
    match weight {
        Weight::Left => Some("left"),
        Weight::Right => Some("right"),
        Weight::Both | Weight::Air => None,
    }
}

/// The foot that lands first from a count on, by the poses on the counts.
fn first_landing(motion: &Motion, dancer: usize, from: f64) -> Option<(&'static str, f64)> {
    (0..16)
        .map(|count| from + f64::from(count))
        .find_map(|count| Some((one_foot(motion.pose(Dancer(dancer), count).weight)?, count)))
}

/// What is told of a start: whether it lands at once, the foot, whether again, the count of the figure, and the reason.
fn starts(text: &str, begin: f64) -> Vec<(bool, String, bool, f64, String)> {
    let mut found = Vec::new();
    for (part, reason) in text.split(" (").zip(text.split(" (").skip(1)) {
        let sentence = part.rsplit(". ").next().unwrap();
        let reason = reason.split(')').next().unwrap().to_owned();
        let words: Vec<&str> = sentence.split_whitespace().collect();
        let (at_once, foot, rest) = match words[..] {
            ["Start", foot, ..] => (true, foot.to_owned(), &words[2..]),
            [foot, "foot", "first", ..] => (false, foot.to_lowercase(), &words[3..]),
            _ => continue,
        };
        let again = rest.first() == Some(&"again");
        let at = match rest[usize::from(again)..] {
            [] => begin,
            ["in", "bar", bar] => (bar.parse::<f64>().unwrap() - 1.0) * 4.0,
            ["on", "count", count, "of", "bar", bar] => {
                (bar.parse::<f64>().unwrap() - 1.0) * 4.0 + count.parse::<f64>().unwrap() - 1.0
            }
            _ => panic!("{sentence}: {text}"),
        };
        found.push((at_once, foot, again, at, reason));
    }
    found
}

#[test]
fn the_foot_that_is_told_to_start_is_the_one_that_lands() {
    let (mut told_at_once, mut told_later, mut agains, mut afresh, mut halves) = (0, 0, 0, 0, 0);
    for dance in dances() {
        let motion = motion_of(&dance, None).unwrap();
        for (index, span) in motion.spans().iter().enumerate() {
            for dancer in 0..motion.dancers() {
                for told in tell(&dance, &motion, SpanIndex(index), Dancer(dancer)) {
                    let text = &told.text;
                    let mut before: Option<String> = None;
                    for (at_once, foot, again, at, reason) in starts(text, told.begin) {
                        let landing = first_landing(&motion, dancer, span.begin() + at);
                        let (lands, count) = landing.unwrap_or_else(|| panic!("nobody lands: {text}"));
                        assert_eq!(
                            lands,
                            foot,
                            "{} {}: {text}",
                            dance.figures[span.figure].phrase,
                            dancer + 1
                        );
                        assert_eq!(at_once, count == span.begin() + at, "{text}");
                        assert_eq!(again, before.as_ref() == Some(&foot) && at > told.begin, "{text}");
                        told_at_once += usize::from(at_once);
                        told_later += usize::from(!at_once);
                        agains += usize::from(again);
                        afresh += usize::from(before.as_ref().is_some_and(|before| *before != foot));
                        before = Some(foot);
                        // What a rule gives as its reason is so.
                        let second = at >= (span.end() - span.begin()) / 2.0;
                        assert!(!second || !reason.contains("in the first half"), "{text}");
                        assert!(second || !reason.contains("in the second half"), "{text}");
                        halves += usize::from(reason.contains("half"));
                    }
                }
            }
        }
    }
    assert!(told_at_once > 2000 && told_later > 300, "{told_at_once} {told_later}");
    assert!(agains > 100 && afresh > 100 && halves > 100, "{agains} {afresh} {halves}");
}

/// Standing is not called dancing, nor dancing standing; and no list of steps is empty.
#[test]
fn standing_is_told_where_there_is_nothing_but_standing() {
    let mut seen = (0, 0);
    for dance in dances() {
        let motion = motion_of(&dance, None).unwrap();
        for (index, span) in motion.spans().iter().enumerate() {
            for dancer in 0..motion.dancers() {
                for phrase in facts(&dance, &motion, SpanIndex(index), Dancer(dancer)) {
                    // Standing begins where what is told before it is over.
                    let mut begun = phrase.begin;
                    let both_from = |from: f64, until: f64| {
                        let counts = from.ceil() as u32..until.ceil() as u32;
                        counts.into_iter().all(|count| {
                            motion.pose(Dancer(dancer), span.begin() + f64::from(count)).weight
                                == Weight::Both
                        })
                    };
                    for fact in &phrase.facts {
                        if let Fact::Go(going) = fact {
                            begun = going.end;
                        }
                        let both = |until: f64| both_from(begun, until);
                        match fact {
                            Fact::Stand(until) => {
                                assert!(both(until.unwrap_or(phrase.end)), "{phrase:?}");
                                seen.0 += 1;
                            }
                            Fact::OnTheSpot(until) => {
                                // Off the ground between two counts on both feet, as before a jump, is dancing too.
                                let until = until.unwrap_or(phrase.end);
                                let off = (begun as u32..until.ceil() as u32).any(|count| {
                                    let count = span.begin() + f64::from(count) + 0.75;
                                    motion.pose(Dancer(dancer), count).weight == Weight::Air
                                });
                                assert!(!both(until) || off, "{phrase:?}");
                                seen.1 += 1;
                            }
                            Fact::Steps(runs, _) => assert!(!runs.is_empty(), "{phrase:?}"),
                            _ => {}
                        }
                    }
                }
            }
        }
    }
    assert!(seen.0 > 50 && seen.1 > 200, "{seen:?}");
}

/// Captions: each is `steps · feet`, after `on the spot ·` where nobody goes, or where steps differ who and both; the foot is that on which the first step that
/// begins there lands, which has to be between the two moments.
#[test]
fn captions_tell_feet_that_land() {
    let mut checked = 0;
    for dance in dances() {
        let motion = motion_of(&dance, None).unwrap();
        let dancers = motion.dancers();
        for span in motion.spans() {
            for every in [4.0, 2.0, 1.0, 16.0] {
                let times = diagram_times(span.bar_counts(), Some(every));
                for pair in times.windows(2) {
                    let said = caption(&dance, &motion, span, (pair[0], pair[1])).what;
                    let feet = feet_of(&said, dancers);
                    for (dancer, foot) in feet.iter().enumerate() {
                        let falls = span.track(Dancer(dancer)).unwrap().footing().falls();
                        let begins = (pair[0] as usize..pair[1] as usize).find(|count| falls[*count].begins);
                        let lands = begins
                            .and_then(|count| first_landing(&motion, dancer, span.begin() + count as f64))
                            .filter(|(_, count)| *count < span.begin() + pair[1]);
                        let Some(foot) = foot else { continue };
                        assert_eq!(
                            lands.map(|(lands, _)| lands),
                            Some(foot.as_str()),
                            "{}: {said}",
                            dancer + 1
                        );
                        checked += 1;
                    }
                }
            }
        }
    }
    assert!(checked > 5000, "{checked}");
}

/// The foot that a caption tells of each dancer.
fn feet_of(said: &str, dancers: usize) -> Vec<Option<String>> {
    let mut feet: Vec<Option<String>> = vec![None; dancers];
    let mut named = vec![false; dancers];
    let foot = |text: &str| {
        ["left", "right"]
            .into_iter()
            .find(|foot| text.ends_with(&format!("first foot {foot}")))
            .map(str::to_owned)
    };
    let part = said.rsplit(" · ").next().unwrap_or_default();
    for group in part.split("; ") {
        let numbers = |text: &str| -> Vec<usize> {
            text.split(|letter: char| !letter.is_ascii_digit())
                .filter(|word| !word.is_empty())
                .map(|word| word.parse::<usize>().unwrap() - 1)
                .collect()
        };
        let who: Vec<usize> = if let Some((who, _)) = group.split_once(": ") {
            assert!(!who.contains(char::is_alphabetic) || who.contains(" and "), "{said}");
            numbers(who)
        } else if group.starts_with("odds ") {
            (0..dancers).step_by(2).collect()
        } else if group.starts_with("evens ") {
            (1..dancers).step_by(2).collect()
        } else if group.starts_with("others ") {
            (0..dancers).filter(|dancer| !named[*dancer]).collect()
        } else {
            (0..dancers).collect()
        };
        for dancer in who {
            named[dancer] = true;
            feet[dancer] = foot(group);
        }
    }
    feet
}

#[test]
fn captions_say_who_before_a_colon() {
    let dance = read(&fs::read(common::sample("kettle-bridge")).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let corners = dance.figure_index("corners").unwrap();
    let span = motion.spans().iter().find(|span| span.figure == corners).unwrap();
    let said = |bar: f64| caption(&dance, &motion, span, (bar * 4.0 - 4.0, bar * 4.0)).what;
    assert_eq!(said(3.0), "1 and 8: 2 plain capers, first foot right; others stand");
    assert_eq!(said(5.0), "2 and 7: double step, first foot right; others stand");
    assert_eq!(
        caption(&dance, &motion, span, (0.0, 0.0)).what,
        "partners facing",
        "the name is not called again"
    );
    let hey = dance.figure_index("hey").unwrap();
    let span = motion.spans().iter().find(|span| span.figure == hey).unwrap();
    assert_eq!(caption(&dance, &motion, span, (0.0, 0.0)).what, "Call: Hey, 2 bars before · partners facing");
    let said = caption(&dance, &motion, span, (0.0, 4.0)).what;
    assert_eq!(said, "double step · 1, 4, 5 and 8: first foot right; 2, 3, 6 and 7: first foot left");
}

/// The card tells no lead of a step that has none, now or to come.
#[test]
fn the_card_tells_leads_of_steps_that_have_one() {
    let mut seen = 0;
    for dance in dances() {
        let motion = motion_of(&dance, None).unwrap();
        for dancer in 0..motion.dancers() {
            for count in (0..motion.counts() as u32).step_by(3) {
                for (name, said) in now(&motion, Dancer(dancer), f64::from(count), None) {
                    if name != "Then" {
                        continue;
                    }
                    let (_, moment) = said.split_once("at bar ").unwrap();
                    let (moment, _) = moment.split_once(" (").unwrap();
                    let (bar, beat) = moment.split_once(':').unwrap();
                    let at = (bar.parse::<f64>().unwrap() - 1.0) * 4.0 + beat.parse::<f64>().unwrap() - 1.0;
                    let span = motion.span_under(f64::from(count)).unwrap();
                    let fall = span.track(Dancer(dancer)).unwrap().footing().falls()[at as usize];
                    let step = &motion.known()[fall.step];
                    let led = |landing: &Landing| matches!(landing, Landing::Lead | Landing::Other);
                    assert!(step.feet.iter().any(led), "{said}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 500, "{seen}");
}

#[test]
fn many_of_a_step_are_named_as_many() {
    for (name, many) in [
        ("single step", "single steps"),
        ("step and three hops", "steps and three hops"),
        ("plain caper", "plain capers"),
        ("open side step, left in front", "open side steps, left in front"),
        ("half caper (high)", "half capers (high)"),
        ("hitch", "hitches"),
        ("capers", "capers"),
        ("", ""),
    ] {
        assert_eq!(named_steps(2, name), many);
        assert_eq!(named_steps(1, name), name);
    }
}

/// Who goes over to the other side by the middle, bending away from it, or weaving, does not go round the set; who goes over outside
/// all the others does.
#[test]
fn a_way_that_bends_away_from_the_middle_is_not_round_it() {
    let told = |through: &[(f64, f64)], (x, y): (f64, f64)| {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let mut figure = Figure::drawn("over", "Over", 8);
        let mut part = Part::still(PlaceNumber(1));
        part.legs.push(Leg::smooth(0.0, 12.0, through, x, y));
        figure.parts.push(part);
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        let said: Vec<String> =
            tell(&dance, &motion, SpanIndex(0), Dancer(0)).into_iter().map(|told| told.text).collect();
        said.join(" ")
    };
    // Round by the outside of the top and down the other side.
    let round = told(&[(0.0, 2.6), (1.9, 1.4), (2.1, 0.0)], (1.2, -1.8));
    assert!(round.contains("round the set"), "{round}");
    for (through, to) in [
        // Over by a dip towards the middle, bending the other way about.
        (vec![(-0.6, 1.1), (0.0, 0.8), (0.6, 1.1)], (1.2, 1.8)),
        // Down to the middle, past it close by, and up on the other side.
        (vec![(-0.5, 0.3), (0.0, 0.1), (0.5, 0.3)], (1.2, 1.8)),
        // Over in a weave.
        (vec![(-0.2, 1.6), (-0.9, 0.6), (0.9, -0.6), (0.2, -1.6)], (1.2, -1.8)),
    ] {
        let said = told(&through, to);
        assert!(!said.contains("round the set"), "{through:?}: {said}");
    }
}
