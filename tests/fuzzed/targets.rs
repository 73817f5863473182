//! What is tried: for each target how an input is made of a stream of numbers, and what is done with it.

use crate::any_dance::any_dance;
use crate::any_text::{abc, text};
use crate::changed::{change, enlarge, slip};
use crate::draws::Draws;
use crate::whole_work;
use bellpad::dance::{
    BarCounts, CleanedTunes, Foot, Metre, Music, PlayedTune, Score, Set, SetKind, Tune, check_rules,
    follow_tune, read, write,
};
use bellpad::faults::{Faults, MOST_WATCHED, watch_dance};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::handout::page::page;
use bellpad::motion::{fill_phrase, known_steps, steps::built_in};
use bellpad::picture::{PAPER, StillChoice, engrave, still, to_svg};
use bellpad::sound::{Levels, TuneAlone, sounds};
use bellpad::verbs::{self, CommandLine, Verb};
use bellpad::words::{
    StepRow, gist, read_speeds, read_taps, side_told, speeds_said, taps_written, with_cell,
};
use clap::Parser;
use serde_json::{Value, json};
use std::path::Path;

/// Something that is tried with inputs of one kind.
pub struct Target {
    pub name: &'static str,
    /// An input, of a stream of numbers.
    pub make: fn(&mut Draws) -> String,
    /// What is done with it, each part of it said to the clock by its name.
    pub run: fn(&str, &mut dyn FnMut(&'static str)),
}

pub const TARGETS: [Target; 9] = [
    Target { name: "whole", make: whole_dance, run: try_whole },
    Target { name: "dance", make: changed_dance, run: try_dance },
    Target { name: "tune", make: changed_tune, run: try_tune },
    Target { name: "phrase", make: changed_phrase, run: try_phrase },
    Target { name: "taps", make: changed_taps, run: try_taps },
    Target { name: "speeds", make: changed_speeds, run: try_speeds },
    Target { name: "cell", make: changed_cell, run: try_cell },
    Target { name: "choices", make: changed_choices, run: try_choices },
    Target { name: "commands", make: changed_command, run: try_command },
];

/// The dances that come with the program and the tests, as documents.
fn samples() -> &'static [(String, Value)] {
    static SAMPLES: std::sync::OnceLock<Vec<(String, Value)>> = std::sync::OnceLock::new();
    SAMPLES.get_or_init(|| {
        let mut all = Vec::new();
        for folder in ["dances", "tests/cases", "tests/crowds"] {
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.extension().is_some_and(|ending| ending == "json") {
                    let text = std::fs::read_to_string(&path).unwrap();
                    all.push((path.display().to_string(), serde_json::from_str(&text).unwrap()));
                }
            }
        }
        all.sort_by(|one, other| one.0.cmp(&other.0));
        all
    })
}

fn whole_dance(draws: &mut Draws) -> String {
    write(&any_dance(draws)).unwrap()
}

fn try_whole(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let dance = whole_work::keep(input);
    clock("open and save");
    let motion = motion_of(&dance, None).unwrap();
    clock("compile");
    let counts: Vec<f64> = (-1..=18).map(|part| motion.counts() * f64::from(part) / 17.0).collect();
    whole_work::stand(&dance, &motion, &counts);
    clock("pose");
    whole_work::check(&dance, &motion);
    clock("check and watch");
    whole_work::tell(&dance, &motion);
    clock("words");
    whole_work::hand_out(&dance, &motion, input.len());
    clock("hand out");
}

fn changed_dance(draws: &mut Draws) -> String {
    let mut document = if draws.once_in(3) {
        serde_json::to_value(any_dance(draws)).unwrap()
    } else {
        draws.one_of(samples()).1
    };
    for _ in 0..draws.below(3) {
        enlarge(draws, &mut document);
    }
    for _ in 0..draws.below(5) {
        change(draws, &mut document);
    }
    let text = if draws.once_in(2) { format!("{document:#}") } else { document.to_string() };
    if !draws.once_in(6) {
        return text;
    }
    let mut letters: Vec<char> = text.chars().collect();
    slip(
        draws,
        &mut letters,
        &["{", "}", "[", "]", ",", ":", "\"", "\\u0000", "\\ud800", "1e999", "\u{feff}"],
    );
    letters.into_iter().collect()
}

