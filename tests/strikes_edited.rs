//! Taps and claps put in, changed, moved and taken away on the desk: what comes of it, saved and opened again, and undone to the byte.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Extra, Figure, Holding, Metre, PlaceNumber, Set, Strike, StrikeEnd, StrikePart, Striker,
    Struck, read, write,
};
use bellpad::desk::{AboutAsk, Ask, CompareAsk, Desk, DrawAsk, Grip, OrderAsk, Question, StrikeAsk};
use bellpad::edits::{Follow, Later, StrikeAt, StrikeEdit};
use bellpad::motion::{BlowOn, SpanIndex};
use bellpad::store::{self, Recent};
use bellpad::words::{read_taps, taps_written};
use serde_json::json;

/// What a file of it has.
fn text(dance: &Dance) -> String {
    write(dance).unwrap()
}

const FIRST: StrikeAt = StrikeAt { strike: 0, which: 0 };

fn sticks() -> Dance {
    let mut dance = Dance::new("Poles", Set::longways(6, 1.2, 1.2));
    dance.holding = Holding::Sticks;
    dance.figures.push(Figure::drawn("tapping", "Tapping", 8));
    dance
}

fn desk(dance: Dance) -> Desk {
    Desk::new(dance, None, Recent::default()).unwrap()
}

fn ask(desk: &mut Desk, ask: StrikeAsk) -> &[Strike] {
    desk.apply(Ask::Strike(ask));
    &desk.dance().figures[0].strikes
}

fn change(desk: &mut Desk, at: StrikeAt, edit: StrikeEdit) -> &[Strike] {
    ask(desk, StrikeAsk::Change { figure: 0, at, edit })
}

fn add(desk: &mut Desk, at: f64, place: Option<u32>) {
    ask(desk, StrikeAsk::Add { figure: 0, at, place: place.map(PlaceNumber) });
}

/// Everything that is done is undone to the byte, and done again to the byte.
fn back_and_on(desk: &mut Desk, first: &Dance) {
    let last = text(desk.dance());
    let mut steps = 0;
    while desk.undo_name().is_some() {
        desk.apply(Ask::Undo);
        steps += 1;
    }
    assert_eq!(text(desk.dance()), text(first));
    for _ in 0..steps {
        desk.apply(Ask::Redo);
    }
    assert_eq!(text(desk.dance()), last);
    assert_eq!(text(&read(last.as_bytes()).unwrap()), last);
}

/// [MB1], single tapping: bar 1 h. 1's tip on 2's butt; bar 2 h. 2's tip on 1's butt; bar 3 as 1; bar 4 b. 1's butt on 2's tip, h. 1's tip on
/// 2's tip. Odds do as 1, evens as 2.
#[test]
fn the_books_single_tapping_is_made_by_hand() {
    let mut desk = desk(sticks());
    add(&mut desk, 2.0, Some(1));
    assert_eq!(desk.undo_name(), Some("put in the tap at bar 1:3 of Tapping"));
    change(&mut desk, FIRST, StrikeEdit::Their(Some(StrikeEnd::Butt)));
    let all = change(&mut desk, FIRST, StrikeEdit::Follow(Follow::InTurn(Later::Bar), None));
    // A bar later, with the ends as they were of whoever strikes.
    assert_eq!(all[0].by, Striker::Odds);
    assert_eq!(
        (all[1].by, all[1].at, all[1].end, all[1].their),
        (Striker::Evens, 6.0, StrikeEnd::Tip, Some(StrikeEnd::Butt))
    );
    change(&mut desk, FIRST, StrikeEdit::InBars(vec![1, 3]));
    for (at, end, their) in [(12.0, StrikeEnd::Butt, StrikeEnd::Tip), (14.0, StrikeEnd::Tip, StrikeEnd::Tip)]
    {
        add(&mut desk, at, None);
        let last = StrikeAt { strike: desk.dance().figures[0].strikes.len() - 1, which: 0 };
        change(&mut desk, last, StrikeEdit::With(end));
        change(&mut desk, last, StrikeEdit::Their(Some(their)));
    }
    let told = &desk.dance().figures[0];
    assert_eq!(
        taps_written(&told.strikes, &desk.dance().bar_counts(told)),
        "bars 1 and 3: count 3, odds tip on partner's butt\nbar 2: count 3, evens tip on partner's butt\n\
         bar 4: count 1, odds butt on partner's tip; count 3, odds tip on partner's tip"
    );
    // As danced: three pairs at each of five moments.
    assert_eq!(desk.motion().blows().len(), 15);
    back_and_on(&mut desk, &sticks());
}

