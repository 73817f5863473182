use super::{
    Desk,
    question::{PathQuestion, Question},
    still_of::StillOf,
};
use crate::picture::{Picture, SLATE, StillLook, Theme};
use std::path::Path;
use std::sync::Arc;

/// Stills: pictures of this moment.
impl Desk {
    /// What a still is to look like: as it was chosen last, or as the floor does now while nothing was ever chosen.
    #[must_use]
    pub fn still_look(&self) -> StillLook {
        let theme = if self.view.ink == SLATE { Theme::Slate } else { Theme::Paper };
        let as_seen = StillLook { trails: self.view.trails, theme, ..StillLook::default() };
        self.settings().still.unwrap_or(as_seen)
    }

    /// What a still would be made of now.
    #[must_use]
    pub fn still_made_of(&self) -> StillOf {
        StillOf::new(self.dance_to_keep(), Arc::clone(self.motion()), self.player.count)
    }

    /// The picture that a still made now would be.
    #[must_use]
    pub fn still_picture(&self) -> Picture {
        self.still_made_of().picture(self.still_look())
    }

    /// Asks how a still is to look.
    pub(super) fn ask_still(&mut self) {
        self.rest();
        self.asked.ask(Question::Still);
    }

    /// Remembers how stills are to look.
    pub(super) fn choose_still(&mut self, look: StillLook) {
        self.keep.remember(|settings| settings.still = Some(look.sane()));
    }

    /// Writes a still to a file at once.
    pub(super) fn write_still(&mut self, path: &Path) -> Result<(), String> {
        self.notice = Some(self.still_made_of().write(self.still_look(), path)?);
        Ok(())
    }

    /// Writes it to a path that answers a question: beside the window, since a large one takes a while.
    pub(super) fn write_still_answering(&mut self, path: &Path, question: PathQuestion) {
        if self.wake.is_there() {
            self.write_still_beside(path.to_owned(), question);
        } else if let Err(said) = self.write_still(path) {
            self.ask_again(question, said);
        }
    }
}
