//! The running order: what is danced at which line, to which strain, and what is called. Each function takes a dance
//! and gives a new one; an order left empty is written out first. Lines count from 0.

use super::arrange::with_written_order;
use crate::dance::{Dance, DanceError, Entry, PlaceNumber, check_rules, shown_name};
use crate::figures::motion_of_figure;
use thiserror::Error;

/// Why the running order or a figure in it cannot be changed so.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum OrderError {
    /// There is no such line.
    #[error("the running order has no line {}", .0 + 1)]
    NoLine(usize),
    /// There is no such figure.
    #[error("the dance has no figure {}", .0 + 1)]
    NoFigure(usize),
    /// A name of nothing.
    #[error("a figure needs a name")]
    Nameless,
    /// Nothing would be danced, and an empty running order would dance every figure.
    #[error("{} is all that is danced; put another figure into the running order first", shown_name(.0))]
    AllThereIs(String),
    /// A named figure has the bars that it has.
    #[error("{} is a named figure and takes {bars} bars; its choices are on the card", shown_name(name))]
    Named {
        /// What the side calls it.
        name: String,
        /// As many as its choices make it.
        bars: u32,
    },
    /// Something is drawn beyond the new end.
    #[error(
        "the dancer in place {place} {what} in bar {bar} of {}; take that away first, or keep {bar} bars",
        shown_name(name)
    )]
    Drawn {
        /// What the side calls the figure.
        name: String,
        /// From 1.
        place: PlaceNumber,
        /// What they do there.
        what: &'static str,
        /// The last bar that something is drawn in.
        bar: u32,
    },
    /// What a dance cannot be.
    #[error("{}", .0.message)]
    Cannot(DanceError),
}

/// The dance, if it keeps the rules that every dance keeps.
pub(super) fn ruled(dance: Dance) -> Result<Dance, OrderError> {
    check_rules(&dance).map_err(OrderError::Cannot)?;
    Ok(dance)
}

/// The dance, if it keeps the rules and one of its figures can be danced.
pub(super) fn danceable(dance: Dance, figure: usize) -> Result<Dance, OrderError> {
    let dance = ruled(dance)?;
    motion_of_figure(&dance, figure).map_err(OrderError::Cannot)?;
    Ok(dance)
}

/// Puts a figure into an order before a line, at the end if there is no such line, to the strain of the line above.
pub(super) fn put_line(dance: &mut Dance, id: &str, before: usize) {
    let at = before.min(dance.order.len());
    let above = at.checked_sub(1).and_then(|line| dance.order.get(line));
    let strain = above.map(|entry| entry.strain.clone()).unwrap_or_default();
    dance.order.insert(at, Entry { strain, ..Entry::of(id) });
}

/// The dance with a figure that it has danced at another line as well: before `before`, at the end if there is no such
/// line.
///
/// # Errors
/// When there is no such figure, the order would be too long, or the set cannot dance it.
pub fn dance_figure(dance: &Dance, figure: usize, before: usize) -> Result<Dance, OrderError> {
    let id = dance.figures.get(figure).ok_or(OrderError::NoFigure(figure))?.id.clone();
    let mut dance = with_written_order(dance);
    put_line(&mut dance, &id, before);
    danceable(dance, figure)
}

/// The dance with the line at `from` moved to be the line `to`.
///
/// # Errors
/// When there is no such line.
pub fn move_line(dance: &Dance, from: usize, to: usize) -> Result<Dance, OrderError> {
    let mut dance = with_written_order(dance);
    let missing = [from, to].into_iter().find(|line| *line >= dance.order.len());
    if let Some(line) = missing {
        return Err(OrderError::NoLine(line));
    }
    let entry = dance.order.remove(from);
    dance.order.insert(to, entry);
    ruled(dance)
}

/// The dance with a line danced to a strain; an empty name for none.
///
/// # Errors
/// When there is no such line.
pub fn set_strain(dance: &Dance, line: usize, strain: &str) -> Result<Dance, OrderError> {
    with_line(dance, line, |entry| strain.clone_into(&mut entry.strain))
}

/// The dance with something of its own called at a line; empty for the figure's name.
///
/// # Errors
/// When there is no such line.
pub fn set_call(dance: &Dance, line: usize, call: &str) -> Result<Dance, OrderError> {
    with_line(dance, line, |entry| call.trim().clone_into(&mut entry.call))
}

/// The dance with a line called so many bars before its figure begins; nothing for the usual ones.
///
/// # Errors
/// When there is no such line, or it is too early a call.
pub fn set_call_before(dance: &Dance, line: usize, bars: Option<f64>) -> Result<Dance, OrderError> {
    with_line(dance, line, |entry| entry.call_before = bars)
}

fn with_line(dance: &Dance, line: usize, change: impl FnOnce(&mut Entry)) -> Result<Dance, OrderError> {
    let mut dance = with_written_order(dance);
    change(dance.order.get_mut(line).ok_or(OrderError::NoLine(line))?);
    ruled(dance)
}

#[cfg(test)]
mod tests {
    use super::super::{
        arrange::with_figure,
        own_figures::{delete_figure, duplicate_line, new_figure, set_bars},
    };
    use super::super::{
        arrange::without_entry,
        own_figures::{rename_figure, set_notes},
    };
    use super::*;
    use crate::dance::{Figure, Set};
    use crate::figures::motion_of;
    use proptest::prelude::*;

