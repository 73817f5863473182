//! Words on three levels: a gist, a clause for each bar, and full sentences. What each says is held against the poses, for all named
//! figures and sets of two to twelve; no turn over 45 degrees and no pass within 1 m is left out of the clauses or the sentences.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Foot, Set, Way};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, SpanIndex, Weight};
use bellpad::words::{
    Fact, Gist, MOST_WORDS, Pass, PlaceSaid, Short, clauses, clauses_told, facts, figure_told, gist,
    gist_said, partner,
    phrases::{self, Telling, short},
};
use common::{assert_refused, bellpad, done, sample, samples, text};
use serde_json::Map;
use std::collections::BTreeSet;

/// Every named figure in sets of two to twelve that it can be danced in.
fn danced() -> impl Iterator<Item = (String, Dance, Motion)> {
    all().into_iter().flat_map(|figure| {
        (2..=12).step_by(2).filter_map(move |dancers| {
            let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
            dance.figures.push(named_figure(figure.name, Map::new(), &dance.set).ok()?);
            let motion = motion_of(&dance, None).unwrap();
            Some((format!("{} of {dancers}", figure.name), dance, motion))
        })
    })
}

/// Degrees clockwise between two counts, added up from small differences of the facing.
fn turned(motion: &Motion, dancer: Dancer, from: f64, to: f64) -> f64 {
    let steps = ((to - from) * 64.0).ceil().max(1.0) as usize;
    let compass = |index: usize| motion.pose(dancer, from + (to - from) * index as f64 / steps as f64).facing;
    (0..steps).map(|index| (compass(index + 1) - compass(index) + 540.0).rem_euclid(360.0) - 180.0).sum()
}

/// Metres ahead and to the right of one dancer that another is.
fn seen(motion: &Motion, dancer: Dancer, other: Dancer, count: f64) -> (f64, f64) {
    let (me, them) = (motion.pose(dancer, count), motion.pose(other, count));
    let (sin, cos) = me.facing.to_radians().sin_cos();
    let (dx, dy) = (them.x - me.x, them.y - me.y);
    (dx * sin + dy * cos, dx * cos - dy * sin)
}

/// Whoever is passed is near then, and level with the shoulder that is told within half a count.
fn assert_passed(motion: &Motion, dancer: Dancer, pass: &Pass, at: &str) {
    let other = pass.number.dancer();
    let (ahead, right) = seen(motion, dancer, other, pass.at);
    assert!(ahead.hypot(right) < 1.3, "{at}");
    let level = (-32..=32)
        .map(|index| seen(motion, dancer, other, pass.at + f64::from(index) / 64.0))
        .min_by(|one, two| (one.0.abs() / one.0.hypot(one.1)).total_cmp(&(two.0.abs() / two.0.hypot(two.1))))
        .unwrap();
    assert_eq!(level.1 > 0.0, pass.shoulder == Way::Right, "{at}");
}

fn assert_there(motion: &Motion, dancer: Dancer, place: PlaceSaid, count: f64, at: &str) {
    let of = match place {
        PlaceSaid::Home => dancer,
        PlaceSaid::Spot(place) => place.first_dancer(),
        _ => return,
    };
    let spot = motion.pose(of, 0.0);
    let near = (0..=32).any(|back| {
        let here = motion.pose(dancer, (count - f64::from(back) / 8.0).max(0.0));
        (here.x - spot.x).hypot(here.y - spot.y) < 0.36
    });
    assert!(near, "{place:?} in the bar to {count}: {at}");
}

