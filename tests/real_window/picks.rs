//! Dancers picked by the menu, by frames and by number keys, nudged, and brought back by undo, with a real mouse and
//! keyboard.

use super::hands::Hands;
use super::paths::empty;

/// Who has moved from where they stood, by number, and by how much.
fn moved(before: &[[f64; 3]], after: &[[f64; 3]]) -> Vec<(usize, [i64; 2])> {
    let millimetres = |metres: f64| (metres * 1000.0).round() as i64;
    let by = before.iter().zip(after).map(|(was, is)| [0, 1].map(|axis| millimetres(is[axis] - was[axis])));
    by.enumerate().filter(|(_, by)| *by != [0, 0]).map(|(index, by)| (index + 1, by)).collect()
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn those_picked_are_nudged_and_nobody_else() {
    let mut hands = Hands::on(&empty());
    let at_first = hands.places("2:1");
    hands.keys(&["shift+Right"]);
    for (group, numbers) in [("All odds", vec![1, 3, 5]), ("All evens", vec![2, 4, 6]), ("Tops", vec![1, 2])]
    {
        hands.click("pick");
        if group == "Tops" {
            hands.sitting.keep("pick menu");
        }
        hands.click(group);
        hands.keys(&["ctrl+Right", "ctrl+shift+Up"]);
        hands.see();
        hands.save();
        let by = moved(&at_first, &hands.places("2:1"));
        assert_eq!(by, numbers.iter().map(|number| (*number, [50, 10])).collect::<Vec<_>>(), "{group}");
        hands.keys(&["ctrl+z"]);
        hands.see();
    }
    // A number alone picks one; with Shift others as well, and no longer.
    hands.keys(&["2", "shift+6", "shift+1", "shift+4", "shift+6"]);
    hands.sitting.keep("picked by keys");
    hands.keys(&["ctrl+shift+Left"]);
    hands.see();
    hands.save();
    let by = moved(&at_first, &hands.places("2:1"));
    assert_eq!(by, [1, 2, 4].map(|number| (number, [-10, 0])));
    // All of them.
    hands.keys(&["ctrl+a", "ctrl+Down"]);
    hands.save();
    assert_eq!(moved(&at_first, &hands.places("2:1")).len(), 6);
    hands.undo_all(2);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn undo_brings_back_the_moment_and_who_was_picked() {
    let mut hands = Hands::on(&empty());
    let at_first = hands.places("3:1");
    hands.keys(&["shift+Right", "shift+Right", "3", "shift+5"]);
    hands.drag_dancer(3, -0.7, 0.3);
    // Elsewhere, with somebody else chosen.
    hands.keys(&["Home", "2"]);
    assert_eq!(hands.twin.desk().undo_name(), Some("move 3 and 5 at bar 3"));
    let undo = hands.twin.find("Undo");
    hands.sitting.keep("before undo");
    hands.click_at("Undo", undo);
    hands.see();
    hands.sitting.keep("after undo");
    // What is nudged now are those two, at that moment.
    hands.keys(&["ctrl+Right"]);
    hands.save();
    assert_eq!(moved(&at_first, &hands.places("3:1")), [(3, [50, 0]), (5, [50, 0])]);
    assert!(moved(&at_first, &hands.places("1:1")).is_empty());
    hands.keys(&["ctrl+z", "ctrl+shift+z"]);
    hands.see();
    hands.undo_all(1);
}