fn try_dance(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let read_dance = read(input.as_bytes());
    clock("open");
    let dance = match read_dance {
        Ok(dance) => dance,
        Err(error) => return assert_one_line(&error.to_string()),
    };
    check_rules(&dance).unwrap();
    let written = write(&dance).unwrap();
    assert!(read(written.as_bytes()).unwrap() == dance, "it is read otherwise than it was written");
    clock("save and open");
    let motion = motion_of(&dance, None);
    clock("compile");
    let motion = match motion {
        Ok(motion) => motion,
        Err(error) => return assert_one_line(&error.to_string()),
    };
    whole_work::stand(&dance, &motion, &[0.0, motion.counts() * 0.31, motion.counts()]);
    clock("pose");
    let faults = Faults::of(&dance, &motion);
    assert!(faults.iter().all(|fault| fault.value.is_finite() && !fault.text.contains("NaN")));
    clock("check");
    if motion.dancers() <= MOST_WATCHED {
        assert!(watch_dance(&dance, &motion, &mut || true).is_some());
        clock("watch");
    }
    for (index, _) in motion.indexed_spans() {
        let (_, groups) = side_told(&dance, &motion, index);
        assert!(!groups.is_empty() && !gist(&dance, &motion, index, None).is_empty());
    }
    clock("words");
    let choice =
        StillChoice { size: 200, trails: true, title: dance.title.clone(), ..StillChoice::default() };
    whole_work::see_svg(&to_svg(&still(&motion, motion.counts() * 0.31, &choice)));
    clock("still");
    let _ = page(&dance, &motion);
    clock("page");
}

fn assert_one_line(said: &str) {
    assert!(!said.trim().is_empty() && !said.contains(['\n', '\r', '\u{0}', '\u{1b}']), "{said:?}");
    assert!(said.chars().count() < 1_200, "{said}");
}

/// Tunes of ours that between them use what tunes are made of.
const TUNES: [&str; 4] = [
    "X:1\nT:The Reeds\nM:6/8\nL:1/8\nQ:3/8=104\nK:G\nD|:\"G\"GAB d2B|\"C\"cBA G2A|[1 B2A A2D:|[2 A2G G3|]\n",
    "X:2\nT:Ferry Stairs\nC:ours\nM:4/4\nL:1/8\nP:AABB\nK:D\nP:A\n|:d2>f2 (3agf e2|{g}a2A2 d4:|\nP:B\n|:.d.e~f^g =g_b!trill!a2|[DFA]4 z2 x2:|\n",
    "X:3\nM:C|\nL:1/4\nK:Amix\nV:1\nA B-|B c & E F|\nV:2\nA,2|A,2|\nw:la la_ la\n",
    "X:4\nM:9/8\nQ:3/8=90\nK:Em\nM:6/8\ne3 f3|[Q:3/8=60]g6|\nM:9/8\n\\\ne9|[K:G]g9|]\n%%text end\n",
];

const SIGNS: [&str; 48] = [
    "|",
    ":|",
    "|:",
    "::",
    "[1",
    "[2",
    "[",
    "]",
    "(",
    ")",
    "(3",
    "(9:9:9",
    "(0",
    "{",
    "}",
    "-",
    ">",
    "<<<",
    "^",
    "_",
    "=",
    "/",
    "///",
    "99999999999",
    "\"",
    "!",
    "+",
    "&",
    "%",
    "\\\n",
    "\n",
    "\r",
    "X:2\n",
    "K:\n",
    "M:0/0",
    "M:1/128",
    "L:0",
    "V:2\n",
    "P:(A9)9\n",
    "P:A\n",
    "Q:0",
    "Q:1/4=99999",
    "w:",
    "z",
    "Z4096",
    "C,,,,,,,",
    "[1-99",
    "%%begintext\n",
];

fn changed_tune(draws: &mut Draws) -> String {
    let mut tune = if draws.once_in(2) { abc(draws) } else { draws.one_of(&TUNES).to_owned() };
    if draws.once_in(20) {
        let times = draws.one_of(&[10, 300]);
        let body = tune.clone();
        tune += &body.repeat(times);
    }
    let mut letters: Vec<char> = tune.chars().collect();
    for _ in 0..draws.below(8) {
        slip(draws, &mut letters, &SIGNS);
    }
    letters.into_iter().collect()
}

