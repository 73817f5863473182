use super::steps::{Step, built_in};
use crate::dance::{Foot, OwnStep, did_you_mean, nearest, quoted, shown_list};
use std::{error, fmt, ops::Range};

/// The everyday phrase of four bars (common practice, no source).
pub const USUAL_PHRASE: &str = "2 ds, 2 ss, ftj";

/// The phrase of the travelling figures: 4/3 in two bars, 4/2 in two, a jump on the last half-bar [MB1].
pub const TRAVELLING_PHRASE: &str = "2 ds, 3 ss, hj";

/// What is wrong with a phrase, pointing at the word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhraseError {
    /// A word that is not a step.
    Unknown {
        /// As it is written in the file.
        phrase: String,
        /// As it is written in the phrase.
        word: String,
        /// Where it begins, letters from the start of the phrase.
        at: usize,
        /// The step that may have been meant: ` (did you mean ds?)`, or nothing.
        meant: String,
        /// Whether it is how the short name of a step begins.
        begun: bool,
        /// The short names of the steps known, as many as can be read.
        known: String,
    },
    /// A number that is not from 1 to 1000.
    Number {
        /// As it is written in the file.
        phrase: String,
        /// As it is written in the phrase.
        word: String,
        /// Where it begins, letters from the start of the phrase.
        at: usize,
    },
    /// Nothing at all.
    Empty {
        /// As it is written in the file.
        phrase: String,
    },
    /// Steps that do not fill the time exactly.
    Length {
        /// As it is written in the file.
        phrase: String,
        /// How many counts the phrase has.
        has: usize,
        /// How many counts there are to fill.
        wanted: usize,
        /// What is missing or over.
        short: String,
    },
}

impl fmt::Display for PhraseError {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Self::Unknown { phrase, .. } | Self::Number { phrase, .. } | Self::Length { phrase, .. } => {
                write!(out, "phrase {}: {}", quoted(phrase), self.told())
            }
            Self::Empty { .. } => out.write_str(&self.told()),
        }
    }
}

impl error::Error for PhraseError {}

impl PhraseError {
    /// What is wrong, for someone who has the phrase before their eyes.
    #[must_use]
    pub fn told(&self) -> String {
        match self {
            Self::Unknown { word, meant, known, .. } => {
                format!("{} is not a step{meant}; the steps known are {known}", quoted(word))
            }
            Self::Number { word, .. } => format!("{} is not a number of steps from 1 to 1000", quoted(word)),
            Self::Empty { phrase } => format!(
                "the phrase {} has no steps in it; write steps such as \"{USUAL_PHRASE}\"",
                quoted(phrase)
            ),
            Self::Length { has, wanted, short, .. } => {
                format!("{has} counts do not fill {wanted} ({short})")
            }
        }
    }

    /// The word that is wrong, letters from the start of the phrase; nothing where it is the phrase as a whole.
    #[must_use]
    pub fn place(&self) -> Option<Range<usize>> {
        match self {
            Self::Unknown { word, at, .. } | Self::Number { word, at, .. } => {
                Some(*at..*at + word.chars().count())
            }
            Self::Empty { .. } | Self::Length { .. } => None,
        }
    }

    /// Whether it could still become right by typing on at its end.
    #[must_use]
    pub fn is_unfinished(&self) -> bool {
        match self {
            Self::Unknown { phrase, word, begun, .. } => {
                let begun =
                    *begun || ["left", "right"].into_iter().any(|foot| foot.starts_with(word.as_str()));
                let number = word.chars().all(|letter| letter.is_ascii_digit());
                (number && phrase.trim_end().ends_with(word.as_str()))
                    || (begun && phrase.ends_with(word.as_str()))
            }
            Self::Number { .. } => false,
            Self::Empty { .. } => true,
            Self::Length { has, wanted, .. } => has < wanted,
        }
    }
}

/// The steps of a figure, each an index into `known`, with the count it begins at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Phrase {
    /// Count at which each step begins, from 0, and the index of the step.
    pub steps: Vec<(usize, usize)>,
    /// The counts of steps that the phrase itself says the foot of: `left, 2 ds, right, 2 ds`.
    pub leads: Vec<(usize, Foot)>,
}

