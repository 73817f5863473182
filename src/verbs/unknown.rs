//! What is said of an argument that is neither a verb nor a file, and where no window can open.

use super::{CommandLine, VERBS};
use crate::dance::{nearest, quoted};
use clap::CommandFactory;
use std::path::Path;

/// What is said where the first argument that was given is no verb and no file, and is written as a verb would be: nobody
/// is then kept from seeing the slip by a window, by there being no display for one, or by what comes after it.
#[must_use]
pub fn no_such_verb(file: &Path) -> Option<String> {
    let word = file.to_str().filter(|word| !word.contains(['.', '/', std::path::MAIN_SEPARATOR]))?;
    let mut verbs = CommandLine::command();
    verbs.build();
    if word.starts_with('-') || verbs.find_subcommand(word).is_some() || file.exists() {
        return None;
    }
    let meant = nearest(word, verbs.get_subcommands().map(clap::Command::get_name));
    let meant = meant.map_or_else(|| "the".to_owned(), |verb| format!("did you mean {verb}? The"));
    Some(format!(
        "there is no verb or file called {}; {meant} verbs are {VERBS} (see bellpad --help)",
        quoted(word)
    ))
}

/// What is said where there is no display to open a window on; a file that is not there is told of as well.
#[must_use]
pub fn no_display(file: Option<&Path>) -> String {
    let missing = file
        .filter(|file| !file.exists())
        .map_or_else(String::new, |file| format!("{}: there is no such file; besides, ", file.display()));
    format!(
        "{missing}no display was found, so no window can open; these verbs work without one: {VERBS} (see bellpad --help)"
    )
}
