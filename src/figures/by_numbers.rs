//! Dancers who are told by their names in the choices of a named figure.

use super::{FigureError, Kind, find};
use crate::dance::{Named, Number, Person, did_you_mean, shown_list};
use serde_json::Value;
use std::borrow::Cow;

/// A named figure with the dancers that its choices name told by their numbers.
///
/// # Errors
/// When there is no such figure, nobody of the people has a name, or more than one of them.
pub fn by_numbers<'a>(named: &'a Named, people: &[Person]) -> Result<Cow<'a, Named>, FigureError> {
    let found = find(&named.figure)?;
    let mut told = Cow::Borrowed(named);
    for choice in found.choices.iter().filter(|choice| matches!(choice.kind, Kind::Dancer { .. })) {
        let Some(name) = named.with.get(choice.key).and_then(Value::as_str) else { continue };
        let number = number_of(name, people).map_err(|wanted| FigureError::Value {
            figure: found.name,
            key: choice.key,
            value: Value::from(name).to_string(),
            wanted,
        })?;
        told.to_mut().with.insert(choice.key.to_owned(), number.0.into());
    }
    Ok(told)
}

/// The number of whoever has a name, written in whatever letters; or else what was expected.
fn number_of(name: &str, people: &[Person]) -> Result<Number, String> {
    let called: Vec<Number> =
        people.iter().filter(|person| is_called(person, name)).map(|person| person.number).collect();
    match called.as_slice() {
        [one] => Ok(*one),
        [] => Err(expected(name, people)),
        [first, second, ..] => Err(format!("a number, since {first} and {second} are both called so")),
    }
}

fn is_called(person: &Person, name: &str) -> bool {
    let known = person.name.trim();
    !known.is_empty() && known.to_lowercase() == name.trim().to_lowercase()
}

fn expected(name: &str, people: &[Person]) -> String {
    let names = || people.iter().map(|person| person.name.trim()).filter(|name| !name.is_empty());
    if names().next().is_none() {
        return "a number, since nobody of this dance has a name".to_owned();
    }
    format!("a number, or one of {}{}", shown_list(names()), did_you_mean(name, names()))
}

/// What a dancer is told by in a choice: their name where nobody else has it, or else their number.
#[must_use]
pub fn told_by(number: Number, people: &[Person]) -> Value {
    let own = people.iter().find(|person| person.number == number).map(|person| person.name.trim());
    match own.filter(|name| number_of(name, people) == Ok(number)) {
        Some(name) => name.into(),
        None => number.0.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Extra;
    use serde_json::json;

    fn people(names: &[&str]) -> Vec<Person> {
        let numbers = (1..).map(Number);
        let person = |(number, name): (Number, &&str)| Person {
            number,
            name: (*name).to_owned(),
            left_handed: false,
            extra: Extra::new(),
        };
        numbers.zip(names).map(person).collect()
    }

    fn told(who: Value, names: &[&str]) -> Result<Value, String> {
        let with = Extra::from_iter([("who".to_owned(), who)]);
        let named = Named { figure: "solos".to_owned(), with, extra: Extra::new() };
        let told = by_numbers(&named, &people(names)).map_err(|error| error.to_string())?;
        Ok(told.with.get("who").cloned().unwrap_or_default())
    }

    #[test]
    fn a_name_is_told_by_the_number_of_whoever_has_it() {
        let names = ["Wat Penny", "", "Sib Orchard"];
        assert_eq!(told(json!("Sib Orchard"), &names), Ok(json!(3)));
        assert_eq!(told(json!(" sib orchard"), &names), Ok(json!(3)));
        assert_eq!(told(json!(2), &names), Ok(json!(2)), "a number stays as it is");
        assert_eq!(told_by(Number(3), &people(&names)), json!("Sib Orchard"));
        assert_eq!(told_by(Number(2), &people(&names)), json!(2), "whoever has no name");
        assert_eq!(told_by(Number(1), &people(&["Wat", "Wat"])), json!(1), "two of a name");
    }

    #[test]
    fn a_name_that_nobody_has_is_told_with_what_was_expected() {
        for (who, names, said) in [
            (
                "Sib Orchid",
                &["Wat Penny", "Sib Orchard"][..],
                "or one of Wat Penny, Sib Orchard (did you mean Sib Orchard?)",
            ),
            ("Sib", &[][..], "expected a number, since nobody of this dance has a name"),
            ("", &["", "Wat"][..], "expected a number, or one of Wat"),
            ("Wat", &["Wat", "Sib", "wat"][..], "expected a number, since 1 and 3 are both called so"),
        ] {
            let wrong = told(json!(who), names).unwrap_err();
            assert!(wrong.starts_with("solos: who is ") && wrong.contains(said), "{wrong}");
        }
    }
}
