//! Opening and saving dance files, and keeping work from being lost.
//!
//! A save is whole or not at all: the text goes to a temporary file beside the old one, is flushed to the disk,
//! and takes the old one's place in one step, with its permissions. A file that is a link stays one.
//!
//! A window opens a file with [`open_with_stamp`] and saves it with [`Home::save_checked`], which refuses to save
//! over what someone else changed meanwhile, and keeps the last ten versions as [backups](Home::backups). After
//! each change it hands the dance to an [`AutosaveThread`], and when it starts it asks [`Home::recover`] for work
//! that was left.
//!
//! ```
//! use bellpad::dance::{Dance, Set};
//! use bellpad::store::{AutosaveThread, Home, StoreError, open_with_stamp};
//! use std::sync::Arc;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! # let folder = tempfile::tempdir()?;
//! # let path = folder.path().join("small.dance.json");
//! # let state = folder.path().join("state");
//! // The window uses `Home::of_user()`.
//! let home = Home::at(&state);
//! let autosave = AutosaveThread::begin(&home, None, None)?;
//!
//! // The first save of a dance, as the user chose the place.
//! let mut dance = Dance::new("Small dance", Set::longways(4, 2.4, 1.8));
//! let saved = home.save_checked(&path, &dance, None)?;
//! autosave.now_on(Some(&path), Some(&saved.stamp))?;
//!
//! // A change; it is kept within a second, here by closing without a save.
//! dance.title = "Small dance, with bells".to_owned();
//! autosave.hand(Arc::new(dance.clone()));
//! drop(autosave);
//!
//! // The next time the program starts.
//! for work in home.recover() {
//!     assert_eq!(work.dance, dance);
//!     // The window takes the dance on, keeps it anew with its own autosave, and then:
//!     work.discard()?;
//! }
//!
//! // A save that goes on from what was opened, and its backup.
//! let (opened, stamp) = open_with_stamp(&path)?;
//! assert_eq!(opened.title, "Small dance");
//! let saved = home.save_checked(&path, &dance, Some(&stamp))?;
//! assert!(saved.warning.is_none());
//! assert_eq!(home.backups(&path)[0].open()?, opened);
//!
//! // Someone else writes the file: the window is to ask, and may then save with `None`.
//! std::fs::write(&path, "changed")?;
//! let refused = home.save_checked(&path, &dance, Some(&saved.stamp));
//! assert!(matches!(refused, Err(StoreError::ChangedOutside { gone: false, .. })));
//! # Ok(())
//! # }
//! ```

mod autosave;
mod autosave_thread;
mod backups;
mod error;
mod file_limit;
mod home;
mod kept_work;
mod numbered;
mod page_mark;
mod page_set;
mod recent;
mod recovered;
mod save_checked;
mod settings;
mod stamp;
mod stored_path;
mod whole;
mod window_size;

pub use autosave::Autosave;
pub use autosave_thread::AutosaveThread;
pub use backups::{Backup, MOST_BACKUPS};
pub use error::StoreError;
pub use file_limit::outlive_file_limit;
pub use home::Home;
pub use numbered::numbered;
pub use page_set::{Over, PageSet, PagesOf};
pub use recent::Recent;
pub use recovered::{FileSince, Recovered};
pub use save_checked::Saved;
pub use settings::Settings;
pub use stamp::{Stamp, open_with_stamp};
pub use stored_path::units_of_untold;
pub use whole::write_whole;
pub use window_size::{OpenedAt, WindowSize};

use crate::dance::{self, Dance};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Opens a dance file.
///
/// # Errors
/// When it cannot be read or is not a dance; the error says which file, where in it and why.
pub fn open(path: &Path) -> Result<Dance, StoreError> {
    open_with_stamp(path).map(|(dance, _)| dance)
}

/// Saves a dance to a file, without a backup and whatever is there.
///
/// # Errors
/// When it cannot be written or could not be opened again; what was there before is then still there.
pub fn save(path: &Path, dance: &Dance) -> Result<(), StoreError> {
    write_whole(path, text_of(path, dance)?.as_bytes())
}

/// The text of a dance for a file, which can be opened again.
fn text_of(path: &Path, dance: &Dance) -> Result<String, StoreError> {
    let text = dance::write(dance);
    match dance::read(text.as_bytes()) {
        Ok(_) => Ok(text),
        Err(source) => Err(StoreError::WouldNotOpen { path: path.to_owned(), source }),
    }
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
        assert!(
            said.contains("no such file or folder")
                && said.contains("make the folder first")
                && said.contains("x.dance.json"),
            "{said}"
        );
        let said = open(&path).unwrap_err().to_string();
        assert!(said.contains("cannot be opened"), "{said}");
        let said =
            save(folder.path(), &Dance::new("One", Set::longways(2, 2.4, 1.8))).unwrap_err().to_string();
        assert!(said.contains("it is a folder"), "{said}");
    }
}
