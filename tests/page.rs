//! The practice page: read back as the page's own script reads it, and held beside the movement engine.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;
#[path = "common/practice.rs"]
mod practice;

use bellpad::dance::{Dance, Dancer, Set, Tune, read};
use bellpad::edits::put_figure;
use bellpad::figures::{motion_of, named_figure};
use bellpad::handout::page::{PageError, page};
use bellpad::motion::{Clock, Motion, Weight};
use common::{assert_refused, bellpad, done, sample, samples, text};
use practice::{data_of, from_base64, number};
use serde_json::{Value, json};
use std::fs;

/// The page of a dance file, and the dance.
fn page_of(path: &std::path::Path) -> (Dance, Motion, String) {
    let dance = read(&fs::read(path).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let page = page(&dance, &motion).unwrap();
    (dance, motion, page)
}

/// A figure's cells of one dancer, as `unpackMoves` in assets/practice/decode.js makes them.
struct Cell {
    places: Vec<[f64; 2]>,
    facings: Vec<f64>,
}

fn unpack(text: &str, length: usize) -> Vec<Cell> {
    let bytes = from_base64(text);
    let mut at = 0;
    let (mut x, mut y, mut facing);
    (x, y, facing) = (number(&bytes, &mut at), number(&bytes, &mut at), number(&bytes, &mut at));
    let cells = (0..length)
        .map(|_| {
            let levels = bytes[at];
            at += 1;
            let parts = |level: u8| if level == 0 { 0 } else { 1 << (level - 1) };
            let mut cell = Cell { places: vec![[x, y]], facings: vec![facing] };
            for _ in 0..parts(levels & 15) {
                x += number(&bytes, &mut at);
                y += number(&bytes, &mut at);
                cell.places.push([x, y]);
            }
            for _ in 0..parts(levels >> 4) {
                facing += number(&bytes, &mut at);
                cell.facings.push(facing);
            }
            cell
        })
        .collect();
    assert_eq!(at, bytes.len(), "every byte is used");
    cells
}

/// `between` in assets/practice/decode.js.
fn between<const N: usize>(list: &[[f64; N]], share: f64) -> [f64; N] {
    let parts = list.len() - 1;
    if parts == 0 {
        return list[0];
    }
    let part = ((share * parts as f64).floor() as usize).min(parts - 1);
    let share = share * parts as f64 - part as f64;
    std::array::from_fn(|axis| list[part][axis] + (list[part + 1][axis] - list[part][axis]) * share)
}

/// Holds every dancer of a page beside the engine at every sixty-fourth of a count, and gives how far off the farthest
/// place and facing are: metres, degrees.
fn compare(motion: &Motion, data: &Value) -> (f64, f64) {
    let number = |value: &Value| value.as_f64().unwrap();
    let index = |value: &Value| value.as_u64().unwrap() as usize;
    let (place_parts, facing_parts) = (number(&data["placeParts"]), number(&data["facingParts"]));
    let (mut off, mut turned) = (0.0_f64, 0.0_f64);
    let spans = data["spans"].as_array().unwrap();
    assert_eq!(spans.len(), motion.spans().len());
    for (span, shown) in motion.spans().iter().zip(spans) {
        assert_eq!(
            (index(&shown["bar"]), index(&shown["bars"])),
            (span.first_bar as usize, span.bars as usize)
        );
        let played = &data["played"][index(&shown["played"])];
        let counts = span.bars as usize * 4;
        for dancer in 0..motion.dancers() {
            let cells = unpack(data["blobs"][index(&played["moves"][dancer])].as_str().unwrap(), counts);
            let feet = from_base64(data["blobs"][index(&played["feet"][dancer])].as_str().unwrap());
            assert_eq!(feet.len(), counts * 4);
            for step in 0..counts * 64 {
                let (count, share) = (step / 64, (step % 64) as f64 / 64.0);
                let pose = motion.pose(Dancer(dancer), span.begin() + step as f64 / 64.0);
                let [x, y] = between(&cells[count].places, share).map(|value| value / place_parts);
                let facings: Vec<[f64; 1]> = cells[count].facings.iter().map(|facing| [*facing]).collect();
                let facing = between(&facings, share)[0] / facing_parts;
                off = off.max((pose.x - x).hypot(pose.y - y));
                let apart = (pose.facing - facing).rem_euclid(360.0);
                turned = turned.max(apart.min(360.0 - apart));
                let [marks, known, left, right] = feet[count * 4..count * 4 + 4] else { unreachable!() };
                // `fallAt` and `poseOf` in assets/practice/poses.js.
                let next = (count + 1 < counts).then(|| feet[count * 4 + 4]);
                let lifted = share > 0.5 && next.is_some_and(|next| next & 4 > 0 || next & 3 == 3);
                let weight = if lifted { 3 } else { marks & 3 };
                let words = [Weight::Left, Weight::Right, Weight::Both, Weight::Air];
                assert_eq!(
                    words[usize::from(weight)],
                    pose.weight,
                    "dancer {} at {count} {share}",
                    dancer + 1
                );
                assert_eq!(usize::from(known), pose.step);
                let hands = |count: usize| {
                    [2, 3].map(|hand| {
                        f64::from(feet.get(count * 4 + hand).copied().unwrap_or([left, right][hand - 2]))
                            / 200.0
                    })
                };
                let (now, then) = (hands(count), hands(count + 1));
                for hand in 0..2 {
                    let high = now[hand] + (then[hand] - now[hand]) * share;
                    assert!((high - pose.each_hand[hand]).abs() <= 0.0026, "{high} {:?}", pose.each_hand);
                }
            }
        }
    }
    (off, turned)
}

/// What the page shows is within 1 cm and 2 degrees of what `bellpad pose` says, at any count.
#[test]
fn a_page_shows_what_the_engine_says() {
    for path in samples() {
        let (_, motion, page) = page_of(&path);
        let (off, turned) = compare(&motion, &data_of(&page));
        println!("{}: {:.2} mm, {turned:.2} degrees, {} bytes", path.display(), off * 1e3, page.len());
        assert!(off <= 0.01 && turned <= 2.0, "{}: {off} m, {turned} degrees", path.display());
        // The page keeps rounded places, so a difference of nothing would mean that nothing was compared.
        assert!(off > 0.0 && turned > 0.0, "{}", path.display());
    }
}

/// The same for sets of many sizes, and for turns as fast as a file may ask for.
#[test]
fn other_sets_and_fast_turns_agree_too() {
    for dancers in [1, 2, 4, 8, 12] {
        let mut dance = Dance::new("Sizes", Set::longways(dancers, 3.66, 1.83));
        for name in ["foot-up-and-down", "whole-rounds"] {
            if let Ok(figure) = named_figure(name, serde_json::Map::default(), &dance.set) {
                put_figure(&mut dance, figure);
            }
        }
        assert!(!dance.figures.is_empty());
        let motion = motion_of(&dance, None).unwrap();
        let (off, turned) = compare(&motion, &data_of(&page(&dance, &motion).unwrap()));
        assert!(off <= 0.01 && turned <= 2.0, "{dancers} dancers: {off} m, {turned} degrees");
    }
    let text = r#"{"bellpad": 1, "title": "Spin", "set": {"kind": "longways", "dancers": 2},
        "figures": [{"id": "spin", "name": "Spin", "bars": 4, "parts": [{"place": 1,
            "legs": [{"begin": 0, "end": 0.7, "to": {"x": 30, "y": 20}}],
            "turns": [{"begin": 1.1, "end": 1.6, "way": "left", "by": 720}]}]}]}"#;
    let dance = read(text.as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let (off, turned) = compare(&motion, &data_of(&page(&dance, &motion).unwrap()));
    assert!(off <= 0.01 && turned <= 2.0, "{off} m, {turned} degrees");
}

/// The page's clock is the dance's: [MB1]'s 6-time swing in 6/8, even otherwise.
#[test]
fn counts_fall_when_the_clock_says() {
    for path in samples() {
        let (dance, motion, page) = page_of(&path);
        let data = data_of(&page);
        let clock = Clock::of_dance(&dance, &motion);
        let bar = data["barSeconds"].as_f64().unwrap();
        // Two strong beats a bar.
        assert!((bar - 120.0 / dance.music.speed).abs() < 1e-9);
        for (count, share) in data["shares"].as_array().unwrap().iter().enumerate() {
            assert!((share.as_f64().unwrap() * bar - clock.seconds(count as f64)).abs() < 1e-9);
        }
        assert_eq!(data["times"].as_array().unwrap().len(), 0, "of one speed throughout");
    }
}

/// One file of its own, small enough to send, that asks for nothing from anywhere.
#[test]
fn a_page_is_small_and_needs_nothing_else() {
    for path in samples() {
        let (dance, _, page) = page_of(&path);
        assert!(page.len() < 300 * 1024, "{}: {} bytes", path.display(), page.len());
        let lower = page.to_lowercase().replace("http-equiv", "");
        for away in [
            "http",
            "src=",
            "url(",
            "@import",
            "fetch(",
            "xmlhttprequest",
            "import(",
            "websocket",
            "<iframe",
            "sendbeacon",
        ] {
            assert!(!lower.contains(away), "{}: {away}", path.display());
        }
        for link in lower.split("href=").skip(1) {
            assert!(link.starts_with("\"data:,\""), "{}", &link[..40.min(link.len())]);
        }
        assert!(page.contains("default-src 'none'"));
        for figure in &dance.figures {
            assert!(data_of(&page).to_string().contains(&figure.name), "{}", figure.name);
        }
        assert_eq!(data_of(&page)["spans"][0]["name"], "Once to yourself");
        assert!(!page.contains("{{") && !page.contains("}}\n"), "every place of the shell is filled");
    }
}

/// What each step that is danced is, in words, is told once, and nothing of a step that nobody dances.
#[test]
fn the_steps_are_told_on_the_page() {
    let (_, motion, page) = page_of(&sample("nine-geese-home"));
    let told = data_of(&page)["stepsTold"].clone();
    let told: Vec<&str> = told.as_array().unwrap().iter().map(|line| line.as_str().unwrap()).collect();
    assert!(told.iter().any(|line| line.starts_with("Double step: ") && line.contains("hop")), "{told:?}");
    assert!(told.iter().all(|line| !line.starts_with("Galley")), "{told:?}");
    let names: std::collections::BTreeSet<&str> =
        told.iter().map(|line| line.split(':').next().unwrap()).collect();
    assert_eq!(names.len(), told.len(), "each once");
    let known = motion.known().iter().map(|step| step.name.to_lowercase()).collect::<Vec<_>>();
    assert!(names.iter().all(|name| known.contains(&name.to_lowercase())), "{names:?}");
    assert!(
        page.contains(
            "<details id=\"steps\"><summary>The steps</summary><ul id=\"steps-told\"></ul></details>"
        )
    );
}

/// A figure that is danced again is on the page once.
#[test]
fn figures_danced_again_are_kept_once() {
    let (_, motion, page) = page_of(&sample("nine-geese-home"));
    let data = data_of(&page);
    let kinds = data["played"].as_array().unwrap().len();
    assert_eq!(data["spans"].as_array().unwrap().len(), motion.spans().len());
    assert!(kinds < motion.spans().len(), "{kinds} kinds");
    let lanterns: Vec<&Value> =
        data["spans"].as_array().unwrap().iter().filter(|span| span["name"] == "Chorus: lanterns").collect();
    // Danced alike but for the hop at the end, which follows from what comes next.
    let hops: std::collections::BTreeSet<String> = motion
        .spans()
        .iter()
        .filter(|span| span.repeats(&motion.spans()[2]))
        .map(|span| format!("{:?}", (0..6).map(|dancer| span.hop(Dancer(dancer))).collect::<Vec<_>>()))
        .collect();
    let played: std::collections::BTreeSet<u64> =
        lanterns.iter().map(|span| span["played"].as_u64().unwrap()).collect();
    assert!(lanterns.len() > 5 && hops.len() < 4, "{} and {hops:?}", lanterns.len());
    assert_eq!(played.len(), hops.len());
    let moves = |index: &u64| &data["played"][*index as usize]["moves"];
    assert!(played.iter().all(|index| moves(index) == moves(played.first().unwrap())), "kept once");
}

/// Every start tag has its end, in order, as HTML wants it; a dance's words cannot break out of where they stand.
#[test]
fn the_page_is_well_formed_whatever_a_dance_says() {
    let nasty = "</script><script>alert(1)</script><!-- {{script}} \u{2028} & \"quoted\" <b>";
    let mut dance = Dance::new(nasty, Set::longways(2, 2.4, 1.8));
    dance.notes = nasty.to_owned();
    let mut figure = named_figure("cross-and-turn", serde_json::Map::default(), &dance.set).unwrap();
    figure.name = nasty.to_owned();
    put_figure(&mut dance, figure);
    let motion = motion_of(&dance, None).unwrap();
    let nasty_page = page(&dance, &motion).unwrap();
    assert_eq!(data_of(&nasty_page)["title"], nasty);
    assert_eq!(data_of(&nasty_page)["spans"][0]["name"], nasty);
    assert_eq!(nasty_page.matches("<script").count(), 2);
    let pages = samples().iter().map(|path| page_of(path).2).chain([nasty_page]).collect::<Vec<_>>();
    for page in pages {
        let (mut open, mut ids): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
        let mut rest = page.strip_prefix("<!DOCTYPE html>").unwrap();
        while let Some((_, after)) = rest.split_once('<') {
            let (tag, after) = after.split_once('>').unwrap();
            rest = after;
            if let Some(name) = tag.strip_prefix('/') {
                assert_eq!(open.pop(), Some(name), "<{tag}> ends what is open");
                continue;
            }
            let name = tag.split_whitespace().next().unwrap();
            assert!(name.chars().all(|letter| letter.is_ascii_alphanumeric()), "<{tag}>");
            assert_eq!(tag.matches('"').count() % 2, 0, "<{tag}>");
            if let Some((_, id)) = tag.split_once(" id=\"") {
                ids.push(id.split('"').next().unwrap());
            }
            // The elements that have no end (HTML Living Standard, 13.1.2).
            if ["meta", "link", "input", "br", "img"].contains(&name) {
                continue;
            }
            if ["script", "style"].contains(&name) {
                let (_, after) = rest.split_once(&format!("</{name}>")).unwrap();
                rest = after;
                continue;
            }
            open.push(name);
        }
        assert!(open.is_empty(), "{open:?}");
        let number = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), number, "no id is given twice");
        // Every part that the script looks for is there.
        let mut number = 0;
        for asks in
            ["find(\"", "findAs(\"", "put(\"", "press(\"", "slide(\"", "chooseFrom(\"", "makeSwitch(\""]
        {
            for asked in page.split(asks).skip(1).map(|rest| rest.split('"').next().unwrap()) {
                assert!(ids.contains(&asked), "#{asked}");
                number += 1;
            }
        }
        assert!(number > 40, "{number}");
    }
}

