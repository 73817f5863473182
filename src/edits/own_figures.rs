//! The figures that a dance has, whether danced or not: new ones, names, bars, notes. Each function takes a dance and
//! gives a new one.

use super::arrange::{free_id, with_written_order};
use super::order::{OrderError, danceable, put_line, ruled};
use super::strikes_kept::keep_in_counts;
use crate::dance::{Dance, Ends, Figure, PlaceNumber};

/// The bars of a new figure.
const NEW_BARS: u32 = 8;

/// The dance with a new figure to draw, put into its order before a line; and the name it was given.
///
/// # Errors
/// When the dance has no room for more.
pub fn new_figure(dance: &Dance, before: usize) -> Result<(Dance, String), OrderError> {
    let mut dance = with_written_order(dance);
    // A number that neither a name nor an id has, since a figure that was renamed keeps its id.
    let (name, id) = (1..=u32::MAX)
        .map(|number| (format!("Figure {number}"), format!("figure-{number}")))
        .find(|(name, id)| dance.find_figure(name).is_none() && dance.find_figure(id).is_none())
        .unwrap_or_default();
    dance.figures.push(Figure::drawn(&id, &name, NEW_BARS));
    put_line(&mut dance, &id, before);
    Ok((ruled(dance)?, name))
}

/// The dance with a figure called something else. Its id, by which the order knows it, stays.
///
/// # Errors
/// When there is no such figure, or the name is empty or too long.
pub fn rename_figure(dance: &Dance, figure: usize, name: &str) -> Result<Dance, OrderError> {
    let name = name.trim();
    if name.is_empty() {
        return Err(OrderError::Nameless);
    }
    with_changed(dance, figure, |figure| name.clone_into(&mut figure.name))
}

/// The dance with the side's notes on a figure.
///
/// # Errors
/// When there is no such figure.
pub fn set_notes(dance: &Dance, figure: usize, notes: &str) -> Result<Dance, OrderError> {
    with_changed(dance, figure, |figure| notes.trim_end().clone_into(&mut figure.notes))
}

/// The dance with a figure that says how it ends.
///
/// # Errors
/// When there is no such figure.
pub fn set_ends(dance: &Dance, figure: usize, ends: Ends) -> Result<Dance, OrderError> {
    with_changed(dance, figure, |figure| figure.ends = ends)
}

/// The dance with the figure at a line made into one of its own, to change by itself. Where it is danced at other lines
/// too, this line dances the new one; where it is danced only here, the new one comes after it. Gives the line that
/// dances the new one as well.
///
/// # Errors
/// When there is no such line, or the dance has no room for more.
pub fn duplicate_line(dance: &Dance, line: usize) -> Result<(Dance, usize), OrderError> {
    let mut dance = with_written_order(dance);
    let id = dance.order.get(line).ok_or(OrderError::NoLine(line))?.figure.clone();
    let figure = dance.figures.iter().find(|figure| figure.id == id).ok_or(OrderError::NoLine(line))?;
    let mut copy = figure.clone();
    copy.name = (2..=u32::MAX)
        .map(|number| format!("{} ({number})", figure.name))
        .find(|name| dance.figures.iter().all(|figure| figure.name != *name))
        .unwrap_or_default();
    copy.id = free_id(&dance, &id);
    let new = copy.id.clone();
    let index = dance.figures.len();
    dance.figures.push(copy);
    let again = dance.order.iter().filter(|entry| entry.figure == id).count() > 1;
    let at = if again { line } else { line + 1 };
    if again {
        if let Some(entry) = dance.order.get_mut(line) {
            entry.figure = new;
        }
    } else {
        put_line(&mut dance, &new, at);
    }
    Ok((danceable(dance, index)?, at))
}

