//! Laying another photograph under the floor: it is read beside the window, and is a step to undo once it is there.

use super::photo_read::{key_of, why_unread};
use super::{Desk, ask::Pasted, file_words::file_words, question::PathQuestion, work::Work};
use crate::dance::{Dance, Extra, Inside, PhotoMark, Strength, Underlay, limits, rounded};
use crate::picture::{MOST_PHOTO_BYTES, Photograph, fingerprint_of};
use crate::store::{path_from, read_at_most};
use base64::{Engine, engine::general_purpose::STANDARD};
use image::RgbaImage;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A photograph that is being read, to be laid under the floor.
pub(super) struct Laying {
    work: Work<New>,
    /// What it is called.
    name: String,
    /// The question that its path answered.
    question: Option<PathQuestion>,
}

/// One that has been read.
pub(super) struct New {
    photograph: Arc<Photograph>,
    fingerprint: String,
    /// Its file, or else what is kept inside the dance.
    file: Option<PathBuf>,
    inside: Inside,
}

impl Desk {
    /// Lays a file under the floor, which may answer a question.
    pub(super) fn lay_file(&mut self, path: &Path, question: Option<PathQuestion>) {
        let (path, name) = (path.to_owned(), file_words(path));
        // Where it cannot be used, what was typed is there to be put right.
        let question = question.map(|question| PathQuestion { path: path.clone(), ..question });
        self.lay(name, question, move || read_file(&path));
    }

    /// Lays what was copied elsewhere under the floor.
    pub(super) fn lay_pasted(&mut self, pasted: Pasted) {
        self.lay(PASTED.to_owned(), None, move || read_pasted(&pasted));
    }

    fn lay(
        &mut self,
        name: String,
        question: Option<PathQuestion>,
        read: impl FnOnce() -> Result<New, String> + Send + 'static,
    ) {
        self.rest();
        let all = 0..self.now.dance().underlay.len();
        // One that is not there any more may be found again.
        if all.len() >= limits::MOST_PHOTOGRAPHS
            && !all.into_iter().any(|own| self.photograph_lost(own).is_some())
        {
            return self.lay_failed(&name, question, &too_many());
        }
        if !self.wake.is_there() {
            return match read() {
                Ok(new) => self.put_under(&name, new),
                Err(said) => self.lay_failed(&name, question, &said),
            };
        }
        self.notice = Some(format!("reading {name}"));
        // One before it that is still being read is given up.
        let work = Work::begin("photograph", &self.wake, move |_| read());
        self.laying = Some(Laying { work, name, question });
    }

    /// Takes the photograph that was read, once it is.
    pub(super) fn hear_of_laying(&mut self) {
        let Some(answer) = self.laying.as_ref().and_then(|laying| laying.work.answer()) else {
            return;
        };
        let Some(Laying { name, question, .. }) = self.laying.take() else { return };
        if self.notice.as_ref().is_some_and(|notice| *notice == format!("reading {name}")) {
            self.notice = None;
        }
        match answer {
            Ok(new) => self.put_under(&name, new),
            Err(said) => self.lay_failed(&name, question, &said),
        }
    }

    fn lay_failed(&mut self, name: &str, question: Option<PathQuestion>, said: &str) {
        let said = format!("{name}: {said}");
        match question {
            Some(question) => self.ask_again(question, said),
            None => {
                self.tell_trouble(Err(said));
            }
        }
    }

    fn put_under(&mut self, name: &str, new: New) {
        let folder = self.path.as_deref().and_then(Path::parent);
        let path = match &new.file {
            Some(file) => path_from(folder, file),
            None => Some(name.to_owned()),
        };
        let Some(path) = path else {
            return self.lay_failed(name, None, "its path is no text that a dance can hold: rename it first");
        };
        if new.file.is_some() && self.find_again(name, &path, &new) {
            return;
        }
        if self.now.dance().underlay.len() >= limits::MOST_PHOTOGRAPHS {
            return self.lay_failed(name, None, &too_many());
        }
        let marks = self.first_marks(new.photograph.size.map(f64::from));
        let photo = Underlay {
            path,
            inside: new.inside,
            fingerprint: new.fingerprint.clone(),
            marks,
            strength: Strength::default(),
            locked: false,
            figure: None,
            extra: Extra::new(),
        };
        self.photos.keep(new.fingerprint, new.photograph, new.file);
        let mut dance = self.now.dance().as_ref().clone();
        dance.underlay.push(photo);
        let index = dance.underlay.len() - 1;
        self.edit(format!("lay {name} under the floor"), dance);
        if self.now.dance().underlay.len() == index + 1 {
            self.show_photo(index);
        }
    }

