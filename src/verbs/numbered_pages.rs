//! What the verbs that write numbered pages do alike: they own those pages.

use super::{Said, VerbError, print_to_stderr};
use crate::store::{Over, PageSet};
use std::path::Path;

/// A set that may be written over whatever is there where that is forced; refused where files are in the way that this
/// program did not write.
pub(super) fn unless_taken(set: PageSet, force: bool) -> Said<PageSet> {
    let set = if force { set.over(Over::Anything) } else { set };
    match set.in_the_way().as_slice() {
        [] => Ok(set),
        [first, rest @ ..] => Err(VerbError::InTheWay { first: first.to_path_buf(), more: rest.len() }),
    }
}

/// Takes the pages of an earlier run away that are no longer part of the set, and says which.
pub(super) fn take_old_away(set: &PageSet) -> Said<()> {
    let old = set.take_old_away()?;
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
