//! The floor with a real mouse: dancers turned with their mates, drags left half-way, and the view moved.

use super::hands::Hands;
use super::paths::empty;
use bellpad::picture::SLATE;
use std::fs;

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_dancer_is_turned_by_the_ring_and_the_mate_the_other_way() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right", "m"]);
    assert!(hands.twin.has("who follows: across the set"));
    // 1 looks to the right across the set, and is turned to look up. The ring is 0.52 m before the middle of a body.
    let [x, y] = hands.twin.expected().place(1);
    let ring = hands.twin.find("Facing of 1");
    let before = hands.places("2:1");
    hands.pull(ring, [x + (ring[0] - x) / 2, y - (ring[0] - x)]);
    hands.sitting.keep("turning");
    hands.let_go([x + (ring[0] - x) / 2, y - (ring[0] - x)]);
    hands.see();
    let turns: Vec<_> = hands.save()["figures"][0]["parts"]
        .as_array()
        .unwrap()
        .iter()
        .map(|part| (part["place"].as_u64().unwrap(), part["turns"][0]["way"].as_str().unwrap().to_owned()))
        .collect();
    // Left and right swap under a mirror.
    assert_eq!(turns, [(1, "left".to_owned()), (2, "right".to_owned())]);
    let after = hands.places("2:1");
    assert_eq!((before[0][2], before[1][2]), (90.0, 270.0));
    // Caught on a whole number of 15 degrees.
    assert_eq!((after[0][2], after[1][2]), (30.0, 330.0));
    hands.undo_all(1);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_drag_is_left_by_escape() {
    let mut hands = Hands::on(&empty());
    let first = fs::read(hands.file()).unwrap();
    hands.keys(&["shift+Right"]);
    let from = hands.twin.expected().place(3);
    let to = hands.twin.floor(-0.3, 0.5);
    hands.pull(from, to);
    hands.keys(&["Escape"]);
    hands.let_go(to);
    hands.see();
    assert!(!hands.twin.desk().unsaved());
    hands.sitting.keys(&["ctrl+s"]);
    hands.sitting.still();
    assert_eq!(fs::read(hands.file()).unwrap(), first);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_drag_goes_where_it_is_seen_however_the_floor_is_seen() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right"]);
    let whole = hands.twin.expected();
    // Nearer by the wheel, and the whole again. How far a step of it goes is the desktop's, so the twin has none.
    let bare = hands.twin.floor(0.0, 0.9);
    let before = hands.point_at(bare);
    for down in [true, false] {
        hands.sitting.button("4", down);
    }
    hands.sitting.see_change("the wheel", &before);
    let [x, y] = whole.place(1).map(|at| at as f32);
    assert!(!hands.sitting.look().shows([x, y - 17.0], SLATE.odd), "1 is elsewhere on the screen");
    hands.sitting.keep("zoomed");
    hands.sitting.keys(&["f"]);
    hands.see();
    // Moved by the middle button, and from the musicians' side.
    hands.pan(bare, [bare[0] + 60, bare[1] + 25]);
    hands.see();
    let ([x, y], [x0, y0]) = (hands.twin.expected().place(1), whole.place(1));
    assert_eq!([x - x0, y - y0], [60, 25], "as far as the mouse");
    hands.keys(&["v"]);
    hands.see();
    hands.drag_dancer(5, -0.4, -1.3);
    hands.sitting.keep("from the top");
    hands.save();
    let [x, y, _] = hands.places("2:1")[4];
    assert!((x + 0.4).hypot(y + 1.3) < 0.015, "{x} {y}");
    hands.undo_all(1);
}