    /// Where those that are not there any more are of the file that was read, has them lie there as they lay.
    fn find_again(&mut self, name: &str, path: &str, new: &New) -> bool {
        let dance = self.now.dance();
        let is_it = |(index, own): &(usize, &Underlay)| {
            let same = if own.fingerprint.is_empty() {
                own.name() == name
            } else {
                own.fingerprint == new.fingerprint
            };
            same && own.inside.is_empty() && self.photograph_lost(*index).is_some()
        };
        let found: Vec<usize> =
            dance.underlay.iter().enumerate().filter(is_it).map(|(index, _)| index).collect();
        if found.is_empty() {
            return false;
        }
        let mut dance = Dance::clone(dance);
        for index in found {
            let Some(own) = dance.underlay.get_mut(index) else { continue };
            path.clone_into(&mut own.path);
            own.fingerprint.clone_from(&new.fingerprint);
            self.photos.keep(key_of(own), Arc::clone(&new.photograph), new.file.clone());
        }
        self.edit(format!("find {name} again"), dance);
        self.notice = Some(format!("{name} lies where it lay, by its own marks"));
        true
    }

    /// Four marks near the corners of a picture of so many pixels, which lay it flat and whole under the set.
    pub(super) fn first_marks(&self, [wide, high]: [f64; 2]) -> Vec<PhotoMark> {
        let ground = self.now.motion().ground();
        let (mut x, mut y) = (1.0_f64, 1.0_f64);
        for stand in &ground.stands {
            (x, y) = (x.max(stand.x.abs()), y.max(stand.y.abs()));
        }
        // With a metre round the set.
        let scale = ((2.0 * x + 2.0) / wide).max((2.0 * y + 2.0) / high);
        [[0.2, 0.2], [0.8, 0.2], [0.8, 0.8], [0.2, 0.8]]
            .map(|[right, down]| {
                let place = [(right - 0.5) * wide * scale, (0.5 - down) * high * scale];
                PhotoMark::new(
                    [right * wide, down * high].map(f64::round),
                    place.map(|metres| rounded(metres, 1000.0)),
                )
            })
            .to_vec()
    }
}

/// What a picture is called that was copied elsewhere.
const PASTED: &str = "pasted picture";

fn too_many() -> String {
    format!("a dance has at most {} photographs: take one away first", limits::MOST_PHOTOGRAPHS)
}

fn read_file(path: &Path) -> Result<New, String> {
    let bytes = read_at_most(path, MOST_PHOTO_BYTES).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        _ => why_unread(path, &error).why,
    })?;
    let photograph = Photograph::read(&file_words(path), &bytes)?;
    Ok(New {
        photograph: Arc::new(photograph),
        fingerprint: fingerprint_of(&bytes),
        file: Some(path.to_owned()),
        inside: Inside::default(),
    })
}

fn read_pasted(pasted: &Pasted) -> Result<New, String> {
    let [wide, high] = pasted.size;
    let pixels = RgbaImage::from_raw(wide, high, pasted.rgba.as_ref().clone())
        .filter(|_| wide >= 8 && high >= 8)
        .ok_or_else(|| "there is too little of it to see anything by".to_owned())?;
    let (bytes, _) = Photograph::of_pixels(pixels).as_small_file(limits::MOST_INSIDE)?;
    let photograph = Photograph::read("", &bytes)?;
    Ok(New {
        photograph: Arc::new(photograph),
        fingerprint: fingerprint_of(&bytes),
        file: None,
        inside: Inside::new(STANDARD.encode(&bytes)),
    })
}
