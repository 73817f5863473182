//! A step of the side's own, made with a real mouse and keyboard: from a copy, its free foot dragged, danced and saved.

use super::hands::Hands;
use bellpad::dance::{Dance, Entry, Extra, Set, read};
use bellpad::figures::named_figure;
use std::fs;

fn crossing() -> Dance {
    let mut dance = Dance::new("Steps", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    dance.order = vec![Entry::of("cross-over")];
    dance
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_step_is_made_from_a_copy_its_free_foot_dragged_and_danced() {
    let mut hands = Hands::on(&crossing());
    hands.choose("File", "Steps…");
    hands.sitting.keep("the steps");
    hands.click("Make our own of it");
    // From here on nothing moves: one count is looked at.
    hands.click("count 1 of the step");
    let [x, y] = hands.twin.find("drag the right foot");
    hands.drag([x, y], [x + 6, y - 45]);
    hands.sitting.keep("a free foot dragged");
    let [x, y] = hands.twin.find("drag the hands");
    hands.drag([x, y], [x - 30, y + 12]);
    hands.click("right foot, count 2");
    hands.keys(&["ctrl+a"]);
    hands.write("crossed behind 12 cm");
    hands.keys(&["Return"]);
    hands.sitting.keep("a count typed");
    hands.click("Done");
    // The stepping takes it, by its letters.
    hands.click("Figure");
    hands.click("stepping");
    hands.write("2 ds2, 2 ss, ftj");
    hands.keys(&["Return"]);
    hands.sitting.keep("a step of the side's own danced");
    let saved = hands.save();
    let step = &saved["steps"][0];
    assert_eq!(
        (step["short"].as_str(), saved["figures"][0]["phrase"].as_str()),
        (Some("ds2"), Some("2 ds2, 2 ss, ftj"))
    );
    let free = step["free"].as_array().unwrap();
    assert!(free[0]["height"].as_f64().unwrap() > 0.3, "{free:?}");
    assert_eq!((free[1]["at"].as_str(), free[1]["height"].as_f64()), (Some("crossed-behind"), Some(0.12)));
    // Read again it is what was made.
    let text = fs::read(hands.file()).unwrap();
    assert_eq!(read(&text).unwrap(), *hands.twin.desk().dance());
    hands.undo_all(5);
}
