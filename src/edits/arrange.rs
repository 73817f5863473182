//! Changing a whole dance: its set, its running order, a figure's choices. Each function takes a dance and gives a new
//! one, in which named figures are worked out for what has changed.

use super::strikes_kept::{keep_in_counts, keep_in_set};
use crate::dance::{Dance, DanceError, Entry, Extra, Figure, Named, Number, Person, Set, check_rules};
use crate::figures::{Choices, FigureError, by_numbers, find, motion_of, named_figure, plan_named, told_by};
use crate::motion::Ground;
use serde_json::Value;
use std::borrow::Cow;

/// The dance with another set. Named figures follow; what belongs to places or numbers that are no longer there goes.
///
/// # Errors
/// When the set cannot be, or cannot dance a figure of the dance.
pub fn with_set(dance: &Dance, set: Set) -> Result<Dance, DanceError> {
    let mut dance = dance.clone();
    dance.set = set;
    let dancers = dance.set.dancers;
    for figure in &mut dance.figures {
        figure.parts.retain(|part| part.place.is_in(dancers));
        keep_in_set(figure, dancers);
    }
    dance.people.retain(|person| person.number.is_in(dancers));
    check_rules(&dance)?;
    let ground = Ground::of(&dance.set);
    for (index, figure) in dance.figures.iter_mut().enumerate() {
        if let Some(named) = &figure.named {
            let plan = by_numbers(named, &dance.people)
                .and_then(|named| plan_named(&named, &ground))
                .map_err(|error| DanceError::key(format!("figures[{index}].named"), error.to_string()))?;
            figure.bars = plan.bars;
        }
    }
    keep_in_time(&mut dance);
    motion_of(&dance, None)?;
    Ok(dance)
}

/// The dance with a choice of one of its named figures changed.
///
/// # Errors
/// When the choice cannot have the value, or the set cannot dance it so.
pub fn with_choice(dance: &Dance, figure: usize, key: &str, value: Value) -> Result<Dance, FigureError> {
    let mut dance = dance.clone();
    let ground = Ground::of(&dance.set);
    let people = &dance.people;
    // Two figures of one name could not be told apart by it.
    let taken: Vec<String> = dance.figures.iter().map(|figure| figure.name.clone()).collect();
    if let Some(figure) = dance.figures.get_mut(figure)
        && let Some(named) = &mut figure.named
    {
        // Whoever has called it something of their own keeps that.
        let untold = title_of(named, people).is_some_and(|title| title == figure.name);
        named.with.insert(key.to_owned(), value);
        figure.bars = plan_named(&*by_numbers(named, people)?, &ground)?.bars;
        let is_free = |title: &String| untold && !taken.contains(title);
        if let Some(title) = title_of(named, people).filter(is_free) {
            figure.name = title;
        }
    }
    keep_in_time(&mut dance);
    Ok(dance)
}

/// Takes away what is struck after a figure has ended.
fn keep_in_time(dance: &mut Dance) {
    let counts: Vec<f64> = dance.figures.iter().map(|figure| dance.bar_counts(figure).counts()).collect();
    for (figure, counts) in dance.figures.iter_mut().zip(counts) {
        keep_in_counts(figure, counts);
    }
}

/// The name that people read of a named figure, as it is chosen.
fn title_of(named: &Named, people: &[Person]) -> Option<String> {
    let known = find(&named.figure).ok()?;
    let told = by_numbers(named, people).ok()?;
    Some(known.title_with(&Choices::of(known, &told.with).ok()?, people))
}

/// The dance with the dancer of a number called by a name, or by none where it is empty. Figures that tell somebody by a name go
/// on meaning the same one, and those that are called after somebody are called so still.
#[must_use]
pub fn name_person(dance: &Dance, number: Number, name: &str) -> Dance {
    let mut dance = dance.clone();
    let before = dance.people.clone();
    dance.people.retain(|person| person.number != number || !name.is_empty() || person.left_handed);
    match dance.people.iter_mut().find(|person| person.number == number) {
        Some(person) => name.clone_into(&mut person.name),
        None if name.is_empty() => {}
        None => {
            dance.people.push(Person {
                number,
                name: name.to_owned(),
                left_handed: false,
                extra: Extra::new(),
            });
            dance.people.sort_by_key(|person| person.number);
        }
    }
    let people = &dance.people;
    for figure in &mut dance.figures {
        let Some(named) = &mut figure.named else { continue };
        let Ok(told) = by_numbers(named, &before).map(Cow::into_owned) else { continue };
        let untold = title_of(named, &before).is_some_and(|title| title == figure.name);
        for (key, said) in named.with.iter_mut().filter(|(_, said)| said.is_string()) {
            let meant =
                told.with.get(key).and_then(Value::as_u64).and_then(|number| u32::try_from(number).ok());
            if let Some(meant) = meant {
                *said = told_by(Number(meant), people);
            }
        }
        if let Some(title) = title_of(named, people).filter(|_| untold) {
            figure.name = title;
        }
    }
    dance
}

