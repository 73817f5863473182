use crate::dance::{Dance, Entry, Figure, Set, SetKind, check_rules, limits};
use crate::desk::Ask;
use crate::figures::{self, motion_of, named_figure};
use crate::window::{
    fields::{Ending, NumberField, NumberKind, ending, line},
    paint::choose_text,
};
use egui::{RichText, Ui};

/// What to choose for a new dance.
#[derive(Clone, Debug)]
pub struct NewDance {
    title: String,
    kind: SetKind,
    dancers: u32,
    across: f64,
    along: f64,
    figures: Vec<(String, bool)>,
    /// Whether the title has been given the focus.
    focused: bool,
}

/// What a dance is called before somebody says what.
const TITLE: &str = "New dance";

impl Default for NewDance {
    fn default() -> Self {
        Self {
            title: TITLE.to_owned(),
            kind: SetKind::Longways,
            dancers: 6,
            across: Set::DEFAULT_ACROSS,
            along: Set::DEFAULT_ALONG,
            figures: figures::all().map(|figure| (figure.name.to_owned(), false)).to_vec(),
            focused: false,
        }
    }
}

impl NewDance {
    /// The dance with one figure to draw in.
    #[must_use]
    pub fn empty(&self) -> Dance {
        let set = Set { kind: self.kind, ..Set::longways(self.dancers, self.across, self.along) };
        let mut dance = Dance::new(TITLE, set);
        dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
        dance.order.push(Entry::of("figure-1"));
        dance
    }

    /// The dance as chosen.
    ///
    /// # Errors
    /// When the set cannot dance a figure chosen, or its numbers cannot be.
    pub fn make(&self) -> Result<Dance, String> {
        let mut dance = self.empty();
        if !self.title.trim().is_empty() {
            self.title.trim().clone_into(&mut dance.title);
        }
        let chosen: Vec<&str> =
            self.figures.iter().filter(|(_, chosen)| *chosen).map(|(name, _)| name.as_str()).collect();
        if !chosen.is_empty() {
            dance.figures.clear();
            dance.order.clear();
            for name in chosen {
                let figure = named_figure(name, crate::dance::Extra::new(), &dance.set)
                    .map_err(|error| error.to_string())?;
                dance.order.push(Entry::of(&figure.id));
                dance.figures.push(figure);
            }
        }
        check_rules(&dance).map_err(|error| error.message)?;
        motion_of(&dance, None).map_err(|error| error.message)?;
        Ok(dance)
    }
}

/// Shows what there is to choose.
pub fn show_new(ui: &mut Ui, new: &mut NewDance, asks: &mut Vec<Ask>) {
    ui.heading("New dance");
    ui.add_space(6.0);
    let (mut entered, mut unread) = (false, false);
    egui::Grid::new("new dance").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
        let label = ui.label("Title");
        let title = ui.add(line(&mut new.title).hint_text(TITLE)).labelled_by(label.id);
        if !std::mem::replace(&mut new.focused, true) {
            title.request_focus();
            // All of it is chosen, so that typing takes its place.
            choose_text(ui, title.id, 0, new.title.chars().count());
        }
        entered |= ending(ui, &title) == Some(Ending::Enter);
        ui.end_row();
        ui.label("Set");
        ui.horizontal(|ui| {
            ui.selectable_value(&mut new.kind, SetKind::Longways, "two files");
            ui.selectable_value(&mut new.kind, SetKind::Ring, "a ring");
        });
        ui.end_row();
        let label = ui.label("Dancers");
        if new.kind == SetKind::Longways {
            ui.horizontal(|ui| {
                for number in Set::USUAL_SIZES {
                    ui.selectable_value(&mut new.dancers, number, number.to_string());
                }
            });
        } else {
            let most = f64::from(limits::MOST_DANCERS);
            let kind = NumberKind { least: 1.0, most, places: 0, unit: "" };
            let answer = NumberField::new(f64::from(new.dancers), kind, 0.1).show(ui);
            answer.response.labelled_by(label.id);
            new.dancers = answer.changed.map_or(new.dancers, |dancers| dancers as u32);
            unread |= answer.wrong;
        }
        ui.end_row();
        if new.kind == SetKind::Longways {
            for (name, metres) in
                [("Across the files", &mut new.across), ("From rank to rank", &mut new.along)]
            {
                let label = ui.label(name);
                let kind = NumberKind { least: 0.5, most: 20.0, places: 2, unit: "m" };
                let answer = NumberField::new(*metres, kind, 0.05).show(ui);
                answer.response.labelled_by(label.id);
                *metres = answer.changed.unwrap_or(*metres);
                unread |= answer.wrong;
                ui.end_row();
            }
        }
    });
    ui.add_space(8.0);
    ui.weak("Figures to begin with; with none there is an empty one to draw in");
    // Side by side, so that the dialog fits the smallest window.
    egui::Grid::new("new figures").num_columns(2).spacing([24.0, 5.0]).show(ui, |ui| {
        for row in new.figures.chunks_mut(2) {
            for (name, chosen) in row {
                if let Ok(figure) = figures::find(name) {
                    ui.checkbox(chosen, figure.title).on_hover_text(figure.help);
                }
            }
            ui.end_row();
        }
    });
    ui.add_space(10.0);
    match new.make() {
        Ok(dance) => {
            ui.horizontal(|ui| {
                let button = egui::Button::new(RichText::new("Make it").strong());
                if (ui.add_enabled(!unread, button).clicked() || entered) && !unread {
                    asks.push(Ask::PutAway);
                    asks.push(Ask::PutNew(Box::new(dance)));
                }
                if ui.button("Cancel").clicked() {
                    asks.push(Ask::PutAway);
                }
            });
        }
        Err(said) => {
            ui.colored_label(ui.visuals().error_fg_color, said);
            if ui.button("Cancel").clicked() {
                asks.push(Ask::PutAway);
            }
        }
    }
}
