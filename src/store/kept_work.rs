use super::{
    Home, Stamp,
    stamp::{fingerprint, read_limited},
    stored_path::StoredPath,
};
use crate::dance::limits;
use serde::{Deserialize, Serialize};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, BufRead, Read};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// How the names of kept work, of its lock, and of what was torn end.
pub(super) const WORK: &str = "work";
pub(super) const LOCK: &str = "lock";
pub(super) const TORN: &str = "torn";

/// The version of the first line.
const VERSION: u32 = 1;

/// The most bytes that the first line may have.
const LONGEST_HEADER: u64 = 256 * 1024;

/// The first line of a file of kept work; the text of the dance follows it.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Header {
    /// The version of this line.
    bellpad_work: u32,
    /// The file of the dance, if it has one.
    #[serde(default)]
    pub path: Option<StoredPath>,
    /// What that file was like when it was opened or last saved.
    #[serde(default)]
    pub stamp: Option<Stamp>,
    /// When the work was kept.
    pub when: SystemTime,
    /// The process that kept it, for a person who looks; whether it lives is told by its lock.
    process: u32,
    /// The number of bytes of the dance, and their fingerprint.
    length: u64,
    content: u64,
}

/// What a file of kept work turned out to be.
pub(super) enum KeptFile {
    /// Whole: its first line and the text of the dance.
    Whole(Box<Header>, Vec<u8>),
    /// From another version of this program, and best left alone.
    Foreign,
    /// Not whole.
    Torn,
}

/// The bytes of a file of kept work.
pub(super) fn to_bytes(path: Option<&Path>, stamp: Option<Stamp>, dance: &str) -> io::Result<Vec<u8>> {
    let header = Header {
        bellpad_work: VERSION,
        path: path.map(|path| StoredPath(path.to_owned())),
        stamp,
        when: SystemTime::now(),
        process: std::process::id(),
        length: dance.len() as u64,
        content: fingerprint(dance.as_bytes()),
    };
    let mut bytes = serde_json::to_vec(&header)?;
    bytes.push(b'\n');
    bytes.extend_from_slice(dance.as_bytes());
    Ok(bytes)
}

/// Reads a file of kept work.
pub(super) fn from_file(path: &Path) -> io::Result<KeptFile> {
    #[derive(Deserialize)]
    struct Peek {
        bellpad_work: u32,
    }
    let mut reader = io::BufReader::new(File::open(path)?.take(LONGEST_HEADER + limits::MOST_BYTES + 1));
    let mut line = Vec::new();
    reader.by_ref().take(LONGEST_HEADER).read_until(b'\n', &mut line)?;
    match serde_json::from_slice::<Peek>(&line) {
        Ok(peek) if peek.bellpad_work > VERSION => return Ok(KeptFile::Foreign),
        Ok(_) => {}
        Err(_) => return Ok(KeptFile::Torn),
    }
    let Ok(header) = serde_json::from_slice::<Header>(&line) else { return Ok(KeptFile::Torn) };
    let mut dance = Vec::new();
    reader.read_to_end(&mut dance)?;
    let whole = (header.length, header.content) == (dance.len() as u64, fingerprint(&dance));
    Ok(if whole { KeptFile::Whole(Box::new(header), dance) } else { KeptFile::Torn })
}

/// A lock on some kept work, held as long as this lives.
#[derive(Debug)]
pub(super) struct Lock(File);

impl Drop for Lock {
    fn drop(&mut self) {
        // Closing the file alone would not do while a process that is just being started shares it.
        let _ = self.0.unlock();
    }
}

/// Takes the lock of some kept work, or gives nothing when another window holds it.
///
/// The system lets go of a lock when the program that holds it ends, however it ends. A disk that knows no locks
/// counts as letting it be taken: work is rather offered twice than lost.
pub(super) fn take_lock(path: &Path) -> io::Result<Option<Lock>> {
    let file = OpenOptions::new().create(true).truncate(false).write(true).open(path)?;
    match file.try_lock() {
        Err(TryLockError::WouldBlock) => Ok(None),
        Ok(()) | Err(TryLockError::Error(_)) => Ok(Some(Lock(file))),
    }
}

/// The file of some kept work that ends in this way.
pub(super) fn ending_in(name: &Path, ending: &str) -> PathBuf {
    let mut file = name.as_os_str().to_owned();
    file.push(".");
    file.push(ending);
    file.into()
}

/// Whether a file has just this content.
pub(super) fn has(path: &Path, bytes: &[u8]) -> bool {
    let file =
        fs::metadata(path).is_ok_and(|metadata| metadata.is_file() && metadata.len() == bytes.len() as u64);
    file && read_limited(path).is_ok_and(|(now, _)| now == bytes)
}

impl Home {
    /// The folder of kept work.
    pub(super) fn work_folder(&self) -> Option<PathBuf> {
        self.inside("autosave")
    }
}
