use super::{Desk, ask::FaultAsk, question::Question, room::RoomSearch};
use crate::dance::{Allow, Dance, Extra, FaultKind};
use crate::edits::Mend;
use crate::faults::{Fault, Space};
use crate::picture::ABOUT;

/// Faults: going to them, making room, and what the side means.
impl Desk {
    pub(super) fn apply_fault(&mut self, ask: FaultAsk) {
        match ask {
            FaultAsk::GoTo(index) => self.go_to_fault(index),
            FaultAsk::MakeRoom(index) => self.make_room(index),
            FaultAsk::TakeMend => {
                if let Some(mend) = self.proposed.take() {
                    let numbers: Vec<String> = mend.dancers.iter().map(ToString::to_string).collect();
                    self.edit(format!("make room by {}", numbers.join(", ")), mend.dance);
                    // What was shown is mended; another fault of the same dancers has not been asked for.
                    self.shown = None;
                }
            }
            FaultAsk::LeaveMend => (self.proposed, self.seeking) = (None, None),
            FaultAsk::AskAllow(index) => {
                let said: Vec<String> = self.alike(index).into_iter().map(|fault| fault.said).collect();
                if !said.is_empty() {
                    self.asked.ask(Question::Allow(index, said.join("; ")));
                }
            }
            FaultAsk::Allow(index, reason) => self.allow(index, &reason),
            FaultAsk::NoLongerAllow { figure, which } => {
                let mut dance = Dance::clone(self.now.dance());
                if let Some(figure) =
                    dance.figures.get_mut(figure).filter(|figure| which < figure.allow.len())
                {
                    let kind = figure.allow.remove(which).kind;
                    self.edit(format!("no longer mean {}", kind.words()), dance);
                }
            }
            FaultAsk::AskLimits => self.asked.ask(Question::Limits),
            FaultAsk::SetLimits(limits) => {
                let mut dance = Dance::clone(self.now.dance());
                dance.limits = *limits;
                self.edit_on("change the limits".to_owned(), dance);
            }
            FaultAsk::SetFloor(floor) => {
                let mut dance = Dance::clone(self.now.dance());
                dance.floor = floor.map(|floor| *floor);
                self.edit_on("change the clear floor".to_owned(), dance);
            }
        }
    }

    /// The index of the fault that is shown.
    #[must_use]
    pub fn shown_fault(&self) -> Option<usize> {
        let (kind, dancers, span) = self.shown.as_ref()?;
        self.faults()
            .iter()
            .enumerate()
            .filter(|(_, fault)| fault.kind == *kind && fault.dancers == *dancers && fault.span == *span)
            // Of several alike, the one nearest to the playhead.
            .min_by(|(_, one), (_, other)| {
                let far = |fault: &Fault| (fault.counts() - self.player.count).abs();
                far(one).total_cmp(&far(other))
            })
            .map(|(index, _)| index)
    }

    /// The floor that the dance needs.
    #[must_use]
    pub fn space(&self) -> &Space {
        self.now.space()
    }

    /// The mend that is proposed.
    #[must_use]
    pub fn proposed(&self) -> Option<&Mend> {
        self.proposed.as_ref()
    }

    /// The faults to mark on the floor: the one that is shown, and those at the playhead.
    #[must_use]
    pub fn faults_here(&self) -> Vec<&Fault> {
        let count = self.player.count;
        let shown = self.shown_fault();
        self.faults()
            .iter()
            .enumerate()
            .filter(|(index, fault)| {
                let here = count >= fault.lasts.0 - ABOUT && count <= fault.lasts.1 + ABOUT;
                let same_figure = self.span() == Some(fault.span);
                (here && fault.allowed.is_none()) || (shown == Some(*index) && same_figure)
            })
            .map(|(_, fault)| fault)
            .collect()
    }

    /// How many faults there are that the side does not mean.
    #[must_use]
    pub fn fault_count(&self) -> usize {
        self.faults().many()
    }

    /// Where to go to see a fault: the end of its own figure is the next one's start, so a count before it.
    #[must_use]
    pub fn before_fault(&self, fault: &Fault) -> f64 {
        let count = fault.counts();
        let span = self.looked.motion().span(fault.span);
        if span.is_some_and(|span| count > span.end() - 1e-6) { (count - 1.0).max(0.0) } else { count }
    }

    fn go_to_fault(&mut self, index: usize) {
        let Some(fault) = self.faults().get(index) else { return };
        let (key, first) = ((fault.kind, fault.dancers.clone(), fault.span), fault.dancers.first().copied());
        let count = self.before_fault(fault);
        self.end_drag();
        self.player.playing = false;
        self.seek(count);
        if self.shown.as_ref() != Some(&key) {
            (self.proposed, self.seeking) = (None, None);
        }
        self.shown = Some(key);
        if let Some(number) = first {
            self.chosen = Some(number.dancer());
        }
    }

    /// A fault of the dance as it is now; says so where its faults are still looked for.
    fn known_fault(&mut self, index: usize) -> Option<Fault> {
        let fault = self.now.faults().and_then(|faults| faults.get(index)).cloned();
        if fault.is_none() && self.looks_for_faults() {
            self.notice = Some("the faults are being looked over; ask again when that is done".to_owned());
        }
        fault
    }

    fn make_room(&mut self, index: usize) {
        self.go_to_fault(index);
        if let Some(fault) = self.known_fault(index) {
            self.declined.seek(&self.now, &fault);
            self.seeking = Some(RoomSearch::begin(&self.now, fault, &self.wake));
            self.hear_of_room();
        }
    }

    /// Writes into the figure that the side means a fault, as bad as it is now and no worse.
    fn allow(&mut self, index: usize, reason: &str) {
        let reason = reason.trim();
        if reason.is_empty() {
            return;
        }
        let faults = self.alike(index);
        let Some(kind) = faults.first().map(|fault| fault.kind) else { return };
        let mut dance = Dance::clone(self.now.dance());
        for fault in faults {
            let Some(span) = self.now.motion().span(fault.span) else { return };
            let places = fault.dancers.iter().map(|number| span.place(number.dancer())).collect();
            // A little worse than now, so that rounding does not tell it again.
            let worse = if kind.less_is_worse() { fault.value - 0.01 } else { fault.value * 1.01 };
            let up_to = (kind != FaultKind::Music).then(|| (worse * 1000.0).round() / 1000.0);
            let allow = Allow { kind, places, up_to, reason: reason.to_owned(), extra: Extra::new() };
            if let Some(figure) = dance.figures.get_mut(span.figure) {
                figure.allow.push(allow);
            }
        }
        self.edit(format!("mean {}", kind.words()), dance);
    }

    /// A fault of the dance as it is now, with those that are told together with it and not meant; says so where its faults are
    /// still looked for.
    fn alike(&mut self, index: usize) -> Vec<Fault> {
        let Some(fault) = self.known_fault(index) else { return Vec::new() };
        let told = |other: &&Fault| other.allowed.is_none() && other.is_told_with(&fault) && **other != fault;
        let others: Vec<Fault> = self.faults().iter().filter(told).cloned().collect();
        std::iter::once(fault).chain(others).collect()
    }
}
