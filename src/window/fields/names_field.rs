use super::typed_field::{Typed, show_typed};
use super::wrong::Wrong;
use crate::dance::{quoted, shown_list};
use egui::{Id, Response, Ui};

/// A list of names out of those that there are, to write one after another; what it is changed to.
pub fn show_names(
    ui: &mut Ui,
    place: (Id, f32),
    (now, known): (&[String], &[&str]),
    (hint, takes): (&str, &'static str),
) -> (Response, Option<Vec<String>>) {
    let read = |text: &str| read_names(text, known);
    let between = if now.iter().any(|name| name.contains(char::is_whitespace)) { ", " } else { " " };
    let written = now.join(between);
    show_typed(ui, place, Typed { now: now.to_vec(), written, hint: hint.to_owned(), takes, read: &read })
}

/// Reads names with blanks or commas between them, in any case, the longest that fits first.
fn read_names(text: &str, known: &[&str]) -> Result<Vec<String>, Wrong> {
    let letters: Vec<char> = text.chars().collect();
    let is_between = |letter: &char| letter.is_whitespace() || *letter == ',';
    let (mut names, mut at) = (Vec::new(), 0);
    while let Some(letter) = letters.get(at) {
        if is_between(letter) {
            at += 1;
            continue;
        }
        let rest = letters.get(at..).unwrap_or_default();
        let fits = |name: &&&str| {
            let length = name.chars().count();
            let same =
                rest.iter().zip(name.chars()).all(|(one, other)| one.to_lowercase().eq(other.to_lowercase()));
            rest.len() >= length && same && rest.get(length).is_none_or(is_between)
        };
        match known.iter().filter(fits).max_by_key(|name| name.chars().count()) {
            Some(name) => {
                names.push((*name).to_owned());
                at += name.chars().count();
            }
            None => {
                let long = rest.iter().take_while(|letter| !is_between(letter)).count();
                let word: String = rest.iter().take(long).collect();
                if let Some(run) = letters_run_together(&word, known) {
                    names.extend(run);
                    at += long;
                    continue;
                }
                let begins = |name: &&str| name.to_lowercase().starts_with(&word.to_lowercase());
                return Err(Wrong {
                    said: format!(
                        "no strain is called {}; there are {}",
                        quoted(&word),
                        shown_list(known.iter().copied())
                    ),
                    place: Some(at..at + long),
                    unfinished: at + long == letters.len() && known.iter().any(begins),
                });
            }
        }
    }
    Ok(names)
}

/// The strains of a word whose every letter is the name of one: AABB as A A B B.
fn letters_run_together(word: &str, known: &[&str]) -> Option<Vec<String>> {
    let letters = word.chars().map(|letter| {
        let is_it = |name: &&&str| {
            let mut of_name = name.chars();
            let one = of_name.next().is_some_and(|one| one.to_lowercase().eq(letter.to_lowercase()));
            one && of_name.next().is_none()
        };
        known.iter().find(is_it).map(|name| (*name).to_owned())
    });
    letters.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: a tune of two strains, each played twice, is written AABB.
    #[test]
    fn letters_that_are_strains_are_run_together() {
        let known = ["A", "B", "Aa", "Slow"];
        let read = |text: &str| read_names(text, &known);
        assert_eq!(read("AABB").unwrap(), ["A", "A", "B", "B"]);
        assert_eq!(read("aab, Slow b").unwrap(), ["A", "A", "B", "Slow", "B"]);
        // A name that is written out is that strain.
        assert_eq!(read("aa").unwrap(), ["Aa"]);
        assert_eq!(read("AAC").unwrap_err().said, "no strain is called \"AAC\"; there are A, B, Aa, Slow");
    }

    #[test]
    fn names_are_read_in_any_case_and_the_longest_first() {
        let known = ["A", "B", "Part 2", "Part 2 again"];
        let read = |text: &str| read_names(text, &known);
        assert_eq!(read("a A,b").unwrap(), ["A", "A", "B"]);
        assert_eq!(read(" part 2 again, Part 2 ").unwrap(), ["Part 2 again", "Part 2"]);
        assert_eq!(read("").unwrap(), [""; 0]);
        let wrong = read("A C").unwrap_err();
        assert_eq!((wrong.place, wrong.unfinished), (Some(2..3), false));
        assert!(read("A Pa").unwrap_err().unfinished);
    }
}
