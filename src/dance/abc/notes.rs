//! The notes of a tune, and the bar lines between them.

use super::keys::stave_step;
use super::{Event, MOST, MOST_HEADS, Reader, Sounded, Tuplet, Written, field, number, take, until};
use crate::dance::length::Length;
use crate::dance::{Head, TuneError, TupletPlace, letter_words, shown_name};
use std::str::Chars;

/// Goes on to where another voice begins within the line (7.3); nothing where none does.
fn to_next_voice(rest: &mut Chars) -> bool {
    let text = rest.as_str();
    let next = text.find("[V:").and_then(|place| text.get(place..));
    if let Some(next) = next {
        *rest = next.chars();
    }
    next.is_some()
}

/// What the signs of decoration mean, unless a tune gives them another meaning (4.14, 4.16).
fn decoration(letter: char) -> &'static str {
    match letter {
        '.' => "staccato",
        '~' => "rolls",
        'H' => "fermatas",
        'L' => "accents",
        'M' | 'P' => "mordents",
        'O' => "codas",
        'S' => "segnos",
        'T' => "trills",
        'u' | 'v' => "bows",
        _ => "decorations",
    }
}

/// The tied heads of a note: where each stands, and its key.
fn tied_of((held, keys): &(Written, Vec<u8>)) -> Vec<(i32, u8)> {
    let heads = held.heads.iter().zip(keys);
    heads.filter(|(head, _)| head.is_tied).map(|(head, key)| (head.step, *key)).collect()
}

/// A note as it stands: its head and its key, unless it is a rest.
type Struck = Option<(Head, u8)>;

impl Reader {
    /// A line of notes.
    pub(super) fn notes(&mut self, line: &str) -> Result<(), TuneError> {
        let line = line.trim_end();
        // A \ at the end joins this line to the next (6.1.1); lines make no difference to bars.
        let text = line.strip_suffix('\\').unwrap_or(line);
        let mut rest = text.chars();
        // Looked for once, so that a line of what is never closed takes no longer than another.
        let [brace, square] = ['}', ']'].map(|letter| text.rfind(letter));
        self.is_parted = true;
        // A bar line at the end of a line that this one goes on from (6.1.1).
        let mut after_bar = std::mem::take(&mut self.goes_on_from_bar);
        loop {
            if !self.is_first_voice && !to_next_voice(&mut rest) {
                break;
            }
            let before = rest.clone();
            let Some(letter) = rest.next() else { break };
            let follows_bar = std::mem::replace(&mut after_bar, matches!(letter, '|' | ':'));
            match letter {
                '0'..='9' if follows_bar => {
                    rest = before;
                    self.ending(&mut rest)?;
                }
                'A'..='G' | 'a'..='g' | '^' | '_' | '=' => {
                    rest = before;
                    match self.note(&mut rest) {
                        Ok((length, struck)) => self.sound(length, struck.into_iter().collect(), false)?,
                        Err(wrong) => self.leave_out(&wrong),
                    }
                }
                'z' | 'x' => match self.length(&mut rest) {
                    Ok(length) => self.sound(length, Vec::new(), letter == 'x')?,
                    Err(wrong) => self.leave_out(&wrong),
                },
                'Z' | 'X' => self.rest_bars(number(&mut rest).unwrap_or(1))?,
                '|' | ':' => {
                    rest = before;
                    self.bar_line(&mut rest)?;
                }
                '[' => match rest.clone().next() {
                    Some('|') => {
                        rest = before;
                        self.bar_line(&mut rest)?;
                    }
                    Some('0'..='9') => self.ending(&mut rest)?,
                    _ if square.is_none_or(|last| last < text.len() - rest.as_str().len()) => {
                        self.tell("a [ has no ] after it, and is left out");
                    }
                    _ => self.bracket(&mut rest)?,
                },
                '(' => self.slur_or_tuplet(&mut rest)?,
                '>' | '<' => self.broken(letter, &mut rest)?,
                '{' => {
                    let closes = brace.is_some_and(|last| last >= text.len() - rest.as_str().len());
                    if !closes || until(&mut rest, '}').is_none() {
                        self.tell("a { has no } after it, and is left out");
                    } else {
                        self.leave("grace notes");
                    }
                }
                '"' => {
                    match until(&mut rest, '"') {
                        // What begins with one of these is a remark with a place of its own (4.19).
                        Some(text) if text.starts_with(['^', '_', '<', '>', '@']) => {
                            self.leave("annotations");
                        }
                        Some(text) => text.clone_into(&mut self.chord),
                        None => self.tell("a \" has no other after it, and is left out"),
                    }
                }
                // A decoration, or alone an old way to end a line (4.14).
                '!' | '+' => {
                    if let Some(name) = until(&mut rest, letter) {
                        self.leave(&shown_name(name));
                    }
                }
                '&' => {
                    self.note_that("what & lays over a bar is played, and not drawn");
                    self.commit()?;
                    self.under = if self.bar > self.under { self.bar } else { self.under };
                    self.bar = Length::NOTHING;
                    self.is_overlay = true;
                    self.tied.clear();
                }
                'y' => {
                    number(&mut rest);
                    self.is_parted = true;
                }
                // A tie (4.11).
                '-' => {
                    if let Some((held, _)) = &mut self.held {
                        held.heads.iter_mut().for_each(|head| head.is_tied = true);
                    }
                }
                '$' => self.push(Event::Break),
                // Decorations (4.14, 4.16); a bar line may be dotted (4.8).
                '.' if rest.as_str().starts_with('|') => {}
                'H'..='W' | 'h'..='w' | '~' | '.' => self.leave(decoration(letter)),
                // The ends of slurs, beams (4.7) and what is kept for later (8.1).
                ')' | '`' | '*' | '#' | ';' | '?' | '@' => {}
                letter if letter.is_whitespace() => self.is_parted = true,
                letter => {
                    self.tell(format!("{} is not part of a tune, and is left out", letter_words(letter)));
                }
            }
        }
        if line.ends_with('\\') {
            self.goes_on_from_bar = text.trim_end().ends_with('|');
        } else {
            self.push(Event::Break);
        }
        self.tell_left();
        Ok(())
    }

