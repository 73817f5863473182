use crate::dance::{DanceError, is_unseen};
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a file could not be opened, saved or kept. Each is one sentence that says which file, what is wrong and,
/// where something can be done about it, what.
#[derive(Debug, Error)]
pub enum StoreError {
    /// The file could not be read.
    #[error("{}: cannot be opened: {}", shown(path), wrong(source))]
    Open {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The file is not a dance that can be read.
    #[error("{}: {source}", shown(path))]
    Dance { path: PathBuf, source: DanceError },
    /// The file could not be written.
    #[error("{}: cannot be saved: {}; nothing was changed; {}", shown(path), wrong(source), mend(source))]
    Save {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The folder of the file could not be written in.
    #[error(
        "{}: cannot be saved: {}; nothing was changed; {}",
        shown(path),
        wrong_folder(source),
        mend(source)
    )]
    SaveFolder {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// What is there was not put there by this program, or was changed since.
    #[error(
        "{}: is not this program's, or was changed since; nothing was written; move it away, or --force to write over it",
        shown(path)
    )]
    NotOurs { path: PathBuf },
    /// A file could not be taken away.
    #[error("{}: cannot be taken away: {}", shown(path), wrong(source))]
    Remove {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// What would be written could not be opened again.
    #[error(
        "{}: cannot be saved, for it could not be opened again: {source}; nothing was changed",
        shown(path)
    )]
    WouldNotOpen {
        path: PathBuf,
        /// What is wrong in the dance.
        source: DanceError,
    },
    /// Another program, window or person changed or removed the file since it was opened or last saved.
    #[error(
        "{}: was {} by another program since it was opened here; nothing was changed; save under another name to keep both",
        shown(path),
        if *gone { "removed or renamed" } else { "changed" }
    )]
    ChangedOutside {
        path: PathBuf,
        /// Whether it is no longer there.
        gone: bool,
    },
    /// The file was saved, but the version before it could not be kept as a backup.
    #[error("{}: was saved, but the version before could not be kept: {}", shown(path), wrong(source))]
    Backup {
        /// The file that was saved.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Work could not be kept among the versions of its file.
    #[error("{}: the work on it could not be kept among its versions: {}", shown(path), wrong(source))]
    Version {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Where a page was to be written there is something that is no page of an earlier run.
    #[error(
        "{}: is in the way: it is no page of an earlier run, or changed since; it was left as it is; use another name",
        shown(path)
    )]
    InTheWay {
        /// What is there.
        path: PathBuf,
    },
    /// A page of an earlier run that is no longer part of its set could not be taken away.
    #[error("{}: is a page of an earlier run and could not be taken away: {}", shown(path), wrong(source))]
    OldPage {
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Unsaved work could not be kept for the case that the program ends early.
    #[error("{}: unsaved work cannot be kept here: {}; save it in a file", shown(path), wrong(source))]
    Autosave {
        /// Where it would have been kept.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

/// A path in one line, whatever characters it has.
fn shown(path: &Path) -> String {
    let mut text = String::new();
    for letter in path.display().to_string().chars() {
        if letter.is_control() {
            text.extend(letter.escape_default());
        } else if is_unseen(letter) {
            text.push_str(&format!("(U+{:04X})", u32::from(letter)));
        } else {
            text.push(letter);
        }
    }
    text
}

/// What is wrong, in words where they help.
fn wrong(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission was denied".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::NotADirectory => "part of the path is a file, not a folder".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::QuotaExceeded => "your share of the disk is used up".to_owned(),
        io::ErrorKind::FileTooLarge => "it is too large".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        io::ErrorKind::InvalidFilename => "the disk does not take such a name".to_owned(),
        _ => error.to_string(),
    }
}

/// What is wrong when it was the folder that failed.
fn wrong_folder(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::PermissionDenied => "its folder is read-only for you".to_owned(),
        _ => wrong(error),
    }
}

/// What to do about it.
fn mend(error: &io::Error) -> &'static str {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => "make the folder first, or save elsewhere",
        io::ErrorKind::IsADirectory | io::ErrorKind::InvalidFilename => "choose another name",
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "make room, or save on another disk",
        io::ErrorKind::ReadOnlyFilesystem => "save on another disk",
        io::ErrorKind::FileTooLarge => "have the limit on the size of files raised, or save on another disk",
        _ => "save under another name or in another folder",
    }
}
