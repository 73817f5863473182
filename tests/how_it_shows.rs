//! How every named figure looks when it is danced, whatever is chosen about it, in every set that can dance it.
//!
//! Common practice, no source: nobody turns round more than half about without being asked, stands in the middle of a way, or
//! is thrown round. How much of each is what the faults have for limits.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/choices.rs"]
mod choices;
#[path = "common/sets.rs"]
mod sets;

use bellpad::dance::{Dance, Dancer, Entry, FaultKind, Set, SetKind};
use bellpad::faults::find_faults;
use bellpad::figures::{all, motion_of};
use bellpad::motion::{Motion, Track};
use choices::{chosen, figure_of};
use sets::sets;
use std::collections::BTreeMap;

/// Every named figure as sides choose it, danced by every set, with what to call it.
fn dances() -> impl Iterator<Item = (String, Dance, Motion)> {
    sets().into_iter().flat_map(|set| {
        all().into_iter().flat_map(move |figure| {
            let set = set.clone();
            chosen(figure).into_iter().filter_map(move |with| {
                let mut dance = Dance::new("Test", set.clone());
                dance.figures.push(figure_of(figure, &with, &set)?);
                dance.order = vec![Entry::of(&dance.figures[0].id.clone())];
                let motion = motion_of(&dance, None).unwrap();
                let told = format!(
                    "{} {with:?}, {} {:?} {} by {}",
                    figure.name, set.dancers, set.kind, set.across, set.along
                );
                Some((told, dance, motion))
            })
        })
    })
}

fn tracks(motion: &Motion) -> impl Iterator<Item = (Dancer, &Track)> {
    Dancer::all(motion.dancers()).map(|dancer| (dancer, motion.spans()[0].track(dancer).unwrap()))
}

#[track_caller]
fn none(seen: usize, mut wrong: Vec<String>) {
    assert!(seen > 1_000, "{seen}");
    let many = wrong.len();
    let names: BTreeMap<String, usize> = wrong.iter().fold(BTreeMap::new(), |mut names, told| {
        *names.entry(told.split(' ').next().unwrap_or_default().to_owned()).or_default() += 1;
        names
    });
    wrong.dedup_by_key(|told| told.split(": ").next().unwrap_or_default().to_owned());
    wrong.truncate(600);
    assert!(many == 0, "{many} of {seen}: {names:?} {wrong:#?}");
}

/// What the faults call needless, stuck or a wrench is in no named figure; nor does it end where it should not.
#[test]
fn no_named_figure_does_what_no_body_would() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for (told, dance, motion) in dances() {
        seen += 1;
        for fault in find_faults(&dance, &motion) {
            if [
                FaultKind::NeedlessTurn,
                FaultKind::Stuck,
                FaultKind::Wrench,
                FaultKind::HurriedTurn,
                FaultKind::NotHome,
                FaultKind::WrongFoot,
                FaultKind::WrongWay,
                FaultKind::LateTurn,
                FaultKind::CurvedHome,
            ]
            .contains(&fault.kind)
            {
                wrong.push(format!("{told}: {}:{} {}", fault.bar, fault.count, fault.said));
            }
        }
    }
    none(seen, wrong);
}

