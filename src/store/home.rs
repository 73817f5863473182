use std::path::{Path, PathBuf};

/// The folder where this program keeps what is not the user's own file: the files opened before, backups, and
/// unsaved work.
///
/// A home that is nowhere keeps nothing, and nothing fails for it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Home {
    folder: Option<PathBuf>,
}

impl Home {
    /// This user's state folder: `XDG_STATE_HOME` where it is set, or what the system has for that. It is nowhere
    /// when the user has no home folder.
    #[must_use]
    pub fn of_user() -> Self {
        let folders = directories::ProjectDirs::from("", "", "bellpad");
        Self {
            folder: folders
                .map(|folders| folders.state_dir().unwrap_or_else(|| folders.data_local_dir()).to_owned()),
        }
    }

    /// A folder of one's own choice; it need not be there yet.
    #[must_use]
    pub fn at(folder: &Path) -> Self {
        Self { folder: Some(folder.to_owned()) }
    }

    /// A home that keeps nothing.
    #[must_use]
    pub fn nowhere() -> Self {
        Self::default()
    }

    /// Whether nothing is kept.
    #[must_use]
    pub fn is_nowhere(&self) -> bool {
        self.folder.is_none()
    }

    /// A file or folder in it.
    pub(super) fn inside(&self, name: &str) -> Option<PathBuf> {
        self.folder.as_ref().map(|folder| folder.join(name))
    }
}
