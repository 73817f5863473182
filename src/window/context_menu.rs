//! Menus of what can be done with something: a right click opens them where the mouse is, the menu key (or Shift and F10)
//! beside what has the focus.

use egui::{Button, Context, Key, Modifiers, Popup, PopupCloseBehavior, Response, Ui};

/// Frames for which the focus is waited for once a menu is put away.
pub const WAITS: u8 = 3;
/// The least width of a menu, points.
const WIDTH: f32 = 200.0;

/// How a menu was opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opened {
    /// By the mouse: it is about what was under it.
    Mouse,
    /// By a key: it is about what has the focus, at the playhead.
    Key,
}

/// Whether the menu key was pressed; it then means nothing else.
fn menu_key(ctx: &Context) -> bool {
    ctx.input_mut(|input| {
        input.consume_key(Modifiers::NONE, Key::Menu) || input.consume_key(Modifiers::SHIFT, Key::F10)
    })
}

/// Shows the menu of something while it is open. Gives whether it is.
pub fn show_menu(response: &Response, add: impl FnOnce(&mut Ui, Opened)) -> bool {
    show_menu_or(response, false, add)
}

/// The same; where nothing has the focus, the menu key opens it as well if it is `first` in line.
pub fn show_menu_or(response: &Response, first: bool, add: impl FnOnce(&mut Ui, Opened)) -> bool {
    let ctx = &response.ctx;
    let popup = Popup::default_response_id(response);
    let name = popup.with("by key");
    // Looked up before anything is noted: what is noted is locked meanwhile.
    let has_focus = response.has_focus();
    let asked = has_focus || (first && ctx.memory(egui::Memory::focused).is_none());
    if asked && !Popup::is_any_open(ctx) && menu_key(ctx) {
        Popup::open_id(ctx, popup);
        // What had the focus has it again when the menu is put away.
        ctx.data_mut(|data| data.insert_temp(name, (has_focus, 0_u8)));
        ctx.data_mut(|data| data.insert_temp(popup.with("mouse lies"), true));
    } else if response.secondary_clicked() {
        ctx.data_mut(|data| data.remove::<(bool, u8)>(name));
    }
    let by_key: Option<(bool, u8)> = ctx.data(|data| data.get_temp(name));
    if by_key.is_none() && !response.secondary_clicked() && !Popup::is_id_open(ctx, popup) {
        return false;
    }
    let menu = Popup::context_menu(response).close_behavior(PopupCloseBehavior::CloseOnClickOutside);
    let (menu, opened) = match by_key {
        Some(_) => (menu.anchor(response), Opened::Key),
        None => (menu, Opened::Mouse),
    };
    let open = menu
        .show(|ui| {
            ui.set_min_width(WIDTH);
            if mouse_lies(ctx, popup) {
                without_mouse(ctx, || add(ui, opened));
            } else {
                add(ui, opened);
            }
        })
        .is_some();
    if let Some((had_focus, waited)) = by_key.filter(|_| !open) {
        // What was chosen by Enter has the focus until egui finds that it is gone.
        let free = ctx.memory(egui::Memory::focused).is_none();
        if had_focus && !free && waited < WAITS {
            ctx.data_mut(|data| data.insert_temp(name, (had_focus, waited + 1)));
            ctx.request_repaint();
        } else {
            ctx.data_mut(|data| data.remove::<(bool, u8)>(name));
            if had_focus && free {
                response.request_focus();
            }
        }
    }
    open
}

/// Whether the mouse has lain where it is since a menu was opened by a key: it then points at nothing of it.
fn mouse_lies(ctx: &Context, popup: egui::Id) -> bool {
    let name = popup.with("mouse lies");
    let lies = ctx.data(|data| data.get_temp(name)).unwrap_or(false);
    let moves = ctx.input(|input| {
        input.pointer.delta() != egui::Vec2::ZERO
            || input.pointer.any_pressed()
            || input.pointer.any_released()
    });
    if lies && moves {
        ctx.data_mut(|data| data.insert_temp(name, false));
    }
    lies && !moves
}

/// Does something while no mouse is seen: what opens under it stays shut.
fn without_mouse(ctx: &Context, show: impl FnOnce()) {
    let pointer = ctx.input_mut(|input| std::mem::take(&mut input.pointer));
    show();
    ctx.input_mut(|input| input.pointer = pointer);
}

/// A thing to choose from a menu, with a hint where it has one. Gives whether it was chosen; the menu is then put away.
pub fn item(ui: &mut Ui, enabled: bool, name: &str, hint: &str) -> bool {
    keyed_item(ui, enabled, (name, "", hint))
}

/// The same with the key that does it as well.
pub fn keyed_item(ui: &mut Ui, enabled: bool, (name, key, hint): (&str, &str, &str)) -> bool {
    let mut button = Button::new(name);
    if !key.is_empty() {
        button = button.shortcut_text(key);
    }
    let mut response = ui.add_enabled(enabled, button);
    if !hint.is_empty() {
        response = response.on_hover_text(hint).on_disabled_hover_text(hint);
    }
    let chosen = response.clicked();
    if chosen {
        ui.close();
    }
    chosen
}

/// The same for one of several of which one is so now.
pub fn choice(ui: &mut Ui, is_now: bool, name: &str, hint: &str) -> bool {
    choice_unless(ui, is_now, None, (name, hint))
}

/// The same for one that cannot be chosen where there is a reason against it, which is then told.
pub fn choice_unless(ui: &mut Ui, is_now: bool, against: Option<&str>, (name, hint): (&str, &str)) -> bool {
    let mut response = ui.add_enabled(against.is_none(), Button::selectable(is_now, name));
    if let Some(against) = against {
        response = response.on_disabled_hover_text(capital(against));
    } else if !hint.is_empty() {
        response = response.on_hover_text(hint);
    }
    let chosen = response.clicked();
    if chosen {
        ui.close();
    }
    chosen
}

/// Words as they begin a line.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().map(|first| first.to_uppercase().collect()).unwrap_or_default();
    first + letters.as_str()
}
