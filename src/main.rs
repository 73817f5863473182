//! Opens the window, or runs a verb.
#![forbid(unsafe_code)]

use bellpad::verbs::{self, CommandLine, Outcome, VERBS};
use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    bellpad::store::outlive_file_limit();
    let asked = match CommandLine::try_parse() {
        Ok(asked) => asked,
        Err(error) if error.use_stderr() => {
            let first = std::env::args_os().nth(1);
            let slip = first.and_then(|word| verbs::no_such_verb(word.as_ref()));
            return refuse(&slip.unwrap_or_else(|| verbs::one_line(error)));
        }
        Err(error) => {
            // Help and version, asked for: a closed pipe is the reader's choice.
            let _ = error.print();
            return ExitCode::SUCCESS;
        }
    };
    match &asked.verb {
        Some(verb) => match verbs::run(verb) {
            Ok(outcome) => ExitCode::from(outcome.code()),
            Err(error) => refuse(&error.to_string()),
        },
        None => open_window(asked),
    }
}

fn open_window(asked: CommandLine) -> ExitCode {
    match asked.file.as_deref().and_then(verbs::no_such_verb) {
        Some(said) => refuse(&said),
        None => show_window(asked),
    }
}

#[cfg(feature = "window")]
fn show_window(asked: CommandLine) -> ExitCode {
    if !bellpad::window::display_is_there() {
        return refuse(&verbs::no_display(asked.file.as_deref()));
    }
    match bellpad::window::open_window(asked.file) {
        Ok(()) => ExitCode::SUCCESS,
        Err(said) => {
            refuse(&format!("the window could not open: {said}; these verbs work without one: {VERBS}"))
        }
    }
}

#[cfg(not(feature = "window"))]
fn show_window(_: CommandLine) -> ExitCode {
    refuse(&format!("this build has no window; these verbs work without one: {VERBS} (see bellpad --help)"))
}

fn refuse(said: &str) -> ExitCode {
    verbs::print_to_stderr(said);
    ExitCode::from(Outcome::Undone.code())
}
