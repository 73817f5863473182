use super::desk::Desk;
use crate::dance::{Dance, Figure, check_rules};
use crate::edits::keep_amounts;
use crate::faults::Faults;
use crate::figures::motion_of;
use crate::motion::Motion;
use std::cell::OnceCell;
use std::sync::Arc;

/// A state of the dance to go back or on to, and what was done between.
pub(super) struct Undone {
    name: String,
    dance: Arc<Dance>,
    count: f64,
    /// Where the playhead was on the other side of what was done.
    other: f64,
    chosen: Option<usize>,
    picked: Vec<usize>,
}

/// Changes to the dance, and going back on them.
impl Desk {
    /// What undo would undo.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// What redo would redo.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Puts a changed dance in place; gives whether its figures could be worked out.
    pub(super) fn put(&mut self, dance: Arc<Dance>) -> bool {
        // What could not be opened again is not made.
        match check_rules(&dance).and_then(|()| motion_of(&dance, Some(&self.motion))) {
            Ok(motion) => {
                self.faults = Faults::of(&dance, &motion);
                self.motion = Arc::new(motion);
                self.dance = dance;
                self.compare_anew();
                self.proposed = None;
                self.space = OnceCell::new();
                self.air = OnceCell::new();
                self.player.count = self.player.count.min(self.motion.counts());
                self.chosen = self.chosen.filter(|&index| index < self.motion.dancers());
                self.picked.retain(|&index| index < self.motion.dancers());
                let end = self.motion.counts();
                self.player.loop_counts = self
                    .player
                    .loop_counts
                    .map(|(from, to)| (from, to.min(end)))
                    .filter(|(from, to)| from < to);
                self.player.looping &= self.player.loop_counts.is_some();
                true
            }
            Err(error) => {
                self.notice = Some(error.to_string());
                false
            }
        }
    }

    /// A change in which every turn that is not itself changed keeps its amount.
    fn with_turns_kept(&self, dance: Dance) -> Dance {
        keep_amounts(&self.dance, &self.motion, dance, |dance| motion_of(dance, Some(&self.motion)).ok())
    }

    /// Makes a change that is one step to undo.
    pub(super) fn edit(&mut self, name: String, dance: Dance) {
        self.end_drag();
        let before = Arc::clone(&self.dance);
        let dance = self.with_turns_kept(dance);
        if *before != dance && self.put(Arc::new(dance)) {
            self.remember(name, before);
        }
    }

    /// Makes a change that is one step to undo and takes the playhead elsewhere: `go` gives where, from the motion it
    /// has made. Gives whether the change was made.
    pub(super) fn edit_and_go(
        &mut self,
        name: String,
        dance: Dance,
        go: impl FnOnce(&Motion) -> Option<f64>,
    ) -> bool {
        self.end_drag();
        let (before, count) = (Arc::clone(&self.dance), self.player.count);
        let dance = self.with_turns_kept(dance);
        if *before == dance || !self.put(Arc::new(dance)) {
            return false;
        }
        self.remember(name, before);
        if let Some(count) = go(&self.motion) {
            self.player.count = count.clamp(0.0, self.motion.counts());
        }
        if let Some(step) = self.past.last_mut() {
            (step.count, step.other) = (count, self.player.count);
        }
        true
    }

    /// Makes a change that joins the step before it if that was the same kind of change, so that a number dragged
    /// through many values is one step to undo.
    pub(super) fn edit_on(&mut self, name: String, dance: Dance) {
        self.end_drag();
        if let Some(before) = self.joined(&name) {
            let back = **before == dance;
            let dance = self.with_turns_kept(dance);
            if self.put(Arc::new(dance)) && back {
                // It is as it was before: there is nothing to undo.
                self.past.pop();
                self.joining = None;
                return;
            }
        } else {
            self.edit(name.clone(), dance);
        }
        self.joining = Some(name);
    }

    /// The dance from before the step that a change of this name would join; nothing where it would join none.
    pub(super) fn joined(&self, name: &str) -> Option<&Arc<Dance>> {
        let joins = self.joining.as_deref() == Some(name) && self.future.is_empty();
        self.past.last().filter(|step| joins && step.name == name).map(|step| &step.dance)
    }

    /// Changes something that a figure says.
    pub(super) fn change_figure(&mut self, index: usize, what: &str, change: impl FnOnce(&mut Figure)) {
        let mut dance = Dance::clone(&self.dance);
        if let Some(figure) = dance.figures.get_mut(index) {
            change(figure);
            let name = format!("change the {what} of {}", figure.name);
            self.edit_on(name, dance);
        }
    }

    /// A control has been let go: what comes next is another step.
    pub fn part_steps(&mut self) {
        self.joining = None;
    }

    pub(super) fn remember(&mut self, name: String, dance: Arc<Dance>) {
        let count = self.player.count;
        let (chosen, picked) = (self.chosen, self.picked.clone());
        self.past.push(Undone { name, dance, count, other: count, chosen, picked });
        self.future.clear();
        self.notice = None;
    }

    pub(super) fn undo(&mut self) {
        if self.drag.is_some() {
            self.cancel_drag();
            return;
        }
        if let Some(step) = self.past.pop() {
            let back = self.go_to(step);
            self.future.push(back);
        }
    }

    pub(super) fn redo(&mut self) {
        self.end_drag();
        if let Some(step) = self.future.pop() {
            let back = self.go_to(step);
            self.past.push(back);
        }
    }

    /// Goes to a remembered state and gives the one that was left.
    pub(super) fn go_to(&mut self, step: Undone) -> Undone {
        let left = Undone {
            name: step.name,
            dance: Arc::clone(&self.dance),
            count: step.other,
            other: step.count,
            chosen: step.chosen,
            picked: step.picked.clone(),
        };
        self.player.playing = false;
        self.put(step.dance);
        self.player.count = step.count.min(self.motion.counts());
        self.chosen = step.chosen;
        self.picked = step.picked;
        self.notice = None;
        left
    }
}
