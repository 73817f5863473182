//! What cannot be done is said in one line that names the place, and nothing on the disk changes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, check_rules, read, write};
use bellpad::figures::motion_of;
use common::{assert_refused, bellpad, contents, done, text};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use serde_json::{Value, json};
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder with one file in it.
struct Desk {
    folder: TempDir,
    file: PathBuf,
}

impl Desk {
    fn with(bytes: &[u8]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("test.dance.json");
        fs::write(&file, bytes).unwrap();
        Self { folder, file }
    }

    fn file(&self) -> &str {
        text(&self.file)
    }

    fn path(&self, name: &str) -> String {
        text(&self.folder.path().join(name)).to_owned()
    }

    /// Runs the program, which must refuse with words for the place and leave the folder as it is.
    #[track_caller]
    fn refuses(&self, arguments: &[&str], words: &[&str]) {
        let before = contents(self.folder.path());
        assert_refused(&bellpad(arguments), words);
        assert!(contents(self.folder.path()) == before, "the folder has changed after {arguments:?}");
    }
}

/// Every verb that opens a file refuses it, names the file and says where in it.
#[track_caller]
fn refused_by_every_verb(bytes: &[u8], words: &[&str]) {
    let desk = Desk::with(bytes);
    let mut named = vec!["test.dance.json: "];
    named.extend(words);
    desk.refuses(&["pose", desk.file(), "--at", "1:1"], &named);
    desk.refuses(&["check", desk.file()], &named);
    desk.refuses(&["check", "--json", desk.file()], &named);
    desk.refuses(&["still", desk.file(), "--at", "1:1", "-o", &desk.path("out.png")], &named);
}

fn small() -> Value {
    json!({
        "bellpad": 1,
        "title": "Small",
        "set": {"kind": "longways", "dancers": 4, "across": 2.4, "along": 1.8},
        "figures": [{"id": "go", "name": "Go", "bars": 4, "parts": [{"place": 1,
            "legs": [{"begin": 0, "end": 4, "to": {"x": 0, "y": 0}}],
            "turns": [{"begin": 8, "end": 12, "way": "left", "by": 90}]}]}],
        "order": [{"figure": "go"}]
    })
}

/// The small dance with one value put in by its JSON pointer.
fn with(place: &str, value: Value) -> Vec<u8> {
    let mut dance = small();
    let (parent, key) = place.rsplit_once('/').unwrap();
    match dance.pointer_mut(parent).expect(place) {
        Value::Object(object) => {
            object.insert(key.to_owned(), value);
        }
        Value::Array(list) => list[key.parse::<usize>().unwrap()] = value,
        _ => panic!("{place} is in neither an object nor a list"),
    }
    dance.to_string().into_bytes()
}

fn without(place: &str) -> Vec<u8> {
    let mut dance = small();
    let (parent, key) = place.rsplit_once('/').unwrap();
    dance
        .pointer_mut(parent)
        .and_then(Value::as_object_mut)
        .and_then(|object| object.remove(key))
        .expect(place);
    dance.to_string().into_bytes()
}

fn samples_text(name: &str) -> String {
    fs::read_to_string(common::sample(name)).unwrap()
}

#[test]
fn the_small_dance_itself_is_good() {
    let desk = Desk::with(small().to_string().as_bytes());
    let printed: Value = serde_json::from_str(&done(["pose", desk.file(), "--at", "2:1"])).unwrap();
    assert_eq!(printed["poses"][0]["dancers"][0]["x"], 0.0);
}

#[test]
fn an_empty_file_is_refused() {
    refused_by_every_verb(b"", &["the file is empty"]);
    refused_by_every_verb(b" \r\n\t \n", &["the file is empty"]);
}

#[test]
fn what_is_not_json_is_refused_with_line_and_column() {
    refused_by_every_verb(b"Nine Geese Home", &["line 1, column 1", "not JSON"]);
    refused_by_every_verb(b"{\n  \"bellpad\": 1,\n  title\n}", &["line 3, column 3", "not JSON"]);
    refused_by_every_verb(b"{\"bellpad\": 1, \"title\": \"stops", &["line 1, column 30", "stops before"]);
    refused_by_every_verb(b"{\"bellpad\": 1} {\"bellpad\": 1}", &["line 1, column 16", "not JSON"]);
}

/// Lines and columns are counted from 1. Where the text stops it is its last letter that is named, whatever empty
/// lines come after it, and no column of a line that has no letters.
#[test]
fn an_end_too_early_is_told_at_the_last_letter() {
    for (bytes, place) in [
        (&b"{"[..], "line 1, column 1: "),
        (b"{\n", "line 1, column 1: "),
        (b"{\n  \"bellpad\": 1,\n", "line 2, column 15: "),
        (b"{\r\n  \"bellpad\": 1,\r\n\r\n\r\n", "line 2, column 15: "),
        (b"{\n  \"bellpad\": 1,\n  \"title\": \"stops\n", "line 3, column 17: "),
        (b"[1,\n\n", "line 1, column 3: "),
        // Columns are letters, of however many bytes.
        ("{\"bellpad\":1,\"title\":\"é鵝".as_bytes(), "line 1, column 24: "),
        ("{\"bellpad\":1,\"title\":\"é鵝\",}".as_bytes(), "line 1, column 27: "),
        ("{\"bellpad\":1,\n \"é鵝\" 5}".as_bytes(), "line 2, column 7: "),
    ] {
        refused_by_every_verb(bytes, &[place]);
    }
    // However a file is cut off or put together, no line and no column is 0.
    let whole = samples_text("low-water");
    for end in (0..whole.len()).step_by(7) {
        for after in ["", "\n", "\n\n", "\n]", "\nx", "\n[1]"] {
            let text = format!("{}{after}", whole.get(..end).unwrap_or_default());
            let said = read(text.as_bytes()).unwrap_err().to_string();
            assert!(!said.contains("column 0") && !said.contains("line 0"), "{said}");
        }
    }
}

