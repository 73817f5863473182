use crate::dance::{Ends, EndsIn, Figure, Stance};
use crate::desk::{Ask, OrderAsk};
use egui::Ui;

/// What is chosen where a named figure is left to end as it does of itself.
const OWN: &str = "the figure's own";

/// Something to choose from: what it is, what it is called, and a hint.
type Choice<T> = (T, &'static str, &'static str);

/// How a figure ends, as two rows of the card.
pub fn show_rows(ui: &mut Ui, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    let own = figure.named.is_some();
    let mut ends = figure.ends;
    ui.weak("ends").on_hover_text("Where everyone is when it ends");
    show_button(ui, ("ends", index), own, &spots(), &mut ends.spots);
    ui.end_row();
    ui.weak("ends facing").on_hover_text("Which way the set faces when it ends");
    show_button(ui, ("ends facing", index), own, &stances(), &mut ends.stance);
    ui.end_row();
    push(index, figure, ends, asks);
}

/// The same as part of a menu.
pub fn show_menu(ui: &mut Ui, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    let own = figure.named.is_some();
    let mut ends = figure.ends;
    show_choices(ui, own, &spots(), &mut ends.spots);
    ui.separator();
    show_choices(ui, own, &stances(), &mut ends.stance);
    push(index, figure, ends, asks);
}

fn push(index: usize, figure: &Figure, ends: Ends, asks: &mut Vec<Ask>) {
    if ends != figure.ends {
        asks.push(Ask::Order(OrderAsk::SetEnds(index, ends)));
    }
}

fn spots() -> [Choice<EndsIn>; 3] {
    EndsIn::ALL.map(|spots| {
        let hint = match spots {
            EndsIn::Home => "Each in the spot in which they began it",
            EndsIn::Places => "People have changed places, and dance on from there",
            EndsIn::Anywhere => "Nobody is asked to be anywhere, as in a processional",
        };
        (spots, spots.words(), hint)
    })
}

fn stances() -> [Choice<Stance>; 3] {
    Stance::ALL.map(|stance| {
        let hint = match stance {
            Stance::Front => "Partners face each other",
            Stance::Column => "In column, towards the music",
            Stance::Reversed => "In column reversed, away from the music, as bottoms lead",
        };
        (stance, stance.words(), hint)
    })
}

/// What is chosen now: nothing where a named figure has its own way, and the first of all for one that is drawn.
fn now<T: Copy>(own: bool, choices: &[Choice<T>], said: Option<T>) -> Option<T> {
    said.or_else(|| choices.first().filter(|_| !own).map(|(choice, ..)| *choice))
}

fn show_button<T: Copy + PartialEq>(
    ui: &mut Ui,
    id: (&str, usize),
    own: bool,
    choices: &[Choice<T>],
    said: &mut Option<T>,
) {
    let now = now(own, choices, *said);
    let words = choices.iter().find(|(choice, ..)| Some(*choice) == now).map_or(OWN, |(_, words, _)| words);
    ui.push_id(id, |ui| ui.menu_button(words, |ui| show_choices(ui, own, choices, said)));
}

fn show_choices<T: Copy + PartialEq>(ui: &mut Ui, own: bool, choices: &[Choice<T>], said: &mut Option<T>) {
    let now = now(own, choices, *said);
    let usual = choices.first().filter(|_| !own).map(|(choice, ..)| *choice);
    let left = own.then_some((None, OWN, ""));
    let listed = choices.iter().map(|(choice, words, hint)| (Some(*choice), *words, *hint));
    for (choice, words, hint) in left.into_iter().chain(listed) {
        let mut label = ui.selectable_label(now == choice, words);
        if !hint.is_empty() {
            label = label.on_hover_text(hint);
        }
        if label.clicked() {
            // What a drawn figure does of itself need not be said.
            *said = choice.filter(|_| choice != usual);
            ui.close();
        }
    }
}