#[test]
fn who_follows_is_one_or_all_or_each_side_in_turn() {
    let mut desk = desk(sticks());
    add(&mut desk, 2.0, Some(4));
    let by = |all: &[Strike]| all.iter().map(|strike| (strike.by, strike.at)).collect::<Vec<_>>();
    let (four, odds, evens) = (Striker::Place(PlaceNumber(4)), Striker::Odds, Striker::Evens);
    assert_eq!(by(change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Everyone, None))), [(evens, 2.0)]);
    assert_eq!(
        by(change(&mut desk, FIRST, StrikeEdit::Follow(Follow::InTurn(Later::Bar), None))),
        [(evens, 2.0), (odds, 6.0)]
    );
    // What is changed of the one is changed of the other, but for when.
    let all = change(&mut desk, FIRST, StrikeEdit::Height(Some(1.4)));
    assert_eq!([all[0].height, all[1].height], [Some(1.4); 2]);
    let all = change(&mut desk, StrikeAt { strike: 1, which: 0 }, StrikeEdit::To(5.0));
    assert_eq!(by(all), [(evens, 2.0), (odds, 5.0)]);
    // The one who is meant is struck by the one who strikes.
    let three = Some(PlaceNumber(3));
    assert_eq!(by(change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Nobody, three))), [(four, 2.0)]);
    // Repeated every bar, the others come half a bar later: a bar later they are struck again.
    change(&mut desk, FIRST, StrikeEdit::InBars(vec![1, 2, 3, 4]));
    change(&mut desk, FIRST, StrikeEdit::Follow(Follow::InTurn(Later::Bar), None));
    assert!(desk.notice().unwrap().contains("choose another time"), "{:?}", desk.notice());
    let all = change(&mut desk, FIRST, StrikeEdit::Follow(Follow::InTurn(Later::Half), None));
    assert_eq!((all[1].at, all[1].again.as_slice()), (4.0, [8.0, 12.0, 16.0].as_slice()));
    // Evens who were chosen stay alone on the ground, and in turn as well.
    let all = change(&mut desk, FIRST, StrikeEdit::On(Struck::Ground));
    assert_eq!((all[0].by, all[1].by, all[1].on), (evens, odds, Struck::Ground));
    change(&mut desk, FIRST, StrikeEdit::On(Struck::Partner));
    let all = change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Everyone, None));
    assert_eq!(all.len(), 1);
    let all = change(&mut desk, FIRST, StrikeEdit::On(Struck::Ground));
    assert_eq!((all[0].by, all[0].on), (evens, Struck::Ground));
    // Odds with their partners are everybody: dibbing is done by all.
    change(&mut desk, FIRST, StrikeEdit::On(Struck::Partner));
    change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Odds, None));
    let all = change(&mut desk, FIRST, StrikeEdit::On(Struck::Ground));
    assert_eq!((all[0].by, all[0].on), (Striker::All, Struck::Ground));
    // A neighbour is nothing that everybody can have at once.
    change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Nobody, three));
    change(&mut desk, FIRST, StrikeEdit::On(Struck::Down));
    let before = text(desk.dance());
    change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Everyone, None));
    assert!(desk.notice().unwrap().contains("not with a neighbour"), "{:?}", desk.notice());
    assert_eq!(text(desk.dance()), before);
    back_and_on(&mut desk, &sticks());
}