/// A name of ten thousand letters would hide what is wrong with it.
#[test]
fn long_names_are_cut_in_every_message() {
    let long = "A".repeat(10_001);
    let most = "A".repeat(9_999);
    let figure = |key: &str| {
        let mut figure = json!({"id": "go", "name": "Go", "bars": 8});
        figure["named"] = json!({"figure": "cross-and-turn"});
        match key {
            "figure" => figure["named"]["figure"] = json!(long),
            "choice" => figure["named"]["with"] = json!({long.as_str(): 1}),
            "value" => figure["named"]["with"] = json!({"pass": long}),
            _ => {}
        }
        json!([figure])
    };
    for (bytes, words) in [
        (
            with("/figures", figure("figure")),
            &["figures[0].named", "no figure is named \"AAAA", "A…\"", "hey"][..],
        ),
        (with("/figures", figure("value")), &["figures[0].named", "pass is ", "AAAA", "…", "0.4 to 2 m"]),
        (with("/figures", figure("choice")), &["figures[0].named", "has no choice \"AAAA", "A…\"", "pass"]),
        (
            with("/order/0/figure", json!(long)),
            &["order[0].figure", "no figure has the id \"AAAA", "A…\"", "go"],
        ),
        (with("/bellpad", json!(long)), &["bellpad", "AAAA", "is not a version"]),
        (with("/bellpad", json!(vec![1; 9_000])), &["bellpad", "…", "is not a version"]),
        (with("/set/kind", json!(long)), &["set.kind", "AAAA", "…", "expected one of"]),
        (with("/set/dancers", json!(long)), &["set.dancers", "text \"AAAA", "…", "expected a whole number"]),
        (with("/figures/0/phrase", json!(long)), &["figures[0].phrase", "A…\" is not a step"]),
        (
            with("/music", json!({"strains": [{"name": most, "bars": 8}], "played": [long]})),
            &["music.played[0]", "no strain is called \"AAAA", "the strains are: AAAA", "…"],
        ),
        (
            with("/steps", json!([{"short": format!("{long}!"), "name": "x", "feet": ["lead"]}])),
            &["steps[0].short", "…"],
        ),
    ] {
        refused_by_every_verb(&bytes, words);
    }
    let mut twice = small();
    twice["figures"][0]["id"] = json!(most);
    twice["figures"].as_array_mut().unwrap().push(json!({"id": most, "name": "Again", "bars": 1}));
    refused_by_every_verb(
        twice.to_string().as_bytes(),
        &["figures[1].id", "A…\" is the id of an earlier figure"],
    );
    let desk = Desk::with(small().to_string().as_bytes());
    let out = desk.path("out.dance.json");
    desk.refuses(
        &["pose", desk.file(), "--figure", &long, "--at", "1:1"],
        &["no figure is called \"AAAA", "…", "go"],
    );
    for figure in [long.clone(), format!("hey:{long}"), format!("hey:{long}=1"), format!("hey:inside={long}")]
    {
        desk.refuses(&["new", &out, "--figure", &figure], &["--figure ", "AAAA", "…"]);
    }
    desk.refuses(
        &["new", &out, "--figure", &format!("hey:lead={long}")],
        &["lead is", "AAAA", "outside-foot"],
    );
    desk.refuses(&["pose", desk.file(), "--at", &long], &["--at", "AAAA", "…", "BAR:COUNT"]);
    desk.refuses(&["sheet", desk.file(), "--paper", &long, "-o", &out], &["--paper", "AAAA", "…", "letter"]);
    desk.refuses(&["sheet", desk.file(), &format!("--{long}"), "-o", &out], &["--AAAA", "…"]);
    desk.refuses(&[&long], &["AAAA", "…", "the verbs are"]);
}

/// What is told of a fault names its figure, of which no more than can be read is told.
#[test]
fn long_names_are_cut_in_faults() {
    let mut dance = small();
    dance["figures"][0]["name"] = json!("A".repeat(9_999));
    dance["music"] = json!({"strains": [{"name": "B".repeat(9_999), "bars": 3}]});
    dance["order"][0]["strain"] = json!("B".repeat(9_999));
    let desk = Desk::with(dance.to_string().as_bytes());
    let ran = bellpad(["check", desk.file()]);
    assert_eq!(ran.code, Some(1), "{ran:?}");
    assert!(ran.out.contains("At the end of AAAA") && ran.out.contains("strain BBBB"), "{}", ran.out);
    for line in ran.out.lines() {
        assert!(line.chars().count() < 700, "{} letters: {line}", line.chars().count());
    }
}

