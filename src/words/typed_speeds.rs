use crate::dance::{BarCounts, SpeedChange, limits, shown_name};
use crate::motion::Moment;
use std::ops::Range;
use thiserror::Error;

/// Speeds that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{said}")]
pub struct TypedSpeedsError {
    /// What is wrong, and what was expected.
    pub said: String,
    /// Where, letters from the start of the text.
    pub place: Range<usize>,
    /// Whether typing on could put it right.
    pub unfinished: bool,
}

/// A word of the text, in small letters, and where it stands, letters from the start.
struct Word {
    text: String,
    place: Range<usize>,
}

/// Reads speeds as [`speeds_said`](super::speeds_said) tells them, and in fewer words: `60`, `60, from bar 5 at 90`, `60, to 90 at bar 7`.
/// `bars` are those of the figure or the strain that they are of, and `usual` is the speed in which it begins otherwise, strong beats
/// a minute.
///
/// # Errors
/// When it is none of these, names a bar or a count that there is not, or a speed that no tune has; with the place.
pub fn read_speeds(text: &str, bars: &BarCounts, usual: f64) -> Result<Vec<SpeedChange>, TypedSpeedsError> {
    let words = words_of(text);
    let mut changes: Vec<SpeedChange> = Vec::new();
    let mut rest = words.as_slice();
    while !rest.is_empty() {
        let end = rest.iter().position(|word| word.text == ",").unwrap_or(rest.len());
        let (item, after) = rest.split_at(end);
        let mut item =
            Item { words: item, bars, end: item.last().or(rest.first()).map_or(0, |word| word.place.end) };
        item.read(&mut changes, usual)?;
        rest = after.get(1..).unwrap_or_default();
        if after.len() == 1 {
            let comma = after.first().map_or(0..0, |comma| comma.place.clone());
            return Err(unfinished(comma, "after the comma another speed is expected"));
        }
    }
    Ok(changes)
}

fn words_of(text: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    let mut open = false;
    for (index, letter) in text.chars().enumerate() {
        match letter {
            ',' | ';' => words.push(Word { text: ",".to_owned(), place: index..index + 1 }),
            _ if letter.is_whitespace() => {}
            _ if open => {
                if let Some(last) = words.last_mut() {
                    last.text.extend(letter.to_lowercase());
                    last.place.end = index + 1;
                }
            }
            _ => words.push(Word { text: letter.to_lowercase().collect(), place: index..index + 1 }),
        }
        open = !letter.is_whitespace() && letter != ',' && letter != ';';
    }
    words
}

fn wrong(place: Range<usize>, said: impl Into<String>) -> TypedSpeedsError {
    TypedSpeedsError { said: said.into(), place, unfinished: false }
}

fn unfinished(place: Range<usize>, said: impl Into<String>) -> TypedSpeedsError {
    TypedSpeedsError { said: said.into(), place, unfinished: true }
}

/// What stands between two commas.
struct Item<'a> {
    words: &'a [Word],
    bars: &'a BarCounts,
    /// Where it ends.
    end: usize,
}

impl<'a> Item<'a> {
    fn take(&mut self, text: &str) -> bool {
        let is_it = self.words.first().is_some_and(|word| word.text == text);
        self.words = if is_it { self.words.get(1..).unwrap_or_default() } else { self.words };
        is_it
    }

    /// The next word, to be read as something.
    fn next(&mut self, expected: &str) -> Result<(&'a str, Range<usize>), TypedSpeedsError> {
        let end = self.end;
        let Some((word, rest)) = self.words.split_first() else {
            return Err(unfinished(end.saturating_sub(1)..end, format!("{expected} is expected here")));
        };
        self.words = rest;
        Ok((&word.text, word.place.clone()))
    }