/// The notes of the tune are those of the ABC text: the first bars of Nine Geese Home, read by hand in G major (middle C
/// is 60, as MIDI 1.0 numbers keys).
#[test]
fn the_tune_is_on_the_page() {
    let (dance, motion, page) = page_of(&sample("nine-geese-home"));
    let data = data_of(&page);
    let list: Vec<i64> =
        data["tune"].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect();
    // D|:GAB d2B|cBA B2G| at 100 strong beats a minute: a quaver lasts a fifth of a second.
    let expected = [
        [-1, 1, 62],
        [0, 1, 67],
        [1, 1, 69],
        [2, 1, 71],
        [3, 2, 74],
        [5, 1, 71],
        [6, 1, 72],
        [7, 1, 71],
        [8, 1, 69],
        [9, 2, 71],
        [11, 1, 67],
    ];
    for (note, [begin, length, key]) in list.chunks(3).zip(expected) {
        assert_eq!(note, [begin * 200, length * 200, key]);
    }
    // F is sharp in G: the sixth note of bar 7, cBA GAF.
    let bar_seven: Vec<i64> = list
        .chunks(3)
        .filter(|note| note[0] >= 6 * 1_200 && note[0] < 7 * 1_200)
        .map(|note| note[2])
        .collect();
    assert_eq!(bar_seven, [72, 71, 69, 67, 69, 66]);
    // A strain begins wherever a line of the running order does, and every bar has music.
    let tune = Tune::read(&dance.music.abc).unwrap();
    for (entry, span) in dance.order.iter().zip(motion.spans()) {
        let first = tune.strain(&entry.strain).unwrap().notes.iter().find(|note| note.begin >= 0.0).unwrap();
        let begins = |note: &&[i64]| note[0] == i64::from(span.first_bar) * 1_200;
        assert_eq!(list.chunks(3).find(begins).unwrap()[2], i64::from(first.key), "{}", entry.strain);
    }
    for bar in 0..i64::from(motion.bars()) {
        assert!(list.chunks(3).any(|note| note[0].div_euclid(1_200) == bar), "{bar}");
    }
}

