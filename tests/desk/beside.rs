//! Slow work beside the desk: it wakes whoever shows the desk, is taken when they catch up, and is stopped by what comes next.
//! A stop is counted in how often the work still wakes somebody: once, to say that it has ended. No clock is looked at.

use crate::stage::six;
use bellpad::dance::{Dance, Entry, read};
use bellpad::desk::{Ask, Desk, FaultAsk, KeepAsk, OrderAsk};
use bellpad::edits::{NoMend, make_room, make_room_while};
use bellpad::faults::Faults;
use bellpad::figures::named_figure;
use bellpad::store::Recent;
use serde_json::Map;
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Arc, Mutex, MutexGuard};
use std::thread::ThreadId;
use std::time::Duration;

/// Longer than any of this takes, so that a test that would never end fails.
const FOR_EVER: Duration = Duration::from_mins(2);

/// A desk that wakes somebody, and all that has woken them.
struct Woken {
    desk: Desk,
    gate: Arc<Mutex<()>>,
    calls: Receiver<ThreadId>,
    heard: Vec<ThreadId>,
}

impl Woken {
    fn on(dance: Dance) -> Self {
        let (gate, (sender, calls)) = (Arc::new(Mutex::new(())), channel());
        let closed = Arc::clone(&gate);
        let desk = Desk::new(dance, None, Recent::default()).unwrap().waking(move || {
            let _ = sender.send(std::thread::current().id());
            // Whoever wakes somebody goes on when the gate is open.
            drop(closed.lock());
        });
        Self { desk, gate, calls, heard: Vec::new() }
    }

    fn apply(&mut self, ask: Ask) {
        self.desk.apply(ask);
    }

    /// Waits until somebody is woken; gives by which thread.
    #[track_caller]
    fn hear(&mut self) -> ThreadId {
        let thread = self.calls.recv_timeout(FOR_EVER).expect("somebody is woken");
        self.heard.push(thread);
        thread
    }

    /// Catches up as often as it is woken, as long as this holds.
    #[track_caller]
    fn catch_up_while(&mut self, holds: impl Fn(&Desk) -> bool) {
        self.apply(Ask::Keep(KeepAsk::CatchUp));
        while holds(&self.desk) {
            self.hear();
            self.apply(Ask::Keep(KeepAsk::CatchUp));
        }
    }

    /// How often a thread has woken somebody.
    fn wakes(&mut self, thread: ThreadId) -> usize {
        self.heard.extend(self.calls.try_iter());
        self.heard.iter().filter(|heard| **heard == thread).count()
    }

    /// The faults that a search finds while one waits for it.
    fn all_faults(&self) -> Faults {
        Faults::of(self.desk.dance(), self.desk.motion())
    }
}

fn shut(gate: &Mutex<()>) -> MutexGuard<'_, ()> {
    gate.lock().unwrap()
}

/// Four hundred on one another, who jump in figures of several lengths: each is searched for itself.
fn crowd() -> Dance {
    let mut dance = read(include_bytes!("../crowds/four-hundred-in-a-heap.dance.json")).unwrap();
    dance.order.clear();
    for bars in 4..4 + FIGURES {
        let mut figure = dance.figures[0].clone();
        (figure.id, figure.name, figure.bars) = (format!("jump-{bars}"), format!("Jump {bars}"), bars);
        dance.order.push(Entry::of(&figure.id));
        dance.figures.push(figure);
    }
    dance
}

/// How many figures: enough that a search takes far longer than whoever waits is left alone for.
const FIGURES: u32 = 6;

/// Has bodies be so many metres deep, which changes every fault.
fn depth(metres: f64) -> Ask {
    let mut limits = crowd().limits;
    limits.depth = Some(metres);
    Ask::Fault(FaultAsk::SetLimits(Box::new(limits)))
}

#[test]
fn faults_are_found_beside_and_the_last_ones_stay_until_then() {
    let mut woken = Woken::on(crowd());
    let before = woken.desk.faults().clone();
    assert!(!woken.desk.looks_for_faults() && before.many() > 100, "known when the desk is opened");
    woken.apply(depth(4.0));
    assert!(woken.desk.looks_for_faults());
    assert_eq!(*woken.desk.faults(), before);
    // What is only read changes nothing; nor does a fault of the dance before become one of this.
    woken.apply(Ask::Fault(FaultAsk::Allow(0, "we squeeze by".to_owned())));
    assert!(woken.desk.notice().unwrap().contains("being looked over"), "{:?}", woken.desk.notice());
    woken.catch_up_while(Desk::looks_for_faults);
    assert!(*woken.desk.faults() == woken.all_faults() && *woken.desk.faults() != before);
    // Both are known now: going back and on looks for nothing.
    let many = woken.desk.fault_count();
    woken.apply(Ask::Undo);
    assert!(!woken.desk.looks_for_faults());
    assert_eq!(*woken.desk.faults(), before);
    woken.apply(Ask::Redo);
    assert!(!woken.desk.looks_for_faults());
    assert_eq!(woken.desk.fault_count(), many);
}