    fn read(&mut self, changes: &mut Vec<SpeedChange>, usual: f64) -> Result<(), TypedSpeedsError> {
        let from = if self.take("from") { Some(self.moment()?) } else { None };
        let little = self.take("little");
        if little && !(self.take("by") && self.take("little")) {
            return self
                .next("little by little")
                .and_then(|(_, place)| Err(wrong(place, "little by little is meant?")));
        }
        let eased = self.take("to") || little;
        if !eased {
            self.take("at");
        }
        let spoken = self.words.first().map_or(0..1, |word| word.place.clone());
        let speed = self.speed()?;
        let before = changes.last().map_or((0.0, usual), |change| (change.count, change.speed));
        let (count, place) = if eased {
            if !self.take("at") {
                let (_, place) = self.next("at and a bar, such as at bar 7,")?;
                return Err(wrong(place, "here at and a bar are expected, such as at bar 7"));
            }
            match from {
                Some((from, place)) if from < before.0 => {
                    return Err(wrong(place, "this is before what stands before it"));
                }
                Some((from, _)) if from > before.0 => changes.push(SpeedChange::at(from, before.1)),
                _ => {}
            }
            self.moment()?
        } else {
            match from {
                Some((from, place)) if from >= self.bars.counts() => {
                    return Err(wrong(place, "it ends there: nothing is danced at this speed"));
                }
                Some(from) => from,
                None if changes.is_empty() => (0.0, spoken),
                None => return Err(wrong(spoken, "from which bar on? such as from bar 5 at 90")),
            }
        };
        let last = changes.last().map_or(f64::NEG_INFINITY, |change| change.count);
        if count <= last || (eased && count <= 0.0) {
            return Err(wrong(place, "this is no later than what stands before it"));
        }
        if let Some(word) = self.words.first() {
            return Err(wrong(word.place.clone(), "a comma is expected before this, or nothing"));
        }
        let change = SpeedChange::at(count, speed);
        changes.push(if eased { change.eased() } else { change });
        Ok(())
    }

    fn speed(&mut self) -> Result<f64, TypedSpeedsError> {
        let (word, place) = self.next("a speed")?;
        let [least, most] = limits::SPEEDS;
        let is_begun = word.chars().all(|letter| letter.is_ascii_digit() || letter == '.');
        match word.parse::<f64>() {
            Ok(speed) if (least..=most).contains(&speed) => Ok(speed),
            Ok(speed) => Err(TypedSpeedsError {
                said: format!(
                    "{} is no speed of a tune: {least} to {most} strong beats a minute",
                    shown_name(word)
                ),
                place,
                unfinished: speed < least,
            }),
            Err(_) => {
                let said = format!(
                    "{} is no speed: a number of strong beats a minute, {least} to {most}",
                    shown_name(word)
                );
                Err(TypedSpeedsError { said, place, unfinished: is_begun })
            }
        }
    }

    /// A bar, or a count in one: counts from the start, and where it stands.
    fn moment(&mut self) -> Result<(f64, Range<usize>), TypedSpeedsError> {
        self.take("bar");
        let bars = self.bars;
        let (word, place) = self.next("a bar")?;
        let text = if word.contains(':') { word.to_owned() } else { format!("{word}:1") };
        let known = text.parse::<Moment>().ok().filter(|moment| moment.is_in(bars));
        let Some(moment) = known else {
            let said = format!("{} is no bar: 5, or 5:3 for count 3 of it", shown_name(word));
            return Err(TypedSpeedsError { said, place, unfinished: word.ends_with(':') });
        };
        let count = moment.counts(bars);
        if count > bars.counts() || (count == bars.counts() && count > 0.0 && moment.count > 1.0) {
            return Err(wrong(place, format!("it has only {} bars", bars.bars())));
        }
        Ok((count, place))
    }
}

#[cfg(test)]
mod tests {
    use super::super::speeds_said;
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> Result<Vec<SpeedChange>, TypedSpeedsError> {
        read_speeds(text, &BarCounts::usual(8), 100.0)
    }