/// What nobody can see is said in words, and turns no line round.
#[test]
fn letters_that_cannot_be_seen_are_said_in_words() {
    let unseen = "go\u{202e}og\u{2066}";
    for (bytes, words) in [
        (with("/order/0/figure", json!(unseen)), &["order[0].figure", "\"go(U+202E)og(U+2066)\""][..]),
        (with("/set/kind", json!(unseen)), &["set.kind", "go(U+202E)og(U+2066)"]),
        (
            with("/set/dancers", json!(format!("\"\\{unseen}\n\t"))),
            &["set.dancers", "text \"\"\\go(U+202E)og(U+2066)  \""],
        ),
        (with("/figures/0/phrase", json!("2 d\u{202e}s")), &["\"d(U+202E)s\" is not a step"]),
    ] {
        refused_by_every_verb(&bytes, words);
    }
    let desk = Desk::with(small().to_string().as_bytes());
    let name = desk.path("plan\u{202e}gnp.txt");
    for arguments in [
        &["pose", desk.file(), "--figure", unseen, "--at", "1:1"][..],
        &["still", desk.file(), "--at", "1:1", "-o", &name],
        &["pose", desk.file(), "--at", "\u{202e}"],
        &[unseen],
    ] {
        let ran = bellpad(arguments);
        assert_refused(&ran, &["(U+202E)"]);
        assert!(!ran.err.contains('\u{202e}') && !ran.err.contains("\\u{"), "{ran:?}");
    }
    // A tune that cannot be read is told of as a fault.
    let tune = "X:1\nM:6/8\nL:1/8\nK:G\nGAB \u{202e}ABc|\n";
    let desk = Desk::with(&with("/music", json!({"abc": tune})));
    let ran = bellpad(["check", desk.file()]);
    assert!(ran.out.contains("an invisible control character (U+202E) is not part of a tune"), "{ran:?}");
}

#[test]
fn json_of_another_kind_is_refused() {
    for (bytes, kind) in [
        (&b"[]"[..], "a list"),
        (b"[1]", "a list"),
        (b"[{\"bellpad\": 1}]", "a list"),
        (b"3", "a number"),
        (b"-2.5e3", "a number"),
        (b"\"dance\"", "text"),
        (b"null", "one word"),
        (b"true", "one word"),
    ] {
        refused_by_every_verb(bytes, &["a dance file holds a JSON object, and this holds", kind]);
    }
    refused_by_every_verb(b"{}", &["bellpad", "missing"]);
    refused_by_every_verb(b"{\"title\": \"Another program's file\"}", &["bellpad", "missing"]);
}

#[test]
fn other_versions_are_refused() {
    refused_by_every_verb(&with("/bellpad", json!(3)), &["bellpad:", "version 3", "newer"]);
    // A newer file may hold anything: it is its version that is told.
    let newer = json!({"bellpad": 4, "title": 5, "set": []}).to_string();
    refused_by_every_verb(newer.as_bytes(), &["bellpad:", "version 4"]);
    for value in [json!(0), json!(-1), json!("x"), json!(1.5), json!([1])] {
        refused_by_every_verb(&with("/bellpad", value), &["bellpad:", "is not a version; expected 1 or 2"]);
    }
    refused_by_every_verb(&with("/bellpad", json!(3.0)), &["bellpad:", "version 3", "newer"]);
    // A whole number is one however it is written.
    for value in [json!(1.0), json!(2.0)] {
        assert_eq!(read(&with("/bellpad", value)), read(&with("/bellpad", json!(2))));
    }
}

#[test]
fn missing_keys_are_named() {
    for (place, words) in [
        ("/title", &["line 1", "`title`"][..]),
        ("/set", &["line 1", "`set`"]),
        ("/set/kind", &["set (line 1)", "`kind`"]),
        ("/set/dancers", &["set (line 1)", "`dancers`"]),
        ("/figures/0/id", &["figures[0] (line 1)", "`id`"]),
        ("/figures/0/parts/0/place", &["figures[0].parts[0] (line 1)", "`place`"]),
        ("/figures/0/parts/0/legs/0/to", &["figures[0].parts[0].legs[0] (line 1)", "`to`"]),
        ("/figures/0/parts/0/legs/0/to/y", &["figures[0].parts[0].legs[0].to (line 1)", "`y`"]),
        ("/figures/0/parts/0/turns/0/way", &["figures[0].parts[0].turns[0] (line 1)", "`way`"]),
        ("/order/0/figure", &["order[0] (line 1)", "`figure`"]),
    ] {
        refused_by_every_verb(&without(place), words);
    }
}

#[test]
fn wrong_types_are_named_by_their_path_in_plain_words() {
    for (place, value, words) in [
        ("/title", json!(7), &["title (line 1)", "expected a string"][..]),
        ("/set", json!([1]), &["set (line 1)", "a list", "expected an object"]),
        ("/set/dancers", json!("six"), &["set.dancers (line 1)", "expected a whole number"]),
        ("/set/dancers", json!(4.5), &["set.dancers (line 1)", "expected a whole number"]),
        ("/set/dancers", json!(-4), &["set.dancers (line 1)", "expected a whole number"]),
        ("/set/across", json!({}), &["set.across (line 1)", "an object", "expected a number"]),
        ("/set/kind", json!("round"), &["set.kind (line 1)", "`longways`"]),
        ("/figures", json!({}), &["figures (line 1)", "expected a list"]),
        ("/figures/0", json!("go"), &["figures[0] (line 1)", "expected an object"]),
        ("/figures/0/bars", json!(null), &["figures[0].bars (line 1)", "expected a whole number"]),
        (
            "/figures/0/parts/0/legs/0/to/x",
            json!("0"),
            &["figures[0].parts[0].legs[0].to.x", "expected a number"],
        ),
        ("/figures/0/parts/0/legs/0/shape", json!("wavy"), &["parts[0].legs[0].shape", "`smooth`"]),
        ("/figures/0/parts/0/turns/0/way", json!(1), &["figures[0].parts[0].turns[0].way"]),
        ("/order/0", json!(["go"]), &["order[0]", "expected an object"]),
    ] {
        refused_by_every_verb(&with(place, value), words);
    }
    for words in ["struct", "u32", "f64", "Peek"] {
        for place in ["/set", "/set/dancers", "/set/across", "/title", "/figures", "/figures/0", "/order"] {
            let said = read(&with(place, json!(["x"]))).unwrap_err().to_string();
            assert!(!said.contains(words), "{said}");
        }
    }
}