/// The dance without a figure, and without the lines that dance it.
///
/// # Errors
/// When there is no such figure, or it is all that is danced while there are others: an empty order would dance them.
pub fn delete_figure(dance: &Dance, figure: usize) -> Result<Dance, OrderError> {
    let mut dance = with_written_order(dance);
    if figure >= dance.figures.len() {
        return Err(OrderError::NoFigure(figure));
    }
    let gone = dance.figures.remove(figure);
    dance.underlay.retain(|photo| photo.figure.as_ref() != Some(&gone.id));
    dance.order.retain(|entry| entry.figure != gone.id);
    if dance.order.is_empty() && !dance.figures.is_empty() {
        return Err(OrderError::AllThereIs(gone.name));
    }
    ruled(dance)
}

/// The dance with a drawn figure made longer or shorter.
///
/// # Errors
/// When there is no such figure, it is a named one, something is drawn beyond the new end, its stepping does not fill
/// it, or the bars are out of range.
pub fn set_bars(dance: &Dance, index: usize, bars: u32) -> Result<Dance, OrderError> {
    let figure = dance.figures.get(index).ok_or(OrderError::NoFigure(index))?;
    if figure.named.is_some() {
        return Err(OrderError::Named { name: figure.name.clone(), bars: figure.bars });
    }
    if let Some((bar, place, what)) = last_drawn(dance, figure).filter(|(bar, ..)| *bar > bars) {
        return Err(OrderError::Drawn { name: figure.name.clone(), place, what, bar });
    }
    let mut dance = dance.clone();
    if let Some(figure) = dance.figures.get_mut(index) {
        figure.bars = bars;
    }
    let counts = dance.figures.get(index).map(|figure| dance.bar_counts(figure).counts());
    if let (Some(figure), Some(counts)) = (dance.figures.get_mut(index), counts) {
        keep_in_counts(figure, counts);
    }
    danceable(dance, index)
}

/// The last bar of a figure in which something is drawn, counted from 1, the place that it is drawn for, and what.
fn last_drawn(dance: &Dance, figure: &Figure) -> Option<(u32, PlaceNumber, &'static str)> {
    // What ends with a bar is not drawn in the next one; a step that starts there is.
    let bars = dance.bar_counts(figure);
    let ends = |count: f64| bars.begun_before(count);
    let starts = |count: f64| (bars.at(count).0 + 1).min(figure.bars);
    figure
        .parts
        .iter()
        .flat_map(|part| {
            let legs = part.legs.last().map(|leg| (ends(leg.end), part.place, "travels"));
            let turns = part.turns.last().map(|turn| (ends(turn.end), part.place, "turns"));
            let leads =
                part.leads.iter().map(|lead| (starts(lead.at), part.place, "has a foot chosen")).max();
            [legs, turns, leads].into_iter().flatten()
        })
        .max_by_key(|(bar, place, _)| (*bar, std::cmp::Reverse(*place)))
}

fn with_changed(dance: &Dance, figure: usize, change: impl FnOnce(&mut Figure)) -> Result<Dance, OrderError> {
    let mut dance = dance.clone();
    change(dance.figures.get_mut(figure).ok_or(OrderError::NoFigure(figure))?);
    ruled(dance)
}

#[cfg(test)]
mod tests {
    use super::super::arrange::with_figure;
    use super::*;
    use crate::dance::{Entry, Extra, Foot, Lead, Leg, Part, Set, Turn, Way};

