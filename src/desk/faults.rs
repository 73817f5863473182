use super::{ask::Ask, desk::Desk};
use crate::dance::{Allow, Dance, Extra, FaultKind};
use crate::edits::{Mend, make_room};
use crate::faults::{Fault, Space, space_needed};
use crate::picture::ABOUT;
use crate::window::{Dialog, MeanField};

/// Faults: going to them, making room, and what the side means.
impl Desk {
    /// Takes what is asked for about faults.
    pub(super) fn take_fault_ask(&mut self, ask: Ask) {
        match ask {
            Ask::GoToFault(index) => self.go_to_fault(index),
            Ask::MakeRoom(index) => self.propose_room(index),
            Ask::TakeMend => {
                if let Some(mend) = self.proposed.take() {
                    let numbers: Vec<String> =
                        mend.dancers.iter().map(|dancer| (dancer + 1).to_string()).collect();
                    self.edit(format!("make room by {}", numbers.join(", ")), mend.dance);
                    // What was shown is mended; another fault of the same dancers has not been asked for.
                    self.shown = None;
                }
            }
            Ask::LeaveMend => self.proposed = None,
            Ask::AskMean(index) => {
                if let Some(fault) = self.faults.get(index) {
                    self.dialog = Some(Dialog::Mean(MeanField::new(index, fault.said.clone())));
                }
            }
            Ask::Mean(index, reason) => self.mean(index, &reason),
            Ask::NoLongerMean(figure, which) => {
                let mut dance = Dance::clone(&self.dance);
                if let Some(figure) =
                    dance.figures.get_mut(figure).filter(|figure| which < figure.allow.len())
                {
                    let kind = figure.allow.remove(which).kind;
                    self.edit(format!("no longer mean {}", kind.words()), dance);
                }
            }
            Ask::AskLimits => self.dialog = Some(Dialog::Limits),
            Ask::SetLimits(limits) => {
                let mut dance = Dance::clone(&self.dance);
                dance.limits = *limits;
                self.edit_on("change the limits".to_owned(), dance);
            }
            Ask::ToggleSpace => self.space_shown = !self.space_shown,
            Ask::SetFloor(floor) => {
                let mut dance = Dance::clone(&self.dance);
                dance.floor = floor.map(|floor| *floor);
                self.edit_on("change the clear floor".to_owned(), dance);
            }
            other => self.take_file_ask(other),
        }
    }

    /// The index of the fault that is shown.
    #[must_use]
    pub fn shown_fault(&self) -> Option<usize> {
        let (kind, dancers, span) = self.shown.as_ref()?;
        self.faults
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
        self.space.get_or_init(|| space_needed(&self.dance, &self.motion))
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
        self.faults
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
        self.faults.many()
    }

    fn go_to_fault(&mut self, index: usize) {
        let Some(fault) = self.faults.get(index) else { return };
        let (key, first) = ((fault.kind, fault.dancers.clone(), fault.span), fault.dancers.first().copied());
        let count = self.before_fault(fault);
        self.end_drag();
        self.player.playing = false;
        self.take(Ask::Seek(count));
        if self.shown.as_ref() != Some(&key) {
            self.proposed = None;
        }
        self.shown = Some(key);
        if let Some(number) = first {
            self.chosen = Some((number as usize).saturating_sub(1));
        }
    }

    fn propose_room(&mut self, index: usize) {
        self.go_to_fault(index);
        let Some(fault) = self.faults.get(index) else { return };
        match make_room(&self.dance, &self.motion, fault) {
            Ok(mend) => self.proposed = Some(mend),
            Err(why) => self.notice = Some(why.to_string()),
        }
    }

    /// Writes into the figure that the side means a fault, as bad as it is now and no worse.
    fn mean(&mut self, index: usize, reason: &str) {
        let reason = reason.trim();
        let Some(fault) = self.faults.get(index).filter(|_| !reason.is_empty()) else { return };
        let Some(span) = self.motion.spans().get(fault.span) else { return };
        let (kind, figure) = (fault.kind, span.figure);
        let places = fault.dancers.iter().map(|number| span.place(*number as usize - 1) as u32 + 1).collect();
        // A little worse than now, so that rounding does not tell it again.
        let worse = if kind.less_is_worse() { fault.value - 0.01 } else { fault.value * 1.01 };
        let up_to = (kind != FaultKind::Music).then(|| (worse * 1000.0).round() / 1000.0);
        let allow = Allow { kind, places, up_to, reason: reason.to_owned(), extra: Extra::new() };
        let mut dance = Dance::clone(&self.dance);
        if let Some(figure) = dance.figures.get_mut(figure) {
            figure.allow.push(allow);
            self.edit(format!("mean {}", kind.words()), dance);
        }
    }
}
