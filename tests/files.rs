//! The dance file: the schema that is published, the bytes of the sample dances, and the keys of later versions.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{self, read, schema};
use bellpad::figures::motion_of;
use bellpad::store;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;

/// The text of a dance's file.
fn write(dance: &dance::Dance) -> String {
    bellpad::dance::write(dance).unwrap()
}

fn validator() -> jsonschema::Validator {
    jsonschema::draft202012::new(&schema()).expect("the schema is one")
}

/// A dance that has every kind of thing that a dance file can hold.
fn full() -> Value {
    json!({
        "bellpad": 2,
        "title": "Full",
        "hops": false,
        "height": 1.85,
        "side": "Quillow Ferry Morris",
        "tradition": "Quillow Ferry",
        "author": "Quillow Ferry Morris",
        "notes": "Everything",
        "set": {"kind": "spots", "dancers": 2, "across": 2.4, "along": 1.8, "radius": 2.5, "spots": [
            {"x": -1.0, "y": 0.0, "facing": 90.0}, {"x": 1.0, "y": 0.0, "facing": 270.0}]},
        "music": {"metre": "6/8", "speed": 100.0, "upbeat": 1, "abc": "X:1\nK:G\nG3 G3|\n",
            "strains": [{"name": "A", "bars": 8}]},
        "steps": [{"name": "hop back", "short": "hb", "feet": ["lead", "stay", "other", "both", "air", "upbeat"],
            "travels": [1.0, 0.5, 0.5, 0.0, 0.0, 0.0], "hands": [0.0, 0.5, 0.5, 0.5, 1.0, 0.5],
            "rise": [0.0, 0.0, 0.1, 0.0, 0.25, 0.03], "left_forward": [-0.4, 0.0, 0.0, 0.0, 0.0, 0.3],
            "right_forward": [-0.4, 0.0, 0.0, 0.0, 0.0, 0.3], "circles": [0.0, 0.0, 0.5, 0.5, 0.0, 0.0],
            "free": [{"at": "front", "height": 0.2}, {"at": "beside", "height": 0.1, "circles": 1.0}, {"at": "shin", "height": 0.3},
                {"at": "beside", "height": 0.0}, {"at": "crossed-before", "height": 0.1}, {"at": "crossed-behind", "height": 0.1}], "keeps_lead": true}],
        "figures": [
            {"id": "cross", "name": "Cross", "bars": 8, "phrase": "2 ds, 2 ss, ftj", "ends": "front",
                "named": {"figure": "foot-up-and-down"}, "notes": "Slowly"},
            {"id": "drawn", "name": "Drawn", "bars": 4, "parts": [{"place": 1, "legs": [
                {"begin": 0.0, "end": 4.0, "shape": "smooth", "facing": "forwards",
                    "through": [{"x": -1.0, "y": 0.5, "at": 2.0}], "to": {"x": -1.0, "y": 1.0},
                    "pace": [0.5, 1.0]},
                {"begin": 4.0, "end": 8.0, "shape": "arc", "facing": "held", "to": {"x": -1.0, "y": 0.0},
                    "sweep": 180.0}],
                "turns": [{"begin": 8.0, "end": 10.0, "on": "hl", "way": "left", "face": 90.0, "spins": 1},
                    {"begin": 10.0, "end": 11.0, "way": "right", "by": 360.0},
                    {"begin": 11.0, "end": 12.0, "way": "right", "by": 270.0, "face": 0.0}],
                "leads": [{"at": 0.0, "foot": "left"}], "phrase": "2 hb, ds"}]}],
        "order": [{"figure": "cross", "strain": "A", "call": "Over", "call_before": 1.5}, {"figure": "drawn"}],
        "people": [{"number": 1, "name": "Tamsin Roe"}],
        "underlay": [{"path": "pictures/balcony.jpg", "inside": "AAAA", "fingerprint": "0".repeat(64),
            "marks": [{"across": 20.0, "down": 30.5, "x": -1.2, "y": 1.8}], "strength": "hidden", "locked": true,
            "figure": "cross"}]
    })
}

