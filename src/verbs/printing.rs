//! What a verb says: results on standard output, all else as one line on standard error.

use super::{Said, VerbError};
use crate::dance::{is_unseen, shown_name};
use clap::error::{ContextKind, ContextValue};
use std::io::{self, Write};
use std::path::Path;

/// Prints a line to standard error, on one line whatever a file or its name holds.
pub fn print_to_stderr(said: &str) {
    let mut line = String::with_capacity(said.len());
    for letter in said.chars() {
        match letter {
            letter if letter.is_control() => line.push(' '),
            // The name of a file can hold what would turn the rest of the line round.
            letter if is_unseen(letter) => line.push_str(&format!("(U+{:04X})", u32::from(letter))),
            letter => line.push(letter),
        }
    }
    let _ = writeln!(io::stderr(), "bellpad: {line}");
}

pub(super) fn print(text: &str) -> Said<()> {
    let mut out = io::stdout().lock();
    finished(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Prints a path as it is, so that a script gets the file whatever its name is made of.
pub(super) fn print_path(path: &Path) -> Said<()> {
    #[cfg(unix)]
    let name = std::os::unix::ffi::OsStrExt::as_bytes(path.as_os_str());
    #[cfg(not(unix))]
    let name = path.to_string_lossy();
    #[cfg(not(unix))]
    let name = name.as_bytes();
    let mut out = io::stdout().lock();
    finished(out.write_all(name).and_then(|()| out.write_all(b"\n")).and_then(|()| out.flush()))
}

/// A reader that has seen enough and closed the pipe is no failure.
pub(super) fn finished(written: io::Result<()>) -> Said<()> {
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(VerbError::Output(error)),
        _ => Ok(()),
    }
}

/// What clap says of a command line it cannot read, as one line that repeats no more of it than can be read.
#[must_use]
pub fn one_line(mut error: clap::Error) -> String {
    let kinds = [ContextKind::InvalidArg, ContextKind::InvalidValue, ContextKind::InvalidSubcommand];
    for kind in kinds {
        if let Some(ContextValue::String(value)) = error.get(kind) {
            let short = shown_name(value);
            error.insert(kind, ContextValue::String(short));
        }
    }
    let text = error.to_string();
    let text = text.split("\n\nUsage").next().unwrap_or(&text);
    let text = text.split("\n\nFor more").next().unwrap_or(text);
    // A tip repeats what was given once more.
    text.trim_start_matches("error: ").split_whitespace().map(shown_name).collect::<Vec<_>>().join(" ")
}
