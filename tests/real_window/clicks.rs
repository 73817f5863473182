//! Menus by the right button and by the menu key, and a figure of four drawn by one hand, with a real mouse and keyboard.

use super::hands::{Hands, is_at};
use super::paths::empty;
use bellpad::dance::{Dance, Figure, Set};

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_right_click_and_the_menu_key_open_what_can_be_done() {
    let mut hands = Hands::on(&empty());
    hands.keys(&["shift+Right"]);
    hands.drag_dancer(1, -0.5, 1.4);
    hands.keys(&["shift+Right"]);
    // The spot that 1 has left, where only its cross is.
    let spot = hands.twin.floor(-1.2, 1.8);
    hands.right_click("the menu of a spot", spot);
    hands.sitting.keep("menu of a spot");
    hands.click("1 to this spot by this count");
    hands.see();
    hands.save();
    is_at(&hands.places("3:1"), 1, -1.2, 1.8);
    // With nothing in focus the menu key is for the chosen dancer: home by this count, by arrows alone.
    hands.keys(&["shift+Right"]);
    hands.drag_dancer(1, -0.7, 1.2);
    hands.keys(&["shift+Right", "shift+F10"]);
    hands.sitting.keep("menu by the key");
    hands.keys(&["Down", "Right"]);
    hands.sitting.keep("menu by the key, opened");
    hands.keys(&["Return"]);
    hands.see();
    hands.save();
    is_at(&hands.places("4:1"), 1, -0.7, 1.2);
    is_at(&hands.places("5:1"), 1, -1.2, 1.8);
    // A dancer, and a thing that opens out of their menu.
    let five = hands.twin.expected().place(5);
    hands.right_click("the menu of 5", five);
    hands.sitting.keep("menu of a dancer");
    hands.point_out("Turn");
    hands.sitting.keep("menu of a dancer, turn");
    hands.click("left, half about");
    hands.save();
    let [_, _, facing] = hands.places("5:1")[4];
    // 5 looks to the right across the set at first.
    assert!((facing - 270.0).abs() < 0.1, "{facing}");
    hands.undo_all(5);
}

/// Four of them, of whom one is drawn: in with a bow and home again, and out and home in the second half.
#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_figure_of_four_is_drawn_by_one_hand_in_at_most_six_drags() {
    let mut dance = Dance::new("Four", Set::longways(4, 2.4, 1.8));
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    let mut hands = Hands::on(&dance);
    hands.choose("who follows: nobody", "across and end for end");
    hands.choose("from: as usual", "where they last stood");
    hands.sitting.keep("drawn by one hand");
    let mut drags = 0;
    let mut draw = |hands: &mut Hands, keys: &[&str], [x, y]: [f64; 2]| {
        hands.keys(keys);
        hands.drag_dancer(1, x, y);
        drags += 1;
        drags
    };
    let bar = "shift+Right";
    // The sets' spots are 1.2 m to either side and 0.9 m up and down.
    draw(&mut hands, &[bar, bar], [-0.5, 0.45]);
    draw(&mut hands, &["shift+Left"], [-0.95, 0.55]);
    hands.sitting.keep("bowed");
    draw(&mut hands, &[bar, bar], [-1.2, 0.9]);
    draw(&mut hands, &[bar, bar, bar], [-1.7, 1.3]);
    let drags = draw(&mut hands, &[bar], [-1.2, 0.9]);
    hands.sitting.keep("four");
    assert!(drags <= 6, "{drags} drags");
    assert!(hands.twin.has("All clear"));
    let saved = hands.save();
    assert_eq!(saved["figures"][0]["parts"].as_array().unwrap().len(), 4);
    for (when, x, y) in [
        ("1:1", -1.2, 0.9),
        ("2:1", -0.95, 0.55),
        ("3:1", -0.5, 0.45),
        ("4:1", -1.2, 0.9),
        ("7:1", -1.7, 1.3),
        ("8:1", -1.2, 0.9),
    ] {
        let places = hands.places(when);
        // 2 is across from 1, 3 at the other end of the file, and 4 through the middle.
        for (number, sides) in [(1, [1.0, 1.0]), (2, [-1.0, 1.0]), (3, [1.0, -1.0]), (4, [-1.0, -1.0])] {
            is_at(&places, number, x * sides[0], y * sides[1]);
        }
    }
    hands.undo_all(5);
}
