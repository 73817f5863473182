//! Mouse and keys by chance, for long: the program goes on, answers, and holds no more memory than it should.

use super::chance::Chance;
use super::make_dance;
use super::sitting::Sitting;
use std::time::{Duration, Instant};

/// What may be held more than at first, megabytes.
const MORE: f64 = 40.0;
/// How long it goes on where `BELLPAD_MINUTES` does not say.
const MINUTES: f64 = 1.5;
/// The window, pixels.
const ROOM: [usize; 2] = [1280, 800];

fn of<'a>(chance: &mut Chance, all: &[&'a str]) -> &'a str {
    all[chance.below(all.len())]
}

fn place(chance: &mut Chance) -> [i32; 2] {
    ROOM.map(|room| i32::try_from(chance.below(room)).unwrap())
}

/// Keys that do not end the program or leave it, nor write over anything but the dance's own file.
const KEYS: [&str; 47] = [
    "space",
    "Left",
    "Right",
    "shift+Left",
    "shift+Right",
    "Home",
    "End",
    "1",
    "2",
    "3",
    "4",
    "5",
    "6",
    "shift+2",
    "shift+5",
    "l",
    "bracketleft",
    "bracketright",
    "minus",
    "equal",
    "t",
    "b",
    "v",
    "f",
    "m",
    "n",
    "c",
    "i",
    "ctrl+z",
    "ctrl+shift+z",
    "ctrl+s",
    "ctrl+n",
    "ctrl+p",
    "ctrl+a",
    "Escape",
    "Escape",
    "Escape",
    "Tab",
    "Return",
    "Down",
    "Up",
    "Menu",
    "Delete",
    "F1",
    "F2",
    "ctrl+Left",
    "ctrl+Up",
];

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn whatever_is_pressed_it_goes_on_and_holds_little_more() {
    let minutes = std::env::var("BELLPAD_MINUTES").ok().and_then(|text| text.parse().ok()).unwrap_or(MINUTES);
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let mut sitting = Sitting::open(Some(&path));
    sitting.still();
    let seed =
        std::env::var("BELLPAD_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(0x5EED_0FBE_1177);
    let mut chance = Chance(seed);
    let until = Instant::now() + Duration::from_secs_f64(minutes * 60.0);
    let (mut first, mut done) = (None, 0);
    while Instant::now() < until {
        match chance.below(12) {
            0..=3 => sitting.keys(&[of(&mut chance, &KEYS)]),
            4 | 5 => {
                sitting.go(place(&mut chance));
                sitting.click();
            }
            6 => {
                sitting.go(place(&mut chance));
                sitting.button("3", true);
                sitting.button("3", false);
            }
            7..=9 => {
                let (from, to) = (place(&mut chance), place(&mut chance));
                sitting.go(from);
                sitting.button("1", true);
                for place in super::sitting::steps(from, to).into_iter().step_by(3) {
                    sitting.go(place);
                }
                sitting.button("1", false);
            }
            10 => {
                sitting.go(place(&mut chance));
                let wheel = of(&mut chance, &["4", "5"]);
                for _ in 0..chance.below(8) {
                    sitting.button(wheel, true);
                    sitting.button(wheel, false);
                }
            }
            _ => sitting.write(of(&mut chance, &["2 ds", "hey", "1.5", "é, x", "12"])),
        }
        done += 1;
        assert!(sitting.ended(Duration::ZERO).is_none(), "it ended after {done} (seed {seed})");
        // Once everything that is made at its first use has been.
        if first.is_none() && done == 120 {
            first = Some(sitting.held());
        }
    }
    sitting.keys(&["Escape", "Escape", "Escape"]);
    sitting.still();
    let (first, last) = (first.expect("long enough to begin"), sitting.held());
    println!(
        "{done} gestures in {minutes} minutes: {first:.0} MB after 120 of them, {last:.0} MB at the end"
    );
    assert!(last < first + MORE, "{first:.0} MB, then {last:.0} MB");
    // It still answers.
    let before = sitting.look();
    sitting.keys(&["F1"]);
    sitting.see_change("the help", &before);
}