    fn one() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(4, 2.4, 1.8));
        dance.figures.push(Figure::drawn("figure-1", "Lanterns", 8));
        dance
    }

    #[test]
    fn a_new_figure_has_a_name_and_an_id_of_its_own() {
        let (dance, name) = new_figure(&one(), 1).unwrap();
        assert_eq!((name.as_str(), dance.figures[1].id.as_str()), ("Figure 2", "figure-2"));
        assert_eq!(dance.order, [Entry::of("figure-1"), Entry::of("figure-2")]);
        let (dance, name) = new_figure(&dance, 0).unwrap();
        assert_eq!((name.as_str(), dance.order[0].figure.as_str()), ("Figure 3", "figure-3"));
        assert_eq!(dance.figures[2].bars, 8);
    }

    #[test]
    fn a_name_changes_and_the_id_stays() {
        let dance = rename_figure(&one(), 0, " Candles ").unwrap();
        assert_eq!((dance.figures[0].name.as_str(), dance.figures[0].id.as_str()), ("Candles", "figure-1"));
        assert_eq!(rename_figure(&dance, 0, " "), Err(OrderError::Nameless));
        assert_eq!(rename_figure(&dance, 1, "x"), Err(OrderError::NoFigure(1)));
        assert!(rename_figure(&dance, 0, &"x".repeat(10_001)).unwrap_err().to_string().contains("10000"));
        assert_eq!(set_notes(&dance, 0, "Slowly.\n").unwrap().figures[0].notes, "Slowly.");
    }

    #[test]
    fn a_copy_is_danced_here_or_after() {
        let (once, at) = duplicate_line(&one(), 0).unwrap();
        assert_eq!(at, 1, "danced only here, so it comes after");
        assert_eq!((once.figures[1].name.as_str(), once.order.len()), ("Lanterns (2)", 2));
        let mut twice = one();
        twice.order = vec![Entry::of("figure-1"), Entry { call: "Last!".into(), ..Entry::of("figure-1") }];
        let (dance, at) = duplicate_line(&twice, 1).unwrap();
        assert_eq!((at, dance.order.len()), (1, 2));
        assert_eq!(dance.order[1], Entry { call: "Last!".into(), ..Entry::of("figure-1-2") });
        assert_eq!(dance.order[0].figure, "figure-1");
        assert_eq!(duplicate_line(&twice, 2), Err(OrderError::NoLine(2)));
    }

    #[test]
    fn a_figure_is_deleted_with_its_lines() {
        let (two, _) = new_figure(&one(), 1).unwrap();
        let mut dance = two.clone();
        dance.order.push(Entry::of("figure-1"));
        let less = delete_figure(&dance, 0).unwrap();
        assert_eq!((less.figures.len(), less.order), (1, vec![Entry::of("figure-2")]));
        dance.order = vec![Entry::of("figure-1")];
        let said = delete_figure(&dance, 0).unwrap_err().to_string();
        assert!(said.starts_with("Lanterns is all that is danced"), "{said}");
        assert!(delete_figure(&one(), 0).unwrap().figures.is_empty(), "the last of all can go");
    }

    #[test]
    fn bars_are_not_taken_from_under_what_is_drawn() {
        let mut dance = one();
        let mut part = Part::still(3);
        part.legs.push(Leg::straight(4.0, 16.0, 0.0, 0.5));
        dance.figures[0].parts.push(part);
        assert_eq!(set_bars(&dance, 0, 4).unwrap().figures[0].bars, 4, "the leg ends with bar 4");
        let said = set_bars(&dance, 0, 3).unwrap_err().to_string();
        assert_eq!(
            said,
            "the dancer in place 3 travels in bar 4 of Lanterns; take that away first, or keep 4 bars"
        );
        let mut part = Part::still(1);
        part.turns.push(Turn::to_face(16.0, 17.0, Way::Left, 90.0));
        dance.figures[0].parts.push(part);
        assert!(set_bars(&dance, 0, 4).unwrap_err().to_string().contains("place 1 turns in bar 5"));
        let lead = Lead { at: 20.0, foot: Foot::Left, extra: Extra::new() };
        dance.figures[0].parts[0].leads.push(lead);
        assert!(set_bars(&dance, 0, 5).unwrap_err().to_string().contains("3 has a foot chosen in bar 6"));
        assert_eq!(set_bars(&dance, 0, 16).unwrap().bars(), 16);
        assert!(set_bars(&one(), 0, 0).unwrap_err().to_string().contains("1 to 2000"));
    }

    #[test]
    fn named_figures_and_stepping_keep_their_bars() {
        let dance = with_figure(&one(), "cross-over", 1).unwrap();
        let said = set_bars(&dance, 1, 12).unwrap_err().to_string();
        assert!(said.contains("named figure"), "{said}");
        let mut dance = one();
        dance.figures[0].phrase = "8 ds".to_owned();
        let said = set_bars(&dance, 0, 4).unwrap_err().to_string();
        assert_eq!(said, "phrase \"8 ds\": 32 counts do not fill 16 (16 over)");
    }
}
