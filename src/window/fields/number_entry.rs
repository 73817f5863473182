use super::wrong::Wrong;
use crate::dance::quoted;

/// A number that can be typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NumberKind {
    /// The smallest that is taken, in its unit.
    pub least: f64,
    /// The largest that is taken.
    pub most: f64,
    /// How many places after the point it is kept to.
    pub places: u8,
    /// Its unit, such as `m`; nothing for a plain number.
    pub unit: &'static str,
}

impl NumberKind {
    /// A number as it is kept.
    #[must_use]
    pub fn rounded(&self, value: f64) -> f64 {
        crate::dance::rounded(value, 10_f64.powi(i32::from(self.places)))
    }

    /// The least step that it is kept to.
    #[must_use]
    pub fn step(&self) -> f64 {
        0.1_f64.powi(i32::from(self.places))
    }

    /// A number as it is shown, without its unit.
    #[must_use]
    pub fn words(&self, value: f64) -> String {
        format!("{}", self.rounded(value))
    }

    /// A number with its unit.
    fn with_unit(&self, value: f64) -> String {
        match self.unit {
            "" | "°" => format!("{}{}", self.words(value), self.unit),
            unit => format!("{} {unit}", self.words(value)),
        }
    }

    /// What can be typed, in words.
    #[must_use]
    pub fn takes(&self) -> String {
        let what = if self.places == 0 { "A whole number" } else { "A number" };
        format!("{what} from {} to {}, to drag or to type", self.words(self.least), self.with_unit(self.most))
    }

    /// Reads what somebody typed: the unit may stand after it, and a comma is as good as a point.
    ///
    /// # Errors
    /// What is wrong with it, and what was expected or may have been meant.
    pub fn read(&self, text: &str) -> Result<f64, Wrong> {
        let plain = self.plain(text);
        let wanted = || format!("from {} to {}", self.words(self.least), self.with_unit(self.most));
        let unfinished = |said: String| Wrong { said, place: None, unfinished: true };
        if matches!(plain.as_str(), "" | "-" | "." | "-." | "+") {
            return Err(unfinished(format!("a number {}", wanted())));
        }
        let Some(value) = number(&plain) else {
            let meant = mended(&plain)
                .and_then(|plain| number(&plain))
                .filter(|value| (self.least..=self.most).contains(value));
            let meant =
                meant.map_or_else(String::new, |value| format!(" (did you mean {}?)", self.words(value)));
            let shown: String = text.trim().chars().take(20).collect();
            return Err(Wrong::whole(format!("{} is not a number{meant}; {}", quoted(&shown), wanted())));
        };
        if self.places == 0 && value.is_finite() && value.fract() != 0.0 {
            let near = self.words(value.clamp(self.least, self.most));
            return Err(Wrong::whole(format!("a whole number (did you mean {near}?)")));
        }
        let value = if value.is_finite() { self.rounded(value) } else { value };
        if value > self.most {
            let said = format!("at most {}", self.with_unit(self.most));
            return Err(if value < 0.0 && can_go_on(&plain, -value, -self.most) {
                unfinished(said)
            } else {
                Wrong::whole(said)
            });
        }
        if value < self.least {
            let said = format!("at least {}", self.with_unit(self.least));
            return Err(if value >= 0.0 && can_go_on(&plain, value, self.least) {
                unfinished(said)
            } else {
                Wrong::whole(said)
            });
        }
        Ok(value)
    }

    /// What was typed without its unit and spaces, with a plain minus and a point.
    fn plain(&self, text: &str) -> String {
        let text = text.trim();
        let bare = if self.unit.is_empty() { text } else { text.strip_suffix(self.unit).unwrap_or(text) };
        let mut plain: String = bare
            .chars()
            .filter(|letter| !letter.is_whitespace())
            .map(|letter| if letter == '\u{2212}' { '-' } else { letter })
            .collect();
        if plain.matches(',').count() == 1 && !plain.contains('.') {
            plain = plain.replace(',', ".");
        }
        plain
    }
}

/// A number of digits, with a sign, a point and a power of ten at most: nothing else that machines take for numbers. One of
/// more digits than there are numbers for is endless.
fn number(plain: &str) -> Option<f64> {
    let known = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | '-' | '+' | 'e' | 'E');
    plain.chars().all(known).then(|| plain.parse().ok()).flatten()
}

