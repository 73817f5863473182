use super::{
    Desk,
    ask::StrikeAsk,
    question::{Question, TapsQuestion},
    strike_name::{figure_name, strike_of, words_of},
};
use crate::dance::{Dance, PlaceNumber, Strike, shown_name};
use crate::edits::{
    StrikeAt, StrikeEdit, StrikeError, add_strike, change_strike, copy_struck_bar, strikes_lost,
    usual_strikes, write_strikes,
};
use crate::words::{strike_noun, taps_written};
use std::collections::HashSet;

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
                let places = self.strikers(figure, place);
                let mut dance = Dance::clone(self.now.dance());
                let mut put: Option<StrikeAt> = None;
                let mut refused = None;
                for strike in usual_strikes(&dance, at, &places) {
                    // Who does it already does it no second time.
                    match add_strike(&dance, figure, strike) {
                        Ok((made, at)) => (dance, put) = (made, put.or(Some(at))),
                        Err(StrikeError::Twice) => refused = Some(StrikeError::Twice),
                        Err(other) => return Err(other),
                    }
                }
                let at = put.ok_or(refused.unwrap_or(StrikeError::NoStrike))?;
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
            StrikeAsk::SayNoRow => {
                self.notice = Some(
                    "There is no row of taps: nothing is struck in this dance. A right click on a bar puts a first one in"
                        .to_owned(),
                );
            }
            StrikeAsk::Write { figure, strikes } => {
                let dance = write_strikes(self.now.dance(), figure, &strikes)?;
                let name = figure_name(self.now.dance(), figure);
                self.edit(format!("write the taps of {name}"), dance);
            }
        }
        Ok(())
    }

    /// The places of those who would strike with whoever dances in a place of a figure: it first, then those who are picked with them, and
    /// those who follow (who would be drawn as well).
    fn strikers(&self, figure: usize, place: Option<PlaceNumber>) -> Vec<PlaceNumber> {
        let Some(place) = place else { return Vec::new() };
        let mut all = vec![place];
        let span = self.span_here().filter(|span| span.figure == figure);
        let picked =
            span.map(|span| self.picked.iter().map(|dancer| span.place(*dancer)).collect::<Vec<_>>());
        all.extend(picked.filter(|picked| picked.contains(&place)).into_iter().flatten());
        let ground = self.now.motion().ground();
        let mates: Vec<PlaceNumber> =
            all.iter().flat_map(|place| self.together.mates(ground, *place)).collect();
        all.extend(mates);
        let mut seen = HashSet::new();
        all.retain(|place| seen.insert(*place));
        all
    }

    /// What would be put in at a count of a figure for whoever dances in a place, or without one for all: the strikes, as [`StrikeAsk::Add`] does.
    #[must_use]
    pub fn would_strike(&self, figure: usize, at: f64, place: Option<PlaceNumber>) -> Vec<Strike> {
        usual_strikes(self.now.dance(), at, &self.strikers(figure, place))
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