/// Whatever a file holds, one line is one line, and it is no longer than can be read.
#[test]
fn words_from_a_file_do_not_break_the_line() {
    for value in ["two\nlines", "two\r\nlines\u{1b}[31m", &"long ".repeat(50_000)] {
        refused_by_every_verb(&with("/set/kind", json!(value)), &["set.kind (line 1)"]);
        refused_by_every_verb(&with("/set/dancers", json!(value)), &["set.dancers (line 1)"]);
    }
    let folder = tempfile::tempdir().unwrap();
    let odd = folder.path().join("two\nlines.dance.json");
    fs::write(&odd, "").unwrap();
    assert_refused(&bellpad(["check", text(&odd)]), &["lines.dance.json"]);
}

#[test]
fn numbers_beyond_reason_are_refused() {
    for number in ["NaN", "Infinity", "-Infinity"] {
        let text = small().to_string().replace("2.4", number);
        refused_by_every_verb(text.as_bytes(), &["line 1, column", "not JSON"]);
    }
    let text = small().to_string().replace("2.4", "1e999");
    refused_by_every_verb(text.as_bytes(), &["set.across", "out of range"]);
    for (place, path) in [
        ("/set/across", "set.across"),
        ("/set/along", "set.along"),
        ("/figures/0/parts/0/legs/0/to/x", "figures[0].parts[0].legs[0].to.x"),
        ("/figures/0/parts/0/legs/0/begin", "figures[0].parts[0].legs[0].begin"),
        ("/figures/0/parts/0/legs/0/end", "figures[0].parts[0].legs[0].end"),
        ("/figures/0/parts/0/turns/0/by", "figures[0].parts[0].turns[0].by"),
    ] {
        for number in [1e300, -1e300] {
            refused_by_every_verb(&with(place, json!(number)), &[path, "e300", "out of range; expected"]);
        }
    }
}

#[test]
fn rules_of_time_and_names_are_told_by_path() {
    for (place, value, words) in [
        ("/figures/0/parts/0/legs/0/end", json!(0), &["figures[0].parts[0].legs[0].end"][..]),
        ("/figures/0/parts/0/legs/0/end", json!(17), &["figures[0].parts[0].legs[0].end", "0 to 16"]),
        ("/figures/0/parts/0/legs/0/shape", json!("arc"), &["figures[0].parts[0].legs[0].sweep"]),
        ("/figures/0/parts/0/legs/0/pace", json!([0.5]), &["figures[0].parts[0].legs[0].pace", "must be 1"]),
        (
            "/figures/0/parts/0/turns/0/spins",
            json!(1),
            &["figures[0].parts[0].turns[0].spins", "`by` has them in it"],
        ),
        ("/figures/0/parts/0/place", json!(5), &["figures[0].parts[0].place", "set of 4"]),
        ("/figures/0/phrase", json!("3 hop"), &["figures[0].phrase", "\"hop\" is not a step"]),
        ("/figures/0/phrase", json!("3 ds"), &["figures[0].phrase", "do not fill 16"]),
        ("/figures/0/named", json!({"figure": "gallop"}), &["figures[0].named", "\"gallop\""]),
        (
            "/figures/0/named",
            json!({"figure": "hey"}),
            &["figures[0].named", "three or four in each of two files"],
        ),
        ("/figures/0/id", json!(" "), &["figures[0].id"]),
        ("/order/0/figure", json!("stop"), &["order[0].figure", "\"stop\"", "go"]),
        ("/people", json!([{"number": 9, "name": "Nell Quickthorn"}]), &["people[0].number", "set of 4"]),
        ("/set/dancers", json!(5), &["set.dancers", "even number"]),
        ("/set/kind", json!("spots"), &["set.spots", "0 spots for 4"]),
    ] {
        refused_by_every_verb(&with(place, value), words);
    }
}

#[test]
fn four_hundred_dancers_dance_and_more_do_not() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("many.dance.json");
    let file = text(&file);
    let figures = ["--figure", "foot-up-and-down", "--figure", "cross-and-turn", "--figure", "whole-rounds"];
    done(["new", file, "--dancers", "400"].into_iter().chain(figures));
    let printed: Value = serde_json::from_str(&done(["pose", file, "--at", "12:2.5"])).unwrap();
    let dancers = printed["poses"][0]["dancers"].as_array().unwrap();
    assert_eq!(dancers.len(), 400);
    assert_eq!(dancers[399]["number"], 400);
    assert!(dancers.iter().all(|dancer| dancer["x"].is_f64() && dancer["y"].is_f64()));
    assert_eq!(bellpad(["check", file]).code.map(|code| code < 2), Some(true));
    let picture = folder.path().join("many.png");
    done(["still", file, "--at", "12:2.5", "-o", text(&picture), "--size", "400", "--trails"]);
    assert_eq!(image::open(&picture).unwrap().width(), 400);

    for dancers in [401, 402, u32::MAX] {
        refused_by_every_verb(&with("/set/dancers", json!(dancers)), &["set.dancers", "1 to 400"]);
    }
    refused_by_every_verb(&with("/set/dancers", json!(0)), &["set.dancers", "1 to 400"]);
    let desk = Desk::with(b"");
    desk.refuses(&["new", &desk.path("x.dance.json"), "--dancers", "401"], &["set.dancers", "400"]);
}

