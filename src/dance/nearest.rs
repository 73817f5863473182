/// The known word that was most likely meant by one that is not known: the nearest by letters put in, left out,
/// changed or swapped with their neighbour (F. J. Damerau's measure), where that is near at all.
#[must_use]
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let letters = word.chars().count();
    // Nobody means a word of forty letters by one of four hundred, and comparing takes as long as both multiplied.
    if letters == 0 || letters > 40 {
        return None;
    }
    // A third of the letters may be otherwise, and of a short word one.
    let most = (letters / 3).max(1);
    known
        .into_iter()
        .map(|other| (strsim::damerau_levenshtein(&word, &other.to_lowercase()), other))
        .filter(|(apart, other)| *apart <= most && *apart < other.chars().count())
        .min_by_key(|(apart, _)| *apart)
        .map(|(_, other)| other)
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
}
