use super::StoreError;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::{Duration, Instant, SystemTime};
use tempfile::NamedTempFile;

/// How the name of a temporary file begins and ends.
const TEMPORARY: [&str; 2] = [".bellpad-", ".part"];

/// No write takes as long as this: a temporary file this old was left by a program that was killed.
const LEFT_BEHIND: Duration = Duration::from_hours(1);

/// A folder is not looked through again for this long.
const SWEPT: Duration = Duration::from_mins(1);

/// How many links to links are followed.
const MOST_LINKS: u32 = 40;

/// Writes a file whole or not at all.
///
/// The bytes go to a temporary file in the same folder, are flushed to the disk, and take the old file's place in
/// one step, with its permissions. A path that is a link stays one, and what it points to is written. What is not
/// a file, such as a pipe, is simply written to.
///
/// # Errors
/// When it cannot be written; what was there before is then still there.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    WholeFile::flushed(path, bytes)?.take_its_place().map(|_| ())
}

/// A file that is written and flushed, and has yet to take its place.
pub(super) struct WholeFile {
    path: PathBuf,
    target: PathBuf,
    /// Nothing when the place is no file, and was written to already.
    temporary: Option<NamedTempFile>,
}

impl WholeFile {
    /// Writes the bytes beside where they will go.
    pub(super) fn flushed(path: &Path, bytes: &[u8]) -> Result<Self, StoreError> {
        let failed = |source| StoreError::Save { path: path.to_owned(), source };
        let folder_failed = |source| StoreError::SaveFolder { path: path.to_owned(), source };
        // This follows links.
        let before = fs::metadata(path).ok();
        if let Some(before) = &before {
            if before.is_dir() {
                return Err(failed(io::ErrorKind::IsADirectory.into()));
            }
            if !before.is_file() {
                write_straight(path, bytes).map_err(failed)?;
                return Ok(Self { path: path.to_owned(), target: path.to_owned(), temporary: None });
            }
        }
        let target = resolved(path).map_err(failed)?;
        if let Some(before) = &before {
            // A file that may not be written is not to be replaced either.
            if before.permissions().readonly() {
                return Err(failed(io::ErrorKind::PermissionDenied.into()));
            }
            OpenOptions::new().write(true).open(&target).map_err(failed)?;
        }
        let folder = folder_of(&target);
        sweep(folder);
        let mut temporary = temporary_in(folder, before.is_none()).map_err(folder_failed)?;
        temporary.write_all(bytes).map_err(failed)?;
        if let Some(before) = &before {
            keep_permissions(temporary.as_file(), before).map_err(failed)?;
        }
        temporary.as_file().sync_all().map_err(failed)?;
        Ok(Self { path: path.to_owned(), target, temporary: Some(temporary) })
    }

    /// The file that will be written, with all links followed.
    pub(super) fn target(&self) -> &Path {
        &self.target
    }

    /// Whether a file will be replaced or made, as against a pipe or the like that was written to.
    pub(super) fn is_file(&self) -> bool {
        self.temporary.is_some()
    }

    /// Takes the place of what is there, and gives the time of the file.
    pub(super) fn take_its_place(self) -> Result<Option<SystemTime>, StoreError> {
        let Some(temporary) = self.temporary else { return Ok(None) };
        let file = temporary
            .persist(&self.target)
            .map_err(|error| StoreError::Save { path: self.path, source: error.error })?;
        flush_folder(folder_of(&self.target));
        Ok(file.metadata().and_then(|metadata| metadata.modified()).ok())
    }
}

/// A temporary file in a folder; one that others may read as far as the user lets new files be read, or a private
/// one.
fn temporary_in(folder: &Path, readable: bool) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(TEMPORARY[0]).suffix(TEMPORARY[1]);
    #[cfg(unix)]
    if readable {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    #[cfg(not(unix))]
    let _ = readable;
    builder.tempfile_in(folder)
}

/// Whether a folder takes so many bytes more: they are written there, flushed, and taken away again.
pub(super) fn could_write(folder: &Path, bytes: usize) -> io::Result<()> {
    let mut temporary = temporary_in(folder, false)?;
    temporary.write_all(&vec![b' '; bytes])?;
    temporary.as_file().sync_all()
}