fn try_tune(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let lines = input.lines().count().max(1);
    match Tune::read(input) {
        Ok(tune) => {
            assert!(
                !tune.strains.is_empty() && tune.speed.is_none_or(|speed| speed.is_finite() && speed > 0.0)
            );
            assert!(tune.told.iter().all(|told| (1..=lines).contains(&told.line) && !told.said.is_empty()));
            for strain in &tune.strains {
                for notes in std::iter::once(&strain.notes).chain(&strain.again) {
                    assert!(
                        notes.iter().all(|note| note.begin.is_finite()
                            && note.length.is_finite()
                            && note.length > 0.0)
                    );
                }
                assert!(strain.again.iter().all(|notes| notes.is_sorted_by_key(|note| note.begin)));
                let (counts, speeds) = (strain.bar_counts().counts(), &strain.speeds);
                assert!(speeds.iter().all(|change| (0.0..counts).contains(&change.count)));
                assert!(speeds.iter().is_sorted_by(|one, other| one.count < other.count));
            }
        }
        Err(error) => {
            assert!((1..=lines).contains(&error.line), "{error}");
            assert_one_line(&error.to_string());
        }
    }
    clock("read");
    let cleaned = CleanedTunes::of(input);
    for tune in cleaned.tunes.iter().take(20) {
        assert_eq!(CleanedTunes::of(tune).tunes.first(), Some(tune));
    }
    clock("clean");
    if let Ok(score) = Score::read(input) {
        let systems = engrave(&score, 500.0, 6.0, PAPER.words);
        assert!(!systems.is_empty() || score.bars.is_empty());
    }
    clock("engrave");
    if let Ok(tune) = PlayedTune::read(input) {
        let alone = TuneAlone::of(&tune, "any");
        assert!(alone.seconds_in_all().is_finite());
        assert!(alone.sounds().iter().all(|sound| sound.begin.is_finite() && sound.length.is_finite()));
        let _ = alone.midi(Levels::default(), 1.0);
    }
    clock("play");
    let music = Music { abc: input.to_owned(), ..Music::default() };
    let _ = follow_tune(&music);
    clock("follow");
    let _ = sounds;
}

fn changed_phrase(draws: &mut Draws) -> String {
    let counts = draws.one_of(&[0, 1, 4, 16, 32, 48, 8000, 12_000]);
    let said = crate::any_dance::phrase(draws, &[], counts.clamp(1, 64));
    let mut letters: Vec<char> = said.chars().collect();
    for _ in 0..draws.below(6) {
        slip(
            draws,
            &mut letters,
            &[",", " ", "left", "right", "0", "1000 ", "1001 ", "ds", "st", "99999999999999999999 "],
        );
    }
    format!("{counts}\n{}", letters.into_iter().collect::<String>())
}

fn try_phrase(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let Some((counts, said)) = input.split_once('\n') else { return };
    let counts: usize = counts.parse().unwrap_or(16);
    let known = known_steps(&[]);
    match fill_phrase(said, &known, counts) {
        Ok(phrase) => {
            let danced: usize = phrase.steps.iter().map(|(_, step)| known[*step].counts()).sum();
            assert_eq!(danced, counts);
        }
        Err(error) => {
            assert_one_line(&error.told());
            let letters = said.chars().count();
            assert!(error.place().is_none_or(|place| place.end <= letters.max(1)), "{error:?}");
            let _ = error.is_unfinished();
        }
    }
    clock("read");
}

/// A head of a few numbers, and what is typed.
fn with_bars(draws: &mut Draws) -> (u32, Metre) {
    (draws.one_of(&[1, 2, 8, 16, 2000]), draws.one_of(&Metre::ALL))
}

fn bars_of(head: &str) -> (BarCounts, u32) {
    let numbers: Vec<usize> = head.split(' ').filter_map(|number| number.parse().ok()).collect();
    let number = |index: usize, usual| numbers.get(index).copied().unwrap_or(usual);
    let bars =
        BarCounts::of((number(0, 8) as u32).clamp(1, 2000), Metre::ALL[number(1, 0) % Metre::ALL.len()]);
    (bars, (number(2, 6) as u32).clamp(1, 400))
}

const TAPS: [&str; 5] = [
    "bar 1: count 3, odds tip on partner's butt; count 4, all both on both",
    "bars 1 and 3 to 7: count 1, tip on tip\nbar 2: count 1, butt on the ground; count 2.5, stay",
    "bar 1: counts 1, 2 and 3, own right knee",
    "bar 4: count 1, 3 strikes 5, tip on middle, at 1.2 m, left hand",
    "bars 1 to 2000: counts 1, 2, 3, 4, all tip on tip",
];

