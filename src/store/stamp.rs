use super::StoreError;
use crate::dance::{self, Dance, limits};
use serde::{Deserialize, Serialize};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::time::SystemTime;

/// What a file was like when it was opened or last saved.
///
/// Two stamps are of the same file when its content is the same: a file that was only touched, or written again
/// with the same text, has not changed.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
pub struct Stamp {
    length: u64,
    content: u64,
    #[serde(default)]
    modified: Option<SystemTime>,
}

impl Stamp {
    pub(super) fn of(bytes: &[u8], modified: Option<SystemTime>) -> Self {
        Self { length: bytes.len() as u64, content: fingerprint(bytes), modified }
    }

    /// How many bytes the file had.
    #[must_use]
    pub fn length(&self) -> u64 {
        self.length
    }

    /// When the file was last written, where the disk says.
    #[must_use]
    pub fn modified(&self) -> Option<SystemTime> {
        self.modified
    }

    /// What a file is like now; it is read only when its length or its time is not as it was. What is no file, such
    /// as a pipe, counts as it was.
    ///
    /// # Errors
    /// When it is no longer there or cannot be read.
    pub fn now(&self, path: &Path) -> io::Result<Self> {
        let metadata = std::fs::metadata(path)?;
        let modified = metadata.modified().ok();
        let untouched = metadata.len() == self.length && modified.is_some() && modified == self.modified;
        if untouched || !metadata.is_file() {
            return Ok(*self);
        }
        let (bytes, modified) = read_limited(path)?;
        Ok(Self::of(&bytes, modified))
    }
}

impl PartialEq for Stamp {
    fn eq(&self, other: &Self) -> bool {
        (self.length, self.content) == (other.length, other.content)
    }
}

impl Eq for Stamp {}

/// Opens a dance file, and says what it was like, for [`Home::save_checked`](super::Home::save_checked).
///
/// # Errors
/// When it cannot be read or is not a dance; the error says which file, where in it and why.
pub fn open_with_stamp(path: &Path) -> Result<(Dance, Stamp), StoreError> {
    let (bytes, modified) =
        read_limited(path).map_err(|source| StoreError::Open { path: path.to_owned(), source })?;
    let dance = dance::read(&bytes).map_err(|source| StoreError::Dance { path: path.to_owned(), source })?;
    Ok((dance, Stamp::of(&bytes, modified)))
}

/// The bytes of a file, though never more than one above what a dance file may have, and its time.
pub(super) fn read_limited(path: &Path) -> io::Result<(Vec<u8>, Option<SystemTime>)> {
    let file = File::open(path)?;
    let modified = file.metadata().and_then(|metadata| metadata.modified()).ok();
    let mut bytes = Vec::new();
    file.take(limits::MOST_BYTES + 1).read_to_end(&mut bytes)?;
    Ok((bytes, modified))
}

/// A number for some bytes that is the same on every machine and in every version: FNV-1a of 64 bits.
pub(super) fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, &byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The values for these texts that the makers of FNV give with it (G. Fowler, L. C. Noll, K.-P. Vo), from
    /// memory.
    #[test]
    fn a_fingerprint_is_the_published_hash() {
        assert_eq!(fingerprint(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fingerprint(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn what_a_file_is_like_now() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("one");
        std::fs::write(&path, "one").unwrap();
        let then = Stamp::of(b"one", std::fs::metadata(&path).unwrap().modified().ok());
        assert_eq!(then.now(&path).unwrap(), then);
        // As long as before, at another time: the content decides.
        let later = SystemTime::now() + std::time::Duration::from_secs(9);
        for (text, same) in [("two", false), ("one", true)] {
            std::fs::write(&path, text).unwrap();
            File::options().write(true).open(&path).unwrap().set_modified(later).unwrap();
            assert_eq!(then.now(&path).unwrap() == then, same);
        }
        std::fs::remove_file(&path).unwrap();
        assert_eq!(then.now(&path).unwrap_err().kind(), io::ErrorKind::NotFound);
    }

    #[test]
    fn content_decides() {
        let then = Stamp::of(b"one", Some(SystemTime::UNIX_EPOCH));
        assert_eq!(then, Stamp::of(b"one", Some(SystemTime::now())));
        assert_ne!(then, Stamp::of(b"two", Some(SystemTime::UNIX_EPOCH)));
    }
}
