use super::{
    Home, Stamp, StoreError,
    kept_work::{LOCK, Lock, WORK, ending_in, take_lock, to_bytes},
    open_and_save::text_of,
    whole::{could_write, folder_of, make_private, write_whole},
};
use crate::dance::Dance;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// Where there is no room for this much, bytes, it is told before there is work to keep: some two dances of the usual size.
const ROOM: usize = 32 * 1024;

/// Keeps the unsaved work of one window, so that it can be [recovered](Home::recover) when the program ends
/// without saving it.
///
/// While an `Autosave` lives, it holds a lock that the system lets go of when the program ends, however it ends;
/// until then its work is offered to no other window. Dropping it without [`clear`](Self::clear) leaves the work to
/// be recovered.
#[derive(Debug)]
pub struct Autosave {
    /// The folder of kept work; nothing where nothing is kept.
    folder: Option<PathBuf>,
    /// Nothing before it could be made.
    place: Option<WorkPlace>,
    path: Option<PathBuf>,
    stamp: Option<Stamp>,
}

/// Where the work is kept, and the lock held on it.
#[derive(Debug)]
struct WorkPlace {
    work: PathBuf,
    lock: PathBuf,
    /// Held, not read.
    _held: Lock,
}

impl Autosave {
    /// Begins to keep the work on a dance: `path` is its file and `stamp` what that was like when it was opened
    /// or last saved; nothing for a dance that has no file yet. Nothing is written before [`write`](Self::write).
    ///
    /// # Errors
    /// When no place can be made to keep it in.
    pub fn begin(home: &Home, path: Option<&Path>, stamp: Option<&Stamp>) -> Result<Self, StoreError> {
        let mut autosave = Self::waiting(home);
        autosave.set_file(path, stamp);
        autosave.settle()?;
        Ok(autosave)
    }

    /// One that has yet to [settle](Self::settle) in its place.
    pub(super) fn waiting(home: &Home) -> Self {
        Self { folder: home.work_folder(), place: None, path: None, stamp: None }
    }

    /// Makes a place to keep work in, unless there is one. A place whose lock somebody has cleared away is none.
    pub(super) fn settle(&mut self) -> Result<(), StoreError> {
        let settled = self.place.as_ref().is_some_and(|place| place.lock.exists());
        if let Some(folder) = self.folder.as_ref().filter(|_| !settled) {
            let place = WorkPlace::new(folder);
            let failed = |source| StoreError::Autosave { path: folder.clone(), source };
            self.place = Some(place.map_err(failed)?);
        }
        Ok(())
    }

    /// Looks whether work could be kept now: whether there is a place for it, and room.
    pub(super) fn look(&mut self) -> Result<(), StoreError> {
        self.settle()?;
        let Some(folder) = &self.folder else { return Ok(()) };
        make_private(folder)
            .and_then(|()| could_write(folder, ROOM))
            .map_err(|source| StoreError::Autosave { path: folder.clone(), source })
    }

    /// Says which file the work is on from now on, and what that is like.
    pub fn set_file(&mut self, path: Option<&Path>, stamp: Option<&Stamp>) {
        self.path = path.map(|path| std::path::absolute(path).unwrap_or_else(|_| path.to_owned()));
        self.stamp = stamp.copied();
    }

    /// Keeps the dance as it is now, whole or not at all, in place of what was kept before.
    ///
    /// # Errors
    /// When it cannot be written or could not be recovered; what was kept before then still is.
    pub fn write(&self, dance: &Dance) -> Result<(), StoreError> {
        let Some(place) = &self.place else { return self.without_place() };
        // Of a folder that cannot be written the same is said whatever was to be done in it.
        let failed = |source| StoreError::Autosave { path: folder_of(&place.work).to_owned(), source };
        let text = text_of(&place.work, dance)?;
        let bytes = to_bytes(self.path.as_deref(), self.stamp, &text).map_err(failed)?;
        // Someone may have cleared the folder away meanwhile.
        make_private(folder_of(&place.work)).map_err(failed)?;
        let written = write_whole(&place.work, &bytes);
        written.map_err(|error| match error {
            StoreError::Save { source, .. } | StoreError::SaveFolder { source, .. } => failed(source),
            other => other,
        })
    }

    /// Drops what was kept: the work is safe in a file, or was given up by the user.
    ///
    /// # Errors
    /// When it cannot be removed; it may be offered again.
    pub fn clear(&self) -> Result<(), StoreError> {
        let Some(place) = &self.place else { return Ok(()) };
        match fs::remove_file(&place.work) {
            Err(source) if source.kind() != io::ErrorKind::NotFound => {
                Err(StoreError::Autosave { path: place.work.clone(), source })
            }
            _ => Ok(()),
        }
    }

    /// What becomes of work without a place: nothing is lost where nothing is to be kept.
    fn without_place(&self) -> Result<(), StoreError> {
        match &self.folder {
            Some(folder) => {
                Err(StoreError::Autosave { path: folder.clone(), source: io::ErrorKind::NotFound.into() })
            }
            None => Ok(()),
        }
    }
}

impl WorkPlace {
    /// A place of its own in the folder of kept work, locked.
    fn new(folder: &Path) -> io::Result<Self> {
        make_private(folder)?;
        let time = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or(Duration::ZERO);
        for number in 0..1000 {
            let name = folder.join(format!("{}-{}-{number}", time.as_millis(), std::process::id()));
            let (work, lock) = (ending_in(&name, WORK), ending_in(&name, LOCK));
            match File::create_new(&lock) {
                Ok(_) => {}
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => continue,
                Err(error) => return Err(error),
            }
            // Who clears up holds the lock while it removes the file of it, so that a lock whose file is still
            // there once it is held stays.
            if let Some(held) = take_lock(&lock)?
                && lock.exists()
            {
                return Ok(Self { work, lock, _held: held });
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }
}

impl Drop for WorkPlace {
    fn drop(&mut self) {
        if !self.work.exists() {
            let _ = fs::remove_file(&self.lock);
        }
    }
}