/// ABC standard 2.1 (abcnotation.com, December 2011): octaves (4.1), accidentals (4.2), ties (4.11), chords (4.17) and
/// first endings (4.9).
#[test]
fn notes_are_read_as_the_standard_says() {
    let notes = |abc: &str| -> Vec<(f64, f64, u8)> {
        let tune = Tune::read(abc).unwrap();
        tune.strains[0].notes.iter().map(|note| (note.begin, note.length, note.key)).collect()
    };
    assert_eq!(
        notes("X:1\nM:4/4\nL:1/4\nK:F\nB,Bb' ^B|B [CEG]z _e|"),
        [
            (0.0, 0.25, 58),
            (0.25, 0.25, 70),
            (0.5, 0.25, 94),
            (0.75, 0.25, 72),
            (1.0, 0.25, 70),
            (1.25, 0.25, 60),
            (1.25, 0.25, 64),
            (1.25, 0.25, 67),
            (1.75, 0.25, 75),
        ]
    );
    assert_eq!(
        notes("X:1\nM:2/4\nL:1/4\nK:C\nC D-|D2-|D E|"),
        [(0.0, 0.5, 60), (0.5, 2.0, 62), (2.5, 0.5, 64)]
    );
    assert_eq!(
        notes("X:1\nM:2/4\nL:1/4\nK:C\n|:CD|1EF:|2GA|]"),
        [(0.0, 0.5, 60), (0.5, 0.5, 62), (1.0, 0.5, 64), (1.5, 0.5, 65)]
    );
    // A broken rhythm and a triplet keep their time.
    assert_eq!(
        notes("X:1\nM:2/4\nL:1/4\nK:C\nC>D|(3EEE|F2|"),
        [
            (0.0, 0.75, 60),
            (0.75, 0.25, 62),
            (1.0, 1.0 / 3.0, 64),
            (1.0 + 1.0 / 3.0, 1.0 / 3.0, 64),
            (1.0 + 2.0 / 3.0, 1.0 / 3.0, 64),
            (2.0, 1.0, 65),
        ]
    );
}

