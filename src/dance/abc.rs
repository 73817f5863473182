//! ABC text as bars with their notes, bar lines, endings and parts. It follows the ABC
//! standard 2.1 (abcnotation.com, December 2011); the numbers beside the code are its sections.

mod bar_lines;
mod keys;
mod left_out;
mod notes;

use super::length::Length;
use super::{Head, TuneError, TuneRemark, TupletPlace, shown_name, tempo::Tempo};
use keys::LetterKeys;
use std::str::Chars;

/// Something in the tune, with the line that it is in, from 1.
pub(super) type At = (usize, Event);

/// What matters of a tune to its bars.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Event {
    /// What stands between two bar lines.
    Bar(ReadBar),
    /// A bar line.
    Line {
        /// How often what ends here is played once more; 0 where no repeat ends.
        ends: u32,
        /// How often what starts here is played once more; 0 where no repeat starts.
        starts: u32,
        /// The line is double, or thin and thick.
        double: bool,
        /// It is thin and thick.
        thick: bool,
    },
    /// A first, second or further ending, with its numbers.
    Ending(String),
    /// A part with its name.
    Part(String),
    /// A line of the text ends here, and with it a line of the tune (6.1.1).
    Break,
}

/// A bar, or a part of one.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ReadBar {
    /// In whole notes.
    pub(super) length: Length,
    /// Beats in a bar, and which part of a whole note each is.
    pub(super) metre: (u64, u64),
    /// The notes as they sound.
    pub(super) sounded: Vec<Sounded>,
    /// The notes and rests as they are written, without what `&` lays over them.
    pub(super) written: Vec<Written>,
    /// The speed with which it begins, as the text before it has it; nothing where that says none.
    pub(super) tempo: Option<Tempo>,
    /// Where in it the speed changes, and what to.
    pub(super) tempos: Vec<(Length, Tempo)>,
}

/// A note in a bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sounded {
    /// How far into the bar it begins, and how long it lasts.
    pub(super) begin: Length,
    pub(super) length: Length,
    /// The key: semitones, 60 for middle C.
    pub(super) key: u8,
    /// Where it stands on the stave: steps above middle C.
    pub(super) step: i32,
    /// Whether a tie binds it to the next.
    pub(super) tied: bool,
}

/// A note, chord or rest as it is written.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written {
    /// How far into the bar it begins, and how long it sounds.
    pub(super) begin: Length,
    pub(super) length: Length,
    /// The length that is written, which a tuplet changes.
    pub(super) value: Length,
    /// The heads; none for a rest.
    pub(super) heads: Vec<Head>,
    /// The rest is not to be seen (4.5).
    pub(super) is_hidden: bool,
    /// Nothing parts it from the note before (4.7).
    pub(super) is_joined: bool,
    /// Its place in a tuplet.
    pub(super) tuplet: Option<TupletPlace>,
    /// The chord symbol over it (4.18).
    pub(super) chord: String,
    /// The sharps of the key signature there, flats below 0.
    pub(super) sharps: i32,
}

/// A tuplet under way: notes in the time of others, and how many of its notes are to come of how many.
#[derive(Clone, Copy, Debug)]
struct Tuplet {
    notes: u64,
    time: u64,
    to_come: u64,
    over: u64,
}

/// The fields that may stand on a line of their own among the notes (3). None of them is the letter of a note.
const IN_THE_TUNE: &str = "IKLMmNPQRrsTUVWw+";
/// The largest number that a tune may give for a length, a metre or a rest.
const MOST: u64 = 4096;
/// The most that is told of a tune.
const MOST_TOLD: usize = 200;
/// The most bars, bar lines and endings that a tune may have.
const MOST_EVENTS: usize = 20_000;

/// A tune that has been read.
pub(super) struct ReadTune {
    /// The metre with which it begins: beats in a bar, and which part of a whole note each is.
    pub(super) metre: (u64, u64),
    /// How fast it says that it goes.
    pub(super) tempo: Option<Tempo>,
    /// The order in which its parts are played, as its head has it (3.1.9); empty where it has none.
    pub(super) order: String,
    /// What is in it, in order.
    pub(super) events: Vec<At>,
    /// What is told of it, in the order of its lines.
    pub(super) told: Vec<TuneRemark>,
}

/// The most notes that a tune may have: hours of the fastest.
const MOST_HEADS: usize = 100_000;

