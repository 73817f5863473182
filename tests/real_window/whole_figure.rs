//! A whole figure made from an empty set with a real mouse and keyboard.

use super::hands::Hands;
use bellpad::dance::{Dancer, Way};
use bellpad::figures::motion_of;
use bellpad::motion::passing;
use bellpad::store;

/// New, six dancers, 1 through a cross with its mate by half turn, the second half mirrored, check clear, save. Twelve
/// gestures at the most, each a click, a key or a drag.
#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_figure_is_made_in_twelve_gestures() {
    let mut hands = Hands::on_nothing();
    hands.keys(&["ctrl+n"]);
    hands.sitting.keep("new dance");
    // Six in two files is what the dialog has at first.
    hands.click("Make it");
    hands.see();
    hands.choose("who follows: nobody", "the opposite, turned about");
    // Along the bars to bar 3, two thirds of an inch under their top edge.
    let [[left, right], [top, _]] = hands.twin.rect("Bars");
    let at = |count: i32| [left + 8 + (right - left - 16) * count / 32, top + 26];
    hands.click_at("bar 3", at(8));
    hands.drag_dancer(1, 1.18, -1.77);
    hands.click_at("bar 2", at(4));
    // To their own left of the straight line, so that 1 and 6 pass right shoulders, and clear of 3 and 4.
    hands.drag_dancer(1, 0.28, 0.22);
    hands.sitting.keep("first half");
    hands.choose("Copy", "Mirrored");
    hands.see();
    hands.sitting.keep("both halves");
    assert!(hands.twin.has("All clear"));
    hands.keys(&["ctrl+s"]);
    hands.sitting.keep("where to save");
    hands.fill_in_file();
    hands.see();
    assert!(hands.gestures() <= 12, "{} gestures", hands.gestures());

    let saved = store::open(&hands.file()).unwrap();
    let motion = motion_of(&saved, None).unwrap();
    assert_eq!(passing(&motion, Dancer(0), Dancer(5), 0.0, 8.0).shoulder, Way::Right);
    assert_eq!(passing(&motion, Dancer(0), Dancer(5), 16.0, 24.0).shoulder, Way::Left);
    let (home, half, end) = (hands.places("1:1"), hands.places("5:1"), hands.places("8:4.9"));
    for dancer in 0..6 {
        let mate = if [0, 5].contains(&dancer) { 5 - dancer } else { dancer };
        let apart = |one: [f64; 3], other: [f64; 3]| (one[0] - other[0]).hypot(one[1] - other[1]);
        assert!(apart(home[mate], half[dancer]) < 0.01, "{} is across by half-way", dancer + 1);
        assert!(apart(home[dancer], end[dancer]) < 0.01, "{} is home", dancer + 1);
    }
}
