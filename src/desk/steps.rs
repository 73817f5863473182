use super::{Desk, ask::StepAsk, question::Question};
use crate::dance::{OwnStep, shown_name};
use crate::edits::{StepError, copy_step, set_step, take_step_away};

/// The steps of the dance's own.
impl Desk {
    pub(super) fn apply_step(&mut self, ask: StepAsk) {
        if let Err(error) = self.change_steps(ask) {
            self.notice = Some(format!("That step cannot be: {error}"));
        }
    }

    fn change_steps(&mut self, ask: StepAsk) -> Result<(), StepError> {
        match ask {
            StepAsk::Show(short) => {
                self.rest();
                self.notice = None;
                self.asked.ask(Question::Steps(short));
            }
            StepAsk::Copy(short) => {
                let dance = copy_step(self.now.dance(), &short)?;
                let name = dance.steps.last().map_or("", |step| step.name.as_str());
                self.edit(format!("make {}", shown_name(name)), dance);
            }
            StepAsk::Set { index, step, what } => {
                let dance = set_step(self.now.dance(), index, *step)?;
                // By what stays the same while the name or the letters are typed.
                let name = format!("change {what} of step {}", index + 1);
                self.edit_on(name, dance);
            }
            StepAsk::Part => self.history.part_steps(),
            StepAsk::TakeAway(index) => {
                let dance = take_step_away(self.now.dance(), index)?;
                self.edit(format!("take {} away", self.step_name(index)), dance);
            }
        }
        Ok(())
    }

    fn step_name(&self, index: usize) -> String {
        let step: Option<&OwnStep> = self.now.dance().steps.get(index);
        step.map_or_else(String::new, |step| shown_name(&step.name))
    }
}