fn changed_taps(draws: &mut Draws) -> String {
    let (bars, metre) = with_bars(draws);
    let metre_index = Metre::ALL.iter().position(|one| *one == metre).unwrap();
    let dancers = draws.one_of(&[1, 2, 6, 12, 400]);
    let mut said = if draws.once_in(2) {
        let dance = any_dance(draws);
        dance
            .figures
            .first()
            .map(|figure| taps_written(&figure.strikes, &dance.bar_counts(figure)))
            .unwrap_or_default()
    } else {
        draws.one_of(&TAPS).to_owned()
    };
    if draws.once_in(20) {
        said = format!("{said}\n").repeat(400);
    }
    let mut letters: Vec<char> = said.chars().collect();
    for _ in 0..draws.below(6) {
        slip(
            draws,
            &mut letters,
            &[
                ":",
                ";",
                ",",
                " ",
                "bar ",
                "bars ",
                "to ",
                "and ",
                "count ",
                "1",
                "4294967296",
                "0.5",
                "-",
                "NaN",
                "1e9",
                "partner's ",
                "on ",
                "tip ",
                "both ",
                "ground",
                "own ",
                "\n",
                "stay",
                "opposite",
                "hand",
                "m",
            ],
        );
    }
    format!("{bars} {metre_index} {dancers}\n{}", letters.into_iter().collect::<String>())
}

fn try_taps(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let Some((head, said)) = input.split_once('\n') else { return };
    let (bars, dancers) = bars_of(head);
    match read_taps(said, &bars, dancers) {
        Ok(strikes) => {
            clock("read");
            let written = taps_written(&strikes, &bars);
            let again = read_taps(&written, &bars, dancers);
            let again = again.unwrap_or_else(|error| panic!("{error} at {:?} in\n{written}", error.place));
            assert_eq!(taps_written(&again, &bars), written);
        }
        Err(error) => {
            assert_one_line(&error.said);
            assert!(
                error.place.start <= error.place.end && error.place.end <= said.chars().count() + 1,
                "{error:?}"
            );
        }
    }
    clock("write and read");
}

fn changed_speeds(draws: &mut Draws) -> String {
    let (bars, metre) = with_bars(draws);
    let metre_index = Metre::ALL.iter().position(|one| *one == metre).unwrap();
    let said = draws.one_of(&[
        "60",
        "60, from bar 5 at 90",
        "60, to 90 at bar 7",
        "at 60, from bar 2:3 little by little to 90 at bar 7",
    ]);
    let mut letters: Vec<char> = said.chars().collect();
    for _ in 0..draws.below(6) {
        slip(
            draws,
            &mut letters,
            &[
                ",",
                " ",
                "from ",
                "bar ",
                "at ",
                "to ",
                "0",
                "1e9",
                "NaN",
                "inf",
                ":",
                "2:3.5",
                "4294967296",
                "little by little ",
                "400",
            ],
        );
    }
    format!("{bars} {metre_index}\n{}", letters.into_iter().collect::<String>())
}

fn try_speeds(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let Some((head, said)) = input.split_once('\n') else { return };
    let (bars, _) = bars_of(head);
    match read_speeds(said, &bars, 100.0) {
        Ok(changes) => {
            assert!(
                changes.iter().all(|change| (10.0..=400.0).contains(&change.speed) && change.count >= 0.0)
            );
            assert!(changes.is_sorted_by(|one, other| one.count < other.count), "{changes:?}");
            if let Some(written) = speeds_said(&changes, &bars) {
                let again = read_speeds(&written, &bars, 100.0);
                let again = again.unwrap_or_else(|error| panic!("{error} in {written}"));
                assert_eq!(speeds_said(&again, &bars), Some(written));
            }
        }
        Err(error) => {
            assert_one_line(&error.said);
            assert!(
                error.place.start <= error.place.end && error.place.end <= said.chars().count() + 1,
                "{error:?}"
            );
        }
    }
    clock("read");
}

