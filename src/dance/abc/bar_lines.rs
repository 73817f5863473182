//! What stands between bars: bar lines, endings, whole bars of rest, and changes of speed.

use super::{Event, MOST, MOST_EVENTS, ReadBar, Reader, number, take};
use crate::dance::TuneError;
use crate::dance::length::Length;
use crate::dance::passages::times_of;
use crate::dance::tempo::Tempo;
use std::str::Chars;

impl Reader {
    /// Ends the bar, if there is anything in it.
    pub(super) fn end_bar(&mut self) -> Result<(), TuneError> {
        self.commit()?;
        self.keys.end_bar();
        let (sounded, written) = (std::mem::take(&mut self.sounded), std::mem::take(&mut self.written));
        (self.is_overlay, self.is_parted) = (false, true);
        let length = if self.under > self.bar { self.under } else { self.bar };
        (self.bar, self.under) = (Length::NOTHING, Length::NOTHING);
        if self.events.len() > MOST_EVENTS {
            return Err(self.wrong("the tune has too many bars"));
        }
        if length > Length::NOTHING {
            let metre = self.metre_here()?;
            let tempos = std::mem::take(&mut self.tempos);
            let tempo = self.tempo;
            self.tempo = tempos.last().map(|(_, tempo)| *tempo).or(tempo);
            self.push(Event::Bar(ReadBar { length, metre, sounded, written, tempo, tempos }));
        }
        Ok(())
    }

    /// The speed changes before the next note (3.1.8).
    pub(super) fn change_speed(&mut self, value: &str) -> Result<(), TuneError> {
        self.note_that("the change of speed is not drawn: it is a speed of the strain");
        self.commit()?;
        let unit = self.unit.map_or(0.125, Length::wholes);
        if let Some(tempo) = Tempo::read(value, unit) {
            self.tempos.push((self.bar, tempo));
        }
        Ok(())
    }

    fn metre_here(&self) -> Result<(u64, u64), TuneError> {
        self.metre.ok_or_else(|| self.wrong("there is no metre here; a line such as M:6/8 gives it"))
    }

    /// Whole bars of rest (4.5).
    pub(super) fn rest_bars(&mut self, bars: u64) -> Result<(), TuneError> {
        if !(1..=MOST).contains(&bars) {
            self.leave_out(&self.too_long());
            return Ok(());
        }
        let (beats, each) = self.metre_here()?;
        let full = Length::of(beats, each).unwrap_or(Length::NOTHING);
        for _ in 1..bars {
            self.sound(full, Vec::new(), false)?;
            self.end_bar()?;
        }
        self.sound(full, Vec::new(), false)
    }

    /// A bar line in any of its shapes (4.8), and an ending written close to it (4.9).
    pub(super) fn bar_line(&mut self, rest: &mut Chars) -> Result<(), TuneError> {
        let mut shape = String::new();
        // One that is not to be seen; another may follow.
        if let Some(after) = rest.as_str().strip_prefix("[|]") {
            *rest = after.chars();
            self.end_bar()?;
            self.push(Event::Line { ends: 0, starts: 0, double: false, thick: false });
            return Ok(());
        }
        loop {
            match rest.clone().next() {
                Some(letter @ ('|' | ':' | ']')) => shape.push(letter),
                Some('[') if rest.as_str().starts_with("[|") && !rest.as_str().starts_with("[|]") => {
                    shape.push('[');
                }
                _ => break,
            }
            rest.next();
        }
        if shape == ":" {
            self.tell("a : stands by itself, and is left out; expected |: or :| or ::");
            return Ok(());
        }
        self.end_bar()?;
        let line = shape.trim_matches(':');
        let dots = |part: &str| part.len() as u32;
        let ends = dots(&shape) - dots(shape.trim_start_matches(':'));
        let starts = dots(&shape) - dots(shape.trim_end_matches(':'));
        // Dots alone are for both sides: :: is :| and |: (4.8).
        let (ends, starts) = if line.is_empty() { (ends.div_ceil(2), starts / 2) } else { (ends, starts) };
        self.push(Event::Line { ends, starts, double: line.len() > 1, thick: line.contains(['[', ']']) });
        if rest.as_str().starts_with(|letter: char| letter.is_ascii_digit()) {
            self.ending(rest)?;
        }
        Ok(())
    }

    /// An ending's numbers, such as 1 or 1,3 or 1-3 (4.10).
    pub(super) fn ending(&mut self, rest: &mut Chars) -> Result<(), TuneError> {
        let before = rest.as_str();
        number(rest);
        loop {
            let mut ahead = rest.clone();
            if !(take(&mut ahead, ',') || take(&mut ahead, '-')) || number(&mut ahead).is_none() {
                break;
            }
            *rest = ahead;
        }
        let numbers = before.strip_suffix(rest.as_str()).unwrap_or_default().to_owned();
        self.end_bar()?;
        // Every ending follows what is before the first.
        if times_of(&numbers).contains(&1) {
            self.tempo_before = self.tempo;
        } else {
            self.tempo = self.tempo_before;
        }
        self.push(Event::Ending(numbers));
        Ok(())
    }
}
