//! Any dance at all: whole random dances, opened, compiled, danced, checked, told, drawn, handed out and saved. What is true of all of
//! them is in `common/whole_work.rs`; how they are made in `common/any_dance.rs`. The work is bounded by how many dances there are.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_for_each,
    clippy::assigning_clones,
    clippy::items_after_statements
)]

#[path = "common/any_dance.rs"]
mod any_dance;
#[path = "common/any_text.rs"]
mod any_text;
#[path = "common/draws.rs"]
mod draws;
#[path = "common/whole_work.rs"]
mod whole_work;

use any_dance::any_dance;
use bellpad::dance::{Dance, write};
use bellpad::figures::motion_of;
use bellpad::motion::Motion;
use draws::{Draws, draws};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::collections::BTreeSet;
use std::fmt;
use whole_work::{check, hand_out, keep, stand, tell};

/// How many numbers a dance is made of at most.
const NUMBERS: usize = 3000;

/// A stream of numbers, shown as the dance that is made of it.
#[derive(Clone)]
struct Stream(Vec<u32>);

impl fmt::Debug for Stream {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut draws = counted(&self.0).1;
        write!(to, "{}", serde_json::to_string(&any_dance(&mut draws)).unwrap())
    }
}

fn streams() -> impl Strategy<Value = Stream> {
    draws(NUMBERS).prop_map(Stream)
}

/// Shares of a dance to look at, and what is left of the stream.
fn counted(numbers: &[u32]) -> (Vec<f64>, Draws) {
    let mut draws = Draws::of(numbers.to_vec());
    (draws.many(8, 8, |draws| draws.between(-0.2, 1.2)), draws)
}

/// The dance that a stream of numbers makes, as it is read from its file, and how it moves; with counts to look at.
fn dance_of(numbers: &Stream) -> (Dance, Motion, Vec<f64>) {
    let (turn, mut draws) = counted(&numbers.0);
    let dance = keep(&write(&any_dance(&mut draws)).unwrap());
    let motion =
        motion_of(&dance, None).unwrap_or_else(|error| panic!("{error}\n{}", write(&dance).unwrap()));
    let whole = motion.counts();
    let mut counts: Vec<f64> = turn.iter().map(|share| share * whole).collect();
    counts.extend([0.0, whole, (whole / 2.0).floor(), -1.0, whole + 1.0]);
    (dance, motion, counts)
}

fn config(cases: u32, seed: u64) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        max_shrink_iters: 200,
        rng_seed: RngSeed::Fixed(seed),
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config(200, 1907))]

    #[test]
    fn any_dance_is_kept_and_stood_through(numbers in streams()) {
        let (dance, motion, counts) = dance_of(&numbers);
        stand(&dance, &motion, &counts);
    }
}

proptest! {
    #![proptest_config(config(40, 1911))]

    #[test]
    fn any_dance_is_checked_and_told(numbers in streams()) {
        let (dance, motion, _) = dance_of(&numbers);
        check(&dance, &motion);
        tell(&dance, &motion);
    }
}

proptest! {
    #![proptest_config(config(30, 1912))]

    #[test]
    fn any_dance_is_drawn_and_handed_out(numbers in streams()) {
        let turn = numbers.0.last().copied().unwrap_or_default() as usize;
        let (dance, motion, _) = dance_of(&numbers);
        hand_out(&dance, &motion, turn);
    }
}

/// Dances by chance are no use if they have not everything in them.
#[test]
fn between_them_they_have_everything() {
    let mut had: BTreeSet<String> = BTreeSet::new();
    for seed in 0..2000 {
        let dance = any_dance(&mut Draws::seeded(seed, NUMBERS));
        fn keys(value: &serde_json::Value, under: &str, had: &mut BTreeSet<String>) {
            match value {
                serde_json::Value::Object(object) => {
                    for (key, value) in object {
                        let key = if key.parse::<u32>().is_ok() { "N" } else { key };
                        let at = format!("{under}.{key}");
                        keys(value, &at, had);
                        had.insert(at);
                    }
                }
                serde_json::Value::Array(list) => list.iter().for_each(|value| keys(value, under, had)),
                serde_json::Value::String(word) if word.is_ascii() && word.len() < 24 => {
                    had.insert(format!("{under}={word}"));
                }
                _ => {}
            }
        }
        keys(&serde_json::to_value(&dance).unwrap(), "", &mut had);
        had.insert(format!("{} dancers", dance.set.dancers));
    }
    for figure in bellpad::figures::all() {
        assert!(had.contains(&format!(".figures.named.figure={}", figure.name)), "{}", figure.name);
        for choice in figure.choices {
            assert!(had.contains(&format!(".figures.named.with.{}", choice.key)), "{}", choice.key);
        }
    }
    for kind in ["longways", "ring", "spots"] {
        assert!(had.contains(&format!(".set.kind={kind}")), "{kind}");
    }
    for dancers in [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 24] {
        assert!(had.contains(&format!("{dancers} dancers")), "{dancers}");
    }
    for (_, key) in every_key() {
        assert!(had.contains(&key), "no dance has {key}");
    }
}

/// Every key that the schema of the file has, with the ones it lies under, so that a new one is missed here.
fn every_key() -> Vec<(bool, String)> {
    fn walk(
        schema: &serde_json::Value,
        whole: &serde_json::Value,
        under: &str,
        all: &mut Vec<(bool, String)>,
    ) {
        if let Some(name) = schema["$ref"].as_str() {
            walk(&whole["$defs"][name.rsplit('/').next().unwrap()], whole, under, all);
        }
        for inner in ["anyOf", "oneOf", "allOf"].iter().filter_map(|key| schema[*key].as_array()).flatten() {
            walk(inner, whole, under, all);
        }
        if schema["items"].is_object() {
            walk(&schema["items"], whole, under, all);
        }
        for (key, inner) in schema["properties"].as_object().into_iter().flatten() {
            let at = format!("{under}.{key}");
            all.push((inner["type"] == "string", at.clone()));
            walk(inner, whole, &at, all);
        }
    }
    let schema = bellpad::dance::schema();
    let mut all = Vec::new();
    walk(&schema, &schema, "", &mut all);
    assert!(all.len() > 100, "{}", all.len());
    all
}
