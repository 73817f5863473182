//! The desk, without a window: everything that can be asked of it does something or says why not, nothing that is asked
//! breaks it, and slow work goes on beside it. Nothing here knows egui.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod any_order;
mod beside;
mod every_ask;
mod in_bars;
mod kinds;
#[path = "../common/lines.rs"]
mod lines;
mod picture;
mod place_of_fault;
mod stage;

/// A build without a window is for scripts: it says what it can do.
#[cfg(not(feature = "window"))]
#[test]
fn without_the_window_the_program_names_its_verbs() {
    let ran = std::process::Command::new(env!("CARGO_BIN_EXE_bellpad")).output().unwrap();
    let said = String::from_utf8(ran.stderr).unwrap();
    assert_eq!((ran.status.code(), ran.stdout.len(), said.lines().count()), (Some(2), 0, 1), "{said}");
    assert!(said.contains("this build has no window") && said.contains("new, pose, check"), "{said}");
}