/// Every object of a dance file, as the place a JSON pointer gives.
const OBJECTS: [&str; 20] = [
    "",
    "/set",
    "/set/spots/1",
    "/music",
    "/music/strains/0",
    "/steps/0",
    "/steps/0/free/1",
    "/figures/0",
    "/figures/0/named",
    "/figures/1/parts/0",
    "/figures/1/parts/0/legs/0",
    "/figures/1/parts/0/legs/0/to",
    "/figures/1/parts/0/legs/0/through/0",
    "/figures/1/parts/0/turns/0",
    "/figures/1/parts/0/leads/0",
    "/order/0",
    "/people/0",
    "/figures/1/parts/0/legs/1",
    "/underlay/0",
    "/underlay/0/marks/0",
];

#[test]
fn every_sample_dance_keeps_to_the_schema() {
    let validator = validator();
    for path in common::samples() {
        let dance: Value = serde_json::from_slice(&fs::read(&path).unwrap()).unwrap();
        let wrong: Vec<String> = validator.iter_errors(&dance).map(|error| error.to_string()).collect();
        assert!(wrong.is_empty(), "{}: {wrong:?}", path.display());
    }
}

#[test]
fn every_sample_dance_is_written_as_it_was_read() {
    let folder = tempfile::tempdir().unwrap();
    for path in common::samples() {
        let bytes = fs::read(&path).unwrap();
        let dance = read(&bytes).unwrap();
        assert!(write(&dance).as_bytes() == bytes, "{} is written another way", path.display());
        let copy = folder.path().join("copy.dance.json");
        store::save(&copy, &store::open(&path).unwrap()).unwrap();
        assert!(fs::read(&copy).unwrap() == bytes, "{} is saved another way", path.display());
    }
}

#[test]
fn a_dance_with_everything_keeps_to_the_schema_and_is_read() {
    let full = full();
    let wrong: Vec<String> = validator().iter_errors(&full).map(|error| error.to_string()).collect();
    assert!(wrong.is_empty(), "{wrong:?}");
    let dance = read(full.to_string().as_bytes()).unwrap();
    let again: Value = serde_json::from_str(&write(&dance)).unwrap();
    assert_eq!(again, full, "nothing is lost and nothing is added");
}

/// What this program writes is what it publishes, whatever is left out of the file.
#[test]
fn a_small_dance_is_written_within_the_schema() {
    let small = br#"{"bellpad": 1, "title": "Small", "set": {"kind": "ring", "dancers": 3}}"#;
    let written: Value = serde_json::from_str(&write(&read(small).unwrap())).unwrap();
    assert!(validator().is_valid(&written), "{written}");
}

/// Keys of a later minor version survive being opened and saved here, at every level and in any shape.
#[test]
fn keys_that_are_not_known_are_kept_everywhere() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("later.dance.json");
    for kept in [
        json!("words"),
        json!(-2.5),
        json!([1, {"deep": [null, true]}]),
        json!({"a": {"b": {}}}),
        json!(null),
    ] {
        for place in OBJECTS {
            let mut dance = full();
            let object = dance.pointer_mut(place).and_then(Value::as_object_mut).expect(place);
            object.insert("later_key".to_owned(), kept.clone());
            fs::write(&path, dance.to_string()).unwrap();
            store::save(&path, &store::open(&path).unwrap()).unwrap();
            let again: Value = serde_json::from_slice(&fs::read(&path).unwrap()).unwrap();
            assert_eq!(again, dance, "a key beside those of {place:?}");
        }
        let mut dance = full();
        for place in OBJECTS {
            let object = dance.pointer_mut(place).and_then(Value::as_object_mut).expect(place);
            object.insert("later_key".to_owned(), kept.clone());
        }
        assert!(validator().is_valid(&dance), "the schema leaves room for keys that are not known yet");
        let again: Value =
            serde_json::from_str(&write(&read(dance.to_string().as_bytes()).unwrap())).unwrap();
        assert_eq!(again, dance);
    }
}

