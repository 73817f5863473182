use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// What a file is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// To have the dance in it on the desk.
    Open,
    /// To save the dance to it.
    SaveAs,
    /// To draw a still to it.
    Still,
    /// To write a handout to it, whose name can have these endings, the first one usually.
    Handout(&'static [&'static str]),
    /// To compare the dance with it.
    Compare,
    /// To have the tune in it.
    Tune,
    /// To lay the photograph in it under the floor.
    Photo,
}

impl Purpose {
    /// Whether the file is only read.
    #[must_use]
    pub fn reads(self) -> bool {
        matches!(self, Self::Open | Self::Compare | Self::Tune | Self::Photo)
    }

    /// A path as it is used for this: with the ending that such files have, where it has none of them.
    #[must_use]
    pub fn whole_path(self, path: &Path) -> PathBuf {
        let (endings, usual): (&[&str], &str) = match self {
            Self::Open | Self::Compare | Self::Tune | Self::Photo => return path.to_owned(),
            Self::SaveAs => (&["json"], "dance.json"),
            Self::Still => (&["png", "svg"], "png"),
            Self::Handout(endings) => (endings, endings.first().copied().unwrap_or_default()),
        };
        let name = path.as_os_str();
        if endings.iter().any(|ending| ends_with(name, ending)) {
            return path.to_owned();
        }
        let mut whole = name.to_owned();
        whole.push(".");
        whole.push(usual);
        whole.into()
    }
}

/// Whether a name ends with a dot and an ending, in any case.
fn ends_with(name: &OsStr, ending: &str) -> bool {
    let name = name.as_encoded_bytes();
    let (Some(dot), Some(end)) =
        (name.len().checked_sub(ending.len() + 1), name.len().checked_sub(ending.len()))
    else {
        return false;
    };
    name.get(dot) == Some(&b'.')
        && name.get(end..).is_some_and(|end| end.eq_ignore_ascii_case(ending.as_bytes()))
}
