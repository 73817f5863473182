//! When the foreman calls: what a line of the running order says of it, kept in files and told in words.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Entry, Figure, Set, read, schema, write};
use bellpad::edits::set_call_before;
use common::{assert_refused, bellpad, done, text};
use std::fs;

fn dance() -> Dance {
    let mut dance = Dance::new("Calls", Set::longways(4, 2.4, 1.8));
    dance.figures = vec![Figure::drawn("foot", "Foot up", 8), Figure::drawn("hey", "Hey", 8)];
    dance.order = vec![Entry::of("foot"), Entry { call: "Geese away!".to_owned(), ..Entry::of("hey") }];
    dance
}

fn written(dance: &Dance) -> String {
    write(dance).unwrap()
}

#[test]
fn a_line_keeps_when_it_is_called() {
    let dance = set_call_before(&dance(), 1, Some(0.5)).unwrap();
    let file = written(&dance);
    assert!(file.contains("\"call_before\": 0.5"), "{file}");
    assert_eq!(read(file.as_bytes()).unwrap(), dance);
    assert!(schema().to_string().contains("call_before"));
    let again = set_call_before(&dance, 1, None).unwrap();
    assert!(!written(&again).contains("call_before"), "left out where nothing is said");
    for wrong in [-1.0, 16.5, f64::NAN] {
        let said = set_call_before(&dance, 1, Some(wrong)).unwrap_err().to_string();
        assert!(said.contains("0 to 16 bars"), "{said}");
    }
    assert!(set_call_before(&dance, 7, None).is_err());
}

#[test]
fn the_words_say_when_it_is_called() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("calls.dance.json");
    let said = |before: Option<f64>| {
        fs::write(&file, written(&set_call_before(&dance(), 1, before).unwrap())).unwrap();
        done(["crib", text(&file)])
    };
    // Two bars before bar 9 (common practice, no source).
    assert!(said(None).contains("Hey, bars 9 to 16 (call: Geese away!, at bar 7:1)"), "{}", said(None));
    assert!(said(Some(0.5)).contains("(call: Geese away!, at bar 8:3)"));
    assert!(said(Some(0.0)).contains("(call: Geese away!, at bar 9:1)"));
    assert!(said(Some(10.0)).contains("(call: Geese away!, 2 bars before the dancing)"));
    let bad =
        written(&dance()).replace("\"call\": \"Geese away!\"", "\"call\": \"Geese\", \"call_before\": 17");
    fs::write(&file, bad).unwrap();
    assert_refused(&bellpad(["crib", text(&file)]), &["order[1].call_before", "17", "0 to 16 bars"]);
}
