//! What the window looks like on four screens, with text of three sizes, in both colours: pictures to look at, kept where
//! `BELLPAD_SCREENSHOTS` says, and in each the floor, the bars and a side are there.

use super::desktop::Desktop;
use super::sitting::Sitting;
use bellpad::picture::{PAPER, SLATE};
use std::fs;

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_can_be_seen_at_every_size() {
    for screen in [[1024, 640], [1366, 768], [1920, 1080], [2560, 1440]] {
        let room = [screen[0] + 16, screen[1] + 80];
        for text in [1.0, 1.5, 2.0] {
            for paper in [false, true] {
                let desktop = Desktop::start_of(room);
                fs::create_dir_all(desktop.state()).unwrap();
                let window = format!(r#"{{"across": {}.0, "down": {}.0}}"#, screen[0], screen[1]);
                let settings = format!(
                    r#"{{"text_size": {text:.1}, "paper": {paper}, "welcomed": true, "window": {window}}}"#
                );
                fs::write(desktop.state().join("settings.json"), settings).unwrap();
                let sitting = Sitting::open_on(desktop, None);
                sitting.still();
                assert_eq!(sitting.size(), screen, "the window of {screen:?} with text {text}");
                sitting.keys(&["3", "Right", "Right"]);
                let shown = sitting.still();
                let colours = if paper { "paper" } else { "slate" };
                sitting.keep(&format!("{} by {}, text {:.0}, {colours}", screen[0], screen[1], text * 100.0));
                let ink = if paper { PAPER } else { SLATE };
                // The floor has a good share of the window, and the panels another.
                let whole = [0, 0, screen[0], screen[1]];
                let floor = shown.share(whole, ink.floor);
                let panel = shown.share(whole, ink.panel);
                assert!(floor > 0.12, "{screen:?}, text {text}, {colours}: floor {floor:.2}");
                assert!(panel > 0.15, "{screen:?}, text {text}, {colours}: panels {panel:.2}");
            }
        }
    }
}
