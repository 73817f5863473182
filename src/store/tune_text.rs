use super::StoreError;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// The largest file that is read for a tune, bytes.
const MOST: u64 = 4 * 1024 * 1024;

/// The text of a file that may have tunes in it. What is no UTF-8 is there as signs that say so.
///
/// # Errors
/// When it cannot be read or is larger than any book of tunes.
pub fn tune_text(path: &Path) -> Result<String, StoreError> {
    let read = || {
        let mut bytes = Vec::new();
        File::open(path)?.take(MOST + 1).read_to_end(&mut bytes)?;
        if bytes.len() as u64 > MOST {
            return Err(io::Error::other("it is larger than 4 MB, more than any book of tunes"));
        }
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    };
    read().map_err(|source| StoreError::Open { path: path.to_owned(), source })
}
