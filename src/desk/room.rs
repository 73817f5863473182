use super::{Desk, compiled::Compiled, wake::Wake, work::Work};
use crate::dance::Number;
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

/// Which faults of a dance no room could be made for, and why.
#[derive(Default)]
pub(super) struct Declined {
    of: Option<Arc<Compiled>>,
    sought: Option<Fault>,
    told: Vec<(Fault, String)>,
}

impl Declined {
    /// Room is looked for.
    pub fn seek(&mut self, now: &Arc<Compiled>, fault: &Fault) {
        if !self.is_of(now) {
            (self.of, self.told) = (Some(Arc::clone(now)), Vec::new());
        }
        self.sought = Some(fault.clone());
    }

    /// None was found.
    fn decline(&mut self, why: NoMend) {
        if let Some(fault) = self.sought.take().filter(|_| why != NoMend::Stopped) {
            self.told.push((fault, why.to_string()));
        }
    }

    fn is_of(&self, now: &Arc<Compiled>) -> bool {
        self.of.as_ref().is_some_and(|of| Arc::ptr_eq(of, now))
    }
}

/// Making room for a fault.
impl Desk {
    /// Why no room can be made for a fault, where that is known before it is looked for: it is not of two bodies, neither of the
    /// two goes anywhere in that figure, or it was looked for and nothing helps.
    #[must_use]
    pub fn why_no_room(&self, index: usize) -> Option<String> {
        let fault = self.faults().get(index)?;
        if let Some(why) = NoMend::of_kind(fault.kind) {
            return Some(why.to_string());
        }
        let &[one, other] = fault.dancers.as_slice() else { return Some(NoMend::NotBodies.to_string()) };
        let span = self.now.motion().span(fault.span);
        let stands = |number: Number| {
            span.and_then(|span| span.track(number.dancer())).is_some_and(|track| track.moves().is_empty())
        };
        if stands(one) && stands(other) {
            return Some(NoMend::Standing.to_string());
        }
        let told = self.declined.told.iter().filter(|_| self.declined.is_of(&self.now));
        told.rev().find(|(known, _)| known == fault).map(|(_, why)| why.clone())
    }

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
            Ok(Err(why)) => {
                self.declined.decline(why);
                self.notice = Some(why.to_string());
            }
            Err(said) => self.notice = Some(said),
        }
    }
}
