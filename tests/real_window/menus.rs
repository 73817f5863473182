//! Everything that has a menu, with a real mouse and keyboard: opened by the right button and by the menu key, and from each a
//! choice carried out and seen.

use super::hands::Hands;
use bellpad::dance::FaultKind::{Clash, Tight};
use bellpad::dance::{Dance, Dancer, Figure, Leg, Part, Set, Turn, Way};
use serde_json::Value;

/// 1 goes across to 2, too near, and back over a point on the way, and turns left 270 in the seventh bar; then all stand.
fn walked() -> Dance {
    let mut dance = Dance::new("Menus", Set::longways(6, 2.4, 1.8));
    let mut figure = Figure::drawn("walk", "Walk", 8);
    let mut part = Part::still(1);
    part.legs = vec![Leg::straight(4.0, 8.0, 0.9, 1.8), Leg::smooth(12.0, 16.0, &[(0.0, 2.4)], -1.2, 1.8)];
    part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(24.0, 27.0, Way::Left, 180.0) });
    figure.parts.push(part);
    dance.figures.push(figure);
    dance.figures.push(Figure::drawn("stand", "Stand", 8));
    dance
}

/// Opens the menu of what has the focus by its key.
fn open_by_key(hands: &mut Hands, name: &str, key: &str) {
    // The mouse lies elsewhere, or what it happens to point at would be lit already.
    hands.point_at([4, 4]);
    hands.tab_to(name);
    hands.keys(&[key]);
}

/// Goes down an open menu by the arrow to a choice, and takes it.
#[track_caller]
fn take_by_arrows(hands: &mut Hands, item: &str) {
    for _ in 0..30 {
        if hands.twin.focused().is_some_and(|focused| focused.starts_with(item)) {
            hands.keys(&["Return"]);
            return;
        }
        hands.keys(&["Down"]);
    }
    panic!("the arrow does not come to {item}");
}

/// Where a count of the eight bars is in a row of the strip.
fn in_row(hands: &Hands, row: &str, count: f64) -> [i32; 2] {
    let [[left, right], [top, bottom]] = hands.twin.rect(row);
    [left + (f64::from(right - left) * count / 32.0).round() as i32, i32::midpoint(top, bottom)]
}

fn legs(saved: &Value) -> Vec<Value> {
    saved["figures"][0]["parts"][0]["legs"].as_array().cloned().unwrap_or_default()
}

fn turns(saved: &Value) -> Vec<Value> {
    saved["figures"][0]["parts"][0]["turns"].as_array().cloned().unwrap_or_default()
}

fn order(saved: &Value) -> Vec<String> {
    let lines = saved["order"].as_array().cloned().unwrap_or_default();
    lines.iter().map(|line| line["figure"].as_str().unwrap().to_owned()).collect()
}

/// Undoes one step, which shows somewhere.
fn undo(hands: &mut Hands) {
    let before = hands.twin.desk().undo_name().map(str::to_owned);
    assert!(before.is_some(), "there is something to undo");
    hands.keys(&["ctrl+z"]);
    assert_ne!(hands.twin.desk().undo_name().map(str::to_owned), before);
}

