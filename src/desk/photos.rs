//! The photographs under the floor as they are seen: read and laid flat beside the window, anew only where one has changed.

use super::photo_read::{Answer, Read, Wanted, key_of, lay};
use super::{Desk, photo_telling::Telling, work::Work};
use crate::dance::{PhotoMark, Strength, Underlay};
use crate::picture::{Flat, FloorFit, MOST_PHOTO_BYTES, NotTrue, Photograph};
use crate::store::{path_from, read_at_most};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What is known of the photographs of the dance.
#[derive(Default)]
pub(super) struct Photos {
    /// Those that have been read, by what tells them apart.
    known: BTreeMap<String, Arc<Photograph>>,
    /// Where their files are.
    found: BTreeMap<String, PathBuf>,
    /// How each lies, by its place among those of the dance.
    laid: BTreeMap<usize, Laid>,
    /// Those that could not be read, with why.
    lost: BTreeMap<String, String>,
    /// What has been said of them: once is enough.
    pub(super) told: BTreeSet<String>,
    /// Why some do not lie true.
    pub(super) untrue: BTreeMap<String, NotTrue>,
    /// What is being told of them.
    pub(super) telling: Telling,
    work: Option<Work<Answer>>,
    /// The number of the next that is laid.
    next: u64,
}

/// How one lies.
struct Laid {
    key: String,
    marks: Vec<PhotoMark>,
    flat: Option<Arc<Flat>>,
    number: u64,
}

/// A photograph under the floor, to be shown.
pub struct PhotoUnder<'a> {
    /// Its place among those of the dance.
    pub index: usize,
    /// What the dance says of it.
    pub photo: &'a Underlay,
    /// It as seen from right above; nothing while it is not read, or cannot be.
    pub flat: Option<&'a Arc<Flat>>,
    /// Another number for each such picture.
    pub number: u64,
}

