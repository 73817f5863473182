use super::{
    Home, StoreError, open,
    open_and_save::text_of,
    stamp::{fingerprint, read_limited},
    whole::{make_private, resolved, write_new},
};
use crate::dance::Dance;
use serde::Deserialize;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// How many versions of a file are kept.
pub const MOST_BACKUPS: usize = 10;

/// How the name of a backup ends, after its number.
const ENDING: &str = ".dance.json";

/// A number above this is not one that was given here.
const LARGEST_NUMBER: u64 = 1_000_000_000_000;

/// A version of a file from before a save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Backup {
    number: u64,
    path: PathBuf,
    when: SystemTime,
    title: Option<String>,
}

impl Backup {
    /// Its number: a later version has a larger one.
    #[must_use]
    pub fn number(&self) -> u64 {
        self.number
    }

    /// Where it is kept.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// When this version was saved.
    #[must_use]
    pub fn when(&self) -> SystemTime {
        self.when
    }

    /// The title of the dance, or nothing when the file was no dance.
    #[must_use]
    pub fn title(&self) -> Option<&str> {
        self.title.as_deref()
    }

    /// Opens this version.
    ///
    /// # Errors
    /// When it is no longer there or is not a dance.
    pub fn open(&self) -> Result<Dance, StoreError> {
        open(&self.path)
    }
}

impl Home {
    /// The versions of a file from before its last saves, the newest first.
    ///
    /// They are found by the full path of the file, with links followed, whether or not it is still there.
    #[must_use]
    pub fn backups(&self, path: &Path) -> Vec<Backup> {
        let Some(folder) = self.backup_folder(path) else { return Vec::new() };
        let kept = numbered(&folder).into_iter().rev();
        kept.filter_map(|(number, path)| {
            let (bytes, modified) = read_limited(&path).ok()?;
            let when = modified.unwrap_or(SystemTime::UNIX_EPOCH);
            Some(Backup { number, path, when, title: title_of(&bytes) })
        })
        .collect()
    }

    /// Keeps a dance among the versions of a file although it was never saved to it: work that gives way to what
    /// someone else has saved there.
    ///
    /// # Errors
    /// When it cannot be kept.
    pub fn keep_version(&self, path: &Path, dance: &Dance) -> Result<(), StoreError> {
        let text = text_of(path, dance)?;
        let kept = self.back_up(path, text.as_bytes(), None);
        kept.map_err(|source| StoreError::Version { path: path.to_owned(), source })?;
        self.drop_oldest(path);
        Ok(())
    }

    /// Keeps the bytes that a file has, and gives where.
    pub(super) fn back_up(
        &self,
        path: &Path,
        bytes: &[u8],
        modified: Option<SystemTime>,
    ) -> io::Result<Option<PathBuf>> {
        let Some(folder) = self.backup_folder(path) else { return Ok(None) };
        make_private(&folder)?;
        let next = numbered(&folder).last().map_or(1, |(number, _)| number + 1);
        // Another window may save the same file at this moment and take the number.
        let names = (next..next + 100).map(|number| folder.join(format!("{number:06}{ENDING}")));
        write_new(&folder, bytes, modified, names).map(Some)
    }

    /// Drops the oldest versions of a file where there are too many.
    pub(super) fn drop_oldest(&self, path: &Path) {
        let kept = self.backup_folder(path).map_or_else(Vec::new, |folder| numbered(&folder));
        let too_many = kept.len().saturating_sub(MOST_BACKUPS);
        for (_, path) in kept.iter().take(too_many) {
            // One that cannot be removed does no harm.
            let _ = fs::remove_file(path);
        }
    }

    /// Where the versions of a file are kept: named so that a person can find it, and by the whole path so that
    /// two files of one name stay apart.
    fn backup_folder(&self, path: &Path) -> Option<PathBuf> {
        let full =
            resolved(path).and_then(|path| std::path::absolute(&path)).unwrap_or_else(|_| path.to_owned());
        let key = fingerprint(full.as_os_str().as_encoded_bytes());
        let name: String = full
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .chars()
            .map(|letter| if letter.is_alphanumeric() || "-_.".contains(letter) { letter } else { '-' })
            .take(40)
            .collect();
        Some(self.inside("backups")?.join(format!("{key:016x}-{}", name.trim_end_matches('.'))))
    }
}

/// The numbered files of a folder, in order.
fn numbered(folder: &Path) -> Vec<(u64, PathBuf)> {
    let mut kept: Vec<_> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()))
        .filter_map(|entry| {
            let number = entry.file_name().to_str()?.strip_suffix(ENDING)?.parse().ok()?;
            (number <= LARGEST_NUMBER).then(|| (number, entry.path()))
        })
        .collect();
    kept.sort();
    kept
}

/// The title in the text of a dance.
fn title_of(bytes: &[u8]) -> Option<String> {
    #[derive(Deserialize)]
    struct Titled {
        title: String,
    }
    serde_json::from_slice(bytes).ok().map(|Titled { title }| title)
}
