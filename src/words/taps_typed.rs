//! A figure's taps and claps as they are typed: a line for each bar, such as `bar 1: count 3, odds tip on partner's butt`.

use super::taps_item::Item;
use super::taps_tokens::{Token, tokens_of};
use crate::dance::{BarCounts, Strike};
use std::ops::Range;
use thiserror::Error;

/// Taps that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{said}")]
pub struct TypedTapsError {
    /// In which line, what is wrong, and what was expected.
    pub said: String,
    /// Where, letters from the start of the text.
    pub place: Range<usize>,
    /// Whether typing on could put it right.
    pub unfinished: bool,
}

/// What is wrong with a line, and where.
pub(super) struct WrongWord {
    pub said: String,
    pub place: Range<usize>,
    pub unfinished: bool,
}

impl WrongWord {
    /// A word that typing on does not put right.
    pub fn at(place: Range<usize>, said: impl Into<String>) -> Self {
        Self { said: said.into(), place, unfinished: false }
    }
}

/// Reads taps as [`taps_written`](super::taps_written) writes them. `bars` are those of the figure, `dancers` how many there are.
///
/// # Errors
/// When it is none of these, or names a bar, a count or a place that there is not; with the line and the word.
pub fn read_taps(text: &str, bars: &BarCounts, dancers: u32) -> Result<Vec<Strike>, TypedTapsError> {
    let mut strikes = Vec::new();
    let mut begin = 0;
    for (index, line) in text.split('\n').enumerate() {
        let length = line.chars().count();
        let tokens = tokens_of(line, begin);
        if !tokens.is_empty() {
            read_line(&tokens, (bars, dancers), &mut strikes).map_err(|wrong| TypedTapsError {
                said: format!("Line {}: {}", index + 1, wrong.said),
                place: wrong.place,
                unfinished: wrong.unfinished,
            })?;
        }
        begin += length + 1;
    }
    Ok(strikes)
}

fn read_line(tokens: &[Token], of: (&BarCounts, u32), strikes: &mut Vec<Strike>) -> Result<(), WrongWord> {
    let mut line = Line { tokens };
    let in_bars = line.bars(of.0)?;
    let mut counts: Vec<f64> = Vec::new();
    loop {
        let end = line.tokens.iter().position(|token| token.is(";")).unwrap_or(line.tokens.len());
        let (item, rest) = line.tokens.split_at(end);
        let last = item.last().or(tokens.last()).map_or(0..1, |token| token.place.clone());
        let mut item = Item { tokens: item, last, bars: of.0, dancers: of.1 };
        strikes.push(item.read(&in_bars, &mut counts)?);
        let Some((_, after)) = rest.split_first() else { return Ok(()) };
        line.tokens = after;
        if after.is_empty() {
            // A semicolon at the end of a line is no mistake.
            return Ok(());
        }
    }
}

/// What is left of a line.
struct Line<'a> {
    tokens: &'a [Token],
}

impl Line<'_> {
    /// The bars that a line is about, from 1, in order.
    fn bars(&mut self, bars: &BarCounts) -> Result<Vec<u32>, WrongWord> {
        const SUCH: &str = "a line begins with its bar and a colon, such as bar 2:";
        let first = self.tokens.first().map_or(0..1, |token| token.place.clone());
        let colon = self.tokens.iter().position(|token| token.is(":"));
        let Some(colon) = colon else {
            let begun = self.tokens.iter().all(|token| {
                token.number().is_some() || ["bar", "bars", "and", ",", "to"].contains(&token.text.as_str())
            });
            return Err(WrongWord { said: SUCH.to_owned(), place: first, unfinished: begun });
        };
        let (head, rest) = self.tokens.split_at(colon);
        self.tokens = rest.get(1..).unwrap_or_default();
        let mut found: Vec<u32> = Vec::new();
        let mut to = false;
        for (index, token) in head.iter().enumerate() {
            match token.text.as_str() {
                "bar" | "bars" if index == 0 => {}
                "and" | "," if !found.is_empty() => {}
                "to" if !found.is_empty() => to = true,
                _ => {
                    let number = token.number().filter(|number| number.fract() == 0.0 && *number >= 1.0);
                    let Some(bar) = number.map(|number| number as u32) else {
                        return Err(WrongWord::at(
                            token.place.clone(),
                            format!("{} is no bar; {SUCH}", token.quoted()),
                        ));
                    };
                    if bar > bars.bars() {
                        let said = format!("the figure has {} bars, and no bar {bar}", bars.bars());
                        return Err(WrongWord::at(token.place.clone(), said));
                    }
                    let from = found.last().copied().filter(|_| std::mem::take(&mut to)).unwrap_or(bar);
                    found.extend(from.min(bar)..=bar);
                }
            }
        }
        found.sort_unstable();
        found.dedup();
        if found.is_empty() {
            return Err(WrongWord::at(first, SUCH));
        }
        Ok(found)
    }
}

