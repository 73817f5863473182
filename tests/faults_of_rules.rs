//! Faults of rules: feet, turns, ways home and steps.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::doc_markdown
)]

mod common;

use bellpad::dance::{Dance, LeadRule, Set, SetKind, read};
use bellpad::faults::{Fault, FaultKind, find_faults};
use bellpad::figures::{Kind, all, motion_of, named_figure};
use serde_json::{Map, json};

const MINE: [FaultKind; 6] = [
    FaultKind::WrongFoot,
    FaultKind::WrongWay,
    FaultKind::LateTurn,
    FaultKind::CurvedHome,
    FaultKind::OverLong,
    FaultKind::HurriedTurn,
];

fn faults(dance: &Dance) -> Vec<Fault> {
    find_faults(dance, &motion_of(dance, None).unwrap())
        .into_iter()
        .filter(|fault| MINE.contains(&fault.kind))
        .collect()
}

fn sets() -> Vec<Set> {
    (2..=12)
        .flat_map(|dancers| {
            let longways = Set::longways(dancers, Set::DEFAULT_ACROSS, Set::DEFAULT_ALONG);
            let ring = Set { kind: SetKind::Ring, ..longways.clone() };
            [Some(longways).filter(|_| dancers % 2 == 0), Some(ring)]
        })
        .flatten()
        .collect()
}

/// Every figure that each set can dance, with its usual choices and then with each word of each choice.
fn named_dances() -> Vec<(String, Dance)> {
    let mut dances = Vec::new();
    for set in sets() {
        for named in all() {
            let mut withs = vec![Map::new()];
            for choice in named.choices {
                if let Kind::Word(words) = choice.kind {
                    withs.extend(
                        words.iter().map(|word| Map::from_iter([(choice.key.to_owned(), json!(word))])),
                    );
                }
            }
            for with in withs {
                let told = format!("{} {with:?} {} {:?}", named.name, set.dancers, set.kind);
                if let Ok(figure) = named_figure(named.name, with, &set) {
                    let mut dance = Dance::new("Named", set.clone());
                    dance.figures.push(figure);
                    dances.push((told, dance));
                }
            }
        }
    }
    assert!(dances.len() > 150, "{}", dances.len());
    dances
}

#[test]
fn named_figures_are_clear() {
    let mut said = Vec::new();
    for (told, dance) in named_dances() {
        said.extend(faults(&dance).iter().map(|fault| {
            format!("{told}: {} {}:{} {}", fault.kind.name(), fault.bar, fault.count, fault.text)
        }));
    }
    assert!(said.is_empty(), "{}", said.join("\n"));
}