/// What was meant where letters that look like digits were typed, or a point too many; nothing where it is anything else.
fn mended(plain: &str) -> Option<String> {
    let mut mended = String::new();
    for letter in plain.chars() {
        match letter {
            'o' | 'O' => mended.push('0'),
            'l' | 'I' => mended.push('1'),
            '.' | ',' | ':' | ';' if mended.contains('.') => {}
            '.' | ',' | ':' | ';' => mended.push('.'),
            '0'..='9' => mended.push(letter),
            '-' if mended.is_empty() => mended.push('-'),
            _ => return None,
        }
    }
    Some(mended)
}

/// Whether a number that is too small could become large enough by more digits after it.
fn can_go_on(plain: &str, size: f64, least: f64) -> bool {
    match plain.split_once('.') {
        None => true,
        Some((_, after)) => {
            size + 0.1_f64.powi(i32::try_from(after.len()).unwrap_or(i32::MAX)) > least + 1e-9
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRES: NumberKind = NumberKind { least: 0.4, most: 20.0, places: 2, unit: "m" };
    const PLACE: NumberKind = NumberKind { least: -1000.0, most: 1000.0, places: 3, unit: "m" };
    const BARS: NumberKind = NumberKind { least: 1.0, most: 2000.0, places: 0, unit: "" };
    const TURN: NumberKind = NumberKind { least: -720.0, most: 720.0, places: 1, unit: "°" };

    #[test]
    fn numbers_are_read_as_people_write_them() {
        for (kind, text, value) in [
            (METRES, "2.4", 2.4),
            (METRES, " 2,4 ", 2.4),
            (METRES, "2.4 m", 2.4),
            (METRES, ".5m", 0.5),
            (METRES, "2.", 2.0),
            (METRES, "1.239", 1.24),
            (METRES, "1e1", 10.0),
            (PLACE, "\u{2212}1.5", -1.5),
            (PLACE, "-0", 0.0),
            (BARS, "16", 16.0),
            (TURN, "-90°", -90.0),
        ] {
            assert_eq!(kind.read(text), Ok(value), "{text}");
        }
        assert_eq!(
            (METRES.words(2.4), BARS.words(8.0), PLACE.words(-0.0)),
            ("2.4".into(), "8".into(), "0".into())
        );
    }

    #[test]
    fn what_is_no_number_is_told_with_what_was_meant() {
        for (kind, text, said) in [
            (METRES, "abc", "\"abc\" is not a number; from 0.4 to 20 m"),
            (METRES, "1o", "\"1o\" is not a number (did you mean 10?); from 0.4 to 20 m"),
            (METRES, "2..4", "\"2..4\" is not a number (did you mean 2.4?); from 0.4 to 20 m"),
            (METRES, "nan", "\"nan\" is not a number; from 0.4 to 20 m"),
            (METRES, "1e9", "at most 20 m"),
            (METRES, "-1e9", "at least 0.4 m"),
            (BARS, "1e400", "at most 2000"),
            (METRES, "1e", "\"1e\" is not a number; from 0.4 to 20 m"),
            (METRES, "2\u{202e}4", "\"2(U+202E)4\" is not a number; from 0.4 to 20 m"),
            (METRES, "\"2\"", "\"\"2\"\" is not a number; from 0.4 to 20 m"),
            (METRES, "25", "at most 20 m"),
            (METRES, "0.39", "at least 0.4 m"),
            (METRES, "-3", "at least 0.4 m"),
            (BARS, "2.5", "a whole number (did you mean 3?)"),
            (BARS, "0", "at least 1"),
            (TURN, "800", "at most 720°"),
        ] {
            assert_eq!(kind.read(text).unwrap_err().said, said, "{text}");
        }
        assert_eq!(
            METRES.read(&"9".repeat(400)).unwrap_err().said,
            "at most 20 m",
            "more than a number can be"
        );
    }

    #[test]
    fn nobody_is_told_before_they_are_done() {
        for (kind, text) in [
            (METRES, ""),
            (METRES, "0"),
            (METRES, "0."),
            (METRES, "."),
            (METRES, "0.3"),
            (PLACE, "-"),
            (BARS, "0"),
            (NumberKind { least: 12.0, ..METRES }, "1"),
        ] {
            let wrong = kind.read(text).unwrap_err();
            assert_eq!(wrong.unfinished, text != "0.3", "{text}: {wrong:?}");
        }
        assert!(!METRES.read("0.39").unwrap_err().unfinished);
        assert!(!METRES.read("21").unwrap_err().unfinished);
    }
}