/// What has been read so far.
struct Reader {
    line: usize,
    /// What was left out or is odd.
    told: Vec<TuneRemark>,
    events: Vec<At>,
    metre: Option<(u64, u64)>,
    unit: Option<Length>,
    /// How fast it is to be played, as it is written before the notes.
    head_tempo: Option<String>,
    /// How fast it is where the bar begins, and was before the endings of the strain; and the changes in the bar.
    tempo: Option<Tempo>,
    tempo_before: Option<Tempo>,
    tempos: Vec<(Length, Tempo)>,
    /// The order of the parts.
    order: String,
    /// Notes so far, each of a chord counted.
    heads: usize,
    /// What the bar has so far, without the note that is held back.
    bar: Length,
    /// The longest of the voices that `&` laid over each other in this bar.
    under: Length,
    /// The last note, which `>` and `<` may still change, with the keys of its heads.
    held: Option<(Written, Vec<u8>)>,
    /// The tied heads of the last note that is not held back any more: where each stands, and its key.
    tied: Vec<(i32, u8)>,
    /// The notes of the bar so far, as they sound and as they are written.
    sounded: Vec<Sounded>,
    written: Vec<Written>,
    /// Whether what is read is laid over what was (7.4).
    is_overlay: bool,
    /// Whether a space has parted the next note from the last, and the chord symbol that waits for it.
    is_parted: bool,
    chord: String,
    /// What the key and the bar's accidentals do to each letter.
    keys: LetterKeys,
    /// What `>` and `<` do to the next note.
    next: (u64, u64),
    /// The tuplet under way.
    tuplet: Option<Tuplet>,
    /// Whether the line goes on from one that ended with a bar line.
    goes_on_from_bar: bool,
    /// What the line has that is neither played nor drawn.
    left: Vec<String>,
    /// The voices that are left out.
    other_voices: Vec<String>,
    /// The first voice, and whether it is the one being read.
    voice: Option<String>,
    is_first_voice: bool,
}

/// Reads the first tune of an ABC text. Musicians' files are what they are: what is not understood is left out and told.
///
/// # Errors
/// When it is no tune; the error names the line.
pub(super) fn read_events(text: &str) -> Result<ReadTune, TuneError> {
    let mut reader = Reader {
        line: 0,
        told: Vec::new(),
        events: Vec::new(),
        metre: None,
        unit: None,
        head_tempo: None,
        tempo: None,
        tempo_before: None,
        tempos: Vec::new(),
        order: String::new(),
        heads: 0,
        bar: Length::NOTHING,
        under: Length::NOTHING,
        held: None,
        tied: Vec::new(),
        sounded: Vec::new(),
        written: Vec::new(),
        is_overlay: false,
        is_parted: true,
        chord: String::new(),
        keys: LetterKeys::default(),
        next: (1, 1),
        tuplet: None,
        goes_on_from_bar: false,
        left: Vec::new(),
        other_voices: Vec::new(),
        voice: None,
        is_first_voice: true,
    };
    let (mut is_tune, mut has_notes, mut metre, mut tempo) = (false, false, None, None);
    for (index, line) in text.lines().enumerate() {
        let is_blank = line.trim().is_empty();
        let line = without_comment(line);
        reader.line = index + 1;
        match field(line, |letter| !is_tune || IN_THE_TUNE.contains(letter)) {
            // An empty line ends the tune (2.2.1).
            _ if is_blank && has_notes => break,
            _ if line.trim().is_empty() => {}
            Some(('X', _)) if is_tune => break,
            Some((letter, value)) => {
                reader.field(letter, value, is_tune)?;
                if letter == 'K' && !is_tune {
                    is_tune = true;
                    metre = reader.metre;
                    reader.default_unit();
                    let unit = reader.unit.map_or(0.125, Length::wholes);
                    tempo = reader.head_tempo.take().and_then(|tempo| Tempo::read(&tempo, unit));
                    (reader.tempo, reader.tempo_before) = (tempo, tempo);
                }
            }
            None if !is_tune => {
                reader.tell("it is no line such as M:6/8, and is left out: notes come after the key, K:");
            }
            None if line.starts_with("X:") => break,
            None => {
                reader.notes(line)?;
                has_notes = true;
            }
        }
    }
    reader.end_bar()?;
    if !is_tune {
        return Err(reader.wrong("the tune has no key; a line such as K:G comes before the notes"));
    }
    match metre.or(reader.metre) {
        Some(metre) => {
            Ok(ReadTune { metre, tempo, order: reader.order, events: reader.events, told: reader.told })
        }
        None => Err(reader.wrong("the tune has no metre; a line such as M:6/8 gives it")),
    }
}

/// A line up to its comment.
fn without_comment(line: &str) -> &str {
    let mut before = ' ';
    for (index, letter) in line.char_indices() {
        if letter == '%' && before != '\\' {
            return line.get(..index).unwrap_or(line);
        }
        before = letter;
    }
    line
}

/// The letter and the value of a field that a line is.
fn field(line: &str, known: impl Fn(char) -> bool) -> Option<(char, &str)> {
    let mut letters = line.chars();
    let letter = letters.next()?;
    let value = letters.as_str().strip_prefix(':')?;
    ((letter.is_ascii_alphabetic() || letter == '+') && known(letter)).then(|| (letter, value.trim()))
}

