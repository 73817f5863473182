use super::{
    Desk,
    ask::{About, OrderAsk},
    question::{Question, Written},
};
use crate::dance::{Dance, Figure, Number};
use crate::edits::{
    OrderError, dance_figure, delete_figure, duplicate_line, hand_of, move_line, name_person, new_figure,
    rename_figure, set_bars, set_call, set_call_before, set_ends, set_notes, set_phrase, set_strain,
    with_choice, with_figure, with_set, without_entry,
};
use crate::figures::find;
use crate::motion::{Motion, Span, SpanIndex};
use std::sync::Arc;

/// The running order: what is danced, in what order, and what it is called.
impl Desk {
    pub(super) fn apply_order(&mut self, ask: OrderAsk) {
        if let Err(said) = self.change_order(ask) {
            self.notice = Some(said);
        }
    }

    /// Makes a change, or says why it cannot be made.
    fn change_order(&mut self, ask: OrderAsk) -> Result<(), String> {
        match ask {
            OrderAsk::PutIn(name, before) => {
                let before = before.unwrap_or_else(|| self.after_playhead());
                let title = find(name).map_or(name, |figure| figure.title);
                let dance = with_figure(self.now.dance(), name, before).map_err(in_words)?;
                self.put_in(format!("put in {title}"), dance, before);
            }
            OrderAsk::TakeOut(line) => {
                let name = self.name_at(line);
                let without = without_entry(self.now.dance(), line);
                if without == **self.now.dance() {
                    return Err(OrderError::AllThereIs(name).to_string());
                }
                self.reorder(format!("take out {name}"), without, |known| {
                    (known != line).then(|| known - usize::from(known > line))
                });
            }
            OrderAsk::NewFigure => {
                let before = self.after_playhead();
                let (dance, name) = new_figure(self.now.dance(), before).map_err(in_words)?;
                self.put_in(format!("put in {name}"), dance, before);
            }
            OrderAsk::Dance { figure, before } => {
                let before = before.unwrap_or_else(|| self.after_playhead());
                let dance = dance_figure(self.now.dance(), figure, before).map_err(in_words)?;
                let again = self.now.dance().danced().contains(&figure);
                let name = self.name_of(figure);
                let step = if again { format!("dance {name} again") } else { format!("dance {name}") };
                self.put_in(step, dance, before);
            }
            OrderAsk::Rename(figure, name) => {
                let dance = rename_figure(self.now.dance(), figure, &name).map_err(in_words)?;
                self.edit(format!("rename {} to {}", self.name_of(figure), name.trim()), dance);
            }
            OrderAsk::Duplicate(line) => {
                let (dance, at) = duplicate_line(self.now.dance(), line).map_err(in_words)?;
                let step = format!("duplicate {}", self.name_at(line));
                if at == line {
                    self.reorder(step, dance, Some);
                } else {
                    self.put_in(step, dance, at);
                }
            }
            OrderAsk::Move { from, to } => {
                let dance = move_line(self.now.dance(), from, to).map_err(in_words)?;
                let step = format!("move {} to line {}", self.name_at(from), to + 1);
                self.reorder(step, dance, |known| Some(moved(known, from, to)));
            }
            OrderAsk::Delete(figure) => {
                let dance = delete_figure(self.now.dance(), figure).map_err(in_words)?;
                let danced = self.now.dance().danced();
                self.reorder(format!("delete {}", self.name_of(figure)), dance, |known| {
                    let kept = |line: &usize| danced.get(*line) != Some(&figure);
                    kept(&known).then(|| (0..known).filter(kept).count())
                });
            }
            OrderAsk::SetStrain(line, strain) => {
                let dance = set_strain(self.now.dance(), line, &strain).map_err(in_words)?;
                let strain = if strain.is_empty() { "no strain" } else { &strain };
                self.edit(format!("dance {} to {strain}", self.name_at(line)), dance);
            }
            OrderAsk::SetCall(line, call) => {
                let dance = set_call(self.now.dance(), line, &call).map_err(in_words)?;
                self.edit(format!("change the call of {}", self.name_at(line)), dance);
            }
            OrderAsk::SetCallBefore(line, bars) => {
                let dance = set_call_before(self.now.dance(), line, bars).map_err(in_words)?;
                self.edit_on(format!("change when {} is called", self.name_at(line)), dance);
            }
            OrderAsk::SetBars(figure, bars) => {
                let before = Arc::clone(self.now.dance());
                let dance = set_bars(&before, figure, bars).map_err(in_words)?;
                self.reorder(format!("give {} {bars} bars", self.name_of(figure)), dance, Some);
                self.say_strikes_lost(&before);
            }
            OrderAsk::SetEnds(figure, ends) => {
                let dance = set_ends(self.now.dance(), figure, ends).map_err(in_words)?;
                self.edit(format!("change how {} ends", self.name_of(figure)), dance);
            }
            OrderAsk::SetNotes(figure, notes) => {
                let dance = set_notes(self.now.dance(), figure, &notes).map_err(in_words)?;
                self.edit(format!("change the notes of {}", self.name_of(figure)), dance);
            }
            OrderAsk::SetChoice(figure, key, value) => {
                let step = format!("set {key} of {}", self.name_of(figure));
                let before = Arc::clone(self.now.dance());
                let dance = with_choice(&before, figure, key, value).map_err(in_words)?;
                self.edit_on(step, dance);
                self.say_strikes_lost(&before);
            }
            OrderAsk::SetLead(figure, rule) => {
                self.change_figure(figure, "lead", |figure| figure.lead = rule);
            }
            OrderAsk::SetPhrase(figure, phrase) => {
                let dance = set_phrase(self.now.dance(), self.now.motion(), figure, phrase);
                self.edit_on(format!("change the stepping of {}", self.name_of(figure)), dance);
            }
            OrderAsk::ChangeSet(set) => {
                let before = Arc::clone(self.now.dance());
                let dance = with_set(&before, *set).map_err(|error| error.message)?;
                let other = dance.set.dancers != self.now.dance().set.dancers;
                let name = if other { "change the number of dancers" } else { "change the set" };
                if other {
                    self.history.part_steps();
                }
                self.edit_on(name.to_owned(), dance);
                self.say_strikes_lost(&before);
            }
            OrderAsk::SetHops(hops) => {
                let name = if hops { "hop on the upbeat" } else { "leave out the hop on the upbeat" };
                self.edit(name.to_owned(), Dance { hops, ..Dance::clone(self.now.dance()) });
            }
            OrderAsk::NamePerson(number, name) => self.name_person(number, &name),
            OrderAsk::SetHand(number, left) => {
                let dance = hand_of(self.now.dance(), number, left);
                self.edit(format!("which hand of {number} holds the stick"), dance);
            }
            OrderAsk::Write(about) => self.ask_to_write(about),
        }
        Ok(())
    }

