//! Opening and saving dance files.
//!
//! A save is whole or not at all: the text goes to a temporary file beside the old one, is flushed to the disk,
//! and takes the old one's place in one step, with its permissions. A file that is a link stays one.

mod recent;

pub use recent::Recent;

use crate::dance::{self, Dance, DanceError, limits};
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a file could not be opened or saved. Each says which file.
#[derive(Debug, Error)]
pub enum StoreError {
    /// The file could not be read.
    #[error("{}: cannot be opened: {}", path.display(), plain(source))]
    Open {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The file is not a dance that can be read.
    #[error("{}: {source}", path.display())]
    Dance {
        /// The file.
        path: PathBuf,
        /// What is wrong in it.
        source: DanceError,
    },
    /// The file could not be written.
    #[error("{}: cannot be saved: {}; nothing was changed", path.display(), plain(source))]
    Save {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

/// What the system said, in words where they help.
fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission was denied".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::NotADirectory => "part of the path is a file, not a folder".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        _ => error.to_string(),
    }
}

/// Opens a dance file.
///
/// # Errors
/// When it cannot be read or is not a dance; the error says which file, where in it and why.
pub fn open(path: &Path) -> Result<Dance, StoreError> {
    let failed = |source| StoreError::Open { path: path.to_owned(), source };
    let file = File::open(path).map_err(failed)?;
    let mut bytes = Vec::new();
    // One byte more than a dance file may have is enough to know that it has too many.
    file.take(limits::MOST_BYTES + 1).read_to_end(&mut bytes).map_err(failed)?;
    dance::read(&bytes).map_err(|source| StoreError::Dance { path: path.to_owned(), source })
}

/// Saves a dance to a file.
///
/// # Errors
/// When it cannot be written; what was there before is then still there.
pub fn save(path: &Path, dance: &Dance) -> Result<(), StoreError> {
    write_whole(path, dance::write(dance).as_bytes())
}

/// Writes a file whole or not at all.
///
/// # Errors
/// When it cannot be written; what was there before is then still there.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    let failed = |source| StoreError::Save { path: path.to_owned(), source };
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    if target.is_dir() {
        return Err(failed(io::ErrorKind::IsADirectory.into()));
    }
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut temporary =
        tempfile::Builder::new().prefix(".bellpad-").suffix(".part").tempfile_in(folder).map_err(failed)?;
    temporary.write_all(bytes).map_err(failed)?;
    if let Ok(before) = fs::metadata(&target) {
        if before.permissions().readonly() {
            return Err(failed(io::ErrorKind::PermissionDenied.into()));
        }
        temporary.as_file().set_permissions(before.permissions()).map_err(failed)?;
    }
    temporary.as_file().sync_all().map_err(failed)?;
    temporary.persist(&target).map_err(|error| failed(error.error))?;
    // The folder is flushed too, so that the new name lasts; a system that cannot do that loses nothing.
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Set;

    #[test]
    fn a_save_is_whole_and_keeps_links_and_permissions() {
        let folder = tempfile::tempdir().unwrap();
        let real = folder.path().join("real.dance.json");
        let dance = Dance::new("One", Set::longways(2, 2.4, 1.8));
        save(&real, &dance).unwrap();
        assert_eq!(open(&real).unwrap(), dance);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let link = folder.path().join("link.dance.json");
            std::os::unix::fs::symlink(&real, &link).unwrap();
            fs::set_permissions(&real, fs::Permissions::from_mode(0o600)).unwrap();
            let other = Dance::new("Two", Set::longways(4, 2.4, 1.8));
            save(&link, &other).unwrap();
            assert!(fs::symlink_metadata(&link).unwrap().file_type().is_symlink());
            assert_eq!(open(&real).unwrap(), other);
            assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o600);
        }
        let left: Vec<_> = fs::read_dir(folder.path())
            .unwrap()
            .filter_map(|entry| entry.unwrap().file_name().into_string().ok())
            .filter(|name| name.contains(".part"))
            .collect();
        assert!(left.is_empty(), "{left:?}");
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("none").join("x.dance.json");
        let said = save(&path, &Dance::new("One", Set::longways(2, 2.4, 1.8))).unwrap_err().to_string();
        assert!(said.contains("no such file or folder") && said.contains("x.dance.json"), "{said}");
        let said = open(&path).unwrap_err().to_string();
        assert!(said.contains("cannot be opened"), "{said}");
        let said =
            save(folder.path(), &Dance::new("One", Set::longways(2, 2.4, 1.8))).unwrap_err().to_string();
        assert!(said.contains("it is a folder"), "{said}");
    }
}