#[test]
fn the_verb_writes_a_page_or_says_why_not() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("page.html");
    let file = sample("low-water");
    assert_eq!(done(["page", text(&file), "-o", text(&out)]), "");
    assert_eq!(fs::read_to_string(&out).unwrap(), page_of(&file).2);
    let wrong = folder.path().join("page.txt");
    assert_refused(&bellpad(["page", text(&file), "-o", text(&wrong)]), &["page.txt", ".html"]);
    assert!(!wrong.exists());
    let none = folder.path().join("none").join("page.html");
    assert_refused(&bellpad(["page", text(&file), "-o", text(&none)]), &["no such file or folder"]);
    assert_refused(&bellpad(["page", "nowhere.dance.json", "-o", text(&out)]), &["nowhere.dance.json"]);
    // A dance without a figure has nothing to practise.
    let empty = folder.path().join("empty.dance.json");
    done(["new", text(&empty)]);
    assert_refused(&bellpad(["page", text(&empty), "-o", text(&out)]), &["empty.dance.json", "no figures"]);
}

#[test]
fn more_than_a_phone_holds_is_refused() {
    let mut dance = Dance::new("Long", Set::longways(400, 2.4, 1.8));
    let mut figure = bellpad::dance::Figure::drawn("stand", "Stand", 600);
    figure.phrase = "st".to_owned();
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(page(&dance, &motion), Err(PageError::Large(400 * 600 * 4)));
    // A step is one byte on the page: 256 with those that are built in, and one of the dance's own more is too many.
    let own = 257 - bellpad::motion::steps::built_in().len() as u32;
    let mut dance = Dance::new("Steps", Set::longways(1, 2.4, 1.8));
    let step = |number: u32| -> bellpad::dance::OwnStep {
        serde_json::from_value(json!({"name": "Own", "short": format!("own{number}"), "feet": ["lead"]}))
            .unwrap()
    };
    dance.steps = (0..own).map(step).collect();
    dance.figures.push(bellpad::dance::Figure::drawn("stand", "Stand", 4));
    let of = |dance: &Dance| page(dance, &motion_of(dance, None).unwrap()).map(|_| ());
    assert_eq!(of(&dance), Err(PageError::Steps(257)));
    dance.steps.pop();
    assert_eq!(of(&dance), Ok(()));
}

