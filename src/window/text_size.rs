use crate::desk::{Ask, Desk, KeepAsk};
use egui::{Context, Key, Modifiers, Ui};

/// The sizes that are offered; 1 is what the desktop has.
const SIZES: [f32; 9] = [0.7, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 1.75, 2.0];

/// Takes the keys for the size of the text, also while something is typed or asked.
pub fn take_keys(ctx: &Context, desk: &Desk, asks: &mut Vec<Ask>) {
    let size = desk.settings().text_size;
    ctx.input_mut(|input| {
        let mut pressed = |key| input.consume_key(Modifiers::COMMAND, key);
        let wanted = if pressed(Key::Plus) || pressed(Key::Equals) {
            SIZES.into_iter().find(|other| *other > size + 0.01)
        } else if pressed(Key::Minus) {
            SIZES.into_iter().rev().find(|other| *other < size - 0.01)
        } else if pressed(Key::Num0) {
            Some(1.0)
        } else {
            None
        };
        asks.extend(wanted.map(|size| Ask::Keep(KeepAsk::TextSize(size))));
    });
}

/// The sizes to choose from.
pub fn show_menu(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let chosen = desk.settings().text_size;
    ui.weak("Text size (Ctrl++, Ctrl+-)");
    for size in SIZES {
        let usual = if size == 1.0 { ", as the desktop has it" } else { "" };
        let name = format!("{:.0} %{usual}", size * 100.0);
        if ui.selectable_label((chosen - size).abs() < 0.01, name).clicked() {
            asks.push(Ask::Keep(KeepAsk::TextSize(size)));
            ui.close();
        }
    }
}

/// Has the window in the size that is chosen.
pub fn apply(ctx: &Context, desk: &Desk) {
    let size = desk.settings().text_size;
    if (ctx.zoom_factor() - size).abs() > 1e-3 {
        ctx.set_zoom_factor(size);
    }
}