fn changed_cell(draws: &mut Draws) -> String {
    let said = draws.one_of(&[
        "lands",
        "hops",
        "front 0.3 m",
        "crossed behind 20 cm",
        "1/2",
        "down",
        "high",
        "0.5",
        "2 inward",
        "none",
        "stays",
    ]);
    let mut letters: Vec<char> = said.chars().collect();
    for _ in 0..draws.below(5) {
        slip(
            draws,
            &mut letters,
            &[
                " ", "cm", "m", "/", ".", "-", "0", "1e9", "NaN", ",", "front", "high", "shin", "both", "½",
                "inward", "outward",
            ],
        );
    }
    let head = [draws.below(40), draws.below(StepRow::ALL.len()), draws.below(9), draws.below(2)];
    format!("{} {} {} {}\n{}", head[0], head[1], head[2], head[3], letters.into_iter().collect::<String>())
}

fn try_cell(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let Some((head, said)) = input.split_once('\n') else { return };
    let numbers: Vec<usize> = head.split(' ').filter_map(|number| number.parse().ok()).collect();
    let number = |index: usize| numbers.get(index).copied().unwrap_or_default();
    let steps = built_in();
    let step = &steps[number(0) % steps.len()];
    let row = StepRow::ALL[number(1) % StepRow::ALL.len()];
    let lead = if number(3) == 0 { Foot::Left } else { Foot::Right };
    match with_cell(step, (lead, row), number(2), said) {
        Ok(made) => assert_eq!(made.counts(), step.counts()),
        Err(error) => {
            assert_one_line(&error.said);
            assert!(error.place.end <= said.chars().count() + 1, "{error:?}");
        }
    }
    clock("read");
}

fn changed_choices(draws: &mut Draws) -> String {
    let figure = draws.one_of(&all());
    let mut with = serde_json::Map::new();
    for choice in figure.choices {
        let value = match draws.below(5) {
            0 => continue,
            1 => json!(draws.one_of(&[0.0, 0.15, 1.0, 2.0, 4.0, 7.5, 12.0, 400.0, -1.0, 1e300])),
            2 => json!(
                draws.one_of(&["left", "right", "inside", "outside", "NaN", "first", "up", "down", "hop"])
            ),
            3 => match choice.kind {
                bellpad::figures::Kind::Number { least, most, .. } => json!(draws.between(least, most)),
                bellpad::figures::Kind::Word(words) => json!(draws.one_of(words)),
                bellpad::figures::Kind::Dancer { .. } => json!(draws.whole(0, 20)),
            },
            _ => json!(text(draws)),
        };
        with.insert(choice.key.to_owned(), value);
    }
    let dancers = draws.one_of(&[1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 24, 40]);
    let kind = draws.below(2);
    let (across, along) = (draws.one_of(&[0.1, 0.6, 2.4, 1000.0]), draws.one_of(&[0.1, 0.6, 1.8, 1000.0]));
    json!({"figure": figure.name, "with": with, "dancers": dancers, "ring": kind, "across": across, "along": along}).to_string()
}

