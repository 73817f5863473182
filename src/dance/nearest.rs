//! The name that somebody meant who typed another.

/// Words longer than this are no slip of a known name, letters.
const LONGEST: usize = 60;

/// The known name that is nearest to a word, where one is near enough to have been meant: at most a third of its
/// letters are other ones, or it goes on from the word and no other does. Of several that are as near, the first.
///
/// ```
/// use bellpad::dance::nearest;
/// assert_eq!(nearest("dz", ["ds", "ss", "ftj"]), Some("ds"));
/// assert_eq!(nearest("foot-up", ["foot-up-and-down", "hey"]), Some("foot-up-and-down"));
/// assert_eq!(nearest("polka", ["ds", "ss", "ftj"]), None);
/// ```
#[must_use]
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = letters(word)?;
    let mut near: Option<(usize, &str)> = None;
    let mut longer = Vec::new();
    for name in known {
        let Some(other) = letters(name) else { continue };
        // Letters more, less or other, and neighbours that have changed places, each letter touched once.
        let off = strsim::osa_distance(&word, &other);
        let (short, long) = (word.chars().count(), other.chars().count());
        let most = (short.max(long) / 3).max(1);
        // A name of which nothing is left as it was typed is another word.
        let kept = off < short.max(long);
        if off <= most && kept && near.is_none_or(|(nearest, _)| off < nearest) {
            near = Some((off, name));
        }
        if short > 1 && other.starts_with(&word) {
            longer.push(name);
        }
    }
    match (near, longer.as_slice()) {
        (Some((_, name)), _) => Some(name),
        (None, [name]) => Some(*name),
        _ => None,
    }
}

/// What to say after a name that is not known: ` (did you mean ds?)`, or nothing.
#[must_use]
pub fn did_you_mean<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    nearest(word, known).map_or_else(String::new, |name| format!(" (did you mean {name}?)"))
}

/// The letters of a name, small ones; nothing where there are none, or far too many.
fn letters(name: &str) -> Option<String> {
    let letters: String = name.trim().chars().take(LONGEST + 1).flat_map(char::to_lowercase).collect();
    (1..=LONGEST).contains(&letters.chars().count()).then_some(letters)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_word_is_the_one_meant() {
        let verbs = ["new", "pose", "check", "still", "sheet", "crib", "notebook", "page"];
        for (typed, meant) in [
            ("chekc", Some("check")),
            ("shet", Some("sheet")),
            ("SHEETS", Some("sheet")),
            ("pages", Some("page")),
            ("notebok", Some("notebook")),
            ("nosuchverb", None),
            ("x", None),
            ("", None),
        ] {
            assert_eq!(nearest(typed, verbs), meant, "{typed}");
        }
        assert_eq!(nearest("dz", ["ds", "ss"]), Some("ds"));
        assert_eq!(nearest(&"check".repeat(1000), verbs), None);
    }

    #[test]
    fn the_nearest_name_is_the_one_that_was_meant() {
        let steps = ["ds", "ss", "rs", "sh", "ftj", "pc", "hj", "st"];
        for (typed, meant) in
            [("dz", Some("ds")), ("DS", Some("ds")), ("fjt", Some("ftj")), ("xx", None), ("x", None)]
        {
            assert_eq!(nearest(typed, steps), meant, "{typed}");
        }
        let figures = ["foot-up-and-down", "whole-rounds", "half-rounds", "half-hey", "hey"];
        for (typed, meant) in [
            ("hay", Some("hey")),
            ("whole rounds", Some("whole-rounds")),
            ("Foot-up", Some("foot-up-and-down")),
            // Two go on so: neither can be told to be meant.
            ("half", None),
            ("", None),
            ("gallop", None),
        ] {
            assert_eq!(nearest(typed, figures), meant, "{typed}");
        }
        assert_eq!(did_you_mean("hay", figures), " (did you mean hey?)");
        assert_eq!(did_you_mean("gallop", figures), "");
    }

    #[test]
    fn a_very_long_word_is_no_slip_and_costs_nothing() {
        let long = "ds".repeat(5_000_000);
        assert_eq!(nearest(&long, ["ds"]), None);
        let dotted = "\u{130}".repeat(60);
        assert_eq!(nearest(&dotted, [dotted.as_str()]), None, "its small letters are twice as many");
    }
}
