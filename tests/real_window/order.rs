//! The running order with a real mouse and keyboard.

use super::{hands::Hands, lines::lines};
use bellpad::dance::Dance;
use serde_json::Value;

/// Lanterns (drawn), a hey and a crossing; a figure of the file is not danced, and the tune has two strains.
fn three_lines() -> Dance {
    lines("Gestures", [0.0, 16.0, 24.0], &["lanterns", "hey", "cross-over"])
}

fn ids(saved: &Value) -> Vec<&str> {
    saved["order"].as_array().unwrap().iter().map(|entry| entry["figure"].as_str().unwrap()).collect()
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn figures_are_put_in_named_and_called() {
    let mut hands = Hands::on(&three_lines());
    // From the shelf, after the figure at the playhead.
    hands.click("2. Hey, 8 bars");
    hands.see();
    hands.click("Figure shelf");
    hands.click_lively("Put in Into line");
    hands.sitting.keep("from the shelf");
    assert_eq!(ids(&hands.save()), ["lanterns", "hey", "into-line", "cross-over"]);
    // A jump along the whole dance to the last figure, and a new one to draw after it.
    let [[left, right], [top, bottom]] = hands.twin.rect("Whole dance");
    let last = [right - (right - left) / 12, i32::midpoint(top, bottom)];
    hands.click_at("the last figure", last);
    hands.see();
    hands.choose("+ Figure", "A new figure to draw");
    assert_eq!(ids(&hands.save()), ["lanterns", "hey", "into-line", "cross-over", "figure-1"]);
    // Back to the first, and after it what was not danced.
    hands.click_at("the first figure", [left + 30, last[1]]);
    hands.click("+ Figure");
    hands.sitting.keep("add menu");
    hands.click("Old ending · not danced");
    assert_eq!(ids(&hands.save()), ["lanterns", "old", "hey", "into-line", "cross-over", "figure-1"]);

    hands.click("1. Lanterns, 8 bars");
    hands.keys(&["F2"]);
    hands.write("Lamps");
    hands.sitting.keep("renaming");
    hands.keys(&["Return"]);
    hands.click("More for line 1");
    hands.sitting.keep("line menu");
    hands.point_out("Strain");
    hands.sitting.keep("strains");
    hands.click("B");
    hands.choose("More for line 3", "Call…");
    hands.write("Hey!");
    hands.sitting.keep("call");
    hands.keys(&["Return"]);
    let saved = hands.save();
    assert_eq!(
        (&saved["figures"][0]["name"], &saved["figures"][0]["id"]),
        (&"Lamps".into(), &"lanterns".into())
    );
    assert_eq!((&saved["order"][0]["strain"], &saved["order"][2]["call"]), (&"B".into(), &"Hey!".into()));
    hands.undo_all(6);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn lines_are_dragged_duplicated_and_taken_out() {
    let mut hands = Hands::on(&three_lines());
    let from = hands.twin.find("3. Cross over, 8 bars");
    let to = hands.twin.find("1. Lanterns, 8 bars");
    let to = [to[0], to[1] - 8];
    hands.pull(from, to);
    hands.sitting.keep("a line dragged");
    hands.let_go(to);
    assert_eq!(ids(&hands.save()), ["cross-over", "lanterns", "hey"]);
    hands.choose("More for line 2", "Duplicate as its own");
    let saved = hands.save();
    assert_eq!(ids(&saved), ["cross-over", "lanterns", "lanterns-2", "hey"]);
    assert_eq!(saved["figures"][0]["parts"], saved["figures"][4]["parts"]);
    hands.choose("More for line 4", "Dance it again");
    assert_eq!(ids(&hands.save()), ["cross-over", "lanterns", "lanterns-2", "hey", "hey"]);
    // By keys: down a line, and out.
    hands.click("1. Cross over, 8 bars");
    hands.keys(&["alt+Down"]);
    assert_eq!(ids(&hands.save()), ["lanterns", "cross-over", "lanterns-2", "hey", "hey"]);
    hands.keys(&["Delete"]);
    assert_eq!(ids(&hands.save()), ["lanterns", "lanterns-2", "hey", "hey"]);
    hands.choose("More for line 3", "Delete the figure");
    let saved = hands.save();
    assert_eq!(ids(&saved), ["lanterns", "lanterns-2"]);
    assert!(saved["figures"].as_array().unwrap().iter().all(|figure| figure["id"] != "hey"));
    hands.sitting.keep("taken out");
    hands.undo_all(6);
}