fn try_choices(input: &str, clock: &mut dyn FnMut(&'static str)) {
    let Ok(input) = serde_json::from_str::<Value>(input) else { return };
    let number = |key: &str, usual: f64| input[key].as_f64().unwrap_or(usual);
    let mut set = Set::longways(number("dancers", 6.0) as u32, number("across", 2.4), number("along", 1.8));
    if number("ring", 0.0) > 0.0 {
        set.kind = SetKind::Ring;
    }
    let mut dance = bellpad::dance::Dance::new("Any", set);
    if check_rules(&dance).is_err() {
        return;
    }
    let with = input["with"].as_object().cloned().unwrap_or_default();
    let name = input["figure"].as_str().unwrap_or_default();
    let figure = named_figure(name, with, &dance.set);
    clock("named");
    match figure {
        Ok(figure) => dance.figures.push(figure),
        Err(error) => return assert_one_line(&error.to_string()),
    }
    let motion = motion_of(&dance, None).unwrap();
    clock("compile");
    whole_work::stand(&dance, &motion, &[0.0, 3.3, motion.counts() / 2.0, motion.counts()]);
    clock("pose");
    whole_work::check(&dance, &motion);
    clock("check and watch");
    whole_work::tell(&dance, &motion);
    clock("words");
}

/// Words of command lines; `in.` are files that are there.
const ARGUMENTS: [&str; 76] = [
    "new",
    "pose",
    "check",
    "watch",
    "still",
    "crib",
    "page",
    "moving",
    "sheet",
    "notebook",
    "stepping",
    "tapping",
    "tune",
    "schema",
    "help",
    "--help",
    "--version",
    "in.dance.json",
    "in.dance.json",
    "in.dance.json",
    "in.abc",
    "missing.dance.json",
    "broken.dance.json",
    "-o",
    "out.png",
    "out.svg",
    "out.pdf",
    "out.html",
    "out.wav",
    "out.mid",
    "out.gif",
    "out.dance.json",
    "out",
    "--figure",
    "hey",
    "hey:inside=0.3",
    "cross-over:first=left",
    "corners",
    "solos:who=1",
    "hey:inside=",
    "--dancer",
    "1",
    "6",
    "0",
    "-1",
    "4294967295",
    "--dancers",
    "400",
    "--at",
    "1:1",
    "3:2.5",
    "9:9",
    "0:0",
    "--every",
    "0.25",
    "0",
    "2",
    "NaN",
    "--size",
    "64",
    "16",
    "--trails",
    "--json",
    "--gist",
    "--bars",
    "--words",
    "--whole",
    "--pocket",
    "--no-names",
    "--force",
    "--paper",
    "a4",
    "letter",
    "--landscape",
    "--speed",
    "--click",
];

/// Command lines that do something.
const COMMANDS: [&str; 16] = [
    "new out.dance.json --title T --dancers 6 --figure hey --figure corners",
    "pose in.dance.json --at 1:1",
    "pose in.dance.json --every 16",
    "check in.dance.json --json",
    "watch in.dance.json --dancer 1",
    "still in.dance.json --at 2:1 -o out.png --size 64 --trails",
    "still in.dance.json --every 64 -o out.svg --size 64",
    "crib in.dance.json --gist",
    "crib in.dance.json --dancer 2 --bars",
    "page in.dance.json -o out.html --no-names",
    "moving in.dance.json --figure hey -o out.gif --size 64 --fps 2 --speed 400",
    "sheet in.dance.json --whole -o out.svg",
    "sheet in.dance.json --dancer 1 --pocket -o out.pdf --paper letter",
    "stepping in.dance.json -o out.svg --landscape",
    "tapping in.dance.json -o out.svg",
    "tune in.abc -o out.mid --speed 50 --click",
];

fn changed_command(draws: &mut Draws) -> String {
    let mut words: Vec<String> = if draws.once_in(4) {
        draws.many(0, 10, |draws| draws.one_of(&ARGUMENTS).to_owned())
    } else {
        draws.one_of(&COMMANDS).split(' ').map(str::to_owned).collect()
    };
    for _ in 0..draws.below(5) {
        let at = draws.below(words.len() + 1);
        match draws.below(5) {
            0 if at < words.len() => {
                words.remove(at);
            }
            1 => words.insert(at, text(draws)),
            2 if at < words.len() => words[at] = draws.one_of(&ARGUMENTS).to_owned(),
            3 if at < words.len() => {
                let mut letters: Vec<char> = words[at].chars().collect();
                slip(draws, &mut letters, &["=", ":", "-", "--", ",", ".", "0", "1e9", "\"", "\u{202e}"]);
                words[at] = letters.into_iter().collect();
            }
            _ => words.insert(at, draws.one_of(&ARGUMENTS).to_owned()),
        }
    }
    words.iter().map(|word| word.replace(['\n', '\r'], " ")).collect::<Vec<_>>().join("\n")
}

fn try_command(input: &str, clock: &mut dyn FnMut(&'static str)) {
    // Nothing is written outside the folder.
    let arguments: Vec<String> = input.lines().map(|word| word.replace(['/', '\0'], "_")).collect();
    let parsed =
        CommandLine::try_parse_from(std::iter::once("bellpad".to_owned()).chain(arguments.iter().cloned()));
    let asked = match parsed {
        Ok(asked) => asked,
        Err(error) => {
            assert!(!error.to_string().is_empty());
            if error.use_stderr() {
                assert_one_line(&verbs::one_line(error));
            }
            return;
        }
    };
    clock("parse");
    let Some(verb) = &asked.verb else { return };
    if let Verb::Desktop(_) = verb {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let dances = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances");
    std::fs::copy(dances.join("low-water.dance.json"), folder.path().join("in.dance.json")).unwrap();
    std::fs::write(folder.path().join("in.abc"), TUNES[0]).unwrap();
    std::fs::write(folder.path().join("broken.dance.json"), "{\"bellpad\": 1,").unwrap();
    std::env::set_current_dir(folder.path()).unwrap();
    let done = verbs::run(verb);
    std::env::set_current_dir("/").unwrap();
    if let Err(error) = done {
        assert_one_line(&error.to_string());
    }
    clock("run");
}
