//! What the verbs that write numbered pages do alike: they own those pages.

use super::{Said, print_to_stderr};
use crate::store::{Over, PageSet};
use std::path::Path;

/// A set that may be written over whatever is there where that is forced; refused where files are in the way that this
/// program did not write.
pub(super) fn unless_taken(set: PageSet, force: bool) -> Said<PageSet> {
    let set = if force { set.over(Over::Anything) } else { set };
    let (files, they_are, them) = match *set.in_the_way() {
        [] => return Ok(set),
        [one] => (one.display().to_string(), "is in the way: it is no page", "it"),
        [first, ref rest @ ..] => (
            format!("{} and {} more", first.display(), rest.len()),
            "are in the way: they are no pages",
            "them",
        ),
    };
    Err(format!(
        "{files}: {they_are} of an earlier run, or changed since; nothing was written; use another name, or --force to \
         write over {them}"
    ))
}

/// Takes the pages of an earlier run away that are no longer part of the set, and says which.
pub(super) fn take_old_away(set: &PageSet) -> Said<()> {
    let old = set.take_old_away().map_err(|error| error.to_string())?;
    let name = |path: &Path| path.file_name().unwrap_or_default().display().to_string();
    match old.as_slice() {
        [] => {}
        [one] => print_to_stderr(&format!("{} was left by an earlier run and is taken away", name(one))),
        [first, .., last] => {
            let many = old.len();
            print_to_stderr(&format!(
                "{many} pages left by an earlier run, {} to {}, are taken away",
                name(first),
                name(last)
            ));
        }
    }
    Ok(())
}
