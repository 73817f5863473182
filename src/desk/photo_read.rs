//! Reading a photograph of the dance and laying it flat, beside the window.

use crate::dance::{PhotoMark, Underlay, shown_text};
use crate::picture::{Flat, FloorFit, MOST_PHOTO_BYTES, NotTrue, Photograph, fingerprint_of};
use crate::store::{plain_path, read_at_most};
use base64::{Engine, engine::general_purpose::STANDARD};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// One to be read and laid flat.
pub(super) struct Wanted {
    pub(super) index: usize,
    pub(super) photo: Underlay,
    pub(super) files: Vec<PathBuf>,
    pub(super) known: Option<Arc<Photograph>>,
}

/// What came of it.
pub(super) struct Answer {
    pub(super) index: usize,
    pub(super) key: String,
    pub(super) marks: Vec<PhotoMark>,
    pub(super) read: Result<Read, Lost>,
    /// Why its marks do not set it true, where they do not.
    pub(super) fit: Option<NotTrue>,
    pub(super) flat: Option<Flat>,
}

/// A photograph that was read.
pub(super) struct Read {
    pub(super) photograph: Arc<Photograph>,
    pub(super) file: Option<PathBuf>,
    /// Whether it is no longer the picture that was set true.
    pub(super) is_other: bool,
}

/// One that could not be read.
pub(super) struct Lost {
    /// Why, in one line.
    pub(super) why: String,
    /// Whether its file is not there at all.
    pub(super) is_gone: bool,
}

impl Lost {
    fn because(why: String) -> Self {
        Self { why, is_gone: false }
    }
}

/// What tells a photograph from others.
pub(super) fn key_of(photo: &Underlay) -> String {
    if photo.fingerprint.is_empty() {
        format!("{} {}", photo.path, photo.inside.text().len())
    } else {
        photo.fingerprint.clone()
    }
}

/// Reads a photograph, where it is not known, and lays it flat.
pub(super) fn lay(wanted: Wanted, goes_on: crate::handout::OnProgress) -> Answer {
    let Wanted { index, photo, files, known } = wanted;
    let read = match known {
        Some(photograph) => Ok(Read { photograph, file: None, is_other: false }),
        None => read(&photo, &files),
    };
    let fit = FloorFit::of(&photo.marks);
    // Marks that set nothing true have it lie flat, to have something to go on from.
    let drawn = fit.ok().or_else(|| FloorFit::flat(&photo.marks));
    let flat =
        read.as_ref().ok().zip(drawn).and_then(|(read, fit)| Flat::lay(&read.photograph, &fit, goes_on));
    Answer { index, key: key_of(&photo), marks: photo.marks, read, fit: fit.err(), flat }
}

/// Why a file cannot be read, with where it is in one line.
pub(super) fn why_unread(file: &Path, error: &io::Error) -> Lost {
    let there = shown_text(&plain_path(file).to_string_lossy());
    match error.kind() {
        io::ErrorKind::NotFound => Lost { why: format!("it is not at {there} any more"), is_gone: true },
        _ if file.is_dir() => Lost::because(format!("{there} is a folder")),
        io::ErrorKind::InvalidInput => Lost::because(format!("{there} is no file")),
        io::ErrorKind::PermissionDenied => Lost::because(format!("{there} may not be read")),
        _ => Lost::because(format!("{there} cannot be read")),
    }
}

fn read(photo: &Underlay, files: &[PathBuf]) -> Result<Read, Lost> {
    let is_own = |bytes: &[u8]| photo.fingerprint.is_empty() || fingerprint_of(bytes) == photo.fingerprint;
    let taken = |name: &str, bytes: &[u8]| Photograph::read(name, bytes).map(Arc::new).map_err(Lost::because);
    if !photo.inside.is_empty() {
        let bytes = STANDARD
            .decode(photo.inside.text())
            .map_err(|_| Lost::because("what the dance has of it is damaged".to_owned()))?;
        // Inside, its name is no more than what it was called.
        return Ok(Read { photograph: taken("", &bytes)?, file: None, is_other: !is_own(&bytes) });
    }
    let (mut other, mut unread) = (None, None);
    for file in files {
        let bytes = match read_at_most(file, MOST_PHOTO_BYTES) {
            Ok(bytes) => bytes,
            Err(error) => {
                unread = unread.or_else(|| Some(why_unread(file, &error)));
                continue;
            }
        };
        if is_own(&bytes) {
            let photograph = taken(photo.name(), &bytes)?;
            return Ok(Read { photograph, file: Some(file.clone()), is_other: false });
        }
        other = other.or(Some((file.clone(), bytes)));
    }
    match (other, unread) {
        (Some((file, bytes)), _) => {
            let photograph = taken(photo.name(), &bytes)?;
            Ok(Read { photograph, file: Some(file), is_other: true })
        }
        (None, Some(lost)) => Err(lost),
        (None, None) => Err(Lost::because("the dance does not say where it is".to_owned())),
    }
}