/// By hand: what meets is heard and marked on the page when the program's own clock and list have it, also in 9/8 and at changing
/// speeds; each number is told what they tap in each bar.
#[test]
fn taps_are_those_of_the_clock() {
    let file = r#"{"bellpad": 2, "title": "Dibs", "holding": "sticks", "set": {"kind": "longways", "dancers": 4, "across": 1.2, "along": 1.2},
        "music": {"metre": "6/8", "speed": 100},
        "figures": [{"id": "dib", "name": "Dib", "bars": 3, "phrase": "sb", "metres": {"2": "9/8"}, "speeds": [{"count": 8, "speed": 60}],
            "strikes": [{"at": 2, "by": "all", "with": "tip", "on": "ground"}, {"at": 6, "by": "odds", "with": "tip", "on": "partner", "their": "butt", "again": [8, 10]},
                {"at": 12, "by": 1, "with": "right", "on": "down"}, {"at": 13, "by": 1, "with": "right", "on": "up"}]}],
        "order": [{"figure": "dib"}]}"#;
    let dance = read(file.as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let clock = Clock::of_dance(&dance, &motion);
    let data = data_of(&page(&dance, &motion).unwrap());
    let list = |key: &str| -> Vec<i64> {
        data[key].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect()
    };
    let taps = list("taps");
    let expected = [(2.0, 1, 4), (6.0, 0, 2), (8.0, 0, 2), (10.0, 0, 2), (12.0, 2, 1)];
    assert_eq!(taps.len(), expected.len() * 3);
    for (tap, (count, kind, many)) in taps.chunks(3).zip(expected) {
        assert!((tap[0] as f64 - clock.seconds(count) * 1e3).abs() <= 0.5, "{tap:?}");
        assert_eq!((tap[1], tap[2]), (kind, many));
    }
    let meets: Vec<Vec<i64>> = list("meets").chunks(11).map(<[i64]>::to_vec).collect();
    // Four dibs, three times two pairs, and one pair of hands: 1 and 3 stand at 0.6 and -0.6 m in the left file, and their right hands are 0.2 m down of them.
    assert_eq!(meets.len(), 11);
    let (tap, clap) = (&meets[4][..], &meets[10][..]);
    // 1's tip, 0.3 m from the palm, on 2's butt, with the right hands.
    assert_eq!(tap, [6_000, 6_000, 0, 600, 0, 0, 1, 300, 1, 1, -300]);
    assert_eq!(clap, [12_000, 12_000, -600, -200, 2, 0, 1, 0, 2, 1, 0]);
    assert_eq!(meets[0], [2_000, 2_000, meets[0][2], meets[0][3], 1, 0, 1, 300, -1, 0, 0]);
    let told = |dancer: usize| -> Vec<(f64, f64, String)> {
        let list = data["played"][0]["taps"][dancer].as_array().unwrap();
        let text =
            |index: &Value| data["texts"][index.as_u64().unwrap() as usize].as_str().unwrap().to_owned();
        list.iter()
            .map(|told| (told[0].as_f64().unwrap(), told[1].as_f64().unwrap(), text(&told[2])))
            .collect()
    };
    assert_eq!(
        told(0)[1],
        (4.0, 10.0, "Tap 2, tip on butt, on the second beat and on the third beat.".to_owned())
    );
    assert_eq!(told(3)[0].2, "Dib the ground with the tip on the second beat.");
}
