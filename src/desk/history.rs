use super::compiled::Compiled;
use crate::dance::{Dance, Dancer};
use std::collections::VecDeque;
use std::sync::Arc;

/// The dances to go back and on to.
pub(super) struct History {
    /// The last is the next to go back to.
    past: VecDeque<UndoStep>,
    /// The last is the next to go on to.
    future: Vec<UndoStep>,
    /// The most that is held for it, bytes.
    most: usize,
    /// The kind of change that the next of its kind joins, while one control is being used.
    joining: Option<String>,
}

/// The most that is held to go back and on, bytes. Once there is more, what follows from the oldest dances goes first:
/// it can be worked out again. Then the oldest go.
const MOST: usize = 24 << 20;

/// What follows from so many of the last dances goes last.
const READY: usize = 20;

/// So many of the last dances stay, whatever they hold.
const KEPT: usize = 200;

impl Default for History {
    fn default() -> Self {
        Self { past: VecDeque::new(), future: Vec::new(), most: MOST, joining: None }
    }
}

/// A state of the dance to go back or on to, and what was done between.
pub(super) struct UndoStep {
    pub name: String,
    pub state: State,
    pub count: f64,
    /// Where the playhead was on the other side of what was done.
    pub other: f64,
    pub chosen: Option<Dancer>,
    pub picked: Vec<Dancer>,
    /// What the dance alone holds, and all that follows from it that the dance after it does not share, bytes.
    pub bytes: (usize, usize),
}

/// A dance that is kept: with all that follows from it, or alone where there is no room for that.
#[derive(Clone)]
pub(super) enum State {
    Compiled(Arc<Compiled>),
    Dance(Arc<Dance>),
}

impl State {
    /// What it holds: the dance, and what follows from it and does not follow from `beside`, bytes.
    pub fn bytes(&self, beside: &Compiled) -> (usize, usize) {
        let more = match self {
            Self::Compiled(compiled) => {
                compiled.motion().bytes_beside(Some(beside.motion()))
                    + compiled.heard_bytes_beside(beside)
                    + compiled.gait_bytes()
            }
            Self::Dance(_) => 0,
        };
        (self.dance().bytes(), more)
    }

    pub fn dance(&self) -> &Arc<Dance> {
        match self {
            Self::Compiled(compiled) => compiled.dance(),
            Self::Dance(dance) => dance,
        }
    }
}

/// Drops what follows from the dances of some steps until no more than `most` bytes are held.
fn drop_compiled<'a>(steps: impl Iterator<Item = &'a mut UndoStep>, held: &mut usize, most: usize) {
    for step in steps {
        if *held <= most {
            return;
        }
        step.state = State::Dance(Arc::clone(step.state.dance()));
        *held -= std::mem::take(&mut step.bytes.1);
    }
}

impl History {
    /// What undo would undo.
    pub fn undo_name(&self) -> Option<&str> {
        self.past.back().map(|step| step.name.as_str())
    }

    /// What redo would redo.
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Keeps what there was before something was done; there is nothing to go on to any more.
    pub fn add(&mut self, step: UndoStep) {
        self.past.push_back(step);
        self.future.clear();
        self.make_room();
    }

    /// Drops what is held beyond the bound, the oldest first.
    fn make_room(&mut self) {
        let all = || self.past.iter().chain(&self.future);
        let mut held: usize = all().map(|step| step.bytes.0 + step.bytes.1).sum();
        // What follows from the last few is what somebody goes back to.
        let ready = self.past.len().saturating_sub(READY);
        drop_compiled(self.past.iter_mut().take(ready), &mut held, self.most);
        while held > self.most && self.past.len() > KEPT {
            held -= self.past.pop_front().map_or(0, |step| step.bytes.0 + step.bytes.1);
        }
        drop_compiled(self.past.iter_mut(), &mut held, self.most);
    }

    /// The last thing that was done, to put right what is kept of it.
    pub fn last_mut(&mut self) -> Option<&mut UndoStep> {
        self.past.back_mut()
    }

    /// Forgets the last thing that was done: it came to nothing.
    pub fn forget_last(&mut self) {
        self.past.pop_back();
        self.joining = None;
    }

    /// Takes the last step to go back.
    pub fn take_back(&mut self) -> Option<UndoStep> {
        self.past.pop_back()
    }

    /// Takes the next step to go on.
    pub fn take_on(&mut self) -> Option<UndoStep> {
        self.future.pop()
    }

    /// Puts a step that was gone back where going on finds it.
    pub fn gone_back(&mut self, step: UndoStep) {
        self.future.push(step);
    }

    /// Puts a step that was gone on where going back finds it.
    pub fn gone_on(&mut self, step: UndoStep) {
        self.past.push_back(step);
    }

    /// The dance from before the step that a change of this name would join; nothing where it would join none.
    pub fn joined(&self, name: &str) -> Option<&Arc<Dance>> {
        let joins = self.joining.as_deref() == Some(name) && self.future.is_empty();
        self.past.back().filter(|step| joins && step.name == name).map(|step| step.state.dance())
    }

    /// Further changes of this name are one step with the last.
    pub fn join(&mut self, name: String) {
        self.joining = Some(name);
    }

    /// A control has been let go: what comes next is another step.
    pub fn part_steps(&mut self) {
        self.joining = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Leg, Part, Set};

    /// A dance in which number 1 goes a little farther with each.
    fn compiled(index: usize, before: Option<&Compiled>) -> Arc<Compiled> {
        let mut dance = Dance::new("Long", Set::longways(6, 2.4, 1.8));
        let mut figure = Figure::drawn("go", "Go", 8);
        let mut part = Part::still(1);
        part.legs.push(Leg::straight(0.0, 8.0, -1.2, 2.0 + index as f64 / 1000.0));
        figure.parts.push(part);
        dance.figures.push(figure);
        Arc::new(Compiled::read(Arc::new(dance), before).unwrap())
    }

    fn step(index: usize, compiled: &Arc<Compiled>, after: &Compiled) -> UndoStep {
        let state = State::Compiled(Arc::clone(compiled));
        let bytes = state.bytes(after);
        UndoStep {
            name: index.to_string(),
            state,
            count: 0.0,
            other: 0.0,
            chosen: None,
            picked: Vec::new(),
            bytes,
        }
    }

    fn held(history: &History) -> usize {
        history.past.iter().map(|step| step.bytes.0 + step.bytes.1).sum()
    }

    #[test]
    fn what_follows_from_the_oldest_dances_goes_first_and_the_last_two_hundred_stay() {
        let mut now = compiled(0, None);
        let one = step(0, &now, &compiled(1, Some(&now))).bytes;
        assert!(one.0 > 500 && one.1 > 2 * one.0, "{one:?}");
        // Room for 300 dances, and for what follows from some 50.
        let mut history = History { most: 300 * one.0 + 50 * one.1, ..History::default() };
        for index in 0..1000 {
            let after = compiled(index + 1, Some(&now));
            history.add(step(index, &now, &after));
            now = after;
            assert!(held(&history) <= history.most, "{index}: {} bytes", held(&history));
        }
        let whole = |step: &UndoStep| matches!(step.state, State::Compiled(_));
        let (first, many) = (history.past.front().unwrap(), history.past.len());
        assert!(many > 250, "{many}");
        assert_eq!(first.name, (1000 - many).to_string(), "the oldest went");
        assert!(!whole(first) && whole(history.past.back().unwrap()));
        // However large they are, two hundred stay.
        history.most = 1;
        history.make_room();
        assert_eq!(history.past.len(), KEPT);
        assert!(!history.past.iter().any(whole));
    }
}