/// The dance with whoever dances a number holding their stick in the left hand, or in the right one.
#[must_use]
pub fn hand_of(dance: &Dance, number: Number, left: bool) -> Dance {
    let mut dance = dance.clone();
    match dance.people.iter_mut().find(|person| person.number == number) {
        Some(person) => person.left_handed = left,
        None if !left => {}
        None => {
            let (name, extra) = (String::new(), Extra::new());
            dance.people.push(Person { number, name, left_handed: true, extra });
            dance.people.sort_by_key(|person| person.number);
        }
    }
    // Of whom nothing is said they are no person of the dance.
    let says = |person: &Person| !person.name.is_empty() || person.left_handed || !person.extra.is_empty();
    dance.people.retain(|person| person.number != number || says(person));
    dance
}

/// The dance with a named figure put into its running order before a line; at the end if there is no such line.
/// Where the dance has just that figure already, it is danced again.
///
/// # Errors
/// When the set cannot dance it.
pub fn with_figure(dance: &Dance, name: &str, before: usize) -> Result<Dance, FigureError> {
    let mut dance = with_written_order(dance);
    let figure = named_figure(name, Extra::new(), &dance.set)?;
    let strain =
        dance.order.get(before.wrapping_sub(1)).map(|entry| entry.strain.clone()).unwrap_or_default();
    let id = put_figure(&mut dance, figure);
    let at = before.min(dance.order.len());
    dance.order.insert(at, Entry { strain, ..Entry::of(&id) });
    Ok(dance)
}

/// Puts a figure among those of a dance, unless it has one that is the same but for its id, and gives the id to dance
/// it by.
pub fn put_figure(dance: &mut Dance, mut figure: Figure) -> String {
    let same =
        dance.figures.iter().find(|known| Figure { id: figure.id.clone(), ..Figure::clone(known) } == figure);
    if let Some(known) = same {
        return known.id.clone();
    }
    let id = free_id(dance, &figure.id);
    figure.id.clone_from(&id);
    dance.figures.push(figure);
    id
}

/// The dance without a line of its running order. The figure itself stays, unless it is danced nowhere else and is no
/// more than its name. As an empty order would dance every figure, the last line stays while there are other figures.
#[must_use]
pub fn without_entry(dance: &Dance, index: usize) -> Dance {
    let mut made = with_written_order(dance);
    if index >= made.order.len() {
        return made;
    }
    let gone = made.order.remove(index);
    let danced = made.order.iter().any(|entry| entry.figure == gone.figure);
    let set = &dance.set;
    if !danced {
        made.figures.retain(|figure| figure.id != gone.figure || !is_bare_name(figure, set));
    }
    if made.order.is_empty() && !made.figures.is_empty() { dance.clone() } else { made }
}

/// Whether a figure is just what its name says, so that taking it from the shelf again makes it anew.
fn is_bare_name(figure: &Figure, set: &Set) -> bool {
    figure.named.as_ref().is_some_and(|named| {
        named_figure(&named.figure, Extra::new(), set)
            .is_ok_and(|fresh| Figure { id: figure.id.clone(), ..fresh } == *figure)
    })
}

/// The dance with its running order written out.
pub(super) fn with_written_order(dance: &Dance) -> Dance {
    let mut dance = dance.clone();
    if dance.order.is_empty() {
        dance.order = dance.figures.iter().map(|figure| Entry::of(&figure.id)).collect();
    }
    dance
}

