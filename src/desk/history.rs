use super::compiled::Compiled;
use crate::dance::Dance;
use std::sync::Arc;

/// The dances to go back and on to.
#[derive(Default)]
pub(super) struct History {
    past: Vec<Step>,
    future: Vec<Step>,
    /// The kind of change that the next of its kind joins, while one control is being used.
    joining: Option<String>,
}

/// A state of the dance to go back or on to, and what was done between.
pub(super) struct Step {
    pub name: String,
    pub state: State,
    pub count: f64,
    /// Where the playhead was on the other side of what was done.
    pub other: f64,
    pub chosen: Option<usize>,
    pub picked: Vec<usize>,
}

/// A dance that is kept: with all that follows from it, or alone where there is no room for that.
#[derive(Clone)]
pub(super) enum State {
    Compiled(Arc<Compiled>),
    Dance(Arc<Dance>),
}

impl State {
    pub fn dance(&self) -> &Arc<Dance> {
        match self {
            Self::Compiled(compiled) => compiled.dance(),
            Self::Dance(dance) => dance,
        }
    }
}

impl History {
    /// What undo would undo.
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// What redo would redo.
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Keeps what there was before something was done; there is nothing to go on to any more.
    pub fn add(&mut self, step: Step) {
        self.past.push(step);
        self.future.clear();
    }

    /// The last thing that was done, to put right what is kept of it.
    pub fn last_mut(&mut self) -> Option<&mut Step> {
        self.past.last_mut()
    }

    /// Forgets the last thing that was done: it came to nothing.
    pub fn forget_last(&mut self) {
        self.past.pop();
        self.joining = None;
    }

    /// Takes the last step to go back.
    pub fn take_back(&mut self) -> Option<Step> {
        self.past.pop()
    }

    /// Takes the next step to go on.
    pub fn take_on(&mut self) -> Option<Step> {
        self.future.pop()
    }

    /// Puts a step that was gone back where going on finds it.
    pub fn gone_back(&mut self, step: Step) {
        self.future.push(step);
    }

    /// Puts a step that was gone on where going back finds it.
    pub fn gone_on(&mut self, step: Step) {
        self.past.push(step);
    }

    /// The dance from before the step that a change of this name would join; nothing where it would join none.
    pub fn joined(&self, name: &str) -> Option<&Arc<Dance>> {
        let joins = self.joining.as_deref() == Some(name) && self.future.is_empty();
        self.past.last().filter(|step| joins && step.name == name).map(|step| step.state.dance())
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
