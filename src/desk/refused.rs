use crate::dance::{Dance, DanceError, Figure, InFile, shown_name};

/// What is wrong with a dance that was to take the place of another: where it is, by the names of the window and of the figures and not
/// by the keys of a file, and what was expected.
pub(super) fn refused_words(error: &DanceError, dance: &Dance) -> String {
    let InFile::Key { path, .. } = &error.place else { return error.message.clone() };
    let mut figure = None;
    let mut said: Vec<String> = Vec::new();
    for step in path.split('.') {
        let (key, index) = keyed(step);
        if key == "figures" {
            figure = index.and_then(|index| dance.figures.get(index));
        }
        said.extend(named(dance, figure, key, index));
    }
    let said = said.join(", ");
    let mut letters = said.chars();
    match letters.next() {
        Some(first) => format!("{}{}: {}", first.to_uppercase(), letters.as_str(), error.message),
        None => error.message.clone(),
    }
}

/// A step of a path: its key, and which of several it is.
fn keyed(step: &str) -> (&str, Option<usize>) {
    let indexed = step.split_once('[').and_then(|(key, rest)| Some((key, rest.strip_suffix(']')?)));
    match indexed.and_then(|(key, index)| Some((key, index.parse().ok()?))) {
        Some((key, index)) => (key, Some(index)),
        None => (step, None),
    }
}

/// What a key, or one of several of it, is called; nothing where what it is in says it.
fn named(dance: &Dance, figure: Option<&Figure>, key: &str, index: Option<usize>) -> Option<String> {
    let one_of = |what: &str| index.map(|index| format!("{what} {}", index + 1));
    let of_figure = || figure.map(|figure| shown_name(&figure.name));
    let of_strain = || Some(format!("strain {}", shown_name(&dance.music.strains.get(index?)?.name)));
    let of_place = || Some(format!("place {}", figure?.parts.get(index?)?.place));
    let of_line = || Some(format!("line {} of the running order", index? + 1));
    let of_person = || Some(format!("who dances {}", dance.people.get(index?)?.number));
    let of_step = || Some(format!("the step {}", shown_name(&dance.steps.get(index?)?.short)));
    let (one, all) = match key {
        "music" | "named" => return None,
        "figures" => (of_figure(), "the figures"),
        "strains" => (of_strain(), "the strains"),
        "parts" => (of_place(), "the places"),
        "order" => (of_line(), "the running order"),
        "people" => (of_person(), "the people"),
        "underlay" => (one_of("photograph"), "the photographs"),
        "marks" => (one_of("mark"), "the marks"),
        "steps" => (of_step(), "the steps"),
        "legs" => (one_of("way"), "the ways"),
        "turns" => (one_of("turn"), "the turns"),
        "leads" => (one_of("chosen foot"), "the chosen feet"),
        "through" => (one_of("point"), "the points on the way"),
        "speeds" => (one_of("speed"), "the speeds"),
        "allow" => (one_of("allowed fault"), "the allowed faults"),
        "spots" => (one_of("spot"), "the spots"),
        "played" => (None, "played"),
        "phrase" => (None, "stepping"),
        "metres" => (None, "the metre of a bar"),
        "author" => (None, "written down by"),
        "at" | "count" => (None, "when"),
        "begin" => (None, "beginning"),
        "to" => (None, "where it ends"),
        _ => (None, key),
    };
    Some(one.unwrap_or_else(|| all.replace('_', " ")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Leg, Part, PlaceNumber, Set, Strain, check_rules};

    fn refused(change: impl FnOnce(&mut Dance)) -> String {
        let mut dance = Dance::new("", Set::longways(4, 2.4, 1.8));
        let mut figure = Figure::drawn("one", "Roll up", 4);
        let legs = vec![Leg::straight(0.0, 4.0, 0.0, 0.0)];
        figure.parts.push(Part { legs, ..Part::still(PlaceNumber::from_index(1)) });
        dance.figures.push(figure);
        let strain = r#"{"name": "B", "bars": 4}"#;
        dance.music.strains.push(serde_json::from_str::<Strain>(strain).unwrap());
        check_rules(&dance).unwrap();
        change(&mut dance);
        let error = check_rules(&dance).unwrap_err();
        refused_words(&error, &dance)
    }

    #[test]
    fn what_is_refused_is_called_as_the_window_calls_it() {
        let said = refused(|dance| dance.figures[0].parts[0].legs[0].end = 17.0);
        assert_eq!(said, "Roll up, place 2, way 1, end: 17 is out of range; expected 0 to 16 counts");
        let said = refused(|dance| dance.music.upbeat = 7);
        assert_eq!(said, "Upbeat: 7 counts; an upbeat has 0 to 6");
        let said = refused(|dance| dance.music.played = vec!["C".to_owned()]);
        assert_eq!(said, "Played: no strain is called \"C\"; the strains are: B");
        let said = refused(|dance| dance.music.strains[0].bars = 0);
        assert_eq!(said, "Strain B, bars: 0 bars; a strain has 1 to 2000");
        let said = refused(|dance| dance.figures[0].bars = 0);
        assert_eq!(said, "Roll up, bars: 0 bars; a figure has 1 to 2000");
    }
}