#[test]
fn every_clause_is_true_of_the_poses_and_short() {
    let (mut turns, mut passes, mut feet, mut places) = (0, 0, 0, 0);
    for (name, dance, motion) in danced() {
        let span = &motion.spans()[0];
        for dancer in Dancer::all(motion.dancers()) {
            let to = Telling { bars: span.bar_counts(), partner: partner(&motion, dancer) };
            let told = clauses_told(&dance, &motion, SpanIndex(0), dancer);
            assert_eq!(told.len() as u32, span.bars, "{name}");
            for clause in &told {
                let (begin, end) = (f64::from(clause.bar) * 4.0, f64::from(clause.bar) * 4.0 + 4.0);
                let at = format!("{name}, {dancer}, bar {}: {}", clause.bar + 1, clause.text);
                assert!(
                    clause.text.split_whitespace().count() <= MOST_WORDS && !clause.text.is_empty(),
                    "{at}"
                );
                for said in &clause.said {
                    match said {
                        Short::Turn(turn) => {
                            assert!((begin..end).contains(&turn.begin), "{at}");
                            let shown = turned(&motion, dancer, turn.begin, turn.end);
                            assert!((shown - turn.way.sign() * turn.degrees).abs() < 0.5, "{shown}: {at}");
                            assert!(turn.degrees >= 15.0, "{at}");
                            assert!(clause.text.contains(&short::words(&to, said)), "{at}");
                            turns += 1;
                        }
                        Short::Pass(all) => {
                            for pass in all {
                                assert!((begin - 0.01..end).contains(&pass.at), "{at}");
                                assert_passed(&motion, dancer, pass, &at);
                                let way = if pass.shoulder == Way::Left { "left" } else { "right" };
                                assert!(clause.text.contains(way), "{at}");
                                passes += 1;
                            }
                        }
                        Short::Foot(foot) => {
                            let weights = (begin as u32..end as u32)
                                .map(|count| motion.pose(dancer, f64::from(count)).weight);
                            let first = weights
                                .into_iter()
                                .find(|weight| matches!(weight, Weight::Left | Weight::Right));
                            let wanted = if *foot == Foot::Left { Weight::Left } else { Weight::Right };
                            assert_eq!(first, Some(wanted), "{at}");
                            feet += 1;
                        }
                        Short::Arrive(place) => {
                            assert_there(&motion, dancer, *place, end, &at);
                            places += 1;
                        }
                        Short::Go(going) => {
                            if let Some(place) = going.to {
                                assert_there(&motion, dancer, place, end, &at);
                                places += 1;
                            }
                        }
                        Short::Stand => {
                            // The hop on the upbeat is of what comes next.
                            let still = (0..6).all(|part| {
                                motion.pose(dancer, begin + f64::from(part) / 2.0).weight == Weight::Both
                            });
                            assert!(still, "{at}");
                        }
                        _ => {}
                    }
                }
            }
        }
    }
    assert!(turns > 800 && passes > 400 && feet > 400 && places > 400, "{turns} {passes} {feet} {places}");
}

/// Each turn over 45 degrees and each pass within 1 m that there is to say is in the clauses and in the full sentences.
#[test]
fn nothing_that_matters_is_left_out() {
    let (mut turns, mut passes) = (0, 0);
    for (name, dance, motion) in danced() {
        for dancer in Dancer::all(motion.dancers()) {
            let to = Telling { bars: motion.spans()[0].bar_counts(), partner: partner(&motion, dancer) };
            let told = clauses_told(&dance, &motion, SpanIndex(0), dancer);
            let full = figure_told(&dance, &motion, SpanIndex(0), dancer);
            let full: String =
                full.phrases.iter().map(|told| told.text.as_str()).collect::<Vec<_>>().join(" ");
            for phrase in facts(&dance, &motion, SpanIndex(0), dancer) {
                // Those of the way itself are told with it; all of them together are what the poses show.
                let own: f64 = phrase
                    .facts
                    .iter()
                    .map(|fact| match fact {
                        Fact::Turn(turn) => turn.way.sign() * turn.degrees,
                        Fact::Go(going) => going.turned,
                        _ => 0.0,
                    })
                    .sum();
                let net = turned(&motion, dancer, phrase.begin, phrase.end);
                assert!((own - net).abs() < 45.0, "{name} {dancer}: {own} of {net}");
                for fact in &phrase.facts {
                    let said = phrases::words(&to, fact);
                    let passed: Vec<Pass> = match fact {
                        Fact::Turn(turn) if turn.degrees > 45.0 => {
                            let bar = (turn.begin / 4.0) as u32;
                            let here = told.iter().filter(|clause| clause.bar == bar);
                            let mut here = here.flat_map(|clause| &clause.said);
                            let same = |said: &Short| matches!(said, Short::Turn(other) if other.begin == turn.begin);
                            assert!(here.any(same), "{name} {dancer}: {said}");
                            assert!(full.contains(&said), "{name} {dancer}: {said} is not in {full}");
                            turns += 1;
                            Vec::new()
                        }
                        Fact::Go(going) => going.passes.clone(),
                        Fact::Passed(pass) => vec![*pass],
                        _ => Vec::new(),
                    };
                    for pass in passed.iter().filter(|pass| pass.apart <= 1.0) {
                        let here = told.iter().flat_map(|clause| &clause.said);
                        let all: Vec<&Pass> = here
                            .filter_map(|said| if let Short::Pass(all) = said { Some(all) } else { None })
                            .flatten()
                            .collect();
                        assert!(all.contains(&pass), "{name} {dancer}: {pass:?}");
                        assert!(full.contains(&said), "{name} {dancer}: {said} is not in {full}");
                        passes += 1;
                    }
                }
            }
        }
    }
    assert!(turns > 800 && passes > 300, "{turns} {passes}");
}