/// Why somebody is told as too near or as going too far where a figure is danced as a side has chosen it.
struct Excuse {
    /// The figures; empty for all.
    figures: &'static [&'static str],
    /// The choice that asks for it, with its values; empty for whatever is chosen.
    asked: (&'static str, &'static [&'static str]),
    /// The kinds of fault.
    kinds: &'static [FaultKind],
    /// In which sets.
    sets: fn(&Set) -> bool,
    /// How near bodies come at the worst, metres between them: less than nought where they overlap.
    nearest: f64,
    /// How far anybody goes at the worst, as a share of what they may.
    farthest: f64,
    why: &'static str,
}

/// The room between bodies and the share of a step by which a bound may be wider than what is so.
const WIDER: (f64, f64) = (0.02, 0.03);

const BODIES: &[FaultKind] = &[FaultKind::Clash, FaultKind::Tight];
const STEPS: &[FaultKind] = &[FaultKind::OverLong];
const ALL: &[FaultKind] = &[FaultKind::Clash, FaultKind::Tight, FaultKind::OverLong];
/// Figures with a partner.
const PARTNERS: &[&str] = &[
    "into-line",
    "back-to-back",
    "back-to-back-backing",
    "cross-over",
    "cross-and-turn",
    "go-and-come",
    "whole-gip",
    "half-gip",
];
const ROUNDS: &[&str] = &["whole-rounds", "half-rounds"];
const HEYS: &[&str] = &["hey", "half-hey"];

fn is(set: &Set, kind: SetKind) -> bool {
    set.kind == kind
}

/// All that is told of bodies and steps in the figures as sides choose them, by name and with the reason. What nobody has asked
/// for and fits the set is not among them.
const EXCUSES: &[Excuse] = &[
    // What a side has asked for and cannot have.
    Excuse {
        figures: &[],
        asked: ("pass", &["0.4", "0.5"]),
        kinds: BODIES,
        sets: |_| true,
        nearest: -0.11,
        farthest: 0.0,
        why: "they are to pass nearer than bodies are broad",
    },
    Excuse {
        figures: &[],
        asked: ("pass", &["2"]),
        kinds: ALL,
        sets: |_| true,
        nearest: -0.28,
        farthest: 1.65,
        why: "they are to pass farther apart than ranks are, and go a long way round for it",
    },
    Excuse {
        figures: &["back-to-back", "back-to-back-backing"],
        asked: ("behind", &["1.5"]),
        kinds: ALL,
        sets: |_| true,
        nearest: -0.25,
        farthest: 1.73,
        why: "they are to go far behind their partner, beyond where the partner stood",
    },
    Excuse {
        figures: &["whole-gip", "half-gip"],
        asked: ("apart", &["2.4"]),
        kinds: STEPS,
        sets: |_| true,
        nearest: f64::INFINITY,
        farthest: 1.45,
        why: "they are to go round each other as far apart as files are, farther than ranks are",
    },
    Excuse {
        figures: HEYS,
        asked: ("inside", &["0.15"]),
        kinds: ALL,
        sets: |_| true,
        nearest: -0.20,
        farthest: 1.26,
        why: "partners are to be nearer on the inside strand than bodies are broad",
    },
    Excuse {
        figures: HEYS,
        asked: ("outside", &["0.1", "2"]),
        kinds: STEPS,
        sets: |_| true,
        nearest: f64::INFINITY,
        farthest: 1.68,
        why: "the outside strand is to be hardly out or far out",
    },
    Excuse {
        figures: HEYS,
        asked: ("timing", &["even"]),
        kinds: ALL,
        sets: |_| true,
        nearest: -0.39,
        farthest: 1.01,
        why: "with even timing ends meet at the middle, which is what this choice is there to show",
    },
    Excuse {
        figures: &["foot-up-and-down", "solos"],
        asked: ("distance", &["4"]),
        kinds: STEPS,
        sets: |_| true,
        nearest: f64::INFINITY,
        farthest: 1.57,
        why: "up to 4 m is too far to come back from",
    },
    Excuse {
        figures: &["down-and-back"],
        asked: ("distance", &["20"]),
        kinds: STEPS,
        sets: |_| true,
        nearest: f64::INFINITY,
        farthest: 4.92,
        why: "20 m is too far to come back from",
    },
    Excuse {
        figures: &["cross-over", "cross-and-turn", "go-and-come", "into-line", "down-and-back"],
        asked: ("bars", &["1"]),
        kinds: STEPS,
        sets: |_| true,
        nearest: f64::INFINITY,
        farthest: 2.33,
        why: "they are to be over in one bar",
    },
    // Sets that are too large or too small.
    Excuse {
        figures: PARTNERS,
        asked: ("", &[]),
        kinds: STEPS,
        sets: |set| is(set, SetKind::Ring) && set.dancers <= 4,
        nearest: f64::INFINITY,
        farthest: 1.55,
        why: "two or four in a wide ring are 5 to 6 m from their partners",
    },
    Excuse {
        figures: HEYS,
        asked: ("", &[]),
        kinds: STEPS,
        sets: |set| set.dancers == 8 && set.across > 3.0,
        nearest: f64::INFINITY,
        farthest: 1.22,
        why: "files of four in a set as broad as the book has it for six [MB1] have far to go to their partners and back",
    },
    Excuse {
        figures: ROUNDS,
        asked: ("", &[]),
        kinds: STEPS,
        sets: |set| {
            is(set, SetKind::Longways)
                && set.dancers >= 7
                && f64::from(set.dancers.div_ceil(2)) * set.along > 7.0
        },
        nearest: f64::INFINITY,
        farthest: 1.53,
        why: "half-way round a file longer than 7 m is too far for three bars",
    },
    Excuse {
        figures: ROUNDS,
        asked: ("", &[]),
        kinds: STEPS,
        sets: |set| is(set, SetKind::Ring) && set.dancers >= 5 && set.across > 3.0,
        nearest: f64::INFINITY,
        farthest: 1.16,
        why: "half-way round a ring of 3.4 m and more to its middle is too far for three bars",
    },
    Excuse {
        figures: ROUNDS,
        asked: ("", &[]),
        kinds: BODIES,
        sets: |set| is(set, SetKind::Longways) && set.dancers == 11,
        nearest: -0.03,
        farthest: 0.0,
        why: "the last of eleven in two files joins the circle between two who stand close",
    },
    // Spots that are drawn in by a third of a metre across each pair, and turned anyhow.
    Excuse {
        figures: ROUNDS,
        asked: ("", &[]),
        kinds: ALL,
        sets: |set| is(set, SetKind::Spots),
        nearest: -0.11,
        farthest: 1.56,
        why: "spots on a slope lie unevenly round their middle",
    },
];

/// Why a fault of a kind is told, where the reason is known: the first that holds.
fn excused(
    name: &str,
    with: &serde_json::Map<String, serde_json::Value>,
    set: &Set,
    kind: FaultKind,
) -> Option<usize> {
    let is_it = |excuse: &Excuse| {
        let (key, values) = excuse.asked;
        let value =
            with.get(key).map(|value| value.as_str().map_or_else(|| value.to_string(), str::to_owned));
        (excuse.figures.is_empty() || excuse.figures.contains(&name))
            && (key.is_empty()
                || value
                    .is_some_and(|value| values.is_empty() || values.contains(&value.trim_end_matches(".0"))))
            && excuse.kinds.contains(&kind)
            && (excuse.sets)(set)
    };
    EXCUSES.iter().position(is_it)
}

/// Nobody is too near to anybody, nor goes farther in a step than one can, but for what is known and named above, and by no more than
/// is said there; and all that is named there is so, by as much.
#[test]
fn bodies_have_room_and_steps_are_short_enough() {
    let (mut seen, mut wrong) = (0, Vec::new());
    let mut worst = vec![(f64::INFINITY, 0.0_f64); EXCUSES.len()];
    for (told, dance, motion) in dances() {
        seen += 1;
        let named = dance.figures[0].named.as_ref().unwrap();
        for fault in find_faults(&dance, &motion) {
            if !ALL.contains(&fault.kind) {
                continue;
            }
            let said = format!("{told}: {:?} {}:{} {}", fault.kind, fault.bar, fault.count, fault.said);
            let Some(index) = excused(&named.figure, &named.with, &dance.set, fault.kind) else {
                wrong.push(said);
                continue;
            };
            let (excuse, (nearest, farthest)) = (&EXCUSES[index], &mut worst[index]);
            let beyond = if fault.kind == FaultKind::OverLong {
                let share = fault.value / fault.limit;
                *farthest = farthest.max(share);
                share > excuse.farthest
            } else {
                *nearest = nearest.min(fault.value);
                fault.value < excuse.nearest
            };
            if beyond {
                wrong.push(format!("{said}: {} of {}, beyond what is excused", fault.value, fault.limit));
            }
        }
    }
    println!("{worst:.3?}");
    none(seen, wrong);
    for (excuse, (nearest, farthest)) in EXCUSES.iter().zip(worst) {
        let why = excuse.why;
        if excuse.kinds.contains(&FaultKind::Clash) {
            assert!(nearest < excuse.nearest + WIDER.0, "{nearest} m, no longer so near: {why}");
        }
        if excuse.kinds.contains(&FaultKind::OverLong) {
            assert!(farthest > excuse.farthest - WIDER.1, "{farthest} of a step, no longer so far: {why}");
        }
    }
}

/// Counts of a half.
const HALF: f64 = 16.0;
/// Figures that ask for more than half about, and how far, degrees: away from the partner or by the half's own way to face them,
/// a spin and on to face in rounds, and once round on the spot at the bottom of a hey (common practice, no source); right about
/// in corners from any facing, and on as the way bent where a hey comes to its end from the inside (chosen for this program).
const LONG_TURNS: [(&str, f64); 8] = [
    ("foot-up-and-down", 360.0),
    ("into-line", 270.0),
    ("back-to-back", 270.0),
    ("whole-rounds", 540.0),
    ("half-rounds", 540.0),
    ("corners", 250.0),
    ("hey", 360.0),
    ("half-hey", 360.0),
];

/// The last turn of each half: how far it goes, degrees, and when it begins.
fn last_turns(motion: &Motion, track: &Track) -> Vec<(f64, f64)> {
    let turns = || track.turns().iter().zip(track.amounts()).filter(|(_, amount)| amount.abs() > 1.0);
    let ends = (0..(motion.counts() / HALF).round() as u32).map(|half| f64::from(half + 1) * HALF);
    ends.filter_map(|end| {
        let last = turns().rfind(|(turn, _)| turn.end <= end + 1e-6 && turn.end > end - HALF);
        last.map(|(turn, amount)| (*amount, turn.begin))
    })
    .collect()
}

/// How far the last turn of a half may go in a figure, degrees.
fn most_asked(told: &str) -> f64 {
    LONG_TURNS.iter().find(|(name, _)| Some(*name) == told.split(' ').next()).map_or(180.0, |(_, most)| *most)
        + 0.5
}

/// What the test below would say of a turn that goes too far: one of each half, for a figure that asks for none.
#[test]
fn a_last_turn_that_goes_too_far_is_seen() {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let figure = all().into_iter().find(|figure| figure.name == "cross-over").unwrap();
    dance.figures.push(figure_of(figure, &serde_json::Map::new(), &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    let mut part = motion.spans()[0].part(Dancer(0)).unwrap().clone();
    let farther = part.turns.iter().position(|turn| turn.begin >= 8.0 && turn.end <= HALF).unwrap();
    part.turns[farther].by = part.turns[farther].by.map(|by| by + 360.0);
    dance.figures[0].parts.push(part);
    let motion = motion_of(&dance, None).unwrap();
    let turned = last_turns(&motion, motion.spans()[0].track(Dancer(0)).unwrap());
    let wrong: Vec<f64> = turned
        .iter()
        .map(|(amount, _)| amount.abs())
        .filter(|amount| *amount > most_asked("cross-over {}"))
        .collect();
    assert_eq!(wrong.len(), 1, "{turned:?}");
    assert!((wrong[0] - 540.0).abs() < 1e-6);
}

/// The last turn before a half ends, which brings a dancer to face, goes no more than half about, unless the figure has its
/// own way about it: what is chosen is a turn's amount.
#[test]
fn nobody_finishes_by_more_than_half_about_unasked() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for (told, _, motion) in dances() {
        for (dancer, track) in tracks(&motion) {
            for (amount, at) in last_turns(&motion, track) {
                seen += 1;
                if amount.abs() > most_asked(&told) {
                    wrong.push(format!("{told}: {dancer} turns {amount:.0} at {at}"));
                }
            }
        }
    }
    none(seen, wrong);
}

/// A facing goes round by 60 degrees in a quarter of a count at the most where no turn is under way.
#[test]
fn nobody_is_thrown_round() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for (told, _, motion) in dances() {
        let quarters = (motion.counts() * 8.0) as u32;
        for (dancer, track) in tracks(&motion) {
            let mut worst = (0.0_f64, 0.0);
            for from in (0..quarters - 2).map(|look| f64::from(look) / 8.0) {
                seen += 1;
                let turning =
                    |turn: &bellpad::dance::Turn| turn.begin < from + 0.25 - 1e-9 && turn.end > from + 1e-9;
                if track.turns().iter().any(turning) {
                    continue;
                }
                let swing = (track.stand(from + 0.25).2 - track.stand(from).2).abs();
                if swing > worst.0 {
                    worst = (swing, from);
                }
            }
            if worst.0 > 60.5 {
                wrong.push(format!("{told}: {dancer} by {:.0} at {}", worst.0, worst.1));
            }
        }
    }
    none(seen, wrong);
}
