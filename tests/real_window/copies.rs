//! What one dancer does, copied to another and to the second half; and places caught on or typed exactly, with a real
//! mouse and keyboard.

use super::hands::{Hands, is_at};
use super::paths::empty;

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_part_is_copied_to_others_and_to_the_second_half() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right"]);
    hands.drag_dancer(1, -0.5, 1.4);
    hands.click("Copy");
    hands.sitting.keep("copy menu");
    hands.click("6 (the opposite, turned about)");
    hands.see();
    hands.choose("Copy", "2 (across the set)");
    hands.see();
    hands.click("Copy");
    hands.point_out("another, the same from their spot");
    hands.sitting.keep("copy to another");
    hands.click("3");
    hands.see();
    hands.save();
    let places = hands.places("2:1");
    for (number, x, y) in [(1, -0.5, 1.4), (2, 0.5, 1.4), (3, -0.5, -0.4), (4, 1.2, 0.0), (6, 0.5, -1.4)] {
        is_at(&places, number, x, y);
    }
    // Back by the fourth bar, and the first half again in the second.
    hands.keys(&["shift+Right", "shift+Right"]);
    hands.drag_dancer(1, -1.18, 1.78);
    hands.choose("Copy", "The same again");
    hands.save();
    for (when, x, y) in [("4:1", -1.2, 1.8), ("5:1", -1.2, 1.8), ("6:1", -0.5, 1.4), ("8:1", -1.2, 1.8)] {
        is_at(&hands.places(when), 1, x, y);
    }
    hands.undo_all(6);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_drag_catches_on_a_spot_unless_alt_is_held() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right"]);
    // The spot of 4 is 1.2 m to the right in the middle rank.
    let from = hands.twin.expected().place(1);
    let near = hands.twin.floor(1.15, 0.04);
    hands.pull(from, near);
    hands.sitting.keep("caught");
    hands.let_go(near);
    let to = hands.save()["figures"][0]["parts"][0]["legs"][0]["to"].clone();
    assert_eq!((to["x"].as_f64(), to["y"].as_f64()), (Some(1.2), Some(0.0)));
    hands.keys(&["ctrl+z"]);
    hands.see();
    hands.pull(from, near);
    hands.let_go_with_alt(near);
    hands.sitting.keep("free with Alt");
    let to = hands.save()["figures"][0]["parts"][0]["legs"][0]["to"].clone();
    let (x, y) = (to["x"].as_f64().unwrap(), to["y"].as_f64().unwrap());
    assert!((x - 1.15).hypot(y - 0.04) < 0.015, "where it was let go: {x} {y}");
    hands.undo_all(1);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn exact_places_and_facings_are_typed_in_the_card() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right"]);
    hands.click("Place…");
    for (field, text) in [("right", "-0.333"), ("up", "1.5"), ("facing", "200")] {
        hands.click(field);
        hands.sitting.keep(&format!("exact {field}"));
        hands.write(text);
        hands.keys(&["Return"]);
    }
    hands.sitting.keep("exact");
    let turns = hands.save()["figures"][0]["parts"][0]["turns"].clone();
    assert_eq!(
        (turns.as_array().unwrap().len(), &turns[0]["way"]),
        (1, &"right".into()),
        "110 degrees, not 250"
    );
    let [x, y, facing] = hands.places("2:1")[0];
    assert!((x + 0.333).abs() < 1e-6 && (y - 1.5).abs() < 1e-6, "{x} {y}");
    assert!((facing - 200.0).abs() < 0.05, "{facing}");
    // The card stays until something else is clicked.
    hands.click_at("bare floor", [613, 300]);
    hands.undo_all(3);
}
