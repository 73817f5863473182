//! The command line: the window, or a verb that does one thing and ends.
//!
//! Errors go to standard error as one line. Exit 0 is fine, 1 is faults found, 2 is could not be done.
//!
//! May use every room but `window`. Begin with [`CommandLine`] and [`run`], and with `page.rs`, a short verb.

mod check;
mod command_line;
mod crib;
mod desktop;
mod desktop_files;
mod error;
mod handouts;
mod moving;
mod new;
mod numbered_pages;
mod opening;
mod outcome;
mod page;
mod pose;
mod printing;
mod progress;
mod still;
mod tapping;
mod tune;
mod unknown;
mod watch;

pub use check::Check;
pub use command_line::{CommandLine, VERBS, Verb, run};
pub use crib::Crib;
pub use desktop::{DesktopDoes, OnDesktop};
pub use desktop_files::{ICON_SIZES, files_for_desktop};
pub use error::VerbError;
pub use handouts::{NotebookOf, PaperName, SheetOf, SteppingOf};
pub use moving::Moving;
pub use new::New;
pub use outcome::{Outcome, Said};
pub use page::PageOf;
pub use pose::PoseAt;
pub use printing::{one_line, print_to_stderr};
pub use still::StillAt;
pub use tapping::TappingOf;
pub use tune::TuneOf;
pub use unknown::{no_display, no_such_verb};
pub use watch::WatchFor;