/// Keys that are not known keep their order too, so that two versions of a file differ only where they differ.
#[test]
fn keys_that_are_not_known_keep_their_order() {
    let text =
        br#"{"bellpad": 1, "title": "T", "set": {"kind": "ring", "dancers": 1}, "zebra": 1, "apple": 2}"#;
    let written = write(&read(text).unwrap());
    let (zebra, apple) = (written.find("zebra").unwrap(), written.find("apple").unwrap());
    assert!(zebra < apple, "{written}");
    assert_eq!(write(&read(written.as_bytes()).unwrap()), written);
}

/// The schema can refuse: each of these is one slip away from a good dance.
#[test]
fn the_schema_refuses_a_broken_dance() {
    let validator = validator();
    let slips = [
        ("/bellpad", json!(3)),
        ("/bellpad", json!("1")),
        ("/title", json!(7)),
        ("/set/dancers", json!(0)),
        ("/set/dancers", json!(401)),
        ("/set/dancers", json!(2.5)),
        ("/set/kind", json!("square")),
        ("/set/across", json!(0)),
        ("/set/spots/0/x", json!(1001)),
        ("/music/metre", json!("5/4")),
        ("/music/speed", json!(1)),
        ("/music/upbeat", json!(7)),
        ("/music/strains/0/bars", json!(0)),
        ("/steps/0/feet", json!([])),
        ("/steps/0/feet/0", json!("toe")),
        ("/figures/0/bars", json!(2001)),
        ("/figures/0/id", json!("")),
        ("/figures/0/named/figure", json!(null)),
        ("/figures/0/ends", json!("sideways")),
        ("/figures/0/ends", json!(["places", "home"])),
        ("/figures/0/ends", json!(["front", "places", "front"])),
        ("/figures/0/ends", json!([])),
        ("/figures/1/parts/0/place", json!(0)),
        ("/figures/1/parts/0/legs/0/begin", json!(-1)),
        ("/figures/1/parts/0/legs/0/shape", json!("wavy")),
        ("/figures/1/parts/0/legs/0/to", json!([0, 0])),
        ("/figures/1/parts/0/legs/1/sweep", json!(720)),
        ("/figures/1/parts/0/turns/0/way", json!("up")),
        ("/figures/1/parts/0/turns/0/spins", json!(-1)),
        ("/figures/1/parts/0/leads/0/foot", json!("both")),
        ("/order/0/figure", json!(3)),
        ("/people/0/number", json!(0)),
    ];
    for (place, value) in slips {
        let mut dance = full();
        *dance.pointer_mut(place).expect(place) = value.clone();
        assert!(!validator.is_valid(&dance), "the schema lets {place} be {value}");
        let said = read(dance.to_string().as_bytes());
        assert!(said.is_err(), "the reader lets {place} be {value}");
    }
    for (parent, key) in
        [("", "title"), ("", "set"), ("/set", "kind"), ("/figures/0", "id"), ("/order/0", "figure")]
    {
        let mut dance = full();
        let object = dance.pointer_mut(parent).and_then(Value::as_object_mut).expect(parent);
        object.remove(key).expect(key);
        assert!(!validator.is_valid(&dance), "the schema lets {key} be left out of {parent:?}");
        assert!(
            read(dance.to_string().as_bytes()).is_err(),
            "the reader lets {key} be left out of {parent:?}"
        );
    }
}