    #[test]
    fn speeds_are_read_as_people_write_them() {
        assert_eq!(read(" ").unwrap(), []);
        assert_eq!(read("60").unwrap(), [SpeedChange::at(0.0, 60.0)]);
        assert_eq!(
            read("60, from bar 5 at 92.5").unwrap(),
            [SpeedChange::at(0.0, 60.0), SpeedChange::at(16.0, 92.5)]
        );
        assert_eq!(read("from 3:3 80").unwrap(), [SpeedChange::at(10.0, 80.0)]);
        assert_eq!(read("to 50 at bar 4:3").unwrap(), [SpeedChange::at(14.0, 50.0).eased()]);
        assert_eq!(
            read("60; To 90 at 9").unwrap(),
            [SpeedChange::at(0.0, 60.0), SpeedChange::at(32.0, 90.0).eased()]
        );
        // A change that begins later than the one before it begins with the speed of that.
        assert_eq!(
            read("from bar 7 little by little to 60 at bar 9").unwrap(),
            [SpeedChange::at(24.0, 100.0), SpeedChange::at(32.0, 60.0).eased()]
        );
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place() {
        for (text, place, unfinished, said) in [
            ("fast", 0..4, false, "fast is no speed: a number of strong beats a minute, 10 to 400"),
            ("6", 0..1, true, "6 is no speed of a tune: 10 to 400 strong beats a minute"),
            ("600", 0..3, false, "600 is no speed of a tune: 10 to 400 strong beats a minute"),
            ("60,", 2..3, true, "after the comma another speed is expected"),
            ("60 90", 3..5, false, "a comma is expected before this, or nothing"),
            ("to 60", 4..5, true, "at and a bar, such as at bar 7, is expected here"),
            ("60, from bar 12 at 90", 13..15, false, "it has only 8 bars"),
            ("60, from bar 2:5 at 90", 13..16, false, "2:5 is no bar: 5, or 5:3 for count 3 of it"),
            ("60, 90", 4..6, false, "from which bar on? such as from bar 5 at 90"),
            ("from bar 9 at 60", 9..10, false, "it ends there: nothing is danced at this speed"),
            (
                "from bar 5 at 80, from bar 3 little by little to 90 at bar 7",
                27..28,
                false,
                "this is before what stands before it",
            ),
            (
                "from bar 5 at 60, from bar 3 at 70",
                27..28,
                false,
                "this is no later than what stands before it",
            ),
        ] {
            assert_eq!(
                read(text),
                Err(TypedSpeedsError { said: said.to_owned(), place, unfinished }),
                "{text}"
            );
        }
    }

    proptest! {
        /// What is told of any speeds is read as the same again.
        #[test]
        fn what_is_told_is_read_again(
            steps in prop::collection::vec((1..7_u32, 20..800_u32, any::<bool>()), 1..5),
        ) {
            let bars = BarCounts::usual(8);
            let mut count = -1.0;
            let changes: Vec<SpeedChange> = steps.iter().map(|(after, speed, ease)| {
                count += f64::from(*after);
                let change = SpeedChange::at(count, f64::from(*speed) / 2.0);
                if *ease && count > 0.0 { change.eased() } else { change }
            }).collect();
            let said = speeds_said(&changes, &bars).unwrap_or_default();
            prop_assert_eq!(read_speeds(&said, &bars, 100.0).map_err(|error| error.to_string()), Ok(changes), "{}", said);
        }

        /// Whatever is typed, it is read or told with a place in it.
        #[test]
        fn anything_is_read_or_told(text in "[a-z0-9:,. ]{0,40}|(from |bar |to |at |little by |60|5|, |:){0,12}") {
            if let Err(error) = read(&text) {
                let letters = text.chars().count();
                prop_assert!(error.place.start < error.place.end && error.place.end <= letters, "{error:?} in {text:?}");
            }
        }
    }
}
