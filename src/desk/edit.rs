use super::{
    Desk,
    compiled::Compiled,
    history::{State, UndoStep},
    refused::refused_words,
};
use crate::dance::{Dance, Figure, shown_name};
use crate::edits::{Kept, keep_amounts, keep_in_bars};
use crate::figures::motion_after;
use crate::motion::Motion;
use std::sync::Arc;

/// Changes to the dance, and going back on them.
impl Desk {
    /// What undo would undo.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.history.undo_name()
    }

    /// What redo would redo.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.history.redo_name()
    }

    /// Works a changed dance out and puts it in place; gives whether its figures could be worked out.
    pub(super) fn put_in_place(&mut self, Kept { dance, motion }: Kept) -> bool {
        // What could not be opened again is not made.
        let dance = Arc::new(dance);
        let compiled = match motion {
            Some(motion) => Compiled::made(Arc::clone(&dance), motion, &self.now),
            None => Compiled::of(Arc::clone(&dance), Some(&self.now)),
        };
        match compiled {
            Ok(compiled) => {
                self.have(Arc::new(compiled));
                true
            }
            Err(error) => {
                self.notice = Some(refused_words(&error, &dance));
                false
            }
        }
    }

    /// Has a dance that is worked out in place of the one before. What points into the dance follows.
    pub(super) fn have(&mut self, compiled: Arc<Compiled>) {
        self.keep_in_bar(compiled.motion());
        self.now = compiled;
        self.look_for_faults();
        self.compare_anew();
        (self.proposed, self.seeking, self.listening) = (None, None, None);
        let (dancers, end) = (self.now.motion().dancers(), self.now.motion().counts());
        self.player.count = self.player.count.min(end);
        self.chosen = self.chosen.filter(|dancer| dancer.index() < dancers);
        self.picked.retain(|dancer| dancer.index() < dancers);
        self.player.loop_counts =
            self.player.loop_counts.map(|(from, to)| (from, to.min(end))).filter(|(from, to)| from < to);
        self.player.looping &= self.player.loop_counts.is_some();
    }

    /// Takes the playhead and the loop along to where their bars are where these have other counts.
    fn keep_in_bar(&mut self, motion: &Motion) {
        let (old, new) = (self.now.motion().bar_counts().clone(), motion.bar_counts());
        if old.bars() != new.bars() || old.counts() == new.counts() {
            return;
        }
        let at = |count: f64| {
            let (bar, inside) = old.at(count);
            new.begin_of(bar) + inside * f64::from(new.in_bar(bar)) / f64::from(old.in_bar(bar))
        };
        self.player.count = at(self.player.count);
        self.player.loop_counts = self.player.loop_counts.map(|(from, to)| (at(from), at(to)));
    }

    /// A change in which everything that is not itself changed stays where it is in its bars, and every turn keeps its amount; and
    /// what is to be said of it.
    fn with_the_rest_kept(&self, dance: Dance) -> (Kept, Option<String>) {
        Self::kept_from(dance, (self.now.dance(), self.now.motion()))
    }

    /// The same, after a dance and its motion.
    fn kept_from(mut dance: Dance, (now, motion): (&Dance, &Motion)) -> (Kept, Option<String>) {
        let given_up = keep_in_bars(&mut dance, (now, motion));
        let names: Vec<String> = given_up
            .iter()
            .filter_map(|index| dance.figures.get(*index))
            .map(|figure| shown_name(&figure.name))
            .collect();
        let said = (!names.is_empty()).then(|| {
            format!(
                "The stepping written for {} does not fill its bars now: the figure's own is danced. Undo brings it back",
                names.join(", ")
            )
        });
        (keep_amounts(now, motion, dance, |dance| motion_after(dance, (now, motion)).ok()), said)
    }

    /// Makes a change that is one step to undo.
    pub(super) fn edit(&mut self, name: String, dance: Dance) {
        self.edit_and_go(name, dance, |_| None);
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
        let (before, count) = (Arc::clone(&self.now), self.player.count);
        let (kept, said) = self.with_the_rest_kept(dance);
        if **before.dance() == kept.dance || !self.put_in_place(kept) {
            return false;
        }
        self.remember(name, before);
        self.notice = said;
        if let Some(to) = go(self.now.motion()) {
            self.player.count = to.clamp(0.0, self.now.motion().counts());
            if let Some(step) = self.history.last_mut() {
                (step.count, step.other) = (count, self.player.count);
            }
        }
        true
    }

    /// Makes a change that joins the step before it if that was the same kind of change, so that a number dragged
    /// through many values is one step to undo.
    pub(super) fn edit_on(&mut self, name: String, dance: Dance) {
        self.end_drag();
        let from = (Arc::clone(self.now.dance()), Arc::clone(self.now.motion()));
        self.edit_on_from(name, dance, (&from.0, &from.1));
    }

    /// The same for a change that was made of the dance as it was before the step that it joins, where it joins one.
    pub(super) fn edit_on_from(&mut self, name: String, dance: Dance, from: (&Dance, &Motion)) {
        if let Some(before) = self.history.joined(&name) {
            let back = **before == dance;
            let (kept, said) = Self::kept_from(dance, from);
            if self.put_in_place(kept) {
                self.notice = said;
                if back {
                    // It is as it was before: there is nothing to undo.
                    self.history.forget_last();
                    return;
                }
            }
        } else {
            self.edit(name.clone(), dance);
        }
        self.history.join(name);
    }

    /// Changes something that a figure says.
    pub(super) fn change_figure(&mut self, index: usize, what: &str, change: impl FnOnce(&mut Figure)) {
        let mut dance = Dance::clone(self.now.dance());
        if let Some(figure) = dance.figures.get_mut(index) {
            change(figure);
            let name = format!("change the {what} of {}", figure.name);
            self.edit_on(name, dance);
        }
    }

    /// Keeps what there was before something that was done, to go back to.
    pub(super) fn remember(&mut self, name: String, before: Arc<Compiled>) {
        let count = self.player.count;
        let (chosen, picked) = (self.chosen, self.picked.clone());
        let state = State::Compiled(before);
        let bytes = state.bytes(&self.now);
        self.history.add(UndoStep { name, state, count, other: count, chosen, picked, bytes });
        self.notice = None;
    }

    pub(super) fn undo(&mut self) {
        if self.drag.is_some() {
            self.cancel_drag();
            return;
        }
        if let Some(step) = self.history.take_back() {
            let before = self.go_to(step);
            self.history.gone_back(before);
        }
    }

    pub(super) fn redo(&mut self) {
        self.end_drag();
        if let Some(step) = self.history.take_on() {
            let before = self.go_to(step);
            self.history.gone_on(before);
        }
    }

    /// Goes to a remembered state and gives the one that it was in before.
    fn go_to(&mut self, step: UndoStep) -> UndoStep {
        let mut before = UndoStep {
            name: step.name,
            state: State::Compiled(Arc::clone(&self.now)),
            bytes: (0, 0),
            count: step.other,
            other: step.count,
            chosen: step.chosen,
            picked: step.picked.clone(),
        };
        self.player.playing = false;
        match step.state {
            State::Compiled(compiled) => self.have(compiled),
            State::Dance(dance) => {
                // It was in place before, so that it can be worked out.
                if let Ok(compiled) = Compiled::read(dance, Some(&self.now)) {
                    self.have(Arc::new(compiled));
                }
            }
        }
        self.player.count = step.count.min(self.now.motion().counts());
        self.chosen = step.chosen;
        self.picked = step.picked;
        self.notice = None;
        before.bytes = before.state.bytes(&self.now);
        before
    }
}
