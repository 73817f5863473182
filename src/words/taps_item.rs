use super::taps_tokens::{CLAUSES, ENDS, PLACES, STRIKERS, STRUCK, Token};
use super::taps_typed::WrongWord;
use crate::dance::limits::HIGHEST_STRIKE;
use crate::dance::{
    BarCounts, Foot, PlaceNumber, Strike, StrikeEnd, StrikePart, Striker, Struck, did_you_mean,
};
use std::ops::Range;

/// What a moment of a bar is told in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Unit {
    Count,
    Beat,
}

/// What is typed of one strike: what stands between two semicolons.
pub(super) struct Item<'a> {
    pub tokens: &'a [Token],
    /// The last word of it, letters.
    pub last: Range<usize>,
    pub bars: &'a BarCounts,
    pub dancers: u32,
}

impl<'a> Item<'a> {
    fn peek(&self) -> Option<&'a Token> {
        self.tokens.first()
    }

    fn next(&mut self) -> Option<&'a Token> {
        let (first, rest) = self.tokens.split_first()?;
        self.tokens = rest;
        Some(first)
    }

    fn take(&mut self, text: &str) -> bool {
        let is_it = self.peek().is_some_and(|token| token.is(text));
        if is_it {
            self.next();
        }
        is_it
    }

    /// That the next word is none of what is expected.
    fn wrong(&self, what: &str, expected: &str, known: &[&str]) -> WrongWord {
        match self.peek() {
            None => WrongWord {
                said: format!("{expected} is expected after this"),
                place: self.last.clone(),
                unfinished: true,
            },
            Some(token) => {
                let meant = did_you_mean(&token.text, known.iter().copied());
                let said = format!("{} is {what}; expected {expected}{meant}", token.quoted());
                // The start of a word may yet become it.
                let begun =
                    self.tokens.len() == 1 && known.iter().any(|known| known.starts_with(&token.text));
                WrongWord { said, place: token.place.clone(), unfinished: begun }
            }
        }
    }

    fn number(&mut self, expected: &str) -> Result<(f64, Range<usize>), WrongWord> {
        let number = self.peek().and_then(|token| Some((token.number()?, token.place.clone())));
        let number = number.ok_or_else(|| self.wrong("no number", expected, &[]))?;
        self.next();
        Ok(number)
    }

    /// Reads a strike in some bars, from 1; `counts` are those of the strike before it, and then its own.
    pub fn read(&mut self, in_bars: &[u32], counts: &mut Vec<f64>) -> Result<Strike, WrongWord> {
        if self.take("counts") {
            *counts = self.counts(in_bars, Unit::Count)?;
        } else if self.take("count") {
            *counts = vec![self.count(in_bars, Unit::Count)?];
        } else if self.take("beats") {
            *counts = self.counts(in_bars, Unit::Beat)?;
        } else if self.take("beat") {
            *counts = vec![self.count(in_bars, Unit::Beat)?];
        } else if counts.is_empty() {
            return Err(self.wrong(
                "no count",
                "count and its number, such as count 3,",
                &["count", "counts", "beat", "beats"],
            ));
        }
        self.take(",");
        let by_place = self.peek().map_or(self.last.clone(), |token| token.place.clone());
        let by = self.striker()?;
        let end = self.end()?;
        let mut strike = Strike::new(0.0, by, end, Struck::Own);
        if self.take("of") {
            self.take("the");
            let place = self.peek().map_or(self.last.clone(), |token| token.place.clone());
            strike.hand = Some(self.stick_side()?);
            if !end.is_of_stick() {
                return Err(WrongWord::at(
                    place,
                    "a hand strikes by itself; a stick does with its tip, butt or middle",
                ));
            }
        }
        self.target(&mut strike)?;
        if let (Striker::Place(by), Struck::Place(on)) = (by, strike.on)
            && by == on
        {
            return Err(WrongWord::at(
                by_place,
                format!("{by} is on both sides; on oneself it is: {by} … on self"),
            ));
        }
        let mut all: Vec<f64> = in_bars
            .iter()
            .map(|bar| self.bars.begin_of(bar - 1))
            .flat_map(|begin| counts.iter().map(move |count| begin + count - 1.0))
            .collect();
        self.clauses(&mut strike, &mut all)?;
        all.sort_by(f64::total_cmp);
        all.dedup_by(|one, other| (*one - *other).abs() < 1e-6);
        let mut all = all.into_iter();
        strike.at = all.next().unwrap_or(0.0);
        strike.again = all.collect();
        Ok(strike)
    }

    /// A count that each of some bars has; the second strong beat is count 3.
    fn count(&mut self, in_bars: &[u32], unit: Unit) -> Result<f64, WrongWord> {
        if unit == Unit::Beat {
            return self.beat(in_bars);
        }
        let (count, place) = self.number("a count")?;
        let few =
            in_bars.iter().find(|bar| !(1.0..f64::from(self.bars.in_bar(**bar - 1) + 1)).contains(&count));
        match few {
            None => Ok(count),
            Some(bar) => {
                let said =
                    format!("bar {bar} has counts 1 to {}, and no count {count}", self.bars.in_bar(bar - 1));
                Err(WrongWord::at(place, said))
            }
        }
    }

    fn beat(&mut self, in_bars: &[u32]) -> Result<f64, WrongWord> {
        let (beat, place) = self.number("a beat")?;
        let last = |bar: &u32| self.bars.in_bar(*bar - 1) / 2;
        match in_bars.iter().find(|bar| !(1.0..f64::from(last(bar) + 1)).contains(&beat)) {
            None => Ok(2.0 * beat - 1.0),
            Some(bar) => {
                let said = format!("bar {bar} has beats 1 to {}, and no beat {beat}", last(bar));
                Err(WrongWord::at(place, said))
            }
        }
    }

    /// `1 and 3`, `1, 2 and 3`: the last after `and`, so that no number of a place is taken for one.
    fn counts(&mut self, in_bars: &[u32], unit: Unit) -> Result<Vec<f64>, WrongWord> {
        let mut counts = vec![self.count(in_bars, unit)?];
        loop {
            let last = self.take("and");
            if !last && !self.take(",") {
                return Err(self.wrong(
                    "none here",
                    "and with the last count, such as counts 1 and 3,",
                    &["and"],
                ));
            }
            counts.push(self.count(in_bars, unit)?);
            if last {
                return Ok(counts);
            }
        }
    }

    fn place(&mut self) -> Option<Result<PlaceNumber, WrongWord>> {
        let token = self.peek()?;
        let number = token.number()?;
        self.next();
        let place = PlaceNumber(number as u32);
        let is_one = number.fract() == 0.0 && place.is_in(self.dancers);
        Some(if is_one {
            Ok(place)
        } else {
            let said = format!("{} is no place in a set of {}", token.text, self.dancers);
            Err(WrongWord::at(token.place.clone(), said))
        })
    }

    fn striker(&mut self) -> Result<Striker, WrongWord> {
        if let Some(place) = self.place() {
            return place.map(Striker::Place);
        }
        let known = Striker::WORDS.into_iter().find(|(word, _)| self.take(word));
        known
            .map(|(_, by)| by)
            .ok_or_else(|| self.wrong("nobody who strikes", "odds, evens, all or a number", &STRIKERS))
    }

    fn side(&mut self) -> Result<Foot, WrongWord> {
        if self.take("right") {
            Ok(Foot::Right)
        } else if self.take("left") {
            Ok(Foot::Left)
        } else {
            Err(self.wrong("no side", "right or left", &["right", "left"]))
        }
    }

    /// Of which of two sticks.
    fn stick_side(&mut self) -> Result<Foot, WrongWord> {
        let side = self.side()?;
        if self.take("stick") { Ok(side) } else { Err(self.wrong("none here", "stick", &["stick"])) }
    }

    /// What strikes or answers, where the next word is one.
    fn maybe_end(&mut self) -> Option<StrikeEnd> {
        let found = StrikeEnd::ALL.into_iter().find(|end| self.take(end.key()))?;
        match found {
            StrikeEnd::Right | StrikeEnd::Left => self.take("hand"),
            StrikeEnd::Both => self.take("hands"),
            StrikeEnd::Tip | StrikeEnd::Butt | StrikeEnd::Middle => false,
        };
        Some(found)
    }

    fn end(&mut self) -> Result<StrikeEnd, WrongWord> {
        let found = self.maybe_end();
        found.ok_or_else(|| {
            self.wrong(
                "nothing to strike with",
                "tip, butt, middle, right hand, left hand or both hands",
                &ENDS,
            )
        })
    }

    fn knee(&mut self, under: bool) -> Result<StrikePart, WrongWord> {
        self.take("the");
        let side = self.side()?;
        if !self.take("knee") {
            return Err(self.wrong("none here", "knee", &["knee"]));
        }
        Ok(match (side, under) {
            (Foot::Right, false) => StrikePart::RightKnee,
            (Foot::Left, false) => StrikePart::LeftKnee,
            (Foot::Right, true) => StrikePart::UnderRightKnee,
            (Foot::Left, true) => StrikePart::UnderLeftKnee,
        })
    }

    /// On whom or what.
    fn target(&mut self, strike: &mut Strike) -> Result<(), WrongWord> {
        if self.take("together") {
            return Ok(());
        }
        let on = self.take("on");
        if on {
            self.take("the");
        }
        for (word, part) in [("behind", StrikePart::Behind), ("overhead", StrikePart::Overhead)] {
            if self.take(word) {
                strike.part = Some(part);
                return Ok(());
            }
        }
        if self.take("under") {
            strike.part = Some(self.knee(true)?);
            return Ok(());
        }
        if !on {
            return Err(self.wrong("none here", "on and whom, such as on partner, or together", &PLACES));
        }
        if self.take("own") {
            if !self.take("hands") {
                return Err(self.wrong("none here", "hands", &["hands"]));
            }
            strike.part = Some(StrikePart::Hands);
            return Ok(());
        }
        if self.peek().is_some_and(|token| token.is("right") || token.is("left")) {
            strike.part = Some(self.knee(false)?);
            return Ok(());
        }
        strike.on = self.struck()?;
        if strike.on.is_somebody() {
            self.answer(strike)?;
        }
        Ok(())
    }

    /// What the other answers with: `butt`, `tip of the left stick`, `left stick`.
    fn answer(&mut self, strike: &mut Strike) -> Result<(), WrongWord> {
        let place = self.peek().map_or(self.last.clone(), |token| token.place.clone());
        let bare = self.tokens.get(1).is_some_and(|token| token.is("stick"));
        if !bare {
            strike.their = self.maybe_end();
        }
        if bare || self.take("of") {
            self.take("the");
            strike.their_hand = Some(self.stick_side()?);
            if !strike.is_on_a_stick() {
                return Err(WrongWord::at(
                    place,
                    "a hand answers by itself; a stick does with its tip, butt or middle",
                ));
            }
        }
        Ok(())
    }

    fn struck(&mut self) -> Result<Struck, WrongWord> {
        if let Some(place) = self.place() {
            return place.map(Struck::Place);
        }
        let neighbour = self.take("neighbour") || self.take("neighbours");
        let many = [("partners", Struck::Partner), ("opposites", Struck::Opposite)];
        let known = Struck::WORDS.into_iter().chain(many).find(|(word, _)| self.take(word)).map(|(_, on)| on);
        match known {
            Some(on) if !neighbour || matches!(on, Struck::Up | Struck::Down) => Ok(on),
            _ if neighbour => Err(self.wrong("no neighbour", "up or down", &["up", "down"])),
            _ => Err(self.wrong(
                "nobody to strike",
                "partner, opposite, neighbour up, neighbour down, a number, ground, self, own hands or a knee",
                &STRUCK,
            )),
        }
    }

    /// What follows after commas.
    fn clauses(&mut self, strike: &mut Strike, counts: &mut Vec<f64>) -> Result<(), WrongWord> {
        while self.peek().is_some() {
            if !self.take(",") {
                return Err(self.wrong(
                    "one word too many",
                    "a comma, a semicolon or the end of the line",
                    &[],
                ));
            }
            if self.take("stay") {
                self.take("together");
                strike.stay = true;
            } else if self.take("at") {
                let place = self.peek().map_or(self.last.clone(), |token| token.place.clone());
                strike.height = Some(self.height()?);
                if !strike.takes_height() {
                    return Err(WrongWord::at(place, "a knee is struck where it is, at no other height"));
                }
            } else if self.take("again") {
                self.take("at");
                counts.push(self.moment()?);
                loop {
                    let more = self.tokens.get(1).is_some_and(|token| token.number().is_some());
                    if !(self.take("and") || more && self.take(",")) {
                        break;
                    }
                    counts.push(self.moment()?);
                }
            } else {
                let expected = "at and a height, stay, or again at and when, such as again at 3:1,";
                return Err(self.wrong("none here", expected, &CLAUSES));
            }
        }
        Ok(())
    }

    fn height(&mut self) -> Result<f64, WrongWord> {
        // With its metre written to it.
        let written = self.peek().and_then(|token| {
            let number = token.text.strip_suffix('m').unwrap_or(&token.text);
            Some((number.parse::<f64>().ok()?, token.place.clone()))
        });
        let Some((height, place)) = written else {
            return Err(self.wrong("no height", "a height, such as 1.3 m", &[]));
        };
        self.next();
        self.take("m");
        if (0.0..=HIGHEST_STRIKE).contains(&height) {
            return Ok(height);
        }
        Err(WrongWord::at(place, format!("nobody meets at {height} m: 0 to {HIGHEST_STRIKE} m")))
    }

    /// `3:1`: counts from the start of the figure.
    fn moment(&mut self) -> Result<f64, WrongWord> {
        let (bar, place) = self.number("a bar and a count, such as 3:1,")?;
        let bar = if bar.fract() == 0.0 { bar as u32 } else { 0 };
        if !(1..=self.bars.bars()).contains(&bar) {
            return Err(WrongWord::at(place, format!("the figure has bars 1 to {}", self.bars.bars())));
        }
        if !self.take(":") {
            return Err(self.wrong("none here", "a colon and a count, such as 3:1", &[]));
        }
        Ok(self.bars.begin_of(bar - 1) + self.count(&[bar], Unit::Count)? - 1.0)
    }
}
