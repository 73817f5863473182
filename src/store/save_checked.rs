use super::{Home, Stamp, StoreError, open_and_save::text_of, stamp::read_limited, whole::WholeFile};
use crate::dance::{Dance, limits};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// How often a file that keeps changing while it is saved over is backed up again.
const MOST_ROUNDS: u32 = 5;

/// What came of a save.
#[derive(Debug)]
pub struct Saved {
    /// What the file is like now, for the next save.
    pub stamp: Stamp,
    /// What did not go well although the file was saved: the version before it could not be kept.
    pub warning: Option<StoreError>,
}

/// What a file is before it is written.
enum Before {
    Nothing,
    File(Vec<u8>, Option<SystemTime>),
    Unknown(io::Error),
}

impl Before {
    fn of(path: &Path) -> Self {
        match read_limited(path) {
            Ok((bytes, _)) if bytes.len() as u64 > limits::MOST_BYTES => {
                Self::Unknown(io::ErrorKind::FileTooLarge.into())
            }
            Ok((bytes, modified)) => Self::File(bytes, modified),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Self::Nothing,
            Err(error) => Self::Unknown(error),
        }
    }

    fn is_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::File(one, _), Self::File(other, _)) => one == other,
            (Self::Nothing, Self::Nothing) | (Self::Unknown(_), Self::Unknown(_)) => true,
            _ => false,
        }
    }

    /// Refuses what is not as it was when it was opened or last saved.
    fn check(&self, path: &Path, expected: Option<&Stamp>) -> Result<(), StoreError> {
        let Some(expected) = expected else { return Ok(()) };
        let changed = |gone| Err(StoreError::ChangedOutside { path: path.to_owned(), gone });
        match self {
            Self::Nothing => changed(true),
            Self::File(bytes, modified) if Stamp::of(bytes, *modified) == *expected => Ok(()),
            Self::Unknown(error) if error.kind() != io::ErrorKind::FileTooLarge => {
                Err(StoreError::Save { path: path.to_owned(), source: again(error) })
            }
            _ => changed(false),
        }
    }
}

impl Home {
    /// Saves a dance whole or not at all, and keeps the version before it.
    ///
    /// With the stamp from opening or last saving the file, a save over what someone else changed or removed
    /// meanwhile is refused. Without one it goes ahead; what it replaces is kept as a backup either way.
    ///
    /// # Errors
    /// [`StoreError::ChangedOutside`] when the file is not as the stamp says, and others when the file cannot be
    /// written; what was there before is then still there.
    pub fn save_checked(
        &self,
        path: &Path,
        dance: &Dance,
        expected: Option<&Stamp>,
    ) -> Result<Saved, StoreError> {
        let text = text_of(path, dance)?;
        let bytes = text.as_bytes();
        let whole = WholeFile::flushed(path, bytes)?;
        if !whole.is_file() {
            return Ok(Saved { stamp: Stamp::of(bytes, whole.take_its_place()?), warning: None });
        }
        let mut before = Before::of(whole.target());
        let mut kept = Vec::new();
        let mut warning = None;
        for _ in 0..MOST_ROUNDS {
            if let Err(error) = before.check(path, expected) {
                remove(&kept);
                return Err(error);
            }
            match self.keep(whole.target(), &before, bytes) {
                Ok(backup) => kept.extend(backup),
                Err(source) => warning = Some(StoreError::Backup { path: path.to_owned(), source }),
            }
            // The last look before the file is replaced: keeping the old version takes a while.
            let now = Before::of(whole.target());
            let same = now.is_same(&before);
            before = now;
            if same {
                break;
            }
        }
        let target = whole.target().to_owned();
        match whole.take_its_place() {
            Ok(modified) => {
                self.drop_oldest(&target);
                Ok(Saved { stamp: Stamp::of(bytes, modified), warning })
            }
            Err(error) => {
                remove(&kept);
                Err(error)
            }
        }
    }

    /// Keeps what is there before a save, unless the save would leave it as it is.
    fn keep(&self, target: &Path, before: &Before, bytes: &[u8]) -> io::Result<Option<PathBuf>> {
        match before {
            Before::File(old, modified) if old != bytes => self.back_up(target, old, *modified),
            Before::Unknown(error) if !self.is_nowhere() => Err(again(error)),
            _ => Ok(None),
        }
    }
}

/// Removes backups of what was not replaced after all.
fn remove(kept: &[PathBuf]) {
    for backup in kept {
        let _ = fs::remove_file(backup);
    }
}

/// The same error once more; the system's own cannot be copied.
fn again(error: &io::Error) -> io::Error {
    error.raw_os_error().map_or_else(|| error.kind().into(), io::Error::from_raw_os_error)
}