/// Ten mebibytes of brackets, in the three places where a reader could go down too deep.
#[test]
fn brackets_without_end_are_refused() {
    const DEEP: usize = 10 * 1024 * 1024;
    let open = "[".repeat(DEEP);
    refused_by_every_verb(open.as_bytes(), &["line 1, column"]);
    let whole = format!("{}{}", "[".repeat(DEEP / 2), "]".repeat(DEEP / 2));
    for text in [
        format!("{{\"bellpad\": {whole}}}"),
        format!("{{\"bellpad\": 1, \"title\": \"T\", \"later\": {whole}}}"),
        format!("{{\"bellpad\": 1, \"title\": {whole}}}"),
        format!("{{\"bellpad\": 1, \"title\": \"T\", \"set\": {{\"kind\": {}", "{\"a\":".repeat(DEEP / 5)),
    ] {
        let desk = Desk::with(text.as_bytes());
        desk.refuses(&["pose", desk.file(), "--at", "1:1"], &["test.dance.json: ", "line 1"]);
    }
}

#[test]
fn a_file_of_more_than_32_mebibytes_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("test.dance.json");
    fs::write(&path, small().to_string()).unwrap();
    // The rest is a hole that takes no room on the disk.
    File::options().write(true).open(&path).unwrap().set_len(32 * 1024 * 1024 + 1).unwrap();
    for verb in [vec!["pose", text(&path), "--at", "1:1"], vec!["check", text(&path)]] {
        assert_refused(&bellpad(verb), &["test.dance.json", "larger than 32 MiB"]);
    }
    assert_eq!(fs::metadata(&path).unwrap().len(), 32 * 1024 * 1024 + 1);
    // As large as a file may be and no larger: it is read.
    let mut largest = small().to_string();
    largest.extend(std::iter::repeat_n(' ', 32 * 1024 * 1024 - largest.len()));
    assert!(read(largest.as_bytes()).is_ok());
}

#[test]
fn bytes_that_are_not_utf_8_are_told_with_their_place() {
    refused_by_every_verb(b"\xff\xfe{\x00}\x00", &["line 1, column 1", "UTF-8"]);
    let mut bytes = small().to_string().replace("\"Small\"", "\n\"Sm?ll\"").into_bytes();
    let index = bytes.iter().position(|&byte| byte == b'?').unwrap();
    bytes[index] = 0xe4;
    refused_by_every_verb(&bytes, &["line 2, column 4", "UTF-8"]);
    refused_by_every_verb(
        "{\n\"é鵝".as_bytes().iter().chain(b"\xe4").copied().collect::<Vec<_>>().as_slice(),
        &["line 2, column 4", "UTF-8"],
    );
}

#[test]
fn a_folder_and_a_missing_file_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let inside = folder.path().join("folder.dance.json");
    fs::create_dir(&inside).unwrap();
    let missing = folder.path().join("missing.dance.json");
    let picture = folder.path().join("out.png");
    for (path, words) in
        [(&inside, ["folder.dance.json", "it is a folder"]), (&missing, ["missing.dance.json", "no such"])]
    {
        let path = text(path);
        assert_refused(&bellpad(["pose", path, "--at", "1:1"]), &words);
        assert_refused(&bellpad(["check", path]), &words);
        assert_refused(&bellpad(["still", path, "--at", "1:1", "-o", text(&picture)]), &words);
    }
    assert_eq!(contents(folder.path()), [("folder.dance.json".to_owned(), Vec::new())]);
}

#[test]
fn too_much_of_anything_is_refused_with_its_limit() {
    refused_by_every_verb(&with("/figures/0/bars", json!(2001)), &["figures[0].bars", "2000"]);
    let figures: Vec<Value> =
        (0..3).map(|index| json!({"id": format!("f{index}"), "name": "Long", "bars": 800})).collect();
    let order: Vec<Value> = (0..3).map(|index| json!({"figure": format!("f{index}")})).collect();
    let mut dance = small();
    dance["figures"] = json!(figures);
    dance["order"] = json!(order);
    refused_by_every_verb(dance.to_string().as_bytes(), &["order", "2400 bars", "2000"]);
    dance["order"] = json!([]);
    refused_by_every_verb(dance.to_string().as_bytes(), &["order", "2400 bars", "2000"]);
    let points = |count: usize| {
        let points: Vec<Value> =
            (0..count).map(|index| json!({"x": index as f64 / 1000.0, "y": 0})).collect();
        with("/figures/0/parts/0/legs/0/through", json!(points))
    };
    refused_by_every_verb(&points(1001), &["figures[0].parts[0].legs[0].through", "1001", "1000"]);
    assert!(read(&points(1000)).is_ok());
    let legs: Vec<Value> = (0..2001)
        .map(|index| {
            let begin = f64::from(index) / 1000.0;
            json!({"begin": begin, "end": begin + 0.001, "to": {"x": 0, "y": 0}})
        })
        .collect();
    refused_by_every_verb(
        &with("/figures/0/parts/0/legs", json!(legs)),
        &["figures[0].parts[0].legs", "2001", "2000"],
    );
    let figures: Vec<Value> =
        (0..1001).map(|index| json!({"id": format!("f{index}"), "name": "F", "bars": 1})).collect();
    refused_by_every_verb(&with("/figures", json!(figures)), &["figures", "1001", "1000"]);
    refused_by_every_verb(&with("/title", json!("x".repeat(10_001))), &["title", "10001", "10000"]);
}

