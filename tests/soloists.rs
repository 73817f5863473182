//! Soloists of a jig who are told by name: in the file, in what is danced, in words, sheets and errors.
//!
//! Sources: common practice, no source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Extra, Number, Person, Set, read, write};
use bellpad::desk::{Ask, Desk, OrderAsk};
use bellpad::faults::find_faults;
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::Motion;
use bellpad::store::Recent;
use common::{assert_refused, bellpad, done, text};
use serde_json::{Map, Value, json};
use std::fs;

/// Four of whom three have names, and a solo that is danced by whoever `who` says.
fn jig(who: &Value) -> Value {
    json!({"bellpad": 2, "title": "Jig", "set": {"kind": "longways", "dancers": 4, "across": 2.4, "along": 1.8},
        "people": [{"number": 1, "name": "Wat Penny"}, {"number": 3, "name": "Sib Orchard"}, {"number": 4, "name": "Joan Rudge"}],
        "figures": [{"id": "solo", "name": "The lame hen", "bars": 8, "named": {"figure": "solos", "with": {"who": who}}}]})
}

fn opened(who: &Value) -> Result<(Dance, Motion), String> {
    let dance = read(jig(who).to_string().as_bytes()).map_err(|error| error.to_string())?;
    let motion = motion_of(&dance, None).map_err(|error| error.to_string())?;
    Ok((dance, motion))
}

fn soloists(motion: &Motion) -> Vec<usize> {
    let track = |dancer: usize| motion.spans()[0].track(Dancer(dancer)).unwrap();
    (0..motion.dancers()).filter(|dancer| !track(*dancer).moves().is_empty()).collect()
}

#[test]
fn whoever_is_named_dances_and_the_file_keeps_the_name() {
    for (who, dancer) in
        [(json!("Sib Orchard"), 2), (json!("joan rudge"), 3), (json!("Wat Penny"), 0), (json!(2), 1)]
    {
        let (dance, motion) = opened(&who).unwrap();
        assert_eq!(soloists(&motion), [dancer], "{who}");
        assert_eq!(find_faults(&dance, &motion), []);
        let again: Value = serde_json::from_str(&write(&dance).unwrap()).unwrap();
        assert_eq!(again["figures"][0]["named"]["with"]["who"], who, "as it was");
    }
}

#[test]
fn a_name_that_nobody_has_is_told_with_where_and_what_was_expected() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("jig.dance.json");
    for (who, said) in [
        (
            json!("Sib Orchid"),
            &["figures[0].named", "who is \"Sib Orchid\"", "did you mean Sib Orchard?"][..],
        ),
        (json!("Xerxes"), &["a number, or one of Wat Penny, Sib Orchard, Joan Rudge"]),
        (json!(true), &["who is true", "0 to 400, or the name of one of the people"]),
        (json!(9), &["who is 9", "the set has 4 dancers"]),
    ] {
        fs::write(&path, jig(&who).to_string()).unwrap();
        assert_refused(&bellpad(["check", text(&path)]), said);
    }
    let out = folder.path().join("new.dance.json");
    let args = [
        "--title",
        "Jig",
        "--dancers",
        "2",
        "--across",
        "2.4",
        "--along",
        "1.8",
        "--figure",
        "solos:who=Wat",
    ];
    let made = bellpad(["new", text(&out)].into_iter().chain(args));
    assert_refused(&made, &["solos", "who is \"Wat\"", "name of one of the people"]);
}

/// Who dances it is in the figure's name, and so in the order, words, crib and sheets, however the dancer is called later.
#[test]
fn the_solo_is_called_after_whoever_dances_it() {
    let mut dance = Dance::new("Jig", Set::longways(4, 2.4, 1.8));
    dance.figures.push(named_figure("solos", Map::new(), &dance.set).unwrap());
    dance.people.push(Person {
        number: Number(3),
        name: "Sib Orchard".to_owned(),
        left_handed: false,
        extra: Extra::new(),
    });
    let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
    let choose = |who: Value| Ask::Order(OrderAsk::SetChoice(0, "who", who));
    let name = |desk: &Desk| desk.dance().figures[0].name.clone();
    desk.apply(choose(json!("Sib Orchard")));
    assert_eq!((name(&desk).as_str(), soloists(desk.motion())), ("Solo of Sib Orchard", vec![2]));
    // Written anew letter by letter, and then like another.
    for (number, called, title) in [
        (3, "Sib Orchar", "Solo of Sib Orchar"),
        (3, "Sibyl", "Solo of Sibyl"),
        (1, "Sibyl", "Solo of Sibyl"),
        (3, "", "Solo of 3"),
    ] {
        desk.apply(Ask::Order(OrderAsk::NamePerson(Number(number), called.to_owned())));
        assert_eq!((desk.notice(), name(&desk).as_str()), (None, title));
        assert_eq!(soloists(desk.motion()), [2], "{number} is called {called:?}");
    }
    for _ in 0..3 {
        desk.apply(Ask::Undo);
    }
    assert_eq!((name(&desk).as_str(), soloists(desk.motion())), ("Solo of Sib Orchard", vec![2]));
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("jig.dance.json");
    fs::write(&path, write(desk.dance()).unwrap()).unwrap();
    assert!(done(["crib", text(&path)]).contains("Solo of Sib Orchard"));
    let sheet = folder.path().join("sheet.svg");
    done(["sheet", text(&path), "--figure", "solo of sib orchard", "-o", text(&sheet)]);
    assert!(fs::read_to_string(&sheet).unwrap().contains("svg"));
}
