//! What is told of the photographs under the floor, each thing once: all that is told at one go in one notice.

use super::photo_telling::{Telling, not_shown};
use super::{Desk, Question, photo_read::Lost};
use crate::dance::{Underlay, shown_name};
use crate::picture::NotTrue;

impl Desk {
    /// Tells that a photograph cannot be read, once.
    pub(super) fn tell_lost_photo(&mut self, index: usize, key: &str, lost: &Lost) {
        if !self.photos.told.insert(key.to_owned()) {
            return;
        }
        let name = self.photo_name(index);
        self.tell_of_photos(|telling| {
            if lost.is_gone {
                telling.gone.push(name);
                telling.why.clone_from(&lost.why);
            } else {
                telling.others.push(not_shown(&name, &lost.why));
            }
        });
    }

    /// Tells that the picture is another than the one that was set true, once.
    pub(super) fn tell_other_photo(&mut self, index: usize, key: &str) {
        if self.photos.told.insert(format!("{key} is another")) {
            let name = self.photo_name(index);
            self.tell_of_photos(|telling| {
                telling.others.push(format!(
                    "{name} is another picture than the one that was set true: look at its marks"
                ));
            });
        }
    }

    /// Tells why a photograph does not lie true, or no longer that it does not. Its dialog says so itself.
    pub(super) fn tell_untrue_photo(&mut self, index: usize, key: &str, fit: Option<NotTrue>, lies: bool) {
        let Some(why) = fit else {
            if self.photos.untrue.remove(key).is_some() && self.is_telling_of_photos() {
                self.notice = None;
            }
            return;
        };
        let is_known = self.photos.untrue.insert(key.to_owned(), why) == Some(why);
        let is_asked = matches!(self.asked.question(), Some(Question::Photo(asked)) if *asked == index);
        if !is_known && !is_asked {
            let name = self.photo_name(index);
            let how = if lies { "lies flat, and is not true" } else { "is not shown" };
            self.tell_of_photos(|telling| telling.others.push(format!("{name} {how}: {why}")));
        }
    }

    fn is_telling_of_photos(&self) -> bool {
        self.notice.is_some() && self.notice == self.photos.telling.said
    }

    /// Tells something more, beside what is still being told of them.
    fn tell_of_photos(&mut self, add: impl FnOnce(&mut Telling)) {
        if !self.is_telling_of_photos() {
            self.photos.telling = Telling::default();
        }
        let telling = &mut self.photos.telling;
        add(telling);
        telling.said = Some(telling.words());
        self.notice.clone_from(&telling.said);
    }

    fn photo_name(&self, index: usize) -> String {
        let name = self.now.dance().underlay.get(index).map(Underlay::name);
        shown_name(name.unwrap_or("a photograph"))
    }
}