#[test]
fn odds_alone_are_told_from_odds_and_evens_in_turn() {
    let dance = sticks();
    let bars = dance.bar_counts(&dance.figures[0]);
    let of = |text: &str| {
        let strikes = read_taps(text, &bars, 6).unwrap();
        (Follow::of(&strikes, 0, &bars), Follow::in_turn(&strikes, 0, &bars).map(|(_, counts)| counts))
    };
    let odds = "count 3, odds tip on partner";
    for (text, wanted) in [
        ("bar 1: ODDS", (Some(Follow::Odds), None)),
        ("bar 1: count 3, evens tip on ground", (Some(Follow::Evens), None)),
        ("bar 1: count 3, all tip on ground", (Some(Follow::Everyone), None)),
        ("bar 1: count 3, 1 tip on ground", (Some(Follow::Nobody), None)),
        // Four bars later is no answer, and neither is the same on another.
        ("bar 1: ODDS\nbar 5: count 3, evens tip on partner", (Some(Follow::Odds), None)),
        ("bar 1: ODDS\nbar 2: count 3, evens tip on opposite", (Some(Follow::Odds), None)),
        ("bar 1: ODDS\nbar 2: count 3, evens tip on partner", (Some(Follow::InTurn(Later::Bar)), Some(4.0))),
        ("bar 1: ODDS\nbar 2: count 1, evens tip on partner", (Some(Follow::InTurn(Later::Half)), Some(2.0))),
        ("bar 1: ODDS\nbar 1: count 4, evens tip on partner", (None, Some(1.0))),
        // What would be after the end is not there.
        (
            "bars 2 and 8: ODDS\nbar 3: count 3, evens tip on partner",
            (Some(Follow::InTurn(Later::Bar)), Some(4.0)),
        ),
        ("bars 2 and 4: ODDS\nbar 3: count 3, evens tip on partner", (Some(Follow::Odds), None)),
    ] {
        assert_eq!(of(&text.replace("ODDS", odds)), wanted, "{text}");
    }
    let mut desk = desk(sticks());
    add(&mut desk, 2.0, Some(2));
    let by = |all: &[Strike]| all.iter().map(|strike| (strike.by, strike.at)).collect::<Vec<_>>();
    let all = change(&mut desk, FIRST, StrikeEdit::Follow(Follow::Odds, None));
    assert_eq!(by(all), [(Striker::Odds, 2.0)]);
    change(&mut desk, FIRST, StrikeEdit::Follow(Follow::InTurn(Later::Bar), None));
    // From the answer: it is that which comes sooner.
    let second = StrikeAt { strike: 1, which: 0 };
    let all = change(&mut desk, second, StrikeEdit::Follow(Follow::InTurn(Later::Half), None));
    assert_eq!(by(all), [(Striker::Odds, 2.0), (Striker::Evens, 4.0)]);
    let all = change(&mut desk, second, StrikeEdit::Follow(Follow::Evens, None));
    assert_eq!(by(all), [(Striker::Evens, 4.0)]);
    back_and_on(&mut desk, &sticks());
}

#[test]
fn one_is_dragged_and_nudged_within_the_figure() {
    let mut desk = desk(sticks());
    add(&mut desk, 30.0, Some(1));
    change(&mut desk, FIRST, StrikeEdit::InBars(vec![1, 8]));
    let second = StrikeAt { strike: 0, which: 1 };
    desk.apply(Ask::Draw(DrawAsk::BeginDrag(Grip::Strike { span: SpanIndex(0), at: second })));
    for count in [31.0, 33.0, 60.0, -5.0, 2.0, 9.25] {
        desk.apply(Ask::Draw(DrawAsk::DragToCount(count)));
        let strike = &desk.dance().figures[0].strikes[0];
        assert!(strike.counts().all(|count| (0.0..32.0).contains(&count)), "{strike:?}");
    }
    desk.apply(Ask::Draw(DrawAsk::EndDrag));
    assert_eq!(desk.undo_name(), Some("move the tap at bar 8:3 of Tapping"));
    let strike = desk.dance().figures[0].strikes[0].clone();
    assert_eq!((strike.at, strike.again.as_slice()), (2.0, [9.25].as_slice()));
    // Several presses are one step.
    for _ in 0..3 {
        ask(&mut desk, StrikeAsk::Nudge { figure: 0, at: FIRST, counts: 0.25 });
    }
    assert_eq!(desk.dance().figures[0].strikes[0].at, 2.75);
    desk.apply(Ask::Undo);
    assert_eq!(desk.dance().figures[0].strikes[0].at, 2.0);
    // Not onto itself.
    ask(&mut desk, StrikeAsk::Nudge { figure: 0, at: FIRST, counts: 7.25 });
    assert_eq!(desk.notice(), Some("That cannot be: that is struck at this count already"));
    back_and_on(&mut desk, &sticks());
}