#[test]
fn what_cannot_be_written_is_told_and_leaves_nothing() {
    let desk = Desk::with(small().to_string().as_bytes());
    let under_a_file = format!("{}/out", desk.file());
    let nowhere = desk.path("nowhere/out");
    for (place, why) in [(&under_a_file, "a file, not a folder"), (&nowhere, "no such file or folder")] {
        for ending in [".png", ".svg"] {
            let out = format!("{place}{ending}");
            desk.refuses(&["still", desk.file(), "--at", "1:1", "-o", &out], &[&out, why]);
        }
        let out = format!("{place}.dance.json");
        desk.refuses(&["new", &out, "--figure", "cross-and-turn"], &[&out, why]);
    }
    let folder = text(desk.folder.path());
    desk.refuses(&["new", folder, "--figure", "cross-and-turn"], &[folder, "it is a folder"]);
    fs::create_dir(desk.folder.path().join("out.png")).unwrap();
    desk.refuses(
        &["still", desk.file(), "--at", "1:1", "-o", &desk.path("out.png")],
        &["out.png", "it is a folder"],
    );
}

#[test]
fn moments_that_are_not_there_are_refused() {
    let desk = Desk::with(small().to_string().as_bytes());
    let (file, picture) = (desk.file(), desk.path("out.svg"));
    for at in ["5:1.01", "5:2", "6:1", "4000000000:1"] {
        desk.refuses(&["pose", file, "--at", at], &["test.dance.json", "after the end", "4 bars", "5:1"]);
        desk.refuses(&["still", file, "--at", at, "-o", &picture], &["test.dance.json", "after the end"]);
    }
    for at in [
        "", "1", "1:", ":1", "0:1", "1:0", "1:7", "1:0.99", "one:1", "1:one", "1.5:1", "-1:1", "1:NaN",
        "1:inf", "1:1:1",
    ] {
        let at = format!("--at={at}");
        desk.refuses(&["pose", file, &at], &["--at", "BAR:COUNT"]);
        desk.refuses(&["still", file, &at, "-o", &picture], &["--at", "BAR:COUNT"]);
    }
    for at in ["1:5", "4:6.9"] {
        desk.refuses(&["pose", file, "--at", at], &["test.dance.json", at, "has counts 1 to 4"]);
        desk.refuses(&["still", file, "--at", at, "-o", &picture], &["test.dance.json", "has counts 1 to 4"]);
    }
    for every in ["0", "-1", "NaN", "inf", "0.0001"] {
        desk.refuses(&["pose", file, "--every", every], &["--every", every.trim_start_matches('0')]);
    }
    desk.refuses(&["pose", file, "--every", "often"], &["--every", "often"]);
    desk.refuses(&["pose", file], &["--at", "--every"]);
    desk.refuses(&["pose", file, "--at", "1:1", "--every", "1"], &["--at", "--every"]);
    // The end itself is there.
    done(["pose", file, "--at", "5:1"]);
}

#[test]
fn a_figure_that_is_not_there_is_refused() {
    let desk = Desk::with(small().to_string().as_bytes());
    let words = ["test.dance.json", "\"stop\"", "the figures are go"];
    desk.refuses(&["pose", desk.file(), "--figure", "stop", "--at", "1:1"], &words);
    desk.refuses(
        &["still", desk.file(), "--figure", "stop", "--at", "1:1", "-o", &desk.path("out.png")],
        &words,
    );
    let empty = Desk::with(&with("/figures", json!([])));
    empty.refuses(&["pose", empty.file(), "--figure", "go", "--at", "1:1"], &["order[0].figure"]);
}

#[test]
fn stills_of_another_kind_or_size_are_refused() {
    let desk = Desk::with(small().to_string().as_bytes());
    for out in ["out.gif", "out.pdf", "out", "png", "out.png.txt"] {
        let out = desk.path(out);
        desk.refuses(&["still", desk.file(), "--at", "1:1", "-o", &out], &[&out, ".png or .svg"]);
    }
    for size in ["0", "15", "8193", "4294967296", "-5", "big", "1e3"] {
        let out = desk.path("out.png");
        desk.refuses(&["still", desk.file(), "--at", "1:1", "-o", &out, "--size", size], &["--size", size]);
    }
    desk.refuses(&["still", desk.file(), "--at", "1:1"], &["-o"]);
    // The dance itself is never drawn over.
    desk.refuses(&["still", desk.file(), "--at", "1:1", "-o", desk.file()], &[".png or .svg"]);
}

