//! A pattern of taps for three couples, made with a real mouse and keyboard.

use super::hands::Hands;
use bellpad::dance::{Dance, Figure, Holding, Leg, Part, Set, StrikeEnd, Striker, Struck, read};
use std::fs;

fn sticks() -> Dance {
    let mut dance = Dance::new("Poles", Set::longways(6, 1.2, 1.2));
    dance.holding = Holding::Sticks;
    let mut figure = Figure::drawn("tapping", "Tapping", 4);
    // Somebody moves: where nobody does, the floor says how to begin.
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(8.0, 12.0, -0.5, 1.2));
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

/// [MB1]'s single tapping, four bars, as its words are.
#[test]
#[ignore = "needs Xvfb and xdotool"]
fn four_bars_for_three_couples_are_made_in_ten_actions() {
    let mut hands = Hands::on(&sticks());
    let row = hands.twin.find("Row of taps");
    hands.right_click("the menu of the row of taps", row);
    hands.click("Write them all…");
    let lines = [
        "bars 1 and 3: count 3, odds tip on partner's butt",
        "bar 2: count 3, evens tip on partner's butt",
        "bar 4: count 1, odds butt on partner's tip; count 3, odds tip on partner's tip",
    ];
    let mut written = 0;
    for (index, line) in lines.iter().enumerate() {
        if index > 0 {
            hands.keys(&["Return"]);
        }
        hands.write(line);
        written += 1;
    }
    hands.sitting.keep("taps written");
    hands.click("Done");
    assert!(hands.gestures() + written <= 10, "{} gestures and {written} lines", hands.gestures());
    hands.sitting.keep("taps in the row");
    let saved = hands.save();
    assert_eq!(saved["figures"][0]["strikes"].as_array().map(Vec::len), Some(4));
    // Read again it is what was made, and it is what the book says.
    let dance = read(&fs::read(hands.file()).unwrap()).unwrap();
    assert_eq!(dance, *hands.twin.desk().dance());
    let strikes = &dance.figures[0].strikes;
    assert!(strikes.iter().all(|strike| strike.on == Struck::Partner));
    let told: Vec<_> =
        strikes.iter().map(|strike| (strike.by, strike.at, strike.end, strike.their)).collect();
    let (tip, butt) = (StrikeEnd::Tip, StrikeEnd::Butt);
    assert_eq!(
        told,
        [
            (Striker::Odds, 2.0, tip, Some(butt)),
            (Striker::Evens, 6.0, tip, Some(butt)),
            (Striker::Odds, 12.0, butt, Some(tip)),
            (Striker::Odds, 14.0, tip, Some(tip)),
        ]
    );
    assert_eq!(strikes[0].again, [10.0]);

    // One put in by a click, dragged a count on, and taken away by its key.
    let [[left, right], [top, bottom]] = hands.twin.rect("Row of taps");
    let at = |count: i32| [left + (right - left) * count / 16, i32::midpoint(top, bottom)];
    hands.click_at("the row of taps", at(5));
    let tap = hands.twin.find("tap, bar 2 count 2");
    hands.drag(tap, [tap[0] + (right - left) / 16, tap[1]]);
    hands.sitting.keep("a tap dragged");
    assert_eq!(hands.save()["figures"][0]["strikes"].as_array().map(Vec::len), Some(5));
    hands.tab_to("tap, bar 2 count 3, 1's tip on 2's tip");
    hands.keys(&["Delete"]);
    assert_eq!(hands.save()["figures"][0]["strikes"].as_array().map(Vec::len), Some(4));
    hands.undo_all(4);
}
