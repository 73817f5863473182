//! A path as it is kept in a JSON file, whatever characters it has: text where it is text, and otherwise the
//! numbers that the system has for it.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// A path, kept without loss.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct StoredPath(pub(super) PathBuf);

#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Form {
    Text(String),
    Units(Vec<u16>),
}

impl Serialize for StoredPath {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let form =
            self.0.to_str().map_or_else(|| Form::Units(units(&self.0)), |text| Form::Text(text.to_owned()));
        form.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for StoredPath {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Self(match Form::deserialize(deserializer)? {
            Form::Text(text) => text.into(),
            Form::Units(units) => of_units(&units).into(),
        }))
    }
}

/// What a path is made of where it is not text, and so cannot be told as text without loss: bytes, or on Windows units
/// of sixteen bits. Nothing where it is text.
#[must_use]
pub fn units_of_untold(path: &Path) -> Option<Vec<u16>> {
    path.to_str().is_none().then(|| units(path))
}

/// The bytes of a path.
#[cfg(unix)]
fn units(path: &Path) -> Vec<u16> {
    use std::os::unix::ffi::OsStrExt;
    path.as_os_str().as_bytes().iter().copied().map(u16::from).collect()
}

#[cfg(unix)]
fn of_units(units: &[u16]) -> OsString {
    use std::os::unix::ffi::OsStringExt;
    OsString::from_vec(units.iter().map(|&unit| unit as u8).collect())
}

/// The sixteen-bit units of a path.
#[cfg(windows)]
fn units(path: &Path) -> Vec<u16> {
    use std::os::windows::ffi::OsStrExt;
    path.as_os_str().encode_wide().collect()
}

#[cfg(windows)]
fn of_units(units: &[u16]) -> OsString {
    use std::os::windows::ffi::OsStringExt;
    OsString::from_wide(units)
}

/// A list of paths.
pub(super) mod list {
    use super::StoredPath;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};
    use std::path::PathBuf;

    pub(in super::super) fn serialize<S: Serializer>(
        paths: &[PathBuf],
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        paths.iter().cloned().map(StoredPath).collect::<Vec<_>>().serialize(serializer)
    }

    pub(in super::super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Vec<PathBuf>, D::Error> {
        Ok(Vec::<StoredPath>::deserialize(deserializer)?.into_iter().map(|stored| stored.0).collect())
    }
}