#[test]
fn new_refuses_what_no_side_can_dance() {
    let desk = Desk::with(b"");
    let out = desk.path("out.dance.json");
    for (arguments, words) in [
        (&["--dancers", "7"][..], &["set.dancers", "7", "even number"][..]),
        (&["--dancers", "0"], &["set.dancers", "1 to 400"]),
        (&["--dancers", "-2"], &["--dancers", "-2"]),
        (&["--dancers", "six"], &["--dancers", "six"]),
        (&["--across", "0"], &["set.across", "0.1 to 1000"]),
        (&["--across", "-2.4"], &["set.across", "-2.4", "0.1 to 1000"]),
        (&["--along", "NaN"], &["set.along", "NaN"]),
        (&["--along", "1e999"], &["set.along", "inf"]),
        (&["--figure", "gallop"], &["\"gallop\"", "foot-up-and-down", "whole-rounds"]),
        (&["--figure", ""], &["no figure is named", "hey"]),
        (&["--figure", "hey:sideways=1"], &["hey has no choice \"sideways\"", "inside, outside"]),
        // A slip is told with what may have been meant.
        (&["--figure", "hay"], &["no figure is named \"hay\" (did you mean hey?)"]),
        (&["--figure", "whole rounds"], &["(did you mean whole-rounds?)"]),
        (&["--figure", "hey:insde=0.3"], &["hey has no choice \"insde\" (did you mean inside?)"]),
        (&["--figure", "cross-over:first=rihgt"], &["one of right, left (did you mean right?)"]),
        (&["--figure", "hey:phrase=2 dz+2 ss+ftj"], &["\"dz\" is not a step (did you mean ds?)"]),
        (&["--figure", "hey:lead=rihgt"], &["(did you mean right?)"]),
        (&["--figure", "hey:inside=9"], &["hey: inside", "0.15 to 2 m"]),
        (&["--figure", "hey:inside=0"], &["hey: inside", "0.15 to 2 m"]),
        (&["--figure", "hey:inside=wide"], &["hey: inside", "\"wide\"", "0.15 to 2 m"]),
        (&["--figure", "hey:inside=NaN"], &["hey: inside", "0.15 to 2 m"]),
        (&["--figure", "hey:inside"], &["--figure hey:inside", "key=value"]),
        (&["--figure", "hey:inside=0.3,inside=0.4"], &["--figure", "twice"]),
        (
            &["--dancers", "4", "--figure", "hey"],
            &["--figure hey", "three or four in each of two files", "4 dancers"],
        ),
        (&["--title", &"x".repeat(10_001)], &["title", "10000"]),
    ] {
        let mut all = vec!["new", &out];
        all.extend(arguments);
        desk.refuses(&all, words);
    }
    desk.refuses(&["new"], &["OUT"]);
}

/// The dance as it is read may not be changed by being looked at.
#[test]
fn good_files_are_not_touched_either() {
    let desk = Desk::with(samples_text("nine-geese-home").as_bytes());
    let before = fs::metadata(&desk.file).unwrap().modified().unwrap();
    done(["pose", desk.file(), "--every", "4"]);
    assert!(bellpad(["check", desk.file()]).code < Some(2));
    assert_eq!(fs::read_to_string(&desk.file).unwrap(), samples_text("nine-geese-home"));
    assert_eq!(fs::metadata(&desk.file).unwrap().modified().unwrap(), before);
    assert_eq!(contents(desk.folder.path()).len(), 1);
}

#[test]
fn the_good_files_beside_a_bad_one_are_still_checked() {
    let desk = Desk::with(b"{");
    let good = text(&common::sample("low-water")).to_owned();
    let ran = bellpad(["check", &good, desk.file()]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.out.contains("low-water.dance.json: clear"), "{ran:?}");
    assert_eq!(ran.err.lines().count(), 1, "{ran:?}");
    assert!(ran.err.starts_with("bellpad: ") && ran.err.contains("test.dance.json"), "{ran:?}");
}

/// Reads bytes; what is a dance must move without a panic and stand at real places.
fn read_and_dance(bytes: &[u8], counts: &[f64]) -> Result<bool, TestCaseError> {
    let Ok(dance) = read(bytes) else { return Ok(false) };
    prop_assert!(check_rules(&dance).is_ok());
    let again = read(write(&dance).unwrap().as_bytes());
    prop_assert_eq!(again.as_ref(), Ok(&dance));
    if let Ok(motion) = motion_of(&dance, None) {
        for count in counts {
            for pose in motion.poses(*count) {
                let all = [pose.x, pose.y, pose.facing, pose.hands];
                prop_assert!(all.iter().all(|number| number.is_finite()), "{pose:?} at {count}");
                prop_assert!((0.0..=1.0).contains(&pose.hands), "{pose:?} at {count}");
            }
        }
    }
    Ok(true)
}

/// The pointers of every value in a document.
fn pointers(value: &Value, at: &str, all: &mut Vec<String>) {
    all.push(at.to_owned());
    match value {
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                pointers(value, &format!("{at}/{index}"), all);
            }
        }
        Value::Object(object) => {
            for (key, value) in object {
                pointers(value, &format!("{at}/{key}"), all);
            }
        }
        _ => {}
    }
}

fn nine_geese() -> (Value, Vec<String>) {
    let value: Value = serde_json::from_str(&samples_text("nine-geese-home")).unwrap();
    let mut all = Vec::new();
    pointers(&value, "", &mut all);
    (value, all)
}

/// One change to a document: taken away, put in twice, or another value in its place.
#[derive(Clone, Debug)]
enum Change {
    Away,
    Twice,
    Put(Value),
    Scaled(f64),
}