    /// Tells what cannot be read, and goes on after it.
    pub(super) fn leave_out(&mut self, wrong: &TuneError) {
        self.tell(format!("{}, and is left out", wrong.wrong));
    }

    /// A note with its length, in whole notes. What comes after an accidental and is no note is not taken off.
    fn note(&mut self, rest: &mut Chars) -> Result<(Length, Struck), TuneError> {
        let (mut shift, mut is_marked) = (0, false);
        while let Some(mark @ ('^' | '_' | '=')) = rest.clone().next() {
            shift += match mark {
                '^' => 1,
                '_' => -1,
                _ => 0,
            };
            is_marked = true;
            rest.next();
        }
        let Some(letter @ ('A'..='G' | 'a'..='g' | 'z' | 'x')) = rest.clone().next() else {
            return Err(self.wrong("an accidental has no note after it"));
        };
        rest.next();
        let mut octave = 0;
        while let Some(mark @ (',' | '\'')) = rest.clone().next() {
            octave += if mark == '\'' { 1 } else { -1 };
            rest.next();
        }
        let length = self.length(rest)?;
        if matches!(letter, 'z' | 'x') {
            return Ok((length, None));
        }
        let (step, marked) = (stave_step(letter, octave), is_marked.then_some(shift.clamp(-2, 2)));
        let head = |accidental| Head { step, accidental, is_tied: false };
        // A tie carries an accidental with it, over a bar line as well.
        let carried = self.tied_keys().into_iter().find(|(other, _)| *other == step && marked.is_none());
        if let Some((_, key)) = carried {
            return Ok((length, Some((head(None), key))));
        }
        let (key, accidental) = self.keys.key(letter, octave, marked);
        Ok((length, Some((head(accidental), key))))
    }

    /// What the last note's tie carries on: where each head stands, and its key.
    fn tied_keys(&self) -> Vec<(i32, u8)> {
        self.held.as_ref().map_or_else(|| self.tied.clone(), tied_of)
    }

    /// How many units long, as 3, 3/2, /4 or // say (4.3).
    fn times(&self, rest: &mut Chars) -> Result<(u64, u64), TuneError> {
        let top = number(rest).unwrap_or(1);
        let (mut slashes, mut bottom) = (0_u32, 1);
        while take(rest, '/') {
            slashes += 1;
        }
        if slashes > 0 {
            bottom = match number(rest) {
                Some(bottom) => bottom,
                None => 2_u64.saturating_pow(slashes),
            };
        }
        if (1..=MOST).contains(&top) && (1..=MOST).contains(&bottom) {
            Ok((top, bottom))
        } else {
            Err(self.too_long())
        }
    }

    fn length(&self, rest: &mut Chars) -> Result<Length, TuneError> {
        let (top, bottom) = self.times(rest)?;
        self.unit.unwrap_or(Length::NOTHING).times(top, bottom).ok_or_else(|| self.too_long())
    }

    /// Puts a note, chord or rest into the bar.
    pub(super) fn sound(
        &mut self,
        length: Length,
        struck: Vec<(Head, u8)>,
        is_hidden: bool,
    ) -> Result<(), TuneError> {
        self.commit()?;
        let (top, bottom) = std::mem::replace(&mut self.next, (1, 1));
        let value = length.times(top, bottom).ok_or_else(|| self.too_long())?;
        let (mut length, mut tuplet) = (Some(value), None);
        if let Some(under) = &mut self.tuplet {
            length = value.times(under.time, under.notes);
            let (is_first, is_last) = (under.to_come == under.over, under.to_come <= 1);
            tuplet = Some(TupletPlace { number: under.notes, is_first, is_last });
            under.to_come = under.to_come.saturating_sub(1);
        }
        self.tuplet = self.tuplet.filter(|tuplet| tuplet.to_come > 0);
        let (heads, keys) = struck.into_iter().unzip();
        let held = Written {
            begin: self.bar,
            length: length.ok_or_else(|| self.too_long())?,
            value,
            heads,
            is_hidden,
            is_joined: !std::mem::take(&mut self.is_parted),
            tuplet,
            chord: std::mem::take(&mut self.chord),
            sharps: self.keys.sharps,
        };
        self.held = Some((held, keys));
        Ok(())
    }