    /// Three figures with the order left empty.
    fn three() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(4, 2.4, 1.8));
        dance.figures = ["one", "two", "three"].map(|id| Figure::drawn(id, id, 8)).into();
        dance
    }

    fn ids(dance: &Dance) -> Vec<&str> {
        dance.order.iter().map(|entry| entry.figure.as_str()).collect()
    }

    #[test]
    fn lines_are_moved_and_an_empty_order_is_written_out() {
        let dance = three();
        assert_eq!(ids(&move_line(&dance, 0, 2).unwrap()), ["two", "three", "one"]);
        assert_eq!(ids(&move_line(&dance, 2, 0).unwrap()), ["three", "one", "two"]);
        assert_eq!(move_line(&dance, 0, 3), Err(OrderError::NoLine(3)));
        let said = move_line(&dance, 7, 0).unwrap_err().to_string();
        assert_eq!(said, "the running order has no line 8");
    }

    #[test]
    fn a_figure_that_is_not_danced_can_be_put_back() {
        let less = without_entry(&three(), 1);
        assert_eq!((ids(&less), less.figures.len()), (vec!["one", "three"], 3));
        assert_eq!(ids(&dance_figure(&less, 1, 1).unwrap()), ["one", "two", "three"]);
        assert_eq!(ids(&dance_figure(&less, 1, 99).unwrap()), ["one", "three", "two"]);
        assert_eq!(dance_figure(&less, 3, 0), Err(OrderError::NoFigure(3)));
    }

    #[test]
    fn a_figure_that_this_set_cannot_dance_is_not_put_back() {
        let six = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let mut dance = with_figure(&six, "hey", 0).unwrap();
        dance.set.dancers = 4;
        dance.figures.push(Figure::drawn("stand", "Stand", 4));
        dance.order = vec![Entry::of("stand")];
        check_rules(&dance).unwrap();
        let said = dance_figure(&dance, 0, 0).unwrap_err().to_string();
        assert!(said.contains("hey cannot be danced by this set"), "{said}");
    }

    #[test]
    fn strains_and_calls_are_the_lines_own() {
        let dance = set_strain(&three(), 1, "B").unwrap();
        let dance = set_call(&dance, 2, " Geese! ").unwrap();
        assert_eq!((dance.order[1].strain.as_str(), dance.order[2].call.as_str()), ("B", "Geese!"));
        assert_eq!(dance_figure(&dance, 0, 2).unwrap().order[2].strain, "B", "as the line above");
        assert_eq!(set_strain(&dance, 3, "A"), Err(OrderError::NoLine(3)));
    }

    #[test]
    fn an_order_too_long_is_refused() {
        let mut dance = three();
        dance.figures[0].bars = 1990;
        dance.order = vec![Entry::of("one"), Entry::of("two")];
        let said = dance_figure(&dance, 1, 0).unwrap_err().to_string();
        assert_eq!(said, "the running order takes 2006 bars; a dance has at most 2000");
    }

    /// A change by one of the functions, by its kind and two numbers.
    fn changed(dance: &Dance, (kind, one, other): (u8, usize, usize)) -> Result<Dance, OrderError> {
        match kind {
            0 => Ok(new_figure(dance, one)?.0),
            1 => rename_figure(dance, one, ["Lanterns", "  ", "Figure 1"][other % 3]),
            2 => Ok(duplicate_line(dance, one)?.0),
            3 => dance_figure(dance, one, other),
            4 => move_line(dance, one, other),
            5 => Ok(without_entry(dance, one)),
            6 => delete_figure(dance, one),
            7 => set_strain(dance, one, ["", "A"][other % 2]),
            8 => set_call(dance, one, ["", "Hey!"][other % 2]),
            9 => set_bars(dance, one, other as u32),
            10 => set_notes(dance, one, "walk it"),
            _ => with_figure(dance, ["hey", "corners", "cross-over"][other % 3], one)
                .map_err(|error| OrderError::Cannot(DanceError::whole(error.to_string()))),
        }
    }

    proptest! {
        #[test]
        fn whatever_is_done_gives_a_dance(
            steps in prop::collection::vec((0_u8..12, 0_usize..6, 0_usize..12), 1..30),
            dancers in prop::sample::select(vec![4_u32, 6]),
            drawn in any::<bool>(),
        ) {
            let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
            if drawn {
                let mut part = crate::dance::Part::still(2);
                part.legs.push(crate::dance::Leg::straight(4.0, 14.0, 0.0, 0.5));
                let mut figure = Figure::drawn("drawn", "Drawn", 8);
                figure.parts.push(part);
                dance.figures.push(figure);
            }
            for step in steps {
                let before = dance.clone();
                match changed(&dance, step) {
                    Ok(made) => dance = made,
                    Err(error) => prop_assert!(!error.to_string().is_empty()),
                }
                prop_assert!(check_rules(&dance).is_ok(), "{:?} by {:?}", before, step);
                prop_assert!(motion_of(&dance, None).is_ok(), "{:?} by {:?}", before, step);
                // Nothing drawn is lost but by deleting it.
                let holds = |dance: &Dance| dance.figures.iter().any(|figure| figure.parts.len() == 1);
                prop_assert!(holds(&dance) || !holds(&before) || step.0 == 6);
                // After any of these an empty order means that there is no figure.
                if dance != before && !matches!(step.0, 1 | 9 | 10) {
                    prop_assert!(!dance.order.is_empty() || dance.figures.is_empty());
                }
            }
        }
    }
}
