use super::{
    Desk,
    ask::StrikeAsk,
    question::{Question, TapsQuestion},
    strike_name::{figure_name, strike_of, words_of},
};
use crate::dance::{Dance, shown_name};
use crate::edits::{
    StrikeEdit, StrikeError, add_strike, change_strike, copy_struck_bar, strikes_lost, usual_strike,
    write_strikes,
};
use crate::words::{strike_noun, taps_written};

/// The taps and claps of a figure.
impl Desk {
    pub(super) fn apply_strike(&mut self, ask: StrikeAsk) {
        if let Err(error) = self.change_strikes(ask) {
            self.notice = Some(format!("That cannot be: {error}"));
        }
    }

    fn change_strikes(&mut self, ask: StrikeAsk) -> Result<(), StrikeError> {
        match ask {
            StrikeAsk::Add { figure, at, place } => {
                let strike = usual_strike(self.now.dance(), at, place);
                let (dance, at) = add_strike(self.now.dance(), figure, strike)?;
                let name = format!("put in {}", words_of(&dance, figure, at));
                self.edit(name, dance);
            }
            StrikeAsk::Change { figure, at, edit } => {
                let what = what_of(&edit);
                let dance = change_strike(self.now.dance(), figure, at, &edit)?;
                let name = format!("{what} {}", words_of(self.now.dance(), figure, at));
                // A height is typed letter by letter.
                if matches!(edit, StrikeEdit::Height(Some(_))) {
                    self.edit_on(name, dance);
                } else {
                    self.history.part_steps();
                    self.edit(name, dance);
                }
            }
            StrikeAsk::Nudge { figure, at, counts } => {
                let strike = strike_of(self.now.dance(), figure, at).ok_or(StrikeError::NoStrike)?;
                let to = strike.counts().nth(at.which).ok_or(StrikeError::NoStrike)? + counts;
                let dance = change_strike(self.now.dance(), figure, at, &StrikeEdit::To(to))?;
                // Each is a step of its own, and keeps its name wherever it goes.
                let (noun, name) = (strike_noun(strike), figure_name(self.now.dance(), figure));
                self.edit_on(format!("move {noun} {} of {name} in time", at.strike + 1), dance);
            }
            StrikeAsk::CopyBar { figure, from, to } => {
                let dance = copy_struck_bar(self.now.dance(), figure, from, to)?;
                let name = figure_name(self.now.dance(), figure);
                self.edit(format!("strike in bar {to} of {name} as in bar {from}"), dance);
            }
            StrikeAsk::AskToWrite(figure) => {
                let dance = self.now.dance();
                let told = dance.figures.get(figure).ok_or(StrikeError::NoFigure)?;
                let (name, text) =
                    (shown_name(&told.name), taps_written(&told.strikes, &dance.bar_counts(told)));
                self.rest();
                self.asked.ask(Question::Taps(TapsQuestion { figure, name, text }));
            }
            StrikeAsk::Write { figure, strikes } => {
                let dance = write_strikes(self.now.dance(), figure, &strikes)?;
                let name = figure_name(self.now.dance(), figure);
                self.edit(format!("write the taps of {name}"), dance);
            }
        }
        Ok(())
    }

    /// Says which taps had no place or no time any more in a change since a dance.
    pub(super) fn say_strikes_lost(&mut self, before: &Dance) {
        if let Some(said) = strikes_lost(before, self.now.dance()) {
            let also = self.notice.take().map_or_else(String::new, |also| format!("{also}\n"));
            self.notice = Some(format!("{also}{said}"));
        }
    }
}

/// What is done to a strike by an edit, before its name.
fn what_of(edit: &StrikeEdit) -> &'static str {
    match edit {
        StrikeEdit::On(_) | StrikeEdit::Part(_) => "change whom or what is struck in",
        StrikeEdit::With(_) | StrikeEdit::Hand(_) => "change what is struck with in",
        StrikeEdit::Their(_) | StrikeEdit::TheirHand(_) => "change what answers in",
        StrikeEdit::Height(_) => "change the height of",
        StrikeEdit::Stay(true) => "stay together after",
        StrikeEdit::Stay(false) => "part after",
        StrikeEdit::Follow(..) => "change who follows in",
        StrikeEdit::To(_) => "move",
        StrikeEdit::InBars(_) => "change the bars of",
        StrikeEdit::Remove => "take away",
        StrikeEdit::RemoveAll => "take away every time of",
    }
}
