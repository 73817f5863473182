use super::{Desk, compiled::Compiled, wake::Wake, work::Work};
use crate::edits::{Mend, NoMend, make_room, make_room_while};
use crate::faults::Fault;
use std::sync::Arc;
use std::time::Duration;

/// The search for a mend, which tries many dances, beside the window.
pub(super) enum RoomSearch {
    /// It goes on.
    Work(Work<Result<Mend, NoMend>>),
    /// It is done already.
    Done(Box<Result<Mend, NoMend>>),
}

impl RoomSearch {
    /// Begins it, or does it at once where nobody could be woken when it is done.
    pub fn begin(now: &Arc<Compiled>, fault: Fault, wake: &Wake) -> Self {
        if !wake.is_there() {
            return Self::Done(Box::new(make_room(now.dance(), now.motion(), &fault)));
        }
        let now = Arc::clone(now);
        Self::Work(Work::begin("make room", wake, move |step| {
            Ok(make_room_while(now.dance(), now.motion(), &fault, &mut || step(0, 0)))
        }))
    }
}

/// Making room for a fault.
impl Desk {
    /// For how long a mend has been looked for, while one is.
    #[must_use]
    pub fn room_search_age(&self) -> Option<Duration> {
        match &self.seeking {
            Some(RoomSearch::Work(work)) => Some(work.age()),
            _ => None,
        }
    }

    /// Takes what the search for a mend has come to, once it is done.
    pub(super) fn hear_of_room(&mut self) {
        let answer = match self.seeking.take() {
            None => return,
            Some(RoomSearch::Done(answer)) => Ok(*answer),
            Some(RoomSearch::Work(work)) => match work.answer() {
                Some(answer) => answer,
                None => {
                    self.seeking = Some(RoomSearch::Work(work));
                    return;
                }
            },
        };
        match answer {
            Ok(Ok(mend)) => self.proposed = Some(mend),
            Ok(Err(why)) => self.notice = Some(why.to_string()),
            Err(said) => self.notice = Some(said),
        }
    }
}
