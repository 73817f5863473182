//! What if, with a real mouse and keyboard: a slider moved, the ghost and the meeting seen, and the dance as it was.

use super::hands::Hands;
use bellpad::dance::{Dance, Extra, Set};
use bellpad::figures::named_figure;
use std::fs;

fn hey() -> Dance {
    let mut dance = Dance::new("Late", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("hey", Extra::new(), &dance.set).unwrap());
    dance
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn late_in_a_hey_is_seen_on_the_floor_and_changes_nothing() {
    let mut hands = Hands::on(&hey());
    let first = fs::read(hands.file()).unwrap();
    hands.keys(&["5", "w"]);
    hands.sitting.keep("what if, as drawn");
    let [[left, right], [top, bottom]] = hands.twin.rect("Late by");
    let middle = i32::midpoint(top, bottom);
    let at = |late: f64| [left + (f64::from(right - left) * (0.5 + late / 4.0)) as i32, middle];
    hands.drag(at(0.0), at(1.625));
    let what_if = hands.twin.desk().what_if().unwrap();
    assert!(what_if.late >= 1.5 && what_if.late <= 1.75, "{what_if:?}");
    let meet =
        hands.twin.desk().would_meet().first().cloned().expect("whoever is late in a hey meets somebody");
    assert!(hands.twin.has(&format!("5 meets {} at bar", meet.other)));
    while hands.twin.desk().player().count < meet.at.floor() {
        hands.keys(&["Right"]);
    }
    let ink = hands.twin.desk().ink();
    let [x, y] = hands.twin.floor(meet.spot.0, meet.spot.1).map(|at| at as usize);
    let round = [x - 18, y - 18, x + 18, y + 18];
    let late = hands.sitting.still();
    hands.sitting.keep("what if, late in a hey");
    let marked = late.share(round, ink.fault);
    assert!(marked > 0.05, "{marked} of the place where they would meet is marked");

    hands.click("as drawn");
    let drawn = hands.sitting.still();
    assert!(drawn.share(round, ink.fault) < marked / 4.0, "as drawn nobody meets there");
    assert!(drawn.differs_from(&late), "the ghost was seen");

    // By keys, live: an eighth of a count at each press.
    hands.tab_to("Late by");
    hands.keys(&["Left", "Left", "Left", "Left"]);
    assert_eq!(hands.twin.desk().what_if().unwrap().late, -0.5);
    hands.sitting.keep("what if, early");
    hands.keys(&["w"]);
    assert_eq!(hands.twin.desk().what_if(), None);

    assert!(!hands.twin.desk().unsaved() && hands.twin.desk().undo_name().is_none());
    assert!(!hands.sitting.title().contains("not saved"), "{}", hands.sitting.title());
    hands.save();
    assert_eq!(fs::read(hands.file()).unwrap(), first, "the dance is as it was, to the byte");
}