    fn name_person(&mut self, number: Number, name: &str) {
        let dance = name_person(self.now.dance(), number, name);
        self.edit_on(format!("name {number}"), dance);
    }

    fn ask_to_write(&mut self, about: About) {
        let figure = |index: usize| self.now.dance().figures.get(index);
        let (name, text, bars) = match about {
            About::Call(line) => {
                let call = self.now.dance().order.get(line).map_or("", |entry| entry.call.as_str());
                (self.name_at(line), call.to_owned(), 0)
            }
            About::Bars(index) => {
                let bars = figure(index).map_or(0, |figure| figure.bars);
                (self.name_of(index), String::new(), bars)
            }
            About::Notes(index) => {
                let notes = figure(index).map_or("", |figure| figure.notes.as_str());
                (self.name_of(index), notes.to_owned(), 0)
            }
        };
        self.rest();
        self.asked.ask(Question::Write(Written { about, name, text, bars }));
    }

    /// The line after the one at the playhead.
    fn after_playhead(&self) -> usize {
        self.span().map_or(0, |line| line.next().index())
    }

    fn name_of(&self, figure: usize) -> String {
        self.now.dance().figures.get(figure).map_or_else(String::new, |figure: &Figure| figure.name.clone())
    }

    fn name_at(&self, line: usize) -> String {
        self.now.motion().span(SpanIndex(line)).map_or_else(String::new, |span| self.name_of(span.figure))
    }

