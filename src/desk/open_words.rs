use super::file_words::file_words;
use crate::store::StoreError;
use std::path::Path;

/// Why a file could not be opened. What is wrong inside one that is damaged stands in a line of its own: it is for whoever
/// made the file.
pub(super) fn open_words(error: &StoreError) -> String {
    match error {
        StoreError::Dance { path, .. } => damaged(Some(path), &error.to_string()),
        _ => error.to_string(),
    }
}

/// What is said of a file that is no dance or no longer one, and in a line of its own what is wrong in it.
pub(super) fn damaged(path: Option<&Path>, details: &str) -> String {
    let name = path.map_or_else(|| "This dance".to_owned(), file_words);
    format!(
        "{name} is damaged, or is no dance of Bellpad's. It is left as it is; an earlier save may be whole.\n{details}"
    )
}