/// Opened on that dance, with 1 chosen as in any that is opened.
fn opened() -> Hands {
    let hands = Hands::on(&walked());
    assert_eq!(hands.twin.desk().chosen(), Some(Dancer(0)));
    hands
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_dancer_a_spot_and_a_point_have_their_menu_by_mouse_and_by_key() {
    let mut hands = opened();
    let three = hands.twin.expected().place(3);
    hands.keys(&["shift+Right", "shift+Right", "shift+Right"]);
    hands.right_click("the menu of 3", three);
    hands.sitting.keep("menu of a dancer by mouse");
    hands.point_out("Face");
    hands.click("down");
    hands.see();
    hands.save();
    assert!((hands.places("4:1")[2][2] - 180.0).abs() < 0.1);
    undo(&mut hands);
    open_by_key(&mut hands, "Dancer 1", "Menu");
    hands.sitting.keep("menu of a dancer by key");
    take_by_arrows(&mut hands, "Clear what is drawn");
    hands.see();
    assert_eq!(legs(&hands.save()), [] as [Value; 0]);
    undo(&mut hands);

    // The spot that 1 has left: 2 goes to it; by the key as well.
    hands.keys(&["2"]);
    let spot = hands.twin.floor(-1.2, 1.8);
    hands.right_click("the menu of a spot", spot);
    hands.sitting.keep("menu of a spot by mouse");
    hands.click("2 to this spot by this count");
    hands.see();
    hands.save();
    super::hands::is_at(&hands.places("4:1"), 2, -1.2, 1.8);
    undo(&mut hands);
    open_by_key(&mut hands, "Floor, seen from above", "shift+F10");
    hands.sitting.keep("menu of the floor by key");
    take_by_arrows(&mut hands, "The spot of");
    take_by_arrows(&mut hands, "number 1");
    hands.sitting.keep("menu of a spot by key");
    take_by_arrows(&mut hands, "2 to this spot by this count");
    hands.see();
    hands.save();
    super::hands::is_at(&hands.places("4:1"), 2, -1.2, 1.8);
    undo(&mut hands);

    // A point on the way.
    hands.keys(&["1"]);
    let point = hands.twin.find("Path 2 point 1 of 1");
    hands.right_click("the menu of a point", point);
    hands.sitting.keep("menu of a point by mouse");
    hands.click("Split here");
    assert_eq!(legs(&hands.save()).len(), 3);
    undo(&mut hands);
    open_by_key(&mut hands, "Path 2 point 1 of 1", "Menu");
    hands.sitting.keep("menu of a point by key");
    take_by_arrows(&mut hands, "Take this point away");
    assert_eq!(legs(&hands.save())[1].get("through"), None);
    undo(&mut hands);
    assert_eq!(hands.twin.desk().undo_name(), None);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn bars_turns_feet_and_hands_have_their_menu_by_mouse_and_by_key() {
    let mut hands = opened();
    let bar = in_row(&hands, "Bars of the figure", 6.0);
    hands.right_click("the menu of a bar", bar);
    hands.sitting.keep("menu of a bar by mouse");
    hands.click("Split the path at 2:3");
    hands.see();
    assert_eq!(legs(&hands.save()).len(), 3);
    undo(&mut hands);
    // By the key it is the bar at the playhead.
    hands.keys(&["Home", "shift+Right", "Right"]);
    open_by_key(&mut hands, "Bars of the figure", "Menu");
    hands.sitting.keep("menu of a bar by key");
    take_by_arrows(&mut hands, "Put a point in at 2:2");
    let legs = legs(&hands.save());
    assert_eq!(legs[0]["through"].as_array().map(Vec::len), Some(1), "{legs:?}");
    undo(&mut hands);

    let turn = hands.twin.find("Turn 1, left 270");
    hands.right_click("the menu of a turn", turn);
    hands.sitting.keep("menu of a turn by mouse");
    hands.click("Half about");
    assert_eq!(turns(&hands.save())[0]["by"], 180.0);
    undo(&mut hands);
    open_by_key(&mut hands, "Turn 1, left 270", "shift+F10");
    hands.sitting.keep("menu of a turn by key");
    take_by_arrows(&mut hands, "Take it away");
    assert_eq!(turns(&hands.save()), [] as [Value; 0]);
    undo(&mut hands);

    for (row, count, phrase) in [("Feet", 14.3, "8 ds"), ("Hands", 6.3, "16 ss")] {
        let at = in_row(&hands, row, count);
        hands.right_click(&format!("the menu of {row}"), at);
        hands.sitting.keep(&format!("menu of {row} by mouse"));
        hands.click("Go there");
        // The dancers stand as they do then.
        hands.see();
        assert!((hands.twin.desk().player().count - count.floor()).abs() < 1e-9);
        open_by_key(&mut hands, row, "Menu");
        hands.sitting.keep(&format!("menu of {row} by key"));
        hands.tab_to("stepping");
        hands.write(phrase);
        hands.sitting.keep(&format!("stepping written in the menu of {row}"));
        hands.keys(&["Return"]);
        if hands.twin.has("Go there") {
            hands.keys(&["Escape"]);
        }
        assert_eq!(hands.save()["figures"][0]["phrase"], phrase);
        while hands.twin.desk().undo_name().is_some() {
            undo(&mut hands);
        }
    }
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn lines_blocks_and_faults_have_their_menu_by_mouse_and_by_key() {
    let mut hands = opened();
    let line = hands.twin.find("1. Walk, 8 bars");
    hands.right_click("the menu of a line", line);
    hands.sitting.keep("menu of a line by mouse");
    hands.click("Dance it again");
    assert_eq!(order(&hands.save()), ["walk", "walk", "stand"]);
    undo(&mut hands);
    open_by_key(&mut hands, "1. Walk, 8 bars", "Menu");
    hands.sitting.keep("menu of a line by key");
    take_by_arrows(&mut hands, "Move down");
    assert_eq!(order(&hands.save()), ["stand", "walk"]);
    undo(&mut hands);

    let [[left, right], [top, bottom]] = hands.twin.rect("Whole dance");
    hands.right_click("the menu of a block", [right - (right - left) / 4, i32::midpoint(top, bottom)]);
    hands.sitting.keep("menu of a block by mouse");
    hands.click("Move up");
    assert_eq!(order(&hands.save()), ["stand", "walk"]);
    undo(&mut hands);
    open_by_key(&mut hands, "Whole dance", "shift+F10");
    hands.sitting.keep("menu of a block by key");
    take_by_arrows(&mut hands, "Take it out of the order");
    assert_eq!(order(&hands.save()), ["stand"]);
    undo(&mut hands);

    let meets = hands.twin.desk().faults().iter().find(|fault| matches!(fault.kind, Clash | Tight));
    let mark = format!("Fault: {}", meets.expect("1 goes too near 2").text);
    let place = hands.twin.find(&mark);
    let told = hands.twin.desk().fault_count();
    hands.right_click("the menu of a fault", place);
    hands.sitting.keep("menu of a fault by mouse");
    hands.click("Go there");
    hands.see();
    assert!(hands.twin.desk().shown_fault().is_some());
    open_by_key(&mut hands, &mark, "Menu");
    hands.sitting.keep("menu of a fault by key");
    take_by_arrows(&mut hands, "We mean this…");
    let expected = hands.twin.expected();
    hands.sitting.see_dialog(&expected);
    hands.write("They meet there.");
    hands.keys(&["Return"]);
    let saved = hands.save();
    assert_eq!(saved["figures"][0]["allow"][0]["reason"], "They meet there.");
    assert_eq!(hands.twin.desk().fault_count() + 1, told, "it is counted no more");
    undo(&mut hands);
    assert_eq!(hands.twin.desk().undo_name(), None);
}
