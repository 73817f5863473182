//! Which sides and which rows of the bars are shown, to choose.

use super::without_room;
use crate::desk::{Ask, Desk, KeepAsk};
use egui::Ui;

/// Which parts of the window are shown.
pub fn show_parts(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = desk.settings().arrangement;
    let mut now = before;
    ui.weak("Shown");
    let no_room = without_room(desk, ui.ctx().content_rect().height());
    let rows = &mut now.hidden;
    let parts: [(&str, &mut bool, bool); 8] = [
        ("Left side", &mut now.left_folded, false),
        ("Right side", &mut now.right_folded, false),
        ("Tune", &mut rows.tune, no_room.tune),
        ("Path", &mut rows.path, no_room.path),
        ("Feet", &mut rows.feet, no_room.feet),
        ("Turn", &mut rows.turn, no_room.turn),
        ("Hands", &mut rows.hands, no_room.hands),
        ("Taps", &mut rows.taps, no_room.taps),
    ];
    for (name, hidden, no_room) in parts {
        let mut shown = !*hidden;
        let box_ =
            ui.checkbox(&mut shown, if no_room { format!("{name} · no room") } else { name.to_owned() });
        let hint = "There is no room for it: drag the upper edge of the bars, or put another row away";
        if (if no_room { box_.on_hover_text(hint) } else { box_ }).changed() {
            *hidden = !shown;
        }
    }
    if now != before {
        asks.push(Ask::Keep(KeepAsk::Arrange(now)));
    }
}
