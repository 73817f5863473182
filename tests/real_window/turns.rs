//! A turn made, moved, turned back and taken away with a real mouse and keyboard.

use super::hands::Hands;
use super::paths::empty;
use serde_json::Value;

/// The turns of the only part that is drawn; none where none is.
fn turns(saved: &Value) -> Vec<Value> {
    let parts = saved["figures"][0].get("parts").and_then(Value::as_array).cloned().unwrap_or_default();
    assert!(parts.len() < 2, "{parts:?}");
    parts.first().and_then(|part| part["turns"].as_array().cloned()).unwrap_or_default()
}

/// Asks that the file has one turn: its times in counts, its way and how far, degrees.
#[track_caller]
fn has(hands: &mut Hands, (begin, end): (f64, f64), way: &str, by: f64) {
    let saved = turns(&hands.save());
    assert_eq!(saved.len(), 1, "{saved:?}");
    let number = |key: &str| saved[0][key].as_f64().unwrap();
    assert_eq!((number("begin"), number("end"), number("by")), (begin, end, by), "{saved:?}");
    assert_eq!(saved[0]["way"], way);
}

/// Drags what has a name by so many counts of the eight bars.
fn drag(hands: &mut Hands, name: &str, counts: f64) {
    let [[left, right], _] = hands.twin.rect("Turns");
    let [x, y] = hands.twin.find(name);
    let by = f64::from(right - left) / 32.0 * counts;
    hands.drag([x, y], [x + by.round() as i32, y]);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_turn_is_made_moved_turned_back_and_taken_away() {
    let mut hands = Hands::on(&empty());
    // 1 faces across the set; the ring in front of them is drawn round by the left to face up and on, at the third bar.
    hands.keys(&["shift+Right", "shift+Right"]);
    let ring = hands.twin.find("Facing of 1");
    let [x, y] = hands.twin.expected().place(1);
    let far = ring[0] - x;
    hands.drag(ring, [x, y - far]);
    hands.see();
    has(&mut hands, (6.0, 8.0), "left", 90.0);
    hands.sitting.keep("turn made");

    // By either end, and whole.
    drag(&mut hands, "End of turn 1", 2.0);
    has(&mut hands, (6.0, 10.0), "left", 90.0);
    drag(&mut hands, "Start of turn 1", -1.5);
    has(&mut hands, (4.5, 10.0), "left", 90.0);
    drag(&mut hands, "Turn 1, left 90", 3.0);
    has(&mut hands, (7.5, 13.0), "left", 90.0);
    hands.sitting.keep("turn moved");

    // Escape in mid-drag puts it back.
    let [x, y] = hands.twin.find("Turn 1, left 90");
    hands.pull([x, y], [x + 90, y]);
    hands.sitting.keep("turn under the hand");
    hands.keys(&["Escape"]);
    hands.let_go([x + 90, y]);
    has(&mut hands, (7.5, 13.0), "left", 90.0);

    // In its midst the ring stands where it finishes: farther round it is the same turn.
    hands.keys(&["Right", "Right"]);
    let ring = hands.twin.find("Facing of 1");
    let [x, y] = hands.twin.expected().place(1);
    hands.pull(ring, [x - far, y]);
    hands.sitting.keep("ring in the midst of a turn");
    hands.let_go([x - far, y]);
    hands.see();
    has(&mut hands, (7.5, 13.0), "left", 180.0);

    // The other way, by menu; by degrees; and along by the keys of what has the focus.
    let turn = hands.twin.find("Turn 1, left 180");
    hands.right_click("the menu of a turn", turn);
    hands.sitting.keep("menu of a turn");
    hands.click("The other way: right 180°");
    has(&mut hands, (7.5, 13.0), "right", 180.0);
    let turn = hands.twin.find("Turn 1, right 180");
    hands.right_click("the menu of a turn", turn);
    hands.click("Three quarters");
    has(&mut hands, (7.5, 13.0), "right", 270.0);

    // By keys alone: half a count at each press, with Shift its end; what is pressed in one go is one step to undo.
    hands.tab_to("Turn 1, right 270");
    hands.keys(&["Left", "Left", "shift+Right"]);
    hands.sitting.keep("turn with the focus");
    has(&mut hands, (6.5, 12.5), "right", 270.0);

    // Taken away, and again by Delete once that is undone.
    let turn = hands.twin.find("Turn 1, right 270");
    hands.right_click("the menu of a turn", turn);
    hands.click("Take it away");
    assert_eq!(turns(&hands.save()), [] as [Value; 0]);
    hands.keys(&["ctrl+z"]);
    hands.tab_to("Turn 1, right 270");
    hands.keys(&["Delete"]);
    assert_eq!(turns(&hands.save()), [] as [Value; 0]);
    hands.undo_all(9);
}