/// The step that may have been meant by a word, by its letters or by its whole name; nothing where there is none.
fn meant(word: &str, known: &[Step]) -> String {
    let by_name = || {
        let name = nearest(word, known.iter().map(|step| step.name.as_str()))?;
        let step = known.iter().find(|step| step.name == name)?;
        Some(format!(" (did you mean {}, {name}?)", step.short))
    };
    match did_you_mean(word, known.iter().map(|step| step.short.as_str())) {
        none if none.is_empty() => by_name().unwrap_or_default(),
        letters => letters,
    }
}

/// The built-in steps and a dance's own; an own step with the same short name takes the place of the
/// built-in one.
#[must_use]
pub fn known_steps(own: &[OwnStep]) -> Vec<Step> {
    let mut known = built_in();
    for step in own {
        let step = Step::from(step);
        match known.iter_mut().find(|other| other.short == step.short) {
            Some(same) => *same = step,
            None => known.push(step),
        }
    }
    known
}

/// Reads a phrase such as `2 ds, 2 ss, ftj` and repeats it to fill a number of counts.
///
/// # Errors
/// Says which word is wrong, or how many counts are missing or over.
pub fn fill_phrase(phrase: &str, known: &[Step], counts: usize) -> Result<Phrase, PhraseError> {
    let mut once: Vec<usize> = Vec::new();
    // The places in the list of steps before which a foot is named.
    let mut named: Vec<(usize, Foot)> = Vec::new();
    // Where in the phrase a part of it begins, letters.
    let letters = |bytes: usize| phrase.get(..bytes).map_or(0, |before| before.chars().count());
    let mut end = 0;
    for part in phrase.split(',') {
        let item = part.trim();
        let begin = end + part.len() - part.trim_start().len();
        end += part.len() + 1;
        match item {
            "" => continue,
            "left" => {
                named.push((once.len(), Foot::Left));
                continue;
            }
            "right" => {
                named.push((once.len(), Foot::Right));
                continue;
            }
            _ => {}
        }
        let (number, word) = match item.split_once(char::is_whitespace) {
            Some((number, word)) => {
                let number: usize =
                    number.parse().ok().filter(|n| (1..=1000).contains(n)).ok_or_else(|| {
                        PhraseError::Number {
                            phrase: phrase.to_owned(),
                            word: number.to_owned(),
                            at: letters(begin),
                        }
                    })?;
                (number, word.trim())
            }
            None => (1, item),
        };
        let step = known.iter().position(|step| step.short == word).ok_or_else(|| PhraseError::Unknown {
            phrase: phrase.to_owned(),
            word: word.to_owned(),
            at: letters(begin + item.len() - word.len()),
            meant: meant(word, known),
            begun: known.iter().any(|step| step.short.starts_with(word)),
            known: shown_list(known.iter().map(|step| step.short.as_str())),
        })?;
        once.extend(std::iter::repeat_n(step, number));
        // Longer than there is time for, however it goes on: no need to write it all out.
        if once.len() > counts.max(1) {
            break;
        }
    }
    let length = |step: &usize| known.get(*step).map_or(1, Step::counts);
    let has: usize = once.iter().map(length).sum();
    if has == 0 {
        return Err(PhraseError::Empty { phrase: phrase.to_owned() });
    }
    let over = counts % has;
    if over != 0 {
        let short = match counts / has {
            0 => format!("{} over", has - counts),
            1 => format!("{over} missing"),
            times => format!("{over} missing after {times} times"),
        };
        return Err(PhraseError::Length { phrase: phrase.to_owned(), has, wanted: counts, short });
    }
    let mut steps = Vec::with_capacity(once.len() * (counts / has));
    let mut leads = Vec::new();
    let mut at = 0;
    while at < counts {
        for (index, step) in once.iter().enumerate() {
            leads.extend(named.iter().filter(|(place, _)| *place == index).map(|(_, foot)| (at, *foot)));
            steps.push((at, *step));
            at += length(step);
        }
    }
    Ok(Phrase { steps, leads })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_phrase_fills_four_bars_and_eight() {
        let known = built_in();
        let phrase = fill_phrase(USUAL_PHRASE, &known, 16).unwrap();
        let shorts: Vec<_> =
            phrase.steps.iter().map(|&(at, step)| (at, known[step].short.as_str())).collect();
        assert_eq!(shorts, [(0, "ds"), (4, "ds"), (8, "ss"), (10, "ss"), (12, "ftj")]);
        assert_eq!(fill_phrase(USUAL_PHRASE, &known, 32).unwrap().steps.len(), 10);
    }

    #[test]
    fn a_wrong_phrase_points_at_the_word() {
        let known = built_in();
        let said = |phrase: &str, counts| fill_phrase(phrase, &known, counts).unwrap_err().to_string();
        assert!(said("2 ds, 2 xx", 16).contains("\"xx\" is not a step"));
        let shorts: Vec<String> = known_steps(&[]).into_iter().map(|step| step.short).collect();
        assert!(said("2 ds, 2 xx", 16).contains(&shorts.join(", ")));
        assert!(said("no ds", 16).contains("\"no\" is not a number"));
        assert!(said("3 ds", 16).contains("12 counts do not fill 16 (4 missing)"));
        assert!(said("3 ds", 32).contains("8 missing"));
        assert!(said("5 ds", 16).contains("4 over"));
        assert!(said(" , ", 16).contains("no steps"));
    }

    fn error_of(phrase: &str) -> String {
        fill_phrase(phrase, &built_in(), 1_000).unwrap_err().to_string()
    }

    /// Of so many steps that a message does not list them all, each is one that may be meant.
    #[test]
    fn the_last_of_many_steps_can_be_typed() {
        let mut known = built_in();
        let one = known[0].clone();
        known.extend((0..60).map(|number| Step { short: format!("turning-{number}"), ..one.clone() }));
        let error = fill_phrase("2 turning-5", &known[..known.len() - 1], 16);
        assert!(error.is_ok() || error.unwrap_err().is_unfinished());
        for (phrase, unfinished) in [("2 turning-", true), ("2 ds, turning", true), ("turning-x", false)] {
            assert_eq!(fill_phrase(phrase, &known, 16).unwrap_err().is_unfinished(), unfinished, "{phrase}");
        }
        known.push(Step { short: "wheel".to_owned(), ..one });
        assert!(fill_phrase("2 whe", &known, 16).unwrap_err().is_unfinished());
    }

    #[test]
    fn a_wrong_phrase_says_what_was_meant_and_where() {
        let known = built_in();
        let error = |phrase: &str| fill_phrase(phrase, &known, 16).unwrap_err();
        let said = error("2 dz").told();
        assert!(
            said.starts_with("\"dz\" is not a step (did you mean ds?); the steps known are ds, ss"),
            "{said}"
        );
        assert!(!error("2 xx").told().contains("did you mean"));
        assert!(error("2 dobule step").told().contains("(did you mean ds, double step?)"));
        // The phrase itself is not told again, however long it is and whatever letters are in it.
        let long = format!("{}, 2 dz", ["2 ds"; 40].join(", "));
        for phrase in [long.as_str(), "2 ds, \u{202e}, 2 dz", "2 \"dz", "\u{301}", "x ds"] {
            let (told, whole) = (fill_phrase(phrase, &known, 1_000).unwrap_err().told(), error_of(phrase));
            assert!(!told.starts_with("phrase") && whole.starts_with("phrase \""), "{told}");
            assert!(whole.ends_with(&told), "{whole}: {told}");
        }
        let length = fill_phrase("3 ds", &known, 16).unwrap_err();
        assert_eq!(length.told(), "12 counts do not fill 16 (4 missing)");
        assert_eq!(length.to_string(), "phrase \"3 ds\": 12 counts do not fill 16 (4 missing)");
        for (phrase, wrong) in [
            ("2 dz", Some("dz")),
            ("2 ds, 2  sz , ftj", Some("sz")),
            ("  é ds", Some("é")),
            ("2 ds,left,zz", Some("zz")),
            ("3 ds", None),
            ("", None),
        ] {
            let place = error(phrase).place();
            let word =
                place.map(|place| phrase.chars().skip(place.start).take(place.len()).collect::<String>());
            assert_eq!(word.as_deref(), wrong, "{phrase}");
        }
    }

    #[test]
    fn what_is_still_being_typed_is_known_from_what_is_wrong() {
        let known = built_in();
        let unfinished = |phrase: &str| fill_phrase(phrase, &known, 16).unwrap_err().is_unfinished();
        for phrase in ["", "2", "2 ", "2 d", "3 ds", "2 ds, 2 ss, ft", "le", "2 ds, righ", "2 ds,"] {
            assert!(fill_phrase(phrase, &known, 16).is_ok() || unfinished(phrase), "{phrase}");
        }
        for phrase in ["2 dz", "2 dz, ds", "x ds", "2 d, ds", "5 ds", "d ", "2 ds 2"] {
            assert!(!unfinished(phrase), "{phrase}");
        }
    }
}
