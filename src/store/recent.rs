use super::{Home, stored_path, write_whole};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// How many files are remembered.
const MOST: usize = 12;

/// The files opened or saved last, the newest first, remembered from one sitting to the next.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Recent {
    /// The newest first.
    #[serde(with = "stored_path::list")]
    pub files: Vec<PathBuf>,
    /// Where the list itself is kept; nothing to keep it only for this sitting.
    #[serde(skip)]
    home: Option<PathBuf>,
}

impl Recent {
    /// The list kept in this user's state folder; empty where there is none or it cannot be read.
    #[must_use]
    pub fn of_user() -> Self {
        let home = Home::of_user().inside("recent.json");
        home.map_or_else(Self::default, |home| Self::kept_in(&home))
    }

    /// The list kept in a file.
    #[must_use]
    pub fn kept_in(home: &Path) -> Self {
        let known: Self = std::fs::read(home)
            .ok()
            .and_then(|bytes| serde_json::from_slice(&bytes).ok())
            .unwrap_or_default();
        Self { home: Some(home.to_owned()), ..known }
    }

    /// Remembers a file that was only looked at beside the one at the top, which stays there.
    pub fn add_beside(&mut self, path: &Path) {
        let first = self.files.first().cloned();
        self.add(path);
        if let Some(first) = first {
            self.add(&first);
        }
    }

    /// Puts a file at the top and remembers the list. A list that cannot be kept is not worth stopping for.
    pub fn add(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.files.retain(|known| *known != path);
        self.files.insert(0, path);
        self.files.truncate(MOST);
        if let Some(home) = &self.home
            && let Ok(text) = serde_json::to_string_pretty(self)
        {
            let made = home.parent().map_or(Ok(()), std::fs::create_dir_all);
            if made.is_ok() {
                let _ = write_whole(home, text.as_bytes());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_is_first_and_the_list_lasts() {
        let folder = tempfile::tempdir().unwrap();
        let home = folder.path().join("state").join("recent.json");
        let mut recent = Recent::kept_in(&home);
        for name in ["a", "b", "a"] {
            recent.add(&folder.path().join(name));
        }
        let again = Recent::kept_in(&home);
        assert_eq!(again.files, [folder.path().join("a"), folder.path().join("b")]);
        std::fs::write(&home, "not json").unwrap();
        assert!(Recent::kept_in(&home).files.is_empty());
    }
}
