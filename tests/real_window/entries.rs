//! Wrong entries with a real keyboard: what is typed next is still the entry, and no command.

use super::hands::Hands;
use bellpad::dance::Dancer;
use bellpad::dance::{Dance, Entry, Extra, Set};
use bellpad::figures::named_figure;

/// A crossing, so that the card has its choices in sight.
fn crossing() -> Dance {
    let mut dance = Dance::new("Entries", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    dance.order = vec![Entry::of("cross-over")];
    dance
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn after_a_wrong_entry_a_real_keyboard_still_types_in_the_field() {
    let mut hands = Hands::on(&crossing());
    // At the end the card says less, and all of it is in sight.
    hands.keys(&["End"]);
    let before = hands.twin.desk().player().count;
    // A width of the set that cannot be, then letters that would be commands, then one that can.
    hands.click("Set");
    hands.click("across m");
    hands.write("2o");
    // It is told already; Enter changes nothing.
    hands.sitting.keys(&["Return"]);
    hands.twin.key("Return");
    assert!(hands.twin.has("did you mean 20?"));
    hands.sitting.keep("a wrong number");
    hands.write("mlb");
    hands.keys(&["ctrl+a"]);
    hands.write("2.7");
    hands.keys(&["Return"]);
    let saved = hands.save();
    assert_eq!(saved["set"]["across"], 2.7);
    // The same of steps: letters are steps and not the loop, digits are how many and not dancers.
    hands.click("Figure");
    hands.click("stepping");
    hands.write("2 dz");
    hands.keys(&["Return"]);
    assert!(hands.twin.has("did you mean ds?"));
    hands.sitting.keep("a wrong step");
    hands.write("ds");
    hands.keys(&["Return"]);
    hands.sitting.keep("a right step");
    let saved = hands.save();
    assert_eq!(saved["figures"][0]["phrase"], "2 ds");
    let desk = hands.twin.desk();
    assert!(!desk.player().looping && !desk.player().playing && desk.player().count == before);
    assert_eq!(desk.chosen(), Some(Dancer(0)));
    hands.undo_all(2);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_new_dance_is_called_what_a_real_keyboard_types() {
    let mut hands = Hands::on(&crossing());
    hands.keys(&["ctrl+n"]);
    hands.write("Ferry Lights");
    hands.sitting.keep("a new dance");
    hands.click("Make it");
    hands.see();
    assert_eq!(hands.twin.desk().dance().title, "Ferry Lights");
}
