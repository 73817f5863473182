//! How large the window opens on real screens, and that it is so again the next time.

use super::SOON;
use super::desktop::{Desktop, wait_until};
use super::sitting::Sitting;
use std::fs;
use std::thread::sleep;
use std::time::Duration;

/// What a desktop puts round a window at least, pixels across and down: a title bar (from memory).
const ROUND: [usize; 2] = [2, 25];

/// A sitting at a screen where this was remembered.
fn sitting(screen: [usize; 2], remembered: &str) -> Sitting {
    let desktop = Desktop::start_of(screen);
    fs::create_dir_all(desktop.state()).unwrap();
    fs::write(desktop.state().join("settings.json"), remembered).unwrap();
    Sitting::open_on(desktop, None)
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_opens_within_the_screen() {
    for screen in [[1366, 768], [1440, 900], [1024, 640], [800, 600]] {
        for (text, remembered) in [
            ("100", "{}"),
            ("150", r#"{"text_size": 1.5}"#),
            ("100 and once large", r#"{"window": {"across": 2400.0, "down": 1500.0}}"#),
        ] {
            let sitting = sitting(screen, remembered);
            sitting.still();
            let size = sitting.size();
            sitting.keep(&format!("opens on {} by {}, text {text}", screen[0], screen[1]));
            for axis in [0, 1] {
                let most = screen[axis] - ROUND[axis];
                assert!(size[axis] <= most, "{size:?} on {screen:?}, text {text}: no more than {most}");
                assert!(
                    size[axis] * 10 >= (screen[axis] * 8).min([12_800, 8_000][axis]),
                    "{size:?} on {screen:?}"
                );
            }
        }
    }
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_opens_as_large_as_it_was() {
    let mut sitting = sitting([1440, 900], "{}");
    sitting.still();
    // By closing at once, and by an end in the middle of everything.
    for (size, killed) in [([1001, 702], false), ([1210, 655], true)] {
        sitting.draw_to(size);
        if killed {
            wait_until("what is remembered", SOON, || {
                let window = &sitting.remembered()["window"];
                if window["across"] == 1210.0 { Ok(()) } else { Err(window.to_string()) }
            });
            sitting = sitting.killed_and_started_again();
        } else {
            sleep(Duration::from_millis(300));
            sitting = sitting.closed_and_started_again();
        }
        sitting.still();
        assert_eq!(sitting.size(), size);
    }
    // Another size of the text is no other size of the window.
    for _ in 0..2 {
        sitting.keys(&["ctrl+plus"]);
        sitting.still();
    }
    let sitting = sitting.closed_and_started_again();
    sitting.still();
    assert_eq!(sitting.remembered()["text_size"], 1.25);
    assert_eq!(sitting.size(), [1210, 655]);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_opens_on_the_last_dance_if_that_is_asked() {
    let folder = tempfile::tempdir().unwrap();
    let path = super::make_dance(folder.path());
    for asked in [false, true] {
        let desktop = Desktop::start();
        fs::create_dir_all(desktop.state()).unwrap();
        fs::write(desktop.state().join("settings.json"), format!(r#"{{"open_last": {asked}}}"#)).unwrap();
        let sitting = Sitting::open_on(desktop, Some(&path));
        sitting.still();
        let title = sitting.title();
        assert!(title.starts_with("two-figures") || title.contains("Two figures"), "{title}");
        let again = sitting.closed_and_started_again();
        again.still();
        assert_eq!(again.title() == title, asked, "{} after {title}", again.title());
    }
}
