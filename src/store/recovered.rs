use super::{
    Home, Stamp,
    kept_work::{KeptFile, LOCK, Lock, TORN, WORK, ending_in, from_file, has, take_lock},
    stamp::read_limited,
};
use crate::dance::{self, Dance};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Work that was not saved when the program ended.
///
/// It is offered to nobody else as long as this lives. Dropping it leaves the work to be offered again;
/// [`discard`](Self::discard) removes it. A window that takes it on should
/// [keep it anew](super::Autosave::write) before it discards this.
#[derive(Debug)]
pub struct Recovered {
    /// The dance as it was kept last.
    pub dance: Dance,
    /// The file it was opened from or saved to; nothing when it had none.
    pub path: Option<PathBuf>,
    /// What that file was like then, for [`Home::save_checked`].
    pub stamp: Option<Stamp>,
    /// When it was kept.
    pub when: SystemTime,
    work: PathBuf,
    lock: PathBuf,
    /// Held, not read.
    _held: Lock,
}

/// What became of the file that recovered work belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileSince {
    /// The dance had no file.
    None,
    /// It is as it was: the recovered work is newer.
    Same,
    /// It was changed since.
    Changed,
    /// It is no longer there, or cannot be read.
    Gone,
}

impl Recovered {
    /// What became of the file since the work was kept.
    #[must_use]
    pub fn file_since(&self) -> FileSince {
        let Some(path) = &self.path else { return FileSince::None };
        if !fs::metadata(path).is_ok_and(|metadata| metadata.is_file()) {
            return FileSince::Gone;
        }
        match read_limited(path) {
            Ok((bytes, modified)) if self.stamp == Some(Stamp::of(&bytes, modified)) => FileSince::Same,
            Ok(_) => FileSince::Changed,
            Err(_) => FileSince::Gone,
        }
    }

    /// Removes the work: it was taken on and kept anew, or the user does not want it.
    ///
    /// # Errors
    /// When it cannot be removed; it will be offered again.
    pub fn discard(self) -> Result<(), super::StoreError> {
        remove(&self.work, &self.lock)
            .map_err(|source| super::StoreError::Autosave { path: self.work, source })
    }
}

impl Home {
    /// The work of windows that ended without saving it or giving it up, the newest first.
    ///
    /// What a living window keeps is not offered, and what a file already has just so is cleared away. A file that
    /// is not whole is renamed to end in `.torn` and left for a person to look at; one from a later version of
    /// this program is left alone.
    #[must_use]
    pub fn recover(&self) -> Vec<Recovered> {
        let Some(folder) = self.work_folder() else { return Vec::new() };
        let mut found: Vec<_> = names(&folder).iter().filter_map(|name| recover_one(name)).collect();
        found.sort_by(|one, other| (other.when, &other.work).cmp(&(one.when, &one.work)));
        found
    }
}

/// The paths of kept work and of locks, each once and without its ending, in order.
fn names(folder: &Path) -> Vec<PathBuf> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()))
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == WORK || ending == LOCK))
        .map(|path| path.with_extension(""))
        .collect();
    names.sort();
    names.dedup();
    names
}

/// The work of one window, if that is gone.
fn recover_one(name: &Path) -> Option<Recovered> {
    let (work, lock) = (ending_in(name, WORK), ending_in(name, LOCK));
    let held = take_lock(&lock).ok()??;
    if !fs::symlink_metadata(&work).is_ok_and(|metadata| metadata.is_file()) {
        // A window that kept nothing, or one whose work was taken on a moment ago.
        let _ = fs::remove_file(&lock);
        return None;
    }
    match from_file(&work).ok()? {
        KeptFile::Foreign => None,
        KeptFile::Torn => {
            let _ = fs::rename(&work, ending_in(name, TORN));
            let _ = fs::remove_file(&lock);
            None
        }
        KeptFile::Whole(header, text) => {
            let path = header.path.map(|path| path.0);
            if path.as_deref().is_some_and(|path| has(path, &text)) {
                let _ = remove(&work, &lock);
                return None;
            }
            let dance = dance::read(&text).ok()?;
            Some(Recovered { dance, path, stamp: header.stamp, when: header.when, work, lock, _held: held })
        }
    }
}

/// Removes work, and then its lock, which is held.
fn remove(work: &Path, lock: &Path) -> io::Result<()> {
    match fs::remove_file(work) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    let _ = fs::remove_file(lock);
    Ok(())
}
