use super::{Stamp, StoreError, write_whole};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The files that this program put into a user's own folders, so that they can be taken away again.
///
/// A list beside them says what each was like. What was changed since, or was there before, is the user's: it is neither
/// written over nor taken away.
#[derive(Clone, Debug)]
pub struct Installed {
    folder: PathBuf,
}

/// What came of taking files away.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakenAway {
    /// How many are gone.
    pub gone: usize,
    /// Those that were left, for they were changed since.
    pub left: Vec<PathBuf>,
}

/// Where the list is, from the folder.
const LIST: &str = "bellpad/installed.json";

impl Installed {
    /// The user's own folder for what programs share, such as `~/.local/share`; nothing when the user has no home folder.
    #[must_use]
    pub fn of_user() -> Option<Self> {
        Some(Self::at(directories::BaseDirs::new()?.data_dir()))
    }

    /// A folder of one's own choice; it need not be there yet.
    #[must_use]
    pub fn at(folder: &Path) -> Self {
        Self { folder: folder.to_owned() }
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Writes files, each by its path from the folder, and takes away those of an earlier time that are none of these. With
    /// `force` it writes over what is in the way.
    ///
    /// # Errors
    /// When one is in the way that this program did not put there or that was changed since; then nothing is written. When
    /// one cannot be written.
    pub fn install(&self, files: &[(String, Vec<u8>)], force: bool) -> Result<(), StoreError> {
        let mut list = self.list();
        let in_the_way = |name: &String, bytes: &[u8]| {
            let there = fs::read(self.folder.join(name));
            let ours = |there: &[u8]| there == bytes || list.get(name) == Some(&Stamp::of(there, None));
            there.is_ok_and(|there| !ours(&there))
        };
        if !force && let Some((name, _)) = files.iter().find(|(name, bytes)| in_the_way(name, bytes)) {
            return Err(StoreError::NotOurs { path: self.folder.join(name) });
        }
        let old: Vec<String> =
            list.keys().filter(|name| files.iter().all(|(new, _)| new != *name)).cloned().collect();
        for name in old {
            self.take_away(&name, &mut list)?;
        }
        for (name, bytes) in files {
            let path = self.folder.join(name);
            make_folder_of(&path)?;
            write_whole(&path, bytes)?;
            list.insert(name.clone(), Stamp::of(bytes, None));
        }
        self.keep(&list)
    }

    /// Takes away all that was installed and is as it was.
    ///
    /// # Errors
    /// When one cannot be taken away.
    pub fn remove(&self) -> Result<TakenAway, StoreError> {
        let mut list = self.list();
        let mut taken = TakenAway::default();
        for name in list.keys().cloned().collect::<Vec<_>>() {
            match self.take_away(&name, &mut list)? {
                true => taken.gone += 1,
                false if self.folder.join(&name).exists() => taken.left.push(self.folder.join(&name)),
                false => {}
            }
        }
        let path = self.folder.join(LIST);
        // Nothing of this program's is left, so neither is the list.
        let _ = fs::remove_file(&path);
        remove_empty(&self.folder, &path);
        Ok(taken)
    }

    /// Takes one away where it is as it was written, and its folders where nothing else is in them.
    fn take_away(&self, name: &str, list: &mut BTreeMap<String, Stamp>) -> Result<bool, StoreError> {
        let path = self.folder.join(name);
        let stamp = list.remove(name);
        let as_it_was = fs::read(&path).is_ok_and(|there| Some(Stamp::of(&there, None)) == stamp);
        if as_it_was {
            fs::remove_file(&path).map_err(|source| StoreError::Remove { path: path.clone(), source })?;
            remove_empty(&self.folder, &path);
        }
        Ok(as_it_was)
    }

    /// What was installed; nothing when no list can be read. A name that leads out of the folder is none of this program's.
    fn list(&self) -> BTreeMap<String, Stamp> {
        let text = fs::read(self.folder.join(LIST)).unwrap_or_default();
        let mut list: BTreeMap<String, Stamp> = serde_json::from_slice(&text).unwrap_or_default();
        list.retain(|name, _| {
            Path::new(name).components().all(|part| matches!(part, std::path::Component::Normal(_)))
        });
        list
    }

    fn keep(&self, list: &BTreeMap<String, Stamp>) -> Result<(), StoreError> {
        let path = self.folder.join(LIST);
        make_folder_of(&path)?;
        let text = serde_json::to_vec_pretty(list)
            .map_err(|error| StoreError::Save { path: path.clone(), source: error.into() })?;
        write_whole(&path, &text)
    }
}

fn make_folder_of(path: &Path) -> Result<(), StoreError> {
    let folder = path.parent().unwrap_or(path);
    fs::create_dir_all(folder).map_err(|source| StoreError::SaveFolder { path: path.to_owned(), source })
}

/// Takes away the folders of a path up to one that stays, as far as they are empty.
fn remove_empty(stays: &Path, path: &Path) {
    for folder in path.ancestors().skip(1).take_while(|folder| *folder != stays) {
        if fs::remove_dir(folder).is_err() {
            return;
        }
    }
}
