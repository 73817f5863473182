use egui::{CollapsingHeader, Ui};

/// Shows what could not be done: the first line, and folded under it the lines that only help whoever made the file.
pub fn show(ui: &mut Ui, said: &str, as_error: bool) {
    let (first, details) = said.split_once('\n').unwrap_or((said, ""));
    if as_error {
        ui.colored_label(ui.visuals().error_fg_color, first);
    } else {
        ui.label(first);
    }
    if !details.is_empty() {
        CollapsingHeader::new("Details").id_salt("details").show(ui, |ui| ui.weak(details));
    }
}