/// An id that no figure of the dance has yet.
pub(super) fn free_id(dance: &Dance, wanted: &str) -> String {
    (1..=u32::MAX)
        .map(|number| if number == 1 { wanted.to_owned() } else { format!("{wanted}-{number}") })
        .find(|id| dance.figure_index(id).is_none())
        .unwrap_or_else(|| wanted.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Dancer;
    use serde_json::json;

    fn six() -> Dance {
        let dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let dance = with_figure(&dance, "corners", 0).unwrap();
        with_figure(&dance, "whole-rounds", 1).unwrap()
    }

    #[test]
    fn named_figures_follow_the_set() {
        let dance = six();
        assert_eq!(dance.bars(), 24 + 8);
        let eight = with_set(&dance, Set::longways(8, 3.0, 1.5)).unwrap();
        assert_eq!(eight.bars(), 32 + 8);
        let said = with_set(&dance, Set::longways(2, 3.0, 1.5)).unwrap_err().to_string();
        assert!(said.contains("figures[0]") && said.contains("corners"), "{said}");
        assert!(with_set(&dance, Set::longways(7, 3.0, 1.5)).is_err());
    }

    #[test]
    fn choices_are_checked() {
        let dance = six();
        let once = with_choice(&dance, 0, "times", json!("once")).unwrap();
        assert_eq!(once.bars(), 12 + 8);
        assert!(with_choice(&dance, 0, "times", json!("thrice")).is_err());
    }

    /// Whoever is told by name is meant whatever they are called: as they are named, named anew, called as another is, and not named
    /// any more.
    #[test]
    fn a_soloist_is_told_by_name() {
        let mut dance = Dance::new("Test", Set::longways(4, 2.4, 1.8));
        dance = with_figure(&dance, "solos", 0).unwrap();
        let wrong = with_choice(&dance, 0, "who", json!("Sib")).unwrap_err().to_string();
        assert_eq!(wrong, "solos: who is \"Sib\"; expected a number, since nobody of this dance has a name");
        dance = name_person(&name_person(&dance, Number(3), "Sib"), Number(1), "Wat");
        assert_eq!((dance.figures[0].name.as_str(), dance.bars()), ("Solos", 32));
        dance = with_choice(&dance, 0, "who", json!("Sib")).unwrap();
        let who = |dance: &Dance| dance.figures[0].named.as_ref().unwrap().with["who"].clone();
        let soloist = |dance: &Dance| {
            let motion = motion_of(dance, None).unwrap();
            let moves =
                |dancer: &usize| !motion.spans()[0].track(Dancer(*dancer)).unwrap().moves().is_empty();
            (0..4).filter(moves).collect::<Vec<_>>()
        };
        for (name, title, told) in [
            ("Sib", "Solo of Sib", json!("Sib")),
            ("Sib Orchard", "Solo of Sib Orchard", json!("Sib Orchard")),
            ("Wat", "Solo of Wat", json!(3)),
            ("", "Solo of 3", json!(3)),
        ] {
            dance = name_person(&dance, Number(3), name);
            assert_eq!((dance.figures[0].name.as_str(), who(&dance)), (title, told), "{name}");
            assert_eq!((soloist(&dance), dance.bars()), (vec![2], 8), "{name}");
            let motion = motion_of(&dance, None).unwrap();
            assert_eq!(motion.bars(), 8);
        }
        // What somebody has called it stays.
        dance.figures[0].name = "The lame hen".to_owned();
        dance = with_choice(&dance, 0, "who", json!("wat")).unwrap();
        assert_eq!((dance.figures[0].name.as_str(), soloist(&dance)), ("The lame hen", vec![0]));
    }

    #[test]
    fn lines_go_in_and_out() {
        let dance = six();
        let again = with_figure(&dance, "corners", 2).unwrap();
        assert_eq!(again.figures.len(), 2, "danced again, not written again");
        assert_eq!(again.order.len(), 3);
        assert_eq!(without_entry(&again, 2), dance);
        let less = without_entry(&dance, 0);
        assert_eq!((less.figures.len(), less.order.len()), (1, 1));
        assert_eq!(without_entry(&less, 9), less);
        assert!(without_entry(&less, 0).figures.is_empty());
    }

    #[test]
    fn what_would_be_lost_stays() {
        let dance = with_choice(&six(), 0, "times", json!("once")).unwrap();
        let less = without_entry(&dance, 0);
        assert_eq!((less.figures.len(), less.order.len()), (2, 1), "its choice is kept");
        assert_eq!(without_entry(&less, 0), less, "with no line left, both would be danced");
    }
}