#[test]
fn what_has_no_place_or_no_time_any_more_goes_and_is_told() {
    let mut dance = sticks();
    dance.figures[0].strikes = read_taps(
        "bar 1: count 1, 5 tip on 6; 1 tip on 5; odds tip on partner\nbars 2 and 7: count 1, all tip on ground\n\
         bar 8: count 4, all tip on ground",
        &dance.bar_counts(&dance.figures[0]),
        6,
    )
    .unwrap();
    let mut desk = desk(dance.clone());
    desk.apply(Ask::Order(OrderAsk::ChangeSet(Box::new(Set::longways(4, 1.2, 1.2)))));
    let said = desk.notice().unwrap();
    assert!(said.starts_with("There is no place or no time any more for 2 taps of Tapping"), "{said}");
    assert_eq!(desk.dance().figures[0].strikes.len(), 3);
    desk.apply(Ask::Order(OrderAsk::SetBars(0, 6)));
    assert!(desk.notice().unwrap().contains("2 taps of Tapping"), "{:?}", desk.notice());
    let left = &desk.dance().figures[0].strikes;
    assert_eq!((left.len(), left[1].at, left[1].again.len()), (2, 4.0, 0));
    back_and_on(&mut desk, &dance);
}

#[test]
fn another_metre_takes_them_along_and_copies_have_them() {
    let mut dance = sticks();
    dance.figures[0].strikes =
        read_taps("bar 2: count 3, odds tip on partner", &dance.bar_counts(&dance.figures[0]), 6).unwrap();
    let mut desk = desk(dance.clone());
    desk.apply(Ask::About(AboutAsk::SetBarMetre(0, 1, Some(Metre::NineEight))));
    // Bar 2 begins two counts later.
    assert_eq!(desk.dance().figures[0].strikes[0].at, 8.0);
    desk.apply(Ask::Order(OrderAsk::Duplicate(0)));
    assert_eq!(desk.dance().figures[1].strikes, desk.dance().figures[0].strikes);
    assert_eq!(desk.motion().blows().len(), 6);
    back_and_on(&mut desk, &dance);
}

#[test]
fn a_bar_is_copied_and_what_was_in_the_other_goes() {
    let mut desk = desk(sticks());
    add(&mut desk, 1.0, Some(1));
    add(&mut desk, 2.5, None);
    add(&mut desk, 4.0, Some(3));
    let all = ask(&mut desk, StrikeAsk::CopyBar { figure: 0, from: 1, to: 2 });
    assert_eq!(all.iter().map(|strike| strike.at).collect::<Vec<_>>(), [1.0, 2.5, 5.0, 6.5]);
    for (from, to, said) in [
        (5, 1, "nothing is struck in bar 5"),
        (1, 9, "a bar is copied to another bar of the figure"),
        (1, 1, "a bar is copied to another bar of the figure"),
    ] {
        ask(&mut desk, StrikeAsk::CopyBar { figure: 0, from, to });
        assert_eq!(desk.notice(), Some(format!("That cannot be: {said}").as_str()));
    }
    let last = StrikeAt { strike: 3, which: 0 };
    assert_eq!(change(&mut desk, last, StrikeEdit::Remove).len(), 3);
    back_and_on(&mut desk, &sticks());
}