    /// Adds the note that is held back to the bar.
    pub(super) fn commit(&mut self) -> Result<(), TuneError> {
        if let Some(held) = self.held.take() {
            self.tied = tied_of(&held);
            let (held, keys) = held;
            let (begin, length) = (self.bar, held.length);
            let sounded = held.heads.iter().zip(keys).map(|(head, key)| {
                let (step, tied) = (head.step, head.is_tied);
                Sounded { begin, length, key, step, tied }
            });
            self.sounded.extend(sounded);
            self.heads += held.heads.len();
            if self.heads > MOST_HEADS {
                return Err(self.wrong("the tune has too many notes"));
            }
            self.bar = self.bar.plus(length).ok_or_else(|| self.too_long())?;
            if !self.is_overlay {
                self.written.push(held);
            }
        }
        Ok(())
    }

    /// What follows a [ : a field among the notes (3.2) or a chord (4.17).
    fn bracket(&mut self, rest: &mut Chars) -> Result<(), TuneError> {
        let from = rest.clone();
        // A bar line closes no chord, though some end with a ]; a field may have one in its words.
        let is_field = |inside: &str| field(inside, |_| true).is_some();
        let Some(inside) = until(rest, ']').filter(|inside| !inside.contains('|') || is_field(inside)) else {
            *rest = from;
            self.tell("a [ has no ] after it, and is left out");
            return Ok(());
        };
        if let Some((letter, value)) = field(inside, |_| true) {
            return self.field(letter, value, true);
        }
        // A chord is as long as its first note (4.17), decorations aside.
        let mut notes = inside
            .trim_start_matches(|letter: char| matches!(letter, 'H'..='W' | 'h'..='w' | '.' | '~' | ' '));
        while let Some(after) = notes.strip_prefix('!') {
            notes = after.split_once('!').map_or("", |(_, after)| after).trim_start();
        }
        let mut letters = notes.chars();
        let Ok((first, struck)) = self.note(&mut letters) else {
            self.tell(format!("[{}] is no chord, and is left out", shown_name(inside)));
            return Ok(());
        };
        let mut all: Vec<(Head, u8)> = struck.into_iter().collect();
        while let Some(letter) = letters.clone().next() {
            if matches!(letter, 'A'..='G' | 'a'..='g' | '^' | '_' | '=') {
                all.extend(self.note(&mut letters).ok().and_then(|(_, struck)| struck));
            } else if letters.next() == Some('-')
                && let Some((head, _)) = all.last_mut()
            {
                head.is_tied = true;
            }
        }
        let times = self.times(rest).ok();
        match times.and_then(|(top, bottom)| first.times(top, bottom)) {
            Some(length) => self.sound(length, all, false),
            None => {
                self.leave_out(&self.too_long());
                Ok(())
            }
        }
    }

    /// A ( that opens a slur, or a tuplet (4.13) such as (3 or (3:2:4.
    fn slur_or_tuplet(&mut self, rest: &mut Chars) -> Result<(), TuneError> {
        let Some(notes) = number(rest) else {
            self.leave("slurs");
            return Ok(());
        };
        let is_compound = self.metre.is_some_and(|(beats, _)| beats > 3 && beats.is_multiple_of(3));
        let mut time = match notes {
            3 | 6 => 2,
            2 | 4 | 8 => 3,
            _ => {
                if is_compound {
                    3
                } else {
                    2
                }
            }
        };
        let mut over = notes;
        if take(rest, ':') {
            time = number(rest).unwrap_or(time);
            if take(rest, ':') {
                over = number(rest).unwrap_or(over);
            }
        }
        if !(2..=99).contains(&notes) || !(1..=99).contains(&time) || !(1..=99).contains(&over) {
            self.tell(format!("({notes} is no tuplet, and is left out; expected one such as (3"));
            return Ok(());
        }
        self.tuplet = Some(Tuplet { notes, time, to_come: over, over });
        Ok(())
    }

    /// `>` and `<`, which lengthen one note and shorten the other (4.4).
    fn broken(&mut self, way: char, rest: &mut Chars) -> Result<(), TuneError> {
        let mut halvings = 1_u32;
        while take(rest, way) {
            halvings += 1;
        }
        let parts = 2_u64.saturating_pow(halvings);
        if halvings > 6 {
            self.leave_out(&self.too_long());
            return Ok(());
        }
        let (short, long) = ((1, parts), (2 * parts - 1, parts));
        let (first, second) = if way == '>' { (long, short) } else { (short, long) };
        let Some((held, _)) = &mut self.held else {
            self.tell(format!("{way} has no note before it, and is left out"));
            return Ok(());
        };
        let longer = held.length.times(first.0, first.1).zip(held.value.times(first.0, first.1));
        match longer {
            Some(both) => (held.length, held.value) = both,
            None => return Err(self.too_long()),
        }
        self.next = second;
        Ok(())
    }
}
