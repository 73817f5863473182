//! Paths drawn with a real mouse: points put in, moved and taken away; legs shaped, split, joined and retimed.

use super::hands::Hands;
use bellpad::dance::{Dance, Figure, Set};
use serde_json::Value;

/// Six who have nothing to do for eight bars.
pub fn empty() -> Dance {
    let mut dance = Dance::new("Gestures", Set::longways(6, 2.4, 1.8));
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    dance
}

/// The legs of the only part that is drawn.
fn legs(saved: &Value) -> Vec<Value> {
    let parts = saved["figures"][0]["parts"].as_array().unwrap();
    assert_eq!(parts.len(), 1, "{parts:?}");
    parts[0]["legs"].as_array().unwrap().clone()
}

fn through(leg: &Value) -> Vec<Value> {
    leg.get("through").and_then(Value::as_array).cloned().unwrap_or_default()
}

#[track_caller]
fn near(value: &Value, wanted: f64, within: f64) {
    let value = value.as_f64().unwrap();
    assert!((value - wanted).abs() < within, "{value}, not {wanted}");
}

/// 1 drawn from their spot to a place at count 8, which is two bars on.
fn with_a_leg() -> Hands {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right", "shift+Right"]);
    hands.drag_dancer(1, -0.4, 2.3);
    hands
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn points_of_a_path_are_put_in_moved_and_taken_away() {
    let mut hands = with_a_leg();
    let drawn = legs(&hands.save());
    assert_eq!(drawn.len(), 1);
    near(&drawn[0]["end"], 8.0, 1e-9);
    assert_eq!(drawn[0]["shape"], "straight");

    // The middle of the leg is dragged aside.
    hands.keys(&["Left", "Left"]);
    hands.drag_dancer(1, -0.45, 1.55);
    hands.sitting.keep("point put in");
    let bent = legs(&hands.save());
    assert_eq!((bent.len(), through(&bent[0]).len()), (1, 1), "{bent:?}");
    assert_eq!(bent[0]["shape"], "smooth");
    let [x, y, _] = hands.places("2:3")[0];
    assert!((x + 0.45).hypot(y - 1.55) < 0.02, "{x} {y}");

    // From elsewhere the point itself is dragged, and the end.
    hands.keys(&["Home"]);
    for (name, key, x, y) in [("Path 1 point 1 of 1", 0, -0.6, 1.3), ("Path 1 end of 1", 1, -0.5, 2.6)] {
        let from = hands.twin.find(name);
        let to = hands.twin.floor(x, y);
        hands.drag(from, to);
        let moved = legs(&hands.save())[0].clone();
        let point = if key == 0 { through(&moved)[0].clone() } else { moved["to"].clone() };
        near(&point["x"], x, 0.02);
        near(&point["y"], y, 0.02);
    }
    hands.sitting.keep("points moved");

    // With the mouse on it Delete takes it away.
    let point = hands.twin.find("Path 1 point 1 of 1");
    hands.point_at(point);
    hands.keys(&["Delete"]);
    let bare = legs(&hands.save());
    assert_eq!((bare.len(), through(&bare[0]).len()), (1, 0));
    hands.undo_all(5);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn legs_are_shaped_split_and_joined_from_the_menu() {
    let mut hands = with_a_leg();
    hands.keys(&["Left", "Left"]);
    hands.choose("Path", "Smooth");
    hands.choose("Path", "Point here");
    let leg = legs(&hands.save())[0].clone();
    assert_eq!((leg["shape"].as_str(), through(&leg).len()), (Some("smooth"), 2));
    hands.choose("Path", "Arc");
    assert_eq!(legs(&hands.save())[0]["shape"], "arc");

    hands.click("Path");
    hands.sitting.keep("path menu");
    hands.click("Split here");
    let two = legs(&hands.save());
    assert_eq!(two.len(), 2);
    for (leg, begin, end) in [(&two[0], 4.0, 6.0), (&two[1], 6.0, 8.0)] {
        near(&leg["begin"], begin, 1e-9);
        near(&leg["end"], end, 1e-9);
    }
    hands.keys(&["Left"]);
    hands.choose("Path", "Join with the next");
    let one = legs(&hands.save());
    assert_eq!(one.len(), 1);
    near(&one[0]["end"], 8.0, 1e-9);

    hands.choose("Path", "Straight");
    hands.choose("Path", "Facing the way they go");
    let leg = legs(&hands.save())[0].clone();
    assert_eq!((leg["shape"].as_str(), through(&leg).len()), (Some("straight"), 0));
    assert_eq!(leg["facing"], "forwards");
    hands.sitting.keep("straight, facing the way");
    hands.undo_all(8);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_point_is_dragged_in_time_along_the_bars() {
    let mut hands = with_a_leg();
    let [[left, right], _] = hands.twin.rect("Bars");
    // The bars stand 8 pixels within what can be dragged along.
    let count = f64::from(right - left - 16) / 32.0;
    let by = |counts: f64| (counts * count).round() as i32;
    let [x, y] = hands.twin.find("End of path 1, at bar 3:1");
    hands.drag([x, y], [x + by(2.0), y]);
    hands.see();
    let [x, y] = hands.twin.find("Start of path 1, at bar 2:1");
    hands.drag([x, y], [x - by(1.5), y]);
    hands.see();
    hands.sitting.keep("retimed");
    let leg = legs(&hands.save())[0].clone();
    near(&leg["begin"], 2.5, 1e-9);
    near(&leg["end"], 10.0, 1e-9);
    let still = hands.places("1:3.5");
    assert!((still[0][0] + 1.2).hypot(still[0][1] - 1.8) < 1e-6, "not gone yet: {still:?}");

    // A point on the way gets a time of its own.
    hands.keys(&["Left", "Left"]);
    hands.drag_dancer(1, -0.9, 2.3);
    let [x, y] = hands.twin.find("Point 1 of path 1, at bar 2:3");
    hands.drag([x, y], [x - by(1.0), y]);
    let point = through(&legs(&hands.save())[0])[0].clone();
    // Times of a part are counted from the start of the figure.
    near(&point["at"], 5.0, 1e-9);
    let [x, y, _] = hands.places("2:2")[0];
    assert!((x + 0.9).hypot(y - 2.3) < 0.02, "{x} {y}");
    hands.undo_all(5);
}