/// A whole number at the front, if there is one; too large a one is as large as may be and one.
fn number(rest: &mut Chars) -> Option<u64> {
    let mut value = None;
    while let Some(digit) = rest.clone().next().and_then(|letter| letter.to_digit(10)) {
        value = Some((value.unwrap_or(0) * 10 + u64::from(digit)).min(MOST + 1));
        rest.next();
    }
    value
}

/// Takes a letter off the front if it is there.
fn take(rest: &mut Chars, letter: char) -> bool {
    let is_there = rest.as_str().starts_with(letter);
    if is_there {
        rest.next();
    }
    is_there
}

/// What stands before the next of a letter, which is taken off as well.
fn until<'a>(rest: &mut Chars<'a>, letter: char) -> Option<&'a str> {
    let (before, after) = rest.as_str().split_once(letter)?;
    *rest = after.chars();
    Some(before)
}

impl Reader {
    fn wrong(&self, wrong: impl Into<String>) -> TuneError {
        TuneError { line: self.line.max(1), wrong: wrong.into() }
    }

    /// Whether there has been a note, a rest or a bar line.
    fn has_sounded(&self) -> bool {
        let is_music = |(_, event): &At| matches!(event, Event::Bar(_) | Event::Line { .. });
        self.held.is_some() || self.bar > Length::NOTHING || self.events.iter().any(is_music)
    }

    fn too_long(&self) -> TuneError {
        self.wrong("a length is beyond reading")
    }

    fn push(&mut self, event: Event) {
        self.events.push((self.line, event));
    }

    /// A field, in the head of the tune or among the notes.
    fn field(&mut self, letter: char, value: &str, is_tune: bool) -> Result<(), TuneError> {
        match letter {
            'V' if is_tune => self.change_voice(value),
            // What stands in another voice is for that voice (7.3).
            _ if !self.is_first_voice => {}
            'K' => {
                if let Some(odd) = self.keys.set(value) {
                    self.note_that(format!("{} is neither played nor drawn", shown_name(odd)));
                }
            }
            // A free metre (3.1.6).
            'M' if matches!(value, "none" | "") => self.metre = None,
            'M' => match read_metre(value) {
                Some(metre) => self.metre = Some(metre),
                None => self.tell(format!(
                    "M:{} is no metre, and is left out; expected one such as 6/8",
                    shown_name(value)
                )),
            },
            'L' => {
                let mut rest = value.chars();
                let (top, under) = (number(&mut rest), take(&mut rest, '/'));
                let bottom = if under { number(&mut rest) } else { Some(1) };
                let unit = top.zip(bottom).and_then(|(top, bottom)| Length::of(top, bottom));
                match unit.filter(|unit| *unit > Length::NOTHING && rest.as_str().trim().is_empty()) {
                    Some(unit) => self.unit = Some(unit),
                    None => {
                        let value = shown_name(value);
                        self.tell(format!(
                            "L:{value} is no length, and is left out; expected one such as 1/8"
                        ));
                    }
                }
            }
            'Q' if is_tune => self.change_speed(value)?,
            // An L: may come after it.
            'Q' if !is_tune => self.head_tempo = Some(value.to_owned()),
            'P' if !is_tune => value.clone_into(&mut self.order),
            // In the head P: is the order of the parts, among the notes the part that begins (3.1.9).
            'P' => {
                self.end_bar()?;
                self.push(Event::Part(value.to_owned()));
            }
            'w' => self.note_that("the words under the notes are not drawn"),
            's' => self.note_that("a line of signs is neither played nor drawn"),
            'W' => self.note_that("the words after the tune are not drawn"),
            'U' | 'm' => self.note_that(format!("{letter}: gives no sign another meaning here")),
            _ => {}
        }
        Ok(())
    }

    /// The unit of length where no L: gives it (3.1.7).
    fn default_unit(&mut self) {
        let is_short = self.metre.is_some_and(|(beats, each)| beats * 4 < each * 3);
        self.unit = self.unit.or(Length::of(1, if is_short { 16 } else { 8 }));
    }
}

/// A metre (3.1.6): beats in a bar, and which part of a whole note each is; nothing where it is none.
fn read_metre(value: &str) -> Option<(u64, u64)> {
    match value {
        "C" => return Some((4, 4)),
        "C|" => return Some((2, 2)),
        _ => {}
    }
    let (beats, each) = value.split_once('/')?;
    let beats = beats.trim().trim_start_matches('(').trim_end_matches(')');
    let beats =
        beats.split('+').try_fold(0_u64, |sum, some| sum.checked_add(some.trim().parse::<u64>().ok()?))?;
    let each = each.trim().parse::<u64>().ok()?;
    ((1..=128).contains(&beats) && (1..=128).contains(&each)).then_some((beats, each))
}
