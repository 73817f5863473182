use super::shape::foot;
use crate::dance::{Dance, limits};
use crate::desk::{About, Ask, OrderAsk, ViewAsk, Written};
use crate::edits::{set_bars, set_call, set_notes};
use crate::window::{
    fields::{Ending, NumberField, NumberKind, ending, line},
    paint::choose_text,
};
use egui::{Key, Modifiers, RichText, TextEdit, Ui};

/// A field for a call, bars or notes.
pub struct FigureField {
    written: Written,
    focused: bool,
}

impl FigureField {
    /// A field that holds what there is.
    #[must_use]
    pub fn new(written: Written) -> Self {
        Self { written, focused: false }
    }

    fn ask(&self) -> OrderAsk {
        match self.written.about {
            About::Call(line) => OrderAsk::SetCall(line, self.written.text.clone()),
            About::Bars(figure) => OrderAsk::SetBars(figure, self.written.bars),
            About::Notes(figure) => OrderAsk::SetNotes(figure, self.written.text.clone()),
        }
    }
}

/// Shows the field, and says why where what is in it cannot be.
pub fn show_figure_field(ui: &mut Ui, field: &mut FigureField, dance: &Dance, asks: &mut Vec<Ask>) {
    let (heading, said) = match field.written.about {
        About::Call(_) => ("Call", "What the foreman calls here; empty for the figure's name"),
        About::Bars(_) => ("Bars", "How many bars it takes, wherever it is danced"),
        About::Notes(_) => {
            ("Notes", "The side's notes on the figure; Enter begins a line, Ctrl+Enter is done")
        }
    };
    ui.heading(format!("{heading}: {}", field.written.name));
    ui.add_space(6.0);
    let label = ui.weak(said);
    ui.add_space(4.0);
    let mut unread = false;
    let entered;
    let edit = match field.written.about {
        About::Call(_) => {
            let edit = line(&mut field.written.text).hint_text(field.written.name.as_str());
            let edit = ui.add(edit.desired_width(f32::INFINITY));
            entered = ending(ui, &edit) == Some(Ending::Enter);
            edit
        }
        About::Bars(_) => {
            let kind = NumberKind { least: 1.0, most: f64::from(limits::MOST_BARS), places: 0, unit: "" };
            let answer = NumberField::new(f64::from(field.written.bars), kind, 0.1).show(ui);
            field.written.bars = answer.changed.map_or(field.written.bars, |bars| bars as u32);
            unread = answer.wrong;
            entered = answer.entered;
            answer.response
        }
        About::Notes(_) => {
            // Enter begins a line; with Ctrl it is done.
            let done = |input: &mut egui::InputState| input.consume_key(Modifiers::COMMAND, Key::Enter);
            entered = ui.input_mut(done);
            let edit = TextEdit::multiline(&mut field.written.text).desired_rows(5);
            ui.add(edit.desired_width(f32::INFINITY))
        }
    };
    let edit = edit.labelled_by(label.id);
    // A number says by itself what it takes.
    let edit = if let About::Bars(_) = field.written.about { edit } else { edit.on_hover_text(said) };
    if !std::mem::replace(&mut field.focused, true) {
        edit.request_focus();
        // All of a line is chosen, so that typing takes its place; notes are gone on with.
        let length = match field.written.about {
            About::Bars(_) => field.written.bars.to_string().len(),
            About::Call(_) | About::Notes(_) => field.written.text.chars().count(),
        };
        let first = if matches!(field.written.about, About::Notes(_)) { length } else { 0 };
        choose_text(ui, edit.id, first, length);
    }
    let wrong = match field.written.about {
        About::Bars(figure) => set_bars(dance, figure, field.written.bars).err(),
        About::Call(line) => set_call(dance, line, &field.written.text).err(),
        About::Notes(figure) => set_notes(dance, figure, &field.written.text).err(),
    };
    if let Some(wrong) = &wrong {
        ui.add_space(4.0);
        ui.colored_label(ui.visuals().error_fg_color, format!("{wrong}."));
    }
    foot(ui, |ui| {
        let ready = wrong.is_none() && !unread;
        let button = egui::Button::new(RichText::new("Done").strong());
        if entered && !ready {
            // What the dance does not have is put right in the field.
            field.focused = false;
        }
        if (ui.add_enabled(ready, button).clicked() || entered) && ready {
            asks.push(Ask::View(ViewAsk::PutAway));
            asks.push(Ask::Order(field.ask()));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}