#[test]
fn what_is_written_keeps_what_cannot_be_written() {
    let mut dance = sticks();
    let mut known = Extra::new();
    known.insert("colour".to_owned(), json!("red"));
    let bars = dance.bar_counts(&dance.figures[0]);
    dance.figures[0].strikes =
        read_taps("bar 3: count 1, odds tip on partner\nbar 1: count 3.333, all tip on ground", &bars, 6)
            .unwrap();
    dance.figures[0].strikes[0].extra = known;
    dance.figures[0].strikes[1].at = 7.0 / 3.0;
    let mut desk = desk(dance.clone());
    ask(&mut desk, StrikeAsk::AskToWrite(0));
    let Some(Question::Taps(asked)) = desk.question().cloned() else { panic!("nothing is asked") };
    assert_eq!(asked.text, "bar 1: count 3.333, all tip on ground\nbar 3: count 1, odds tip on partner");
    // Written as it is, not a byte is otherwise, and there is nothing to undo.
    let same = read_taps(&asked.text, &bars, 6).unwrap();
    ask(&mut desk, StrikeAsk::Write { figure: 0, strikes: same });
    assert_eq!((text(desk.dance()), desk.undo_name()), (text(&dance), None));
    let more = read_taps(&format!("{}\nbar 4: count 1, all tip on ground", asked.text), &bars, 6).unwrap();
    let all = ask(&mut desk, StrikeAsk::Write { figure: 0, strikes: more });
    assert_eq!((all.len(), all[0].at), (3, 7.0 / 3.0));
    assert_eq!(all[1].extra["colour"], json!("red"));
    back_and_on(&mut desk, &dance);
}

#[test]
fn another_versions_taps_are_shown_and_taken() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("last year.dance.json");
    let mut other = sticks();
    let bars = other.bar_counts(&other.figures[0]);
    other.figures[0].strikes =
        read_taps("bar 1: count 1, odds tip on partner\nbar 4: count 1, all tip on ground", &bars, 6)
            .unwrap();
    store::save(&path, &other).unwrap();
    let mut dance = sticks();
    dance.figures[0].strikes = read_taps("bar 1: count 1, odds tip on partner", &bars, 6).unwrap();
    let mut desk = desk(dance.clone());
    desk.apply(Ask::Compare(CompareAsk::With(path)));
    let said: Vec<String> =
        desk.compared().unwrap().comparison.whole.iter().map(ToString::to_string).collect();
    assert_eq!(said, ["The taps of Tapping differ in bar 4"]);
    desk.apply(Ask::Compare(CompareAsk::TakeTaps(0)));
    assert_eq!(desk.dance().figures[0].strikes, other.figures[0].strikes);
    assert_eq!(desk.undo_name(), Some("take the taps of Tapping from last year.dance.json"));
    assert!(desk.compared().unwrap().comparison.alike());
    back_and_on(&mut desk, &dance);
}

#[test]
fn hands_clap_where_there_are_no_sticks() {
    let mut dance = sticks();
    dance.holding = Holding::Handkerchiefs;
    let mut desk = desk(dance.clone());
    add(&mut desk, 0.0, None);
    let strike = desk.dance().figures[0].strikes[0].clone();
    assert_eq!((strike.by, strike.end, strike.on), (Striker::Odds, StrikeEnd::Right, Struck::Partner));
    let all = change(&mut desk, FIRST, StrikeEdit::Part(StrikePart::Behind));
    assert_eq!((all[0].on, all[0].part), (Struck::Own, Some(StrikePart::Behind)));
    let blow = desk.motion().blows()[0];
    assert_eq!((blow.by.dancer, blow.on), (Dancer(0), BlowOn::Own(StrikePart::Behind)));
    // The same twice is once.
    add(&mut desk, 2.0, Some(1));
    add(&mut desk, 2.0, Some(1));
    assert_eq!(desk.notice(), Some("That cannot be: that is struck at this count already"));
    back_and_on(&mut desk, &dance);
}