/// The verb prints the schema that the reader is made from.
#[test]
fn the_verb_prints_the_schema() {
    let printed: Value = serde_json::from_str(&common::done(["schema"])).unwrap();
    assert_eq!(printed, dance::schema());
    assert_eq!(printed["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert!(jsonschema::meta::is_valid(&printed), "it is a JSON Schema itself");
}

/// The first byte order mark, as some editors write it, is no part of the dance.
#[test]
fn a_byte_order_mark_and_other_line_ends_are_read() {
    let plain = fs::read_to_string(common::sample("low-water")).unwrap();
    let marked = format!("\u{feff}{}", plain.replace('\n', "\r\n"));
    assert_eq!(read(marked.as_bytes()).unwrap(), read(plain.as_bytes()).unwrap());
}

/// A file of version 1 with a stepping of its own on corners, which cannot be cut where a pair begins, opens as it did: everyone steps
/// it, whoever waits as well.
#[test]
fn an_older_file_with_a_stepping_that_cannot_be_cut_opens() {
    let old = include_bytes!("cases/corners-stepped-by-everyone.dance.json");
    let dance = read(old).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(motion.bars(), 24);
    for count in (0..96).map(f64::from) {
        for pose in motion.poses(count) {
            assert_eq!(motion.known()[pose.step].short, "three", "{} at {count}", pose.number);
        }
    }
    let (before, after): (Value, Value) =
        (serde_json::from_slice(old).unwrap(), serde_json::from_str(&write(&dance)).unwrap());
    assert_eq!((&before["figures"], &before["steps"]), (&after["figures"], &after["steps"]));
}

/// A file of version 1 opens, is written as version 2, and its turns that say which way to finish facing stay as they
/// are written. Only a side that does not hop says so.
#[test]
fn an_older_file_is_brought_up() {
    let old = include_bytes!("cases/close-hey-redrawn.dance.json");
    let dance = read(old).unwrap();
    let text = write(&dance);
    let (before, after): (Value, Value) =
        (serde_json::from_slice(old).unwrap(), serde_json::from_str(&text).unwrap());
    assert_eq!((&before["bellpad"], &after["bellpad"]), (&json!(1), &json!(2)));
    assert_eq!(before["figures"], after["figures"]);
    assert_eq!(after.get("hops"), None);
    let turns = &after["figures"][0]["parts"][0]["turns"];
    assert!(
        turns.as_array().is_some_and(|turns| turns.iter().any(|turn| turn.get("by").is_none())),
        "{turns}"
    );
    assert!(dance.hops);
    // What a later version writes is refused, not read in part.
    let later = text.replacen("\"bellpad\": 2", "\"bellpad\": 3", 1);
    let said = read(later.as_bytes()).unwrap_err().to_string();
    assert!(said.contains("version 3") && said.contains("up to version 2"), "{said}");
    // The whole turns of a turn that says how far it goes are in that.
    let both = text.replacen("\"way\": \"right\",", "\"way\": \"right\", \"by\": 10.0, \"spins\": 1,", 1);
    let said = read(both.as_bytes()).unwrap_err().to_string();
    assert!(said.contains("spins"), "{said}");
}

/// A bound that the schema gives of something in a document.
struct Bound {
    /// A JSON pointer to it.
    at: String,
    /// The type and key that the schema has it at.
    of: (String, String),
    keyword: String,
    edge: Value,
    is_whole: bool,
}

const KEYWORDS: [&str; 6] = ["minimum", "maximum", "minLength", "maxLength", "minItems", "maxItems"];

/// The schema that a node means, with the name that it has there.
fn meant<'a>(whole: &'a Value, node: &'a Value, name: &str) -> (&'a Value, String) {
    let any = node.get("anyOf").and_then(Value::as_array).and_then(|all| all.first()).unwrap_or(node);
    match any.get("$ref").and_then(Value::as_str) {
        Some(reference) => {
            let name = reference.rsplit('/').next().unwrap();
            (&whole["$defs"][name], name.to_owned())
        }
        None => (node, name.to_owned()),
    }
}

/// The bounds of all that a document holds.
fn bounds(whole: &Value, (node, name): (&Value, &str), document: &Value, at: &str, all: &mut Vec<Bound>) {
    let (node, name) = meant(whole, node, name);
    match document {
        Value::Object(members) => {
            for (key, member) in members {
                let property = &node["properties"][key];
                let at = format!("{at}/{key}");
                let kinds =
                    property["type"].as_str().map_or_else(|| property["type"].to_string(), str::to_owned);
                for keyword in KEYWORDS {
                    if let Some(bound) = property.get(keyword) {
                        let of = (name.clone(), key.clone());
                        let is_whole = kinds.contains("integer");
                        all.push(Bound {
                            at: at.clone(),
                            of,
                            keyword: keyword.to_owned(),
                            edge: bound.clone(),
                            is_whole,
                        });
                    }
                }
                bounds(whole, (property, &name), member, &at, all);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                bounds(whole, (&node["items"], &name), item, &format!("{at}/{index}"), all);
            }
        }
        _ => {}
    }
}

/// `/figures/1/parts/0/place` as an error says it: `figures[1].parts[0].place`.
fn path_of(pointer: &str) -> String {
    pointer.split('/').skip(1).fold(String::new(), |path, part| match part.parse::<usize>() {
        Ok(index) => format!("{path}[{index}]"),
        Err(_) if path.is_empty() => part.to_owned(),
        Err(_) => format!("{path}.{part}"),
    })
}

/// What is said of a document with one value changed; nothing where it is read.
fn said_with(document: &Value, at: &str, value: Value) -> Option<String> {
    let mut changed = document.clone();
    *changed.pointer_mut(at).unwrap() = value;
    read(changed.to_string().as_bytes()).err().map(|error| error.to_string())
}

/// The two are written apart, and neither may allow what the other does not.
#[test]
fn the_schema_has_the_bounds_that_the_reader_has() {
    let mut document = full();
    document["floor"] = json!({"across": 8.0, "along": 9.0, "x": 0.0, "y": 0.0});
    let limits = schema()["$defs"]["FaultLimits"]["properties"].clone();
    for (key, limit) in limits.as_object().unwrap().iter().filter(|(_, limit)| limit.get("maximum").is_some())
    {
        document["limits"][key] = limit["maximum"].clone();
    }
    let speeds = json!([{"count": 0.0, "speed": 60.0}]);
    document["figures"][1]["speeds"] = speeds.clone();
    document["music"]["strains"][0]["speeds"] = speeds;
    document["figures"][1]["allow"] = json!([{"kind": "clash", "reason": "we mean it"}]);
    document["figures"][1]["strikes"] =
        json!([{"at": 1.0, "by": 1, "with": "tip", "on": 2, "height": 1.0, "again": [2.0]}]);
    let (schema, mut all) = (schema(), Vec::new());
    bounds(&schema, (&schema, "Dance"), &document, "", &mut all);
    for Bound { at, keyword, edge: bound, is_whole, .. } in &all {
        let was = document.pointer(at).unwrap();
        let (edge, beyond) = match keyword.as_str() {
            "minimum" | "maximum" => {
                let sign = if keyword == "minimum" { -1 } else { 1 };
                let beyond = match bound.as_i64().filter(|_| *is_whole) {
                    Some(whole) => json!(whole + sign),
                    None => json!(bound.as_f64().unwrap() + f64::from(sign as i32) * 1e-6),
                };
                (bound.clone(), beyond)
            }
            "minLength" | "maxLength" => {
                let text = |many: i64| json!("x".repeat(many.max(0) as usize));
                let many = bound.as_i64().unwrap();
                (text(many), text(if keyword == "minLength" { many - 1 } else { many + 1 }))
            }
            _ => {
                let list = |many: i64| json!(vec![was[0].clone(); many.max(0) as usize]);
                let many = bound.as_i64().unwrap();
                (list(many), list(if keyword == "minItems" { many - 1 } else { many + 1 }))
            }
        };
        let said = said_with(&document, at, beyond).unwrap_or_default();
        let of_it = said.starts_with(&path_of(at)) || (at == "/bellpad" && !said.is_empty());
        assert!(of_it, "{at}: beyond the {keyword} of {bound} the reader says {said:?}");
        // Other rules may be broken by it, such as that a set of two has no place 400.
        let said = said_with(&document, at, edge).unwrap_or_default();
        let of_the_range = ["out of range", "at most", "has 1 to", "has 0 to", "newer"];
        let refused = said.starts_with(&path_of(at)) && of_the_range.iter().any(|words| said.contains(words));
        assert!(!refused, "{at}: the {keyword} of {bound} itself is refused: {said:?}");
    }
    let looked_at: BTreeSet<(String, String)> = all.into_iter().map(|bound| bound.of).collect();
    let definitions = schema["$defs"].as_object().unwrap().iter().map(|(name, node)| (name.as_str(), node));
    for (name, node) in definitions.chain([("Dance", &schema)]) {
        for (key, property) in node["properties"].as_object().into_iter().flatten() {
            let has_bound = KEYWORDS.iter().any(|keyword| property.get(keyword).is_some());
            let looked = looked_at.contains(&(name.to_owned(), key.clone()));
            assert!(looked || !has_bound, "no {key} of a {name} is in the document");
        }
    }
}