#[test]
fn every_gist_is_true_of_the_poses() {
    let (mut turns, mut crosses) = (0, 0);
    for (name, dance, motion) in danced() {
        for dancer in Dancer::all(motion.dancers()) {
            let line = gist(&dance, &motion, SpanIndex(0), Some(dancer));
            assert!(line.ends_with('.') && !line.contains(", ,") && !line.contains("  "), "{name}: {line:?}");
            let phrases = facts(&dance, &motion, SpanIndex(0), dancer);
            for (phrase, said) in phrases.iter().zip(gist_said(&dance, &motion, SpanIndex(0), dancer)) {
                let at = format!("{name}, {dancer}: {line}");
                for gist in said {
                    match gist {
                        Gist::Turn(way) => {
                            // Somewhere in the phrase they turn so, by more than 45 degrees.
                            let (mut most, mut run) = (0.0_f64, 0.0_f64);
                            for step in 0..((phrase.end - phrase.begin) * 8.0) as u32 {
                                let from = phrase.begin + f64::from(step) / 8.0;
                                run =
                                    (run + way.sign() * turned(&motion, dancer, from, from + 0.125)).max(0.0);
                                most = most.max(run);
                            }
                            assert!(most > 45.0, "{most}: {at}");
                            turns += 1;
                        }
                        Gist::Cross(pass, home) => {
                            assert_passed(&motion, dancer, &pass, &at);
                            let other = if home { dancer } else { pass.number.dancer() };
                            let there = (phrase.begin as u32..=phrase.end as u32).any(|count| {
                                let (here, spot) =
                                    (motion.pose(dancer, f64::from(count)), motion.pose(other, 0.0));
                                f64::from(count) > pass.at && (here.x - spot.x).hypot(here.y - spot.y) < 0.36
                            });
                            assert!(there, "{at}");
                            crosses += 1;
                        }
                        Gist::Pass(passes) => {
                            for pass in &passes {
                                assert_passed(&motion, dancer, pass, &at);
                            }
                        }
                        _ => {}
                    }
                }
            }
        }
    }
    assert!(turns > 300 && crosses > 60, "{turns} {crosses}");
}

/// Nobody is told the same sentence twice in a figure.
#[test]
fn no_sentence_is_said_twice_in_a_figure() {
    for (name, dance, motion) in danced() {
        for dancer in Dancer::all(motion.dancers()) {
            let told = figure_told(&dance, &motion, SpanIndex(0), dancer);
            let mut said = BTreeSet::new();
            let texts = told.once.iter().chain(told.phrases.iter().map(|told| &told.text));
            for sentence in texts.flat_map(|text| text.split(". ")) {
                let sentence = sentence.trim_end_matches('.');
                assert!(said.insert(sentence.to_owned()), "{name} {dancer}: {sentence}");
            }
        }
    }
}

/// How much there is to read of the sample: fully, and in a gist; and one dancer's own stands alone.
#[test]
fn the_sample_is_told_in_few_words() {
    let file = sample("nine-geese-home");
    let words = |said: &str| said.split_whitespace().count();
    let full = done(["crib", text(&file)]);
    assert!(words(&full) < 2500, "{}", words(&full));
    let line = done(["crib", text(&file), "--gist"]);
    assert!(words(&line) < 350, "{}", words(&line));
    let line = line.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(line.contains("Cross by the right, turn left; home by the left, turn right."), "{line}");
    let one = done(["crib", text(&file), "--dancer", "4"]);
    for word in ["mirror", "turned half about", "The rest as", "as before"] {
        assert!(!one.contains(word), "{word}: {one}");
    }
}

#[test]
fn names_can_be_left_out() {
    for file in samples() {
        let dance = bellpad::dance::read(&std::fs::read(&file).unwrap()).unwrap();
        for level in [vec![], vec!["--bars"], vec!["--gist"], vec!["--dancer", "1"]] {
            let asked = |more: &[&str]| {
                done(["crib", text(&file)].into_iter().chain(level.clone()).chain(more.iter().copied()))
            };
            let (with, without) = (asked(&[]), asked(&["--no-names"]));
            for person in dance.people.iter().filter(|person| !person.name.is_empty()) {
                assert!(!without.contains(&person.name), "{}: {without}", person.name);
            }
            let named = dance.people.iter().any(|person| with.contains(&person.name));
            assert!(named || level == ["--gist"] || dance.people.is_empty(), "{with}");
        }
    }
    let file = sample("nine-geese-home");
    assert_refused(&bellpad(["crib", text(&file), "--gist", "--bars"]), &["--gist", "--bars"]);
}

/// A clause is what the list of clauses has, bar by bar.
#[test]
fn clauses_are_told_bar_by_bar() {
    let dance = bellpad::dance::read(&std::fs::read(sample("nine-geese-home")).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let told = clauses(&dance, &motion, SpanIndex(3), Dancer(0));
    assert_eq!(told[0], (0, "left foot, cross by the right, left a quarter, face up".to_owned()));
    assert_eq!(told[2], (2, "left a quarter on the single steps, face partner".to_owned()));
    assert_eq!(told[3], (3, "jump".to_owned()));
}
