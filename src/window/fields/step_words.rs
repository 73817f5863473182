//! Steps by their whole names in a phrase: `2 double steps` is `2 ds`, and what `2 ds` means.

use super::offers::Name;
use crate::dance::nearest;
use std::ops::Range;

/// What of a part of a phrase, between two commas, is a number, and where the name after it begins, bytes.
fn number_of(part: &str) -> (&str, usize) {
    let begin = part.len() - part.trim_start().len();
    let digits = part[begin..].bytes().take_while(u8::is_ascii_digit).count();
    let rest = part.get(begin + digits..).unwrap_or_default();
    let name = begin + digits + rest.len() - rest.trim_start().len();
    (part.get(begin..begin + digits).unwrap_or_default(), name)
}

/// Words to compare: small letters, with one blank for every blank or hyphen.
fn plain(words: &str) -> String {
    words
        .to_lowercase()
        .split([' ', '-', '\t', '\u{a0}'])
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

/// Whether words are the whole name of a step, one of them or several.
fn is_name(words: &str, name: &Name) -> bool {
    let (words, long) = (plain(words), plain(&name.long));
    !words.is_empty() && (words == long || words.strip_suffix('s') == Some(long.as_str()))
}

/// A phrase in which steps that are written by their whole names have their letters: `2 double steps, ftj` as `2 ds, ftj`.
#[must_use]
pub fn in_letters(phrase: &str, names: &[Name]) -> String {
    let parts = phrase.split(',').map(|part| {
        let (_, at) = number_of(part);
        let words = part.get(at..).unwrap_or_default();
        match names.iter().find(|name| is_name(words, name)) {
            Some(name) => format!("{}{}", part.get(..at).unwrap_or_default(), name.short),
            None => part.to_owned(),
        }
    });
    parts.collect::<Vec<_>>().join(",")
}

/// What a phrase means: `2 ds, ftj` as `2 double steps, feet-together jump`.
#[must_use]
pub fn in_words(phrase: &str, names: &[Name]) -> String {
    let parts = phrase.split(',').map(|part| {
        let (number, at) = number_of(part);
        let word = part.get(at..).unwrap_or_default().trim();
        // A foot is its own word.
        let known =
            names.iter().find(|name| name.short == word && name.short != "left" && name.short != "right");
        match known {
            Some(name) if number.is_empty() || number == "1" => name.long.clone(),
            Some(name) => format!("{number} {}s", name.long),
            None => part.trim().to_owned(),
        }
    });
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Where in a text the words stand, letters from its start, that end at a place and may be the beginning of a whole name of more
/// than one word; nothing where they are no such beginning.
#[must_use]
pub fn begun_name(text: &str, place: usize, names: &[Name]) -> Option<Range<usize>> {
    let before: String = text.chars().take(place).collect();
    let part = before.rsplit(',').next().unwrap_or_default();
    let (_, at) = number_of(part);
    let words = part.get(at..).unwrap_or_default();
    let begins = |name: &Name| plain(&name.long).starts_with(&plain(words));
    let several = words.trim_end().contains([' ', '-']);
    (several && names.iter().any(begins)).then(|| place - words.chars().count()..place)
}

/// The step whose whole name words are nearest to, where they are near enough to have been meant: `ferry kik` is the ferry kick.
#[must_use]
pub fn near_name<'a>(words: &str, names: &'a [Name]) -> Option<&'a Name> {
    let words = plain(words);
    let one = words.strip_suffix('s').unwrap_or(&words);
    let longs: Vec<String> = names.iter().map(|name| plain(&name.long)).collect();
    let near = [words.as_str(), one]
        .into_iter()
        .find_map(|words| nearest(words, longs.iter().map(String::as_str)))?;
    names.iter().zip(&longs).find(|(_, long)| *long == near).map(|(name, _)| name)
}

/// Where in a text the words stand, letters from its start, that end at a place and are more than one, no beginning of a whole name, but
/// near to one; nothing where there are none.
#[must_use]
pub fn mistaken_name(text: &str, place: usize, names: &[Name]) -> Option<Range<usize>> {
    let before: String = text.chars().take(place).collect();
    let part = before.rsplit(',').next().unwrap_or_default();
    let (_, at) = number_of(part);
    let words = part.get(at..).unwrap_or_default();
    let several = words.trim_end().contains([' ', '-']);
    (several && near_name(words, names).is_some()).then(|| place - words.chars().count()..place)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names() -> Vec<Name> {
        [
            ("ds", "double step"),
            ("ss", "single step"),
            ("sh", "step and three hops"),
            ("ftj", "feet-together jump"),
            ("fk", "ferry kick"),
            ("left", "the foot"),
        ]
        .map(|(short, long)| Name { short: short.to_owned(), long: long.to_owned() })
        .to_vec()
    }

    #[test]
    fn whole_names_become_letters_and_letters_whole_names() {
        let names = names();
        for (written, letters) in [
            ("2 double step, 2 single step, ftj", "2 ds, 2 ss, ftj"),
            ("2 Double Steps,feet together jump", "2 ds,ftj"),
            ("left, step and three hops", "left, sh"),
            ("2 ferry kicks", "2 fk"),
            ("2 doubles, polka", "2 doubles, polka"),
            ("", ""),
        ] {
            assert_eq!(in_letters(written, &names), letters);
        }
        assert_eq!(
            in_words("left, 2 ds, ss,ftj", &names),
            "left, 2 double steps, single step, feet-together jump"
        );
        assert_eq!(in_words("polka, é", &names), "polka, é");
    }

    /// A side's own step is meant by its whole name with a slip in it.
    #[test]
    fn a_slip_in_a_whole_name_is_found() {
        let names = names();
        for (text, place) in
            [("2 ferry kik", Some(2..11)), ("ds, 3 fery kicks", Some(6..16)), ("2 polka step", None)]
        {
            assert_eq!(mistaken_name(text, text.chars().count(), &names), place, "{text}");
        }
        assert_eq!(near_name("ferry kik", &names).unwrap().short, "fk");
        assert_eq!(near_name("dobule steps", &names).unwrap().short, "ds");
        assert_eq!(near_name("polka", &names), None);
    }

    #[test]
    fn words_that_begin_a_name_are_found() {
        let names = names();
        assert_eq!(begun_name("2 ds, 2 double st", 17, &names), Some(8..17));
        assert_eq!(begun_name("step and th", 11, &names), Some(0..11));
        for (text, place) in [("2 ds, 2 dou", 11), ("2 polka step", 12), ("", 0), ("é é", 9)] {
            assert_eq!(begun_name(text, place, &names), None, "{text}");
        }
    }
}
