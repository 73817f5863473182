use super::wrong::Wrong;
use egui::text::CCursor;
use egui::widgets::text_edit::TextEditOutput;
use egui::{
    EventFilter, Key, Modifiers, Rect, Response, Stroke, StrokeKind, TextBuffer, TextEdit, Tooltip, Ui, pos2,
};

/// A field of one line that Enter and Escape do not leave by themselves: what was typed may be wrong, and must then not
/// be lost, nor what is typed next go anywhere else. See [`ending`].
pub fn line(text: &mut dyn TextBuffer) -> TextEdit<'_> {
    TextEdit::singleline(text).return_key(None)
}

/// The same where Escape is for the field as well, and for nothing else while it has the focus: whoever is done with it by
/// Escape calls [`escape`].
pub fn line_with_escape(text: &mut dyn TextBuffer) -> TextEdit<'_> {
    let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, escape: true, tab: false };
    line(text).event_filter(filter)
}

/// How somebody is done with a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// By Enter: the text is to be taken. The field keeps the focus until it is.
    Enter,
    /// By Escape: the text is to be as it was. The field still has the focus.
    Escape,
    /// By going elsewhere.
    Left,
}

/// How somebody is done with a [`line`] in this frame, if they are.
pub fn ending(ui: &Ui, field: &Response) -> Option<Ending> {
    keep_in_sight(ui, field);
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if field.has_focus() {
        match () {
            () if pressed(Key::Enter) => Some(Ending::Enter),
            () if pressed(Key::Escape) => Some(Ending::Escape),
            () => None,
        }
    } else {
        field.lost_focus().then_some(Ending::Left)
    }
}

/// Leaves a field by Escape, which is not for the dialog that it is in.
pub fn escape(ui: &Ui, field: &Response) {
    ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    field.surrender_focus();
}

/// Keeps a field in sight that somebody has come to by Tab, or that was moved by what was typed in it. Who scrolls away from
/// it is left alone.
fn keep_in_sight(ui: &Ui, field: &Response) {
    let (name, pass) = (field.id.with("typed"), ui.ctx().cumulative_pass_nr());
    if field.gained_focus() || field.changed() {
        ui.data_mut(|data| data.insert_temp(name, pass));
    }
    let typed: Option<u64> = ui.data(|data| data.get_temp(name));
    let lately = typed.is_some_and(|typed| pass.saturating_sub(typed) < LATELY);
    if lately && field.has_focus() && !ui.clip_rect().contains_rect(field.rect) {
        field.scroll_to_me(None);
    }
}

/// What a letter changes about the window is there within so many frames.
const LATELY: u64 = 4;

/// Shows what is wrong with the text of a field: an edge round it, a line under the place, and the words below it. Nothing
/// moves for them.
pub fn show_wrong(ui: &Ui, field: &TextEditOutput, wrong: &Wrong) {
    mark_wrong(ui, field, wrong);
    show_words(ui, &field.response.response, &wrong.said);
}

/// Marks what is wrong with the text of a field: an edge round it and a line under the place.
pub fn mark_wrong(ui: &Ui, field: &TextEditOutput, wrong: &Wrong) {
    let response = &field.response.response;
    let ink = ui.visuals().error_fg_color;
    ui.painter().rect_stroke(response.rect, 4.0, Stroke::new(1.5, ink), StrokeKind::Inside);
    let letters = field.galley.text().chars().count();
    let (begin, end) = match &wrong.place {
        Some(place) => (place.start.min(letters), place.end.min(letters)),
        None => (0, letters),
    };
    let first = field.galley.pos_from_cursor(CCursor::new(begin));
    let left = first.left();
    let right = field.galley.pos_from_cursor(CCursor::new(end)).right();
    let under = field.galley_pos.y + first.bottom();
    let at = |x: f32| pos2(field.galley_pos.x + x - field.galley.rect.left(), under);
    let painter = ui.painter_at(field.text_clip_rect.expand(1.0));
    painter.line_segment([at(left), at(right)], Stroke::new(2.0, ink));
}

/// Shows what is wrong in words below a field, over what lies there.
pub fn show_words(ui: &Ui, field: &Response, said: &str) {
    let in_sight: Rect = ui.clip_rect().intersect(field.rect);
    if in_sight.height() > 4.0 && ui.is_enabled() {
        Tooltip::for_widget(field).show(|ui| {
            ui.set_max_width(300.0);
            ui.colored_label(ui.visuals().error_fg_color, said);
        });
    }
}