#[cfg(test)]
mod tests {
    use super::super::taps_written;
    use super::*;
    use crate::dance::{Foot, Metre, PlaceNumber, StrikeEnd, StrikePart, Striker, Struck};
    use proptest::prelude::*;

    fn read(text: &str) -> Result<Vec<Strike>, TypedTapsError> {
        read_taps(text, &BarCounts::usual(8), 6)
    }

    fn wrong(text: &str) -> (String, String, bool) {
        let error = read(text).unwrap_err();
        let letters: Vec<char> = text.chars().collect();
        (letters[error.place.clone()].iter().collect(), error.said, error.unfinished)
    }

    /// [MB1]'s single tapping: bar 1 h. 1's tip on 2's butt; bar 2 h. 2's tip on 1's butt; bar 3 as 1; bar 4 b. 1's butt on 2's tip, h. tip on tip.
    const SINGLE: &str = "bars 1 and 3: count 3, odds tip on partner's butt\n\
                          bar 2: count 3, evens tip on partner's butt\n\
                          bar 4: count 1, odds butt on partner's tip; count 3, odds tip on partner's tip";

    #[test]
    fn a_book_pattern_is_read_and_written_alike() {
        let strikes = read(SINGLE).unwrap();
        let tip = |at: f64, by: Striker, end: StrikeEnd, their: StrikeEnd| Strike {
            their: Some(their),
            ..Strike::new(at, by, end, Struck::Partner)
        };
        let (odds, tips, butts) = (Striker::Odds, StrikeEnd::Tip, StrikeEnd::Butt);
        assert_eq!(
            strikes,
            [
                Strike { again: vec![10.0], ..tip(2.0, odds, tips, butts) },
                tip(6.0, Striker::Evens, tips, butts),
                tip(12.0, odds, butts, tips),
                tip(14.0, odds, tips, tips),
            ]
        );
        assert_eq!(taps_written(&strikes, &BarCounts::usual(8)), SINGLE);
    }

    #[test]
    fn people_may_write_it_in_fewer_words() {
        let own = |at: f64, end: StrikeEnd, part: Option<StrikePart>| Strike {
            part,
            ..Strike::new(at, Striker::All, end, Struck::Own)
        };
        let strikes = read(
            "1: count 1 all both hands together; count 2, all right hand on right knee\n\n\
             2: Count 3, all both hands under the left knee; count 4 all both behind;",
        );
        assert_eq!(
            strikes.unwrap(),
            [
                own(0.0, StrikeEnd::Both, None),
                own(1.0, StrikeEnd::Right, Some(StrikePart::RightKnee)),
                own(6.0, StrikeEnd::Both, Some(StrikePart::UnderLeftKnee)),
                own(7.0, StrikeEnd::Both, Some(StrikePart::Behind)),
            ]
        );
        // Numbers of places are never taken for counts.
        let strikes =
            read("5: counts 1 and 3, 5 tip on neighbour up's butt; 3 tip on the ground, at 0.1m, stay")
                .unwrap();
        let (five, three) = (Striker::Place(PlaceNumber(5)), Striker::Place(PlaceNumber(3)));
        assert_eq!(
            (strikes[0].by, strikes[0].on, strikes[0].again.as_slice()),
            (five, Struck::Up, [18.0].as_slice())
        );
        assert_eq!(
            (strikes[1].by, strikes[1].at, strikes[1].height, strikes[1].stay),
            (three, 16.0, Some(0.1), true)
        );
        let left = read("1: count 1, 2 butt of the left stick on 1’s tip, again at 3:2, 4:1 and 8:4.5, stay")
            .unwrap();
        // Two sticks each.
        let two = read(
            "1: count 1, 1 tip of left stick on 2's tip of the left stick; count 2, 1 tip on 2's left stick",
        )
        .unwrap();
        let answers = |index: usize| (two[index].hand, two[index].their, two[index].their_hand);
        assert_eq!(answers(0), (Some(Foot::Left), Some(StrikeEnd::Tip), Some(Foot::Left)));
        assert_eq!(answers(1), (None, None, Some(Foot::Left)));
        let said =
            "bar 1: count 1, 1 tip of left stick on 2's tip of left stick; count 2, 1 tip on 2's left stick";
        assert_eq!(taps_written(&two, &BarCounts::usual(8)), said);
        assert_eq!(
            (left[0].hand, left[0].again.as_slice(), left[0].stay),
            (Some(Foot::Left), [9.0, 12.0, 31.5].as_slice(), true)
        );
    }

