//! Changing a whole dance: its set, its running order, a figure's choices. Each function takes a dance and gives a new
//! one, in which named figures are worked out for what has changed.

use crate::dance::{Dance, DanceError, Entry, Extra, Figure, Named, Set, check_rules};
use crate::figures::{Choices, FigureError, find, motion_of, named_figure, plan_named};
use crate::motion::Ground;
use serde_json::Value;

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
    }
    dance.people.retain(|person| person.number.is_in(dancers));
    check_rules(&dance)?;
    let ground = Ground::of(&dance.set);
    for (index, figure) in dance.figures.iter_mut().enumerate() {
        if let Some(named) = &figure.named {
            let plan = plan_named(named, &ground)
                .map_err(|error| DanceError::key(format!("figures[{index}].named"), error.to_string()))?;
            figure.bars = plan.bars;
        }
    }
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
    // Two figures of one name could not be told apart by it.
    let taken: Vec<String> = dance.figures.iter().map(|figure| figure.name.clone()).collect();
    if let Some(figure) = dance.figures.get_mut(figure)
        && let Some(named) = &mut figure.named
    {
        let title = |named: &Named| {
            let known = find(&named.figure).ok()?;
            Some(known.title_with(&Choices::of(known, &named.with).ok()?))
        };
        // Whoever has called it something of their own keeps that.
        let untold = title(named).is_some_and(|title| title == figure.name);
        named.with.insert(key.to_owned(), value);
        figure.bars = plan_named(named, &ground)?.bars;
        if let Some(title) = title(named).filter(|title| untold && !taken.iter().any(|name| name == title)) {
            title.clone_into(&mut figure.name);
        }
    }
    Ok(dance)
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
