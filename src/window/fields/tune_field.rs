use crate::dance::CleanedTunes;
use egui::{Event, Id, Response, ScrollArea, TextEdit, Ui, Vec2, vec2};

/// A field for a tune in ABC notation, to type or to paste.
pub struct TuneField {
    /// What it is called in the window.
    pub name: Id,
    /// How large it is, points; however long the text is, it goes up and down in that.
    pub size: Vec2,
    /// What stands there while it is empty.
    pub hint: &'static str,
    /// The words that name it.
    pub label: Id,
}

/// What somebody did with it.
pub struct TuneTyped {
    /// The field.
    pub response: Response,
    /// What there is in the text, cleaned, where some of it was pasted just now. The text itself is as it was pasted.
    pub pasted: Option<CleanedTunes>,
}

impl TuneField {
    /// Shows it.
    pub fn show(self, ui: &mut Ui, text: &mut String) -> TuneTyped {
        let pasted = ui.input(|input| input.events.iter().any(|event| matches!(event, Event::Paste(_))));
        let Vec2 { x: across, y: down } = self.size;
        let area = ScrollArea::vertical().id_salt(self.name).max_height(down).min_scrolled_height(down);
        let shrinks = across.is_finite();
        let shown = area.auto_shrink([shrinks, false]).show(ui, |ui| {
            let edit = TextEdit::multiline(text).id(self.name).code_editor().hint_text(self.hint);
            // As high with the hint as with letters.
            let least = vec2(if shrinks { across } else { 0.0 }, down - 2.0);
            ui.add(edit.desired_rows(1).desired_width(across).min_size(least)).labelled_by(self.label)
        });
        let response = shown.inner;
        let pasted = (pasted && response.changed()).then(|| CleanedTunes::of(text));
        TuneTyped { response, pasted }
    }
}
