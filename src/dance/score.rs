use super::abc::{At, Event, Written, read_events};
use super::length::Length;
use super::{Head, Tune, TuneError, TupletPlace};

/// A tune as it is written: what stands on its stave.
///
/// ```
/// let score = bellpad::dance::Score::read("X:1\nM:6/8\nK:D\nA|:d2 d fed|^G3 z3:|\n").unwrap();
/// assert_eq!((score.sharps(), score.bars.len()), (2, 3));
/// let d = &score.bars[1].items[0];
/// assert_eq!((d.heads[0].step, d.value.part, d.value.dots), (8, 4, 0));
/// assert_eq!(score.bars[2].items[0].heads[0].accidental, Some(1));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Score {
    /// What stands between the bar lines, in the order in which it is written.
    pub bars: Vec<ScoreBar>,
}

/// A bar, or the part of one before or after a repeat.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreBar {
    /// Its number: 0 for an upbeat; both parts of a bar have one number.
    pub number: u32,
    /// How far into the metre it begins, where it is the last part of a bar.
    pub from: Length,
    /// In whole notes.
    pub length: Length,
    /// Beats in a bar, and which part of a whole note each is.
    pub metre: (u64, u64),
    /// The sharps of the key signature, flats below 0.
    pub sharps: i32,
    /// The notes and rests.
    pub items: Vec<ScoreItem>,
    /// Whether a repeat begins here.
    pub repeats: bool,
    /// The bar line on its right.
    pub end: BarEnd,
    /// The numbers of the ending that begins here.
    pub ending: Option<String>,
    /// The name of the part that begins here.
    pub part: Option<String>,
    /// Whether a line of the text ends after it.
    pub breaks: bool,
}

/// The line after a bar.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum BarEnd {
    /// None: the bar goes on.
    #[default]
    Open,
    /// One thin line.
    Single,
    /// Two thin lines.
    Double,
    /// A thin line and a thick one.
    Final,
    /// The same after two dots.
    Repeat,
}

/// A note, chord or rest.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreItem {
    /// How far into its bar it begins.
    pub begin: Length,
    /// How long it sounds.
    pub length: Length,
    /// How it is written.
    pub value: Value,
    /// The heads, from the lowest; none for a rest.
    pub heads: Vec<Head>,
    /// Whether it is a rest that is not to be seen.
    pub is_hidden: bool,
    /// Whether nothing parts it from the note before, so that one beam may hold both.
    pub is_joined: bool,
    /// Its place in a tuplet.
    pub tuplet: Option<TupletPlace>,
    /// The chord symbol over it.
    pub chord: String,
}

/// How a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Value {
    /// Which part of a whole note: 1, 2, 4, 8 and so on.
    pub part: u64,
    /// The dots after it.
    pub dots: u32,
}

/// The shortest note that is written.
const SHORTEST: u64 = 256;

impl Value {
    /// What is written, in whole notes.
    #[must_use]
    pub fn length(self) -> Length {
        let all = 2_u64.saturating_pow(self.dots + 1) - 1;
        Length::of(all, self.part.saturating_mul(2_u64.saturating_pow(self.dots))).unwrap_or(Length::NOTHING)
    }

    /// The note that is a length with at most two dots, if there is one.
    fn exactly(length: Length) -> Option<Self> {
        let (top, bottom) = length.parts();
        let dots = match top {
            1 => 0,
            3 => 1,
            7 => 2,
            _ => return None,
        };
        // The dots are halves of what stands before them.
        let part = bottom >> dots;
        (bottom.is_power_of_two() && (1..=SHORTEST).contains(&part)).then_some(Self { part, dots })
    }

    /// The longest note without a dot that fits into a length.
    fn within(length: Length) -> Self {
        let (top, bottom) = length.parts();
        let mut part = 1;
        while part < SHORTEST && bottom > top.saturating_mul(part) {
            part *= 2;
        }
        Self { part, dots: 0 }
    }
}

/// Whether the beats of a metre fall into three.
#[must_use]
pub fn is_compound((beats, each): (u64, u64)) -> bool {
    beats > 3 && beats.is_multiple_of(3) && each >= 8
}

