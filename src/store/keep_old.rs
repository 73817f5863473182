use super::{StoreError, write_whole};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Copies a file that is in the way aside, to the same name with `.old` after it, or `.old-2` and so on where there
/// is one already; gives the new name.
///
/// # Errors
/// When it cannot be read or copied.
pub fn keep_old(path: &Path) -> Result<Option<PathBuf>, StoreError> {
    let bytes = match fs::read(path) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(source) => return Err(StoreError::Save { path: path.to_owned(), source }),
    };
    let named = |ending: String| {
        let mut name = path.as_os_str().to_owned();
        name.push(ending);
        PathBuf::from(name)
    };
    let old = std::iter::once(named(".old".to_owned()))
        .chain((2..10_000).map(|number| named(format!(".old-{number}"))))
        .find(|old| !old.exists())
        .unwrap_or_else(|| named(".old".to_owned()));
    write_whole(&old, &bytes)?;
    Ok(Some(old))
}