/// A private file with these bytes, flushed, that takes the first free name of those given; gives the name.
pub(super) fn write_new(
    folder: &Path,
    bytes: &[u8],
    modified: Option<SystemTime>,
    names: impl IntoIterator<Item = PathBuf>,
) -> io::Result<PathBuf> {
    sweep(folder);
    let mut temporary = temporary_in(folder, false)?;
    temporary.write_all(bytes)?;
    if let Some(modified) = modified {
        // Without it the file is only dated later.
        let _ = temporary.as_file().set_modified(modified);
    }
    temporary.as_file().sync_all()?;
    for name in names {
        match temporary.persist_noclobber(&name) {
            Ok(_) => {
                flush_folder(folder);
                return Ok(name);
            }
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => temporary = error.file,
            Err(error) => return Err(error.error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// Where writing to a path goes: links are followed, also one to a file that is not there yet.
pub(super) fn resolved(path: &Path) -> io::Result<PathBuf> {
    let mut at = path.to_owned();
    for _ in 0..MOST_LINKS {
        if let Ok(real) = fs::canonicalize(&at) {
            return Ok(real);
        }
        match fs::read_link(&at) {
            Ok(link) => at = folder_of(&at).join(link),
            Err(_) => {
                return Ok(match (fs::canonicalize(folder_of(&at)), at.file_name()) {
                    (Ok(folder), Some(name)) => folder.join(name),
                    _ => at,
                });
            }
        }
    }
    fs::canonicalize(&at)
}

/// The folder that a path is in.
pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Makes a folder that only this user can look into, and those above it.
pub(super) fn make_private(folder: &Path) -> io::Result<()> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    builder.create(folder)
}

/// Writes to a pipe or the like.
fn write_straight(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).open(path)?;
    file.write_all(bytes)?;
    file.flush()
}

/// Gives a file the owner, the group and the permissions of the one that it will replace.
#[cfg(unix)]
fn keep_permissions(file: &File, before: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, fchown};
    let now = file.metadata()?;
    let mut mode = before.mode() & 0o7777;
    if (now.uid(), now.gid()) != (before.uid(), before.gid())
        && fchown(file, Some(before.uid()), Some(before.gid())).is_err()
        && now.gid() != before.gid()
        && fchown(file, None, Some(before.gid())).is_err()
    {
        // What the old group might do, another group may do only if everyone may.
        mode = mode & !0o070 | (mode & 0o007) << 3;
    }
    file.set_permissions(fs::Permissions::from_mode(mode))
}

/// Gives a file the permissions of the one that it will replace.
#[cfg(not(unix))]
fn keep_permissions(file: &File, before: &Metadata) -> io::Result<()> {
    file.set_permissions(before.permissions())
}

/// Flushes a folder, so that a new name in it lasts; a system that cannot do that loses nothing.
#[cfg(unix)]
fn flush_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

/// Other systems flush names with the file.
#[cfg(not(unix))]
fn flush_folder(_: &Path) {}

/// Removes temporary files that were left in a folder when a program was killed while it wrote. A folder into which
/// many files are written is looked through once in a while, not for each.
fn sweep(folder: &Path) {
    static LAST: Mutex<Option<(PathBuf, Instant)>> = Mutex::new(None);
    if let Ok(mut last) = LAST.lock() {
        if last.as_ref().is_some_and(|(known, when)| known == folder && when.elapsed() < SWEPT) {
            return;
        }
        *last = Some((folder.to_owned(), Instant::now()));
    }
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let ours = name
            .to_str()
            .and_then(|name| name.strip_prefix(TEMPORARY[0])?.strip_suffix(TEMPORARY[1]))
            .is_some_and(|middle| middle.len() == 6 && middle.chars().all(|c| c.is_ascii_alphanumeric()));
        let old = || {
            let metadata = entry.metadata().ok().filter(Metadata::is_file)?;
            metadata.modified().ok()?.elapsed().ok()
        };
        if ours && old().is_some_and(|age| age > LEFT_BEHIND) {
            let _ = fs::remove_file(entry.path());
        }
    }
}
