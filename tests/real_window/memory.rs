//! What a window holds in memory after long use.

use super::sitting::Sitting;

/// What may be held more than at first, megabytes.
const MORE: f64 = 40.0;

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn zooming_in_and_out_for_long_holds_no_more_memory() {
    let sitting = Sitting::open(None);
    sitting.go([620, 330]);
    // Once in and out, so that what is needed once is there.
    let turn = |times: usize, button: &str| {
        for _ in 0..times {
            sitting.button(button, true);
            sitting.button(button, false);
        }
    };
    let in_and_out = |by: usize| {
        turn(by, "4");
        turn(by, "5");
    };
    in_and_out(5);
    let before = sitting.held();
    // Each time by other steps, and each step through a dozen sizes, for as many as a long evening would ask for.
    for by in [40, 31, 22, 37, 28, 34] {
        in_and_out(by);
        sitting.keys(&["plus", "f"]);
    }
    sitting.still();
    let after = sitting.held();
    println!("{before:.0} MB before, {after:.0} MB after");
    assert!(after < before + MORE, "{before:.0} MB before, {after:.0} MB after");
}
