use super::entry::{escape, line_with_escape};
use egui::{Id, Key, Response, Tooltip, Ui, vec2};

/// A text among fields that cannot be changed there: whoever would type in it is told why, where they would.
pub fn show_fixed(ui: &mut Ui, (name, width): (Id, f32), text: &str, why: &str) -> Response {
    let mut same = text;
    let field = line_with_escape(&mut same).id(name);
    // A grid would leave it less at first, and for good.
    let field = ui.add(field.desired_width(width).min_size(vec2(width, 0.0)));
    if !field.has_focus() {
        return field.on_hover_text(why);
    }
    Tooltip::for_widget(&field).show(|ui| {
        ui.set_max_width(300.0);
        ui.label(why);
    });
    if ui.input(|input| input.key_pressed(Key::Escape)) {
        escape(ui, &field);
    }
    field
}
