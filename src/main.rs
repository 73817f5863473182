//! Opens the window, or runs a verb.
#![forbid(unsafe_code)]

use bellpad::verbs::{self, CommandLine, Outcome, VERBS};
use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let asked = match CommandLine::try_parse() {
        Ok(asked) => asked,
        Err(error) if error.use_stderr() => return refuse(&verbs::one_line(&error)),
        Err(error) => {
            // Help and version, asked for: a closed pipe is the reader's choice.
            let _ = error.print();
            return ExitCode::SUCCESS;
        }
    };
    match &asked.verb {
        Some(verb) => match verbs::run(verb) {
            Ok(outcome) => ExitCode::from(outcome.code()),
            Err(said) => refuse(&said),
        },
        None => open_window(asked),
    }
}

fn open_window(asked: CommandLine) -> ExitCode {
    if !bellpad::app::display_is_there() {
        return refuse(&format!(
            "no display was found, so no window can open; these verbs work without one: {VERBS} (see bellpad --help)"
        ));
    }
    match bellpad::app::open_window(asked.file) {
        Ok(()) => ExitCode::SUCCESS,
        Err(said) => {
            refuse(&format!("the window could not open: {said}; these verbs work without one: {VERBS}"))
        }
    }
}

fn refuse(said: &str) -> ExitCode {
    verbs::say(said);
    ExitCode::from(Outcome::Undone.code())
}