#[test]
fn the_next_edit_stops_the_search_before() {
    let mut woken = Woken::on(crowd());
    let gate = Arc::clone(&woken.gate);
    let shut = shut(&gate);
    woken.apply(depth(4.0));
    let first = woken.hear();
    // It waits at the gate in the middle of its work, not at the end with an answer.
    woken.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(woken.desk.looks_for_faults());
    woken.apply(depth(3.0));
    drop(shut);
    woken.catch_up_while(Desk::looks_for_faults);
    assert!(*woken.desk.faults() == woken.all_faults());
    while woken.wakes(first) < 2 {
        woken.hear();
    }
    assert_eq!(woken.wakes(first), 2, "once in the middle, and once to say that it has ended");
}

/// A hey of six in the even timing, in which two pairs meet.
fn even_hey() -> Woken {
    let mut dance = six();
    dance.figures.push(named_figure("hey", Map::new(), &dance.set).unwrap());
    let mut woken = Woken::on(dance);
    woken.apply(Ask::Order(OrderAsk::SetChoice(0, "timing", "even".into())));
    woken.catch_up_while(Desk::looks_for_faults);
    woken
}

#[test]
fn room_is_made_beside_as_it_is_made_while_one_waits() {
    let mut woken = even_hey();
    let fault = woken.desk.faults()[0].clone();
    let wanted = make_room(woken.desk.dance(), woken.desk.motion(), &fault).unwrap();
    woken.apply(Ask::Fault(FaultAsk::MakeRoom(0)));
    assert!(woken.desk.room_search_age().is_some() && woken.desk.proposed().is_none());
    woken.catch_up_while(|desk| desk.room_search_age().is_some());
    let mend = woken.desk.proposed().unwrap();
    assert_eq!((&mend.dance, &mend.text), (&wanted.dance, &wanted.text));
    woken.apply(Ask::Fault(FaultAsk::TakeMend));
    assert_eq!(*woken.desk.dance(), wanted.dance);
}

#[test]
fn leaving_a_mend_stops_the_search_for_it() {
    let mut woken = Woken::on(crowd());
    let gate = Arc::clone(&woken.gate);
    let shut = shut(&gate);
    let clash = woken.desk.faults().iter().position(|fault| fault.dancers.len() == 2).unwrap();
    woken.apply(Ask::Fault(FaultAsk::MakeRoom(clash)));
    let first = woken.hear();
    woken.apply(Ask::Keep(KeepAsk::CatchUp));
    assert!(woken.desk.room_search_age().is_some(), "it waits in the middle of its work");
    woken.apply(Ask::Fault(FaultAsk::LeaveMend));
    assert!(woken.desk.room_search_age().is_none());
    drop(shut);
    // What comes next is not stopped with it.
    woken.apply(Ask::Fault(FaultAsk::MakeRoom(clash)));
    woken.catch_up_while(|desk| desk.room_search_age().is_some());
    assert!(woken.desk.notice().unwrap().contains("both stand still"), "{:?}", woken.desk.notice());
    while woken.wakes(first) < 2 {
        woken.hear();
    }
    assert_eq!(woken.wakes(first), 2, "once in the middle, and once to say that it has ended");
}

/// A search asks all along whether it is to go on, and no more once it is not.
#[test]
fn a_search_that_is_to_stop_stops_at_once() {
    let woken = Woken::on(crowd());
    let (dance, motion) = (woken.desk.dance(), woken.desk.motion());
    let mut asked = 0;
    let all = Faults::search(dance, motion, &mut || {
        asked += 1;
        true
    });
    let all = all.unwrap();
    let apart = all.looks() / asked;
    assert!(apart < 1_000, "{apart} looks from one time to the next");
    for last in [1, asked / 2, asked] {
        let mut asked = 0;
        let stopped = Faults::search(dance, motion, &mut || {
            asked += 1;
            asked < last
        });
        assert!(stopped.is_none(), "stopped at {last}");
        assert_eq!(asked, last);
    }
}

/// The same of making room, while changes are tried as well.
#[test]
fn making_room_stops_at_once() {
    let woken = even_hey();
    let (dance, motion) = (woken.desk.dance(), woken.desk.motion());
    let fault = &woken.desk.faults()[0];
    let mut asked = 0;
    let mend = make_room_while(dance, motion, fault, &mut || {
        asked += 1;
        true
    });
    assert!(mend.is_ok() && asked > 50, "many changes are tried: asked {asked} times");
    for last in [1, asked / 4, asked / 2, asked] {
        let mut asked = 0;
        let stopped = make_room_while(dance, motion, fault, &mut || {
            asked += 1;
            asked < last
        });
        assert_eq!(stopped.err(), Some(NoMend::Stopped));
        // The changes to try and what is made of them are two steps, each of which asks.
        assert!(asked <= last + 1, "asked {asked} times, and it was to stop at {last}");
    }
}
