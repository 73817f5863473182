//! What is told of a tune: what is odd in it, and what is neither played nor drawn.

use super::{MOST_TOLD, Reader};
use crate::dance::{TuneRemark, shown_name};

impl Reader {
    /// Tells something odd of the line, once.
    pub(super) fn tell(&mut self, said: impl Into<String>) {
        self.add(said.into(), true);
    }

    /// Tells something of the line that is in order, once.
    pub(super) fn note_that(&mut self, said: impl Into<String>) {
        self.add(said.into(), false);
    }

    fn add(&mut self, said: String, is_odd: bool) {
        let remark = TuneRemark { line: self.line.max(1), said, is_odd };
        let alike = self.told.iter().filter(|other| other.is_odd == is_odd).count();
        if alike < MOST_TOLD && !self.told.contains(&remark) {
            self.told.push(remark);
        }
    }

    /// Keeps what a line has that is neither played nor drawn.
    pub(super) fn leave(&mut self, what: &str) {
        if !self.left.iter().any(|known| known == what) && self.left.len() < MOST_TOLD {
            self.left.push(what.to_owned());
        }
    }

    /// Tells what the line has that is neither played nor drawn.
    pub(super) fn tell_left(&mut self) {
        let left = std::mem::take(&mut self.left);
        let listed = match left.as_slice() {
            [] => return,
            [only] => only.clone(),
            [some @ .., last] => format!("{} and {last}", some.join(", ")),
        };
        self.note_that(format!("not played or drawn: {listed}"));
    }

    /// Another voice begins (7): the first is read, and of each other it is told once that it is not.
    pub(super) fn change_voice(&mut self, value: &str) {
        let name = value.split_whitespace().next().unwrap_or_default();
        if self.voice.is_none() {
            // What has stood before is a voice without a name.
            self.voice = Some(if self.has_sounded() { String::new() } else { name.to_owned() });
        }
        self.is_first_voice = self.voice.as_deref() == Some(name);
        if !self.is_first_voice && !self.other_voices.iter().any(|known| known == name) {
            if self.other_voices.len() < MOST_TOLD {
                self.other_voices.push(name.to_owned());
            }
            let name = shown_name(name);
            self.note_that(format!("the voice {name} is left out: one voice is played and drawn, the first"));
        }
    }
}