fn change() -> impl Strategy<Value = Change> {
    let value = prop_oneof![
        Just(json!(null)),
        Just(json!([])),
        Just(json!({})),
        Just(json!("")),
        Just(json!("hey")),
        Just(json!("arc")),
        Just(json!("smooth")),
        Just(json!("backwards")),
        Just(json!("ring")),
        (-3.0f64..40.0).prop_map(|number| json!(number)),
        (-1i64..40).prop_map(|number| json!(number)),
        prop::num::f64::NORMAL.prop_map(|number| json!(number)),
    ];
    prop_oneof![
        Just(Change::Away),
        Just(Change::Twice),
        value.prop_map(Change::Put),
        (-2.0f64..2.0).prop_map(Change::Scaled),
    ]
}

fn changed(document: &mut Value, pointer: &str, change: &Change) {
    let Some((parent, key)) = pointer.rsplit_once('/') else { return };
    match (document.pointer_mut(parent), change) {
        (Some(Value::Array(list)), change) => {
            let Some(index) = key.parse().ok().filter(|&index: &usize| index < list.len()) else { return };
            match change {
                Change::Away => {
                    list.remove(index);
                }
                Change::Twice => list.insert(index, list[index].clone()),
                Change::Put(value) => list[index] = value.clone(),
                Change::Scaled(by) => scale(&mut list[index], *by),
            }
        }
        (Some(Value::Object(object)), change) => match change {
            Change::Away => {
                object.remove(key);
            }
            Change::Twice => {
                if let Some(value) = object.get(key).cloned() {
                    object.insert(format!("{key} again"), value);
                }
            }
            Change::Put(value) => {
                object.insert(key.to_owned(), value.clone());
            }
            Change::Scaled(by) => {
                if let Some(value) = object.get_mut(key) {
                    scale(value, *by);
                }
            }
        },
        _ => {}
    }
}

fn scale(value: &mut Value, by: f64) {
    if let Some(number) = value.as_f64() {
        *value = json!(number * by);
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(1907),
        ..ProptestConfig::default()
    })]

    #[test]
    fn any_bytes_at_all_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        read_and_dance(&bytes, &[0.0])?;
    }

    #[test]
    fn any_text_that_looks_like_json_is_read_or_refused(
        text in "(\\{\"bellpad\": ?1,)?[\\[\\]{}:,\"0-9a-z \\\\.eE+-]{0,120}",
    ) {
        read_and_dance(text.as_bytes(), &[0.0])?;
    }

    #[test]
    fn a_dance_with_one_byte_changed_is_read_or_refused(
        index in any::<prop::sample::Index>(),
        byte in any::<u8>(),
        how in 0..3,
        counts in prop::collection::vec(-10.0f64..300.0, 6),
    ) {
        let mut bytes = samples_text("nine-geese-home").into_bytes();
        let index = index.index(bytes.len());
        match how {
            0 => bytes[index] = byte,
            1 => bytes.insert(index, byte),
            _ => {
                bytes.remove(index);
            }
        }
        read_and_dance(&bytes, &counts)?;
    }

    #[test]
    fn a_dance_with_digits_changed_is_read_or_refused(
        changes in prop::collection::vec((any::<prop::sample::Index>(), b'0'..=b'9'), 1..6),
        counts in prop::collection::vec(-10.0f64..300.0, 6),
    ) {
        let mut bytes = samples_text("nine-geese-home").into_bytes();
        let digits: Vec<usize> = (0..bytes.len()).filter(|&index| bytes[index].is_ascii_digit()).collect();
        for (index, digit) in changes {
            bytes[digits[index.index(digits.len())]] = digit;
        }
        read_and_dance(&bytes, &counts)?;
    }

    #[test]
    fn a_dance_with_values_changed_is_read_or_refused(
        changes in prop::collection::vec((any::<prop::sample::Index>(), change()), 1..4),
        counts in prop::collection::vec(-10.0f64..300.0, 6),
    ) {
        let (mut document, all) = nine_geese();
        for (index, change) in &changes {
            changed(&mut document, &all[index.index(all.len())], change);
        }
        read_and_dance(document.to_string().as_bytes(), &counts)?;
    }
}

/// The changes above are no use if none of them leaves a dance that can be danced.
#[test]
fn some_changes_leave_a_dance() {
    let (document, all) = nine_geese();
    let read = all
        .iter()
        .filter(|pointer| {
            let mut document = document.clone();
            changed(&mut document, pointer, &Change::Scaled(0.5));
            read_and_dance(document.to_string().as_bytes(), &[0.0, 77.7]).unwrap()
        })
        .count();
    assert!(read > 50 && read < all.len(), "{read} of {}", all.len());
}

/// A dance that is only just within its limits is danced like any other.
#[test]
fn one_dancer_and_a_ring_are_danced() {
    for set in [
        json!({"kind": "longways", "dancers": 1}),
        json!({"kind": "ring", "dancers": 3}),
        json!({"kind": "ring", "dancers": 400, "radius": 1000}),
        json!({"kind": "spots", "dancers": 1, "spots": [{"x": 1000, "y": -1000}]}),
    ] {
        let dance: Dance =
            read(json!({"bellpad": 1, "title": "Set", "set": set}).to_string().as_bytes()).unwrap();
        let desk = Desk::with(write(&dance).unwrap().as_bytes());
        let printed: Value = serde_json::from_str(&done(["pose", desk.file(), "--at", "1:1"])).unwrap();
        assert_eq!(printed["bars"], 0);
        assert_eq!(printed["poses"][0]["dancers"].as_array().unwrap().len(), dance.set.dancers as usize);
        let picture = desk.path("out.png");
        done(["still", desk.file(), "--at", "1:1", "-o", &picture, "--size", "64"]);
        assert!(Path::new(&picture).exists());
    }
}