    #[test]
    fn beats_and_partners_are_understood() {
        let one = read("bar 2: beat 1, odds tip on partners butt; beats 1.5 and 2, evens tip on opposites")
            .unwrap();
        let same = read("bar 2: count 1, odds tip on partner's butt; counts 2 and 3, evens tip on opposite")
            .unwrap();
        assert_eq!(one, same);
        let (word, said, _) = wrong("bar 2: beat 3, odds tip on partner");
        assert_eq!((word.as_str(), said.as_str()), ("3", "Line 1: bar 2 has beats 1 to 2, and no beat 3"));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line_and_its_word() {
        for (text, word, unfinished, said) in [
            ("tip on butt", "tip", false, "Line 1: a line begins with its bar and a colon, such as bar 2:"),
            ("bar 9: count 1, all tip on ground", "9", false, "Line 1: the figure has 8 bars, and no bar 9"),
            (
                "bar 1: odds tip",
                "odds",
                false,
                "Line 1: \"odds\" is no count; expected count and its number, such as count 3,",
            ),
            ("bar 1: count 5, odds tip", "5", false, "Line 1: bar 1 has counts 1 to 4, and no count 5"),
            (
                "bar 1: count 1, ods tip",
                "ods",
                false,
                "Line 1: \"ods\" is nobody who strikes; expected odds, evens, all or a number (did you mean odds?)",
            ),
            ("bar 1: count 1, 7 tip on 1", "7", false, "Line 1: 7 is no place in a set of 6"),
            (
                "bar 1: count 1, odds but on partner",
                "but",
                false,
                "Line 1: \"but\" is nothing to strike with; expected tip, butt, middle, right hand, left hand or both hands (did you mean butt?)",
            ),
            (
                "bar 1: count 1, odds tip at partner",
                "at",
                false,
                "Line 1: \"at\" is none here; expected on and whom, such as on partner, or together",
            ),
            (
                "bar 1: count 1, 3 tip on 3",
                "3",
                false,
                "Line 1: 3 is on both sides; on oneself it is: 3 … on self",
            ),
            (
                "\nbar 2: count 1, odds tip on partner, hihg",
                "hihg",
                false,
                "Line 2: \"hihg\" is none here; expected at and a height, stay, or again at and when, such as again at 3:1,",
            ),
            (
                "bar 1: count 1, odds tip on partner, at 3 m",
                "3",
                false,
                "Line 1: nobody meets at 3 m: 0 to 2.5 m",
            ),
            (
                "bar 1: count 1, odds right on partner's right of left stick",
                "right",
                false,
                "Line 1: a hand answers by itself; a stick does with its tip, butt or middle",
            ),
            (
                "bar 1: count 1, all right on right knee, at 1.2 m",
                "1.2",
                false,
                "Line 1: a knee is struck where it is, at no other height",
            ),
            (
                "bar 1: counts 1, 3 odds tip on partner",
                "odds",
                false,
                "Line 1: \"odds\" is none here; expected and with the last count, such as counts 1 and 3,",
            ),
            (
                "bar 1: count 1, odds tip on",
                "on",
                true,
                "Line 1: partner, opposite, neighbour up, neighbour down, a number, ground, self, own hands or a knee is expected after this",
            ),
            (
                "bar 1: count 1, odds tip on part",
                "part",
                true,
                "Line 1: \"part\" is nobody to strike; expected partner, opposite, neighbour up, neighbour down, a number, ground, self, own hands or a knee (did you mean partner?)",
            ),
            ("bar 1", "bar", true, "Line 1: a line begins with its bar and a colon, such as bar 2:"),
        ] {
            assert_eq!(wrong(text), (word.to_owned(), said.to_owned(), unfinished), "{text}");
        }
    }

    fn strikes() -> impl Strategy<Value = Strike> {
        let by = prop_oneof![
            (1..=6u32).prop_map(|place| Striker::Place(PlaceNumber(place))),
            prop::sample::select(vec![Striker::Odds, Striker::Evens, Striker::All]),
        ];
        let on = prop_oneof![
            Just(Struck::Place(PlaceNumber(6))),
            prop::sample::select(Struck::WORDS.map(|(_, on)| on).to_vec()),
        ];
        let end = || prop::sample::select(StrikeEnd::ALL.to_vec());
        let part = prop::option::of(prop::sample::select(StrikePart::ALL.to_vec()));
        let hand = || prop::option::of(prop::sample::select(vec![Foot::Left, Foot::Right]));
        let rest = (prop::option::of(0..250u32), any::<bool>(), hand(), hand());
        let counts = prop::collection::btree_set(0..132u32, 1..6);
        (by, on, end(), prop::option::of(end()), part, rest, counts).prop_map(
            |(by, on, end, their, part, (height, stay, hand, their_hand), counts)| {
                let own = by == Striker::Place(PlaceNumber(6)) && on == Struck::Place(PlaceNumber(6));
                let on = if own { Struck::Ground } else { on };
                let mut counts = counts.into_iter().map(|quarter| f64::from(quarter) / 4.0);
                let mut strike = Strike {
                    their: their.filter(|_| on.is_somebody()),
                    part: part.filter(|_| on == Struck::Own),
                    height: height.map(|height| f64::from(height) / 100.0),
                    stay,
                    hand: hand.filter(|_| end.is_of_stick()),
                    their_hand,
                    again: counts.by_ref().skip(1).collect(),
                    ..Strike::new(counts.next().unwrap_or(0.0), by, end, on)
                };
                strike.their_hand = strike.their_hand.filter(|_| strike.is_on_a_stick());
                strike.height = strike.height.filter(|_| strike.takes_height());
                strike
            },
        )
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// What is written of any strikes is read as the same again, in a figure with a bar of three strong beats.
        #[test]
        fn what_is_written_is_read_again(
            all in prop::collection::vec(strikes(), 0..8),
        ) {
            let mut bars = BarCounts::usual(3);
            bars.add(Metre::NineEight, 1);
            bars.add(Metre::default(), 4);
            let mut all = all;
            for strike in &mut all {
                // `skip` above takes the first with it: in order, and each once.
                strike.again.retain(|count| *count > strike.at);
            }
            all.sort_by(|one, other| one.at.total_cmp(&other.at));
            let written = taps_written(&all, &bars);
            prop_assert_eq!(read_taps(&written, &bars, 6), Ok(all), "{}", written);
        }

        /// Whatever is typed, it is read or told with a place in it.
        #[test]
        fn anything_is_read_or_told(
            text in "[a-z0-9:,;. \n]{0,40}|(bar |count |1|3|: |, |; |odds |tip |on |partner|'s |butt|and |\n|at |again ){0,14}",
        ) {
            if let Err(error) = read(&text) {
                let letters = text.chars().count();
                prop_assert!(error.place.start < error.place.end && error.place.end <= letters, "{error:?} in {text:?}");
                prop_assert!(error.said.starts_with("Line "));
            }
        }
    }
}
