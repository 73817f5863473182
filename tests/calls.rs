//! When the foreman calls: what a line of the running order says of it, kept in files and told in words.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Entry, Figure, Set, read, schema, write};
use bellpad::desk::{Ask, Desk, OrderAsk};
use bellpad::edits::set_call_before;
use bellpad::figures::motion_of;
use bellpad::handout::{SheetChoice, notebook, page::page};
use bellpad::store::Recent;
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
    // The name alone is said with its moment where that is the line's own.
    let named = set_call_before(&dance(), 0, Some(1.0)).unwrap();
    fs::write(&file, written(&named)).unwrap();
    let crib = done(["crib", text(&file)]);
    assert!(crib.contains("Foot up, bars 1 to 8 (called 1 bar before the dancing)"), "{crib}");
    let bad =
        written(&dance()).replace("\"call\": \"Geese away!\"", "\"call\": \"Geese\", \"call_before\": 17");
    fs::write(&file, bad).unwrap();
    assert_refused(&bellpad(["crib", text(&file)]), &["order[1].call_before", "17", "0 to 16 bars"]);
}

/// When a line is called is set and undone by itself; what it usually is need not be said.
#[test]
fn when_a_line_is_called_is_set_and_undone() {
    let mut desk = Desk::new(dance(), None, Recent::default()).unwrap();
    let before = desk.dance().clone();
    // A number that is dragged is one step.
    for bars in [1.9, 1.5, 1.0] {
        desk.apply(Ask::Order(OrderAsk::SetCallBefore(1, Some(bars))));
    }
    assert_eq!(desk.dance().order[1].call_before, Some(1.0));
    assert_eq!(desk.undo_name(), Some("change when Hey is called"));
    desk.apply(Ask::Order(OrderAsk::SetCallBefore(1, Some(17.0))));
    assert_eq!(desk.dance().order[1].call_before, Some(1.0));
    assert!(desk.notice().is_some_and(|said| said.contains("0 to 16 bars")), "{:?}", desk.notice());
    desk.apply(Ask::Undo);
    assert_eq!(*desk.dance(), before);
}

/// The moment is on the page of the notebook, under the first diagram of a sheet and on the practice page, as in the words.
#[test]
fn what_is_handed_out_says_when_it_is_called() {
    let dance = set_call_before(&dance(), 1, Some(0.5)).unwrap();
    let dance = set_call_before(&dance, 0, Some(0.0)).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let book = notebook(&[(dance.clone(), motion.clone())], &SheetChoice::default(), &mut |_, _| true);
    let text: String = book.pages.iter().map(|page| page.text() + "\n").collect();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "Hey — call: Geese away!, at bar 8:3",
        "Foot up — called at bar 1:1",
        "Call: Geese away!, 0.5 bars before",
        "Call: as it begins",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    let page = page(&dance, &motion).unwrap();
    for said in [
        "\"called\":\"at bar 8:3 of the dance\"",
        "\"called\":\"at bar 1:1 of the dance\"",
        "called ${span.called}",
    ] {
        assert!(page.contains(said), "{said}");
    }
}