impl Desk {
    /// The photographs under the floor at the playhead, the lowest first, the hidden ones among them.
    #[must_use]
    pub fn photographs_here(&self) -> Vec<PhotoUnder<'_>> {
        let dance = self.now.dance();
        let figure = self.span_here().and_then(|span| dance.figures.get(span.figure));
        let figure = figure.map(|figure| figure.id.as_str());
        let here = dance.underlay.iter().enumerate().filter(|(_, photo)| photo.lies_under(figure));
        here.map(|(index, photo)| {
            let laid = self.photos.laid.get(&index).filter(|laid| laid.key == key_of(photo));
            PhotoUnder {
                index,
                photo,
                flat: laid.and_then(|laid| laid.flat.as_ref()),
                number: laid.map_or(0, |laid| laid.number),
            }
        })
        .collect()
    }

    /// A photograph of the dance as it was taken, by its place among them, once it is read.
    #[must_use]
    pub fn photograph(&self, index: usize) -> Option<&Arc<Photograph>> {
        self.photos.known.get(&key_of(self.now.dance().underlay.get(index)?))
    }

    /// Why a photograph of the dance cannot be shown, where it cannot.
    #[must_use]
    pub fn photograph_lost(&self, index: usize) -> Option<&str> {
        self.photos.lost.get(&key_of(self.now.dance().underlay.get(index)?)).map(String::as_str)
    }

    /// Where on the floor the pixels of a photograph belong, by its marks; or why they set nothing true.
    ///
    /// # Errors
    /// Why they do not.
    pub fn photograph_fit(&self, index: usize) -> Result<FloorFit, NotTrue> {
        let marks = self.now.dance().underlay.get(index).map(|photo| photo.marks.as_slice());
        FloorFit::of(marks.unwrap_or_default())
    }

    /// Takes what was read and laid flat, and begins with what is to be next.
    pub(super) fn hear_of_photos(&mut self) {
        self.hear_of_laying();
        let in_dance = |index: usize| self.now.dance().underlay.get(index);
        self.photos
            .laid
            .retain(|index, laid| in_dance(*index).is_some_and(|photo| key_of(photo) == laid.key));
        let keys: BTreeSet<String> = self.now.dance().underlay.iter().map(key_of).collect();
        self.photos.known.retain(|key, _| keys.contains(key));
        if let Some(work) = &self.photos.work {
            let Some(answer) = work.answer() else { return };
            self.photos.work = None;
            if let Ok(answer) = answer {
                self.take_laid(answer);
            }
        }
        while let Some(wanted) = self.wanted_photo() {
            if self.wake.is_there() {
                let work = move |step: crate::handout::OnProgress| Ok(lay(wanted, step));
                self.photos.work = Some(Work::begin("photograph", &self.wake, work));
                return;
            }
            self.take_laid(lay(wanted, &mut |_, _| true));
        }
    }

    /// The first that is seen and does not lie as its marks have it.
    fn wanted_photo(&self) -> Option<Wanted> {
        let dance = self.now.dance();
        let (index, photo) = dance.underlay.iter().enumerate().find(|(index, photo)| {
            let key = key_of(photo);
            let lies =
                self.photos.laid.get(index).is_some_and(|laid| laid.key == key && laid.marks == photo.marks);
            // A hidden one that is looked at in its dialog is wanted as well.
            let asked =
                matches!(self.asked.question(), Some(super::Question::Photo(asked)) if asked == index);
            (photo.strength != Strength::Hidden || asked) && !lies && !self.photos.lost.contains_key(&key)
        })?;
        let key = key_of(photo);
        let mut files = self.photo_path(photo).into_iter().collect::<Vec<_>>();
        files.extend(self.photos.found.get(&key).cloned());
        Some(Wanted { index, photo: photo.clone(), files, known: self.photos.known.get(&key).cloned() })
    }

    /// The file that a photograph says; nothing where it says none, or none can be meant.
    fn photo_path(&self, photo: &Underlay) -> Option<PathBuf> {
        let path = Some(Path::new(&photo.path)).filter(|path| !path.as_os_str().is_empty())?;
        let folder = self.path.as_deref().and_then(Path::parent);
        Some(folder.map_or_else(|| path.to_owned(), |folder| folder.join(path)))
    }

    fn take_laid(&mut self, answer: Answer) {
        let Answer { index, key, marks, read, fit, flat } = answer;
        match read {
            Ok(Read { photograph, file, is_other }) => {
                if is_other {
                    self.tell_other_photo(index, &key);
                }
                self.tell_untrue_photo(index, &key, fit, flat.is_some());
                self.photos.keep(key.clone(), photograph, file);
                self.photos.next += 1;
                let (flat, number) = (flat.map(Arc::new), self.photos.next);
                self.photos.laid.insert(index, Laid { key, marks, flat, number });
            }
            Err(lost) => {
                self.tell_lost_photo(index, &key, &lost);
                self.photos.lost.insert(key, lost.why);
            }
        }
    }

    /// Those that were not there are looked for again.
    pub(super) fn look_for_lost_photos(&mut self) {
        self.photos.lost.clear();
    }

    /// Has the dance tell its photographs from the folder that it is to be saved in.
    pub(super) fn tell_photos_from(&mut self, file: &Path) {
        let dance = self.now.dance();
        let told = |photo: &Underlay| {
            if !photo.inside.is_empty() {
                return None;
            }
            let found = self.photos.found.get(&key_of(photo)).cloned().or_else(|| self.photo_path(photo))?;
            path_from(file.parent(), &found).filter(|path| *path != photo.path)
        };
        let told: Vec<Option<String>> = dance.underlay.iter().map(told).collect();
        if told.iter().all(Option::is_none) {
            return;
        }
        let mut dance = dance.as_ref().clone();
        for (photo, path) in dance.underlay.iter_mut().zip(told) {
            photo.path = path.unwrap_or_else(|| std::mem::take(&mut photo.path));
        }
        // It was worked out before, with other paths of its pictures.
        if let Ok(compiled) = super::Compiled::read(Arc::new(dance), Some(&self.now)) {
            let asked = self.notice.take();
            self.have(Arc::new(compiled));
            self.notice = asked;
        }
    }

    /// The bytes of the file of a photograph, where it is there.
    pub(super) fn photo_bytes(&self, photo: &Underlay) -> Option<Vec<u8>> {
        let found = self.photos.found.get(&key_of(photo)).cloned().or_else(|| self.photo_path(photo))?;
        read_at_most(&found, MOST_PHOTO_BYTES).ok()
    }
}

impl Photos {
    /// Keeps a photograph that was read, and where its file is.
    pub(super) fn keep(&mut self, key: String, photograph: Arc<Photograph>, file: Option<PathBuf>) {
        self.lost.remove(&key);
        if let Some(file) = file {
            let whole = std::path::absolute(&file).unwrap_or(file);
            self.found.insert(key.clone(), whole);
        }
        self.known.insert(key, photograph);
    }
}
