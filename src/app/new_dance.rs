use super::ask::Ask;
use crate::dance::{Dance, Entry, Figure, Set, SetKind, check_rules, limits};
use crate::figures::{self, motion_of, named_figure};
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
}

impl Default for NewDance {
    fn default() -> Self {
        Self {
            title: String::new(),
            kind: SetKind::Longways,
            dancers: 6,
            across: Set::DEFAULT_ACROSS,
            along: Set::DEFAULT_ALONG,
            figures: figures::all().map(|figure| (figure.name.to_owned(), false)).to_vec(),
        }
    }
}

impl NewDance {
    /// The dance with one figure to draw in.
    #[must_use]
    pub fn empty(&self) -> Dance {
        let set = Set { kind: self.kind, ..Set::longways(self.dancers, self.across, self.along) };
        let mut dance = Dance::new("New dance", set);
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
    egui::Grid::new("new dance").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
        let label = ui.label("Title");
        ui.add(egui::TextEdit::singleline(&mut new.title).hint_text("New dance")).labelled_by(label.id);
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
            ui.add(egui::DragValue::new(&mut new.dancers).range(1..=limits::MOST_DANCERS).speed(0.1))
                .labelled_by(label.id);
        }
        ui.end_row();
        if new.kind == SetKind::Longways {
            for (name, metres) in
                [("Across the files", &mut new.across), ("From rank to rank", &mut new.along)]
            {
                let label = ui.label(name);
                ui.add(egui::DragValue::new(metres).range(0.5..=20.0).speed(0.05).suffix(" m"))
                    .labelled_by(label.id);
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
                if ui.button(RichText::new("Make it").strong()).clicked() {
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