    /// Makes a change that has put in a line, and goes there.
    fn put_in(&mut self, name: String, dance: Dance, line: usize) {
        self.change_lines(name, dance, Some(line), |known| Some(known + usize::from(known >= line)));
    }

    /// Makes a change that moves lines, and stays with the line at the playhead: `now` gives where a line is after it.
    pub(super) fn reorder(&mut self, name: String, dance: Dance, now: impl Fn(usize) -> Option<usize>) {
        self.change_lines(name, dance, None, now);
    }

    /// Makes a change that moves lines. The playhead goes to the start of a line or else with the one it is in; the
    /// loop and the fault that is shown go with theirs.
    fn change_lines(
        &mut self,
        name: String,
        dance: Dance,
        to: Option<usize>,
        now: impl Fn(usize) -> Option<usize>,
    ) {
        let old = Arc::clone(self.now.motion());
        let (looped, looping, shown) = (self.player.loop_counts, self.player.looping, self.shown.take());
        let count = self.player.count;
        let made = self.edit_and_go(name, dance, |motion| match to {
            Some(line) => motion.span(SpanIndex(line)).map(Span::begin),
            None => carried(&old, motion, count, &now),
        });
        if !made {
            self.shown = shown;
            return;
        }
        self.shown =
            shown.and_then(|(kind, dancers, line)| Some((kind, dancers, SpanIndex(now(line.index())?))));
        // A loop within one line goes with it; one over several keeps its bars, as far as there are any.
        if let Some((from, to)) = looped
            && let Some(line) = old.span_at(from)
            && let Some(span) = old.span(line).filter(|span| to <= span.end())
        {
            let there = now(line.index()).and_then(|line| self.now.motion().span(SpanIndex(line)));
            self.player.loop_counts = there
                .map(|there| {
                    let ahead = there.begin() - span.begin();
                    (from + ahead, (to + ahead).min(there.end()))
                })
                .filter(|(from, to)| from < to);
            self.player.looping = looping && self.player.loop_counts.is_some();
        }
    }
}

/// What an error says.
#[allow(clippy::needless_pass_by_value)] // the shape that map_err asks for
fn in_words(error: impl ToString) -> String {
    error.to_string()
}

/// Where a count of a motion is in another: as far into the same line, or at the start of the next that is left.
fn carried(old: &Motion, new: &Motion, count: f64, now: impl Fn(usize) -> Option<usize>) -> Option<f64> {
    let line = old.span_at(count)?;
    let within = count - old.span(line)?.begin();
    let there = |line: usize| new.span(SpanIndex(now(line)?));
    if let Some(span) = there(line.index()) {
        let at = span.begin() + within;
        // The end of a line is the start of the next, but for the end of the dance; a count before it is still in it.
        let inside = at < span.end() || (at == span.end() && at == new.counts());
        return Some(if inside { at } else { span.end() - 1.0 });
    }
    let next = (line.next().index()..old.spans().len()).find_map(there);
    Some(next.map_or(new.counts(), Span::begin))
}

/// Where a line is after the one at `from` has been moved to be `to`.
fn moved(line: usize, from: usize, to: usize) -> usize {
    if line == from {
        to
    } else if from < line && line <= to {
        line - 1
    } else if to <= line && line < from {
        line + 1
    } else {
        line
    }
}

#[cfg(test)]
mod tests {
    use super::moved;

    #[test]
    fn every_line_is_somewhere_after_a_move() {
        for (from, to) in [(0, 3), (3, 0), (1, 2), (2, 2)] {
            let mut lines = vec![0, 1, 2, 3];
            let line = lines.remove(from);
            lines.insert(to, line);
            for line in 0..4 {
                assert_eq!(lines[moved(line, from, to)], line);
            }
        }
    }
}