/// The beat of a metre: a dotted note where they fall into three.
#[must_use]
pub fn beat((beats, each): (u64, u64)) -> Length {
    Length::of(if is_compound((beats, each)) { 3 } else { 1 }, each).unwrap_or(Length::NOTHING)
}

/// The notes, tied together, that make up a length which begins at a place of its bar.
fn pieces(begin: Length, length: Length, metre: (u64, u64)) -> Vec<Value> {
    let (mut made, mut at, mut rest) = (Vec::new(), begin, length);
    while rest > Length::NOTHING && made.len() < 32 {
        if let Some(value) = Value::exactly(rest) {
            made.push(value);
            break;
        }
        let to_beat = || {
            let beat = beat(metre);
            let whole = at.share_of(beat).floor() as u64;
            beat.times(whole + 1, 1)?.less(at).filter(|part| *part < rest)
        };
        let by_beat = is_compound(metre).then(to_beat).flatten().and_then(Value::exactly);
        let value = by_beat.unwrap_or_else(|| Value::within(rest));
        made.push(value);
        match (rest.less(value.length()), at.plus(value.length())) {
            (Some(less), Some(on)) if value.part < SHORTEST => (rest, at) = (less, on),
            _ => break,
        }
    }
    made
}

impl Score {
    /// Reads the first tune of an ABC text. What `&` lays over a bar, grace notes, slurs and decorations are left out.
    ///
    /// # Errors
    /// When [`Tune::read`] cannot read it.
    pub fn read(abc: &str) -> Result<Self, TuneError> {
        let read = read_events(abc)?;
        let mut score = Self { bars: gather(&read.events) };
        let tune = Tune::of(read)?;
        name_parts(&mut score.bars, &tune);
        Ok(score)
    }

    /// The sharps of the first key signature, flats below 0.
    #[must_use]
    pub fn sharps(&self) -> i32 {
        self.bars.first().map_or(0, |bar| bar.sharps)
    }
}

fn gather(events: &[At]) -> Vec<ScoreBar> {
    let mut bars: Vec<ScoreBar> = Vec::new();
    let (mut repeats, mut ending, mut part) = (false, None, None);
    for (_, event) in events {
        match event {
            Event::Bar(bar) => {
                let from = bars.len();
                split_keys(&mut bars, &bar.written, bar.metre, bar.length);
                if let Some(first) = bars.get_mut(from) {
                    first.repeats = std::mem::take(&mut repeats);
                    (first.ending, first.part) = (ending.take(), part.take());
                }
            }
            Event::Line { ends, starts, double, thick } => {
                if let Some(last) = bars.last_mut().filter(|last| last.end <= BarEnd::Single || *ends > 0) {
                    last.end = match () {
                        () if *ends > 0 => BarEnd::Repeat,
                        () if *thick => BarEnd::Final,
                        () if *double && *starts == 0 => BarEnd::Double,
                        () => BarEnd::Single,
                    };
                }
                repeats |= *starts > 0;
            }
            Event::Ending(numbers) => ending = Some(numbers.clone()),
            Event::Part(name) => part = Some(name.trim().to_owned()).filter(|name| !name.is_empty()),
            Event::Break => {
                if let Some(last) = bars.last_mut().filter(|last| last.end != BarEnd::Open) {
                    last.breaks = true;
                }
            }
        }
    }
    number(&mut bars);
    bars
}

/// Gives each strain's first bar its name, where the tune has more than one and their beginnings are plain.
fn name_parts(bars: &mut [ScoreBar], tune: &Tune) {
    let mut starts: Vec<usize> = Vec::new();
    let (mut in_repeat, mut only_upbeat) = (false, false);
    for (index, bar) in bars.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|before| bars.get(before)).map(|before| before.end);
        let splits = bar.repeats
            || bar.part.is_some()
            || match before {
                None | Some(BarEnd::Repeat) => true,
                Some(BarEnd::Double | BarEnd::Final) => !in_repeat,
                Some(BarEnd::Single | BarEnd::Open) => false,
            };
        if splits && bar.ending.is_none() && !only_upbeat {
            starts.push(index);
        }
        only_upbeat = index == 0 && bar.number == 0;
        in_repeat = (in_repeat || bar.repeats) && bar.end != BarEnd::Repeat;
    }
    if starts.len() == tune.strains.len() && starts.len() > 1 {
        for (start, strain) in starts.into_iter().zip(&tune.strains) {
            if let Some(bar) = bars.get_mut(start) {
                bar.part = Some(strain.name.clone());
            }
        }
    }
}

/// Adds a bar, in parts where the key changes within it.
fn split_keys(bars: &mut Vec<ScoreBar>, written: &[Written], metre: (u64, u64), length: Length) {
    let mut parts = written.chunk_by(|one, other| one.sharps == other.sharps).peekable();
    let mut begin = Length::NOTHING;
    while let Some(part) = parts.next() {
        let end = parts.peek().and_then(|next| next.first()).map_or(length, |next| next.begin);
        bars.push(ScoreBar {
            number: 0,
            from: Length::NOTHING,
            length: end.less(begin).unwrap_or(length),
            metre,
            sharps: part.first().map_or(0, |first| first.sharps),
            items: part.iter().flat_map(|written| items(written, begin, metre)).collect(),
            repeats: false,
            end: BarEnd::Open,
            ending: None,
            part: None,
            breaks: false,
        });
        begin = end;
    }
}

/// What is written as one note or rest, as as many as it takes on the stave.
fn items(written: &Written, from: Length, metre: (u64, u64)) -> Vec<ScoreItem> {
    let pieces = pieces(written.begin, written.value, metre);
    let (count, mut at) = (pieces.len(), written.begin.less(from).unwrap_or(Length::NOTHING));
    let ratio = written.length.share_of(written.value);
    let mut made = Vec::with_capacity(count);
    for (index, value) in pieces.into_iter().enumerate() {
        let (is_first, is_last) = (index == 0, index + 1 == count);
        let length = if count == 1 { written.length } else { sounding(value, written, ratio) };
        let mut heads = written.heads.clone();
        heads.sort_by_key(|head| head.step);
        for head in &mut heads {
            head.is_tied |= !is_last;
            head.accidental = head.accidental.filter(|_| is_first);
        }
        made.push(ScoreItem {
            begin: at,
            length,
            value,
            heads,
            is_hidden: written.is_hidden,
            is_joined: written.is_joined && is_first,
            tuplet: written.tuplet.map(|place| TupletPlace {
                is_first: place.is_first && is_first,
                is_last: place.is_last && is_last,
                ..place
            }),
            chord: if is_first { written.chord.clone() } else { String::new() },
        });
        at = at.plus(length).unwrap_or(at);
    }
    made
}

/// How long one of the notes that are written for one sounds.
fn sounding(value: Value, written: &Written, ratio: f64) -> Length {
    let plain = value.length();
    if (ratio - 1.0).abs() < 1e-9 {
        return plain;
    }
    let ((top, bottom), (over, under)) = (written.length.parts(), written.value.parts());
    let changed = top.checked_mul(under).zip(bottom.checked_mul(over));
    changed.and_then(|(top, bottom)| plain.times(top, bottom)).unwrap_or(plain)
}

/// Numbers the bars: an upbeat is 0, and what completes a bar has the number of what it completes.
fn number(bars: &mut [ScoreBar]) {
    let (mut last, mut open) = (0, Length::NOTHING);
    for (index, bar) in bars.iter_mut().enumerate() {
        let full = Length::of(bar.metre.0, bar.metre.1).unwrap_or(Length::NOTHING);
        if bar.ending.is_some() {
            open = Length::NOTHING;
        }
        let sum = open.plus(bar.length).unwrap_or(full);
        let is_upbeat = open == Length::NOTHING && sum < full && (index == 0 || bar.repeats);
        bar.from = if is_upbeat { full.less(sum).unwrap_or(open) } else { open };
        if index == 0 && is_upbeat {
            // The last bar makes it whole.
            continue;
        }
        if open == Length::NOTHING {
            last += 1;
        }
        bar.number = last;
        open = if sum < full { sum } else { Length::NOTHING };
    }
}
