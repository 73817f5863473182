use super::{
    bar_room::{BUTTON_GAP, BarRoom, BarWants, CAN_FOLD, DOT, GAP},
    focus_ring::focus_ring,
    paint::line_below_middle,
    sound_menu,
    strip::show_parts,
    text_size,
    theme::colour,
};
use crate::desk::{AboutAsk, Ask, CompareAsk, Desk, FileAsk, KeepAsk, PhotoAsk, StepAsk, ViewAsk};
use crate::picture::SLATE;
use egui::{
    Align, Button, Color32, Layout, Rect, RichText, TextStyle, Ui, UiBuilder, containers::menu::MenuButton,
    pos2, vec2,
};

/// The title, whether it is saved, and what can be done with the whole dance.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let (ink, said) = match (desk.path(), desk.unsaved()) {
        (None, true) => (desk.ink().odd, "not saved yet".to_owned()),
        (Some(_), true) => (desk.ink().odd, format!("{}, not saved yet", desk.file_name())),
        (Some(_), false) => (desk.ink().well, desk.file_name()),
        (None, false) => (desk.ink().quiet, "sample".to_owned()),
    };
    let bar = ui.available_rect_before_wrap();
    let bar = Rect::from_min_max(pos2(bar.left() + 6.0, bar.top()), bar.max);
    let width = |text: &str, style: TextStyle| {
        let font = style.resolve(ui.style());
        // A point more, since what is laid out is put on whole pixels.
        ui.painter().layout_no_wrap(text.to_owned(), font, Color32::WHITE).size().x.ceil() + 1.0
    };
    let padding = 2.0 * ui.spacing().button_padding.x;
    let dance = desk.dance();
    let shown = if dance.title.trim().is_empty() { "no title" } else { dance.title.as_str() };
    let wants = BarWants {
        whole: bar.width(),
        title: width(shown, TextStyle::Heading),
        side: if dance.side.is_empty() { 0.0 } else { width(&dance.side, TextStyle::Body) },
        state: width(&said, TextStyle::Small),
    };
    let room = BarRoom::share(&wants, |text| width(text, TextStyle::Button) + padding);
    let mut left = bar.left();
    let title = egui::Label::new(RichText::new(shown).heading()).sense(egui::Sense::click());
    let title = show_words(ui, bar, &mut left, room.title, (title, TextStyle::Heading));
    focus_ring(ui, &title, title.rect.expand(3.0), desk);
    // Under the pointer it looks like what can be clicked.
    let title = title.on_hover_cursor(egui::CursorIcon::PointingHand);
    if title.hovered() {
        let stroke = egui::Stroke::new(1.0, ui.visuals().strong_text_color());
        ui.painter().hline(title.rect.x_range(), title.rect.bottom() - 1.0, stroke);
    }
    title.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Button, true, format!("This dance: {}", dance.title))
    });
    if title.on_hover_text("Title, side, notes, tune, people: all that is said of this dance").clicked() {
        asks.push(Ask::About(AboutAsk::Show));
    }
    if room.side > 0.0 {
        let side = egui::Label::new(RichText::new(&dance.side).weak());
        show_words(ui, bar, &mut left, room.side, (side, TextStyle::Body));
    }
    let dot = Rect::from_center_size(pos2(left + DOT / 2.0, bar.center().y), vec2(DOT, DOT));
    ui.painter().circle_filled(dot.center(), 4.0, colour(ink));
    left = dot.right() + GAP;
    if room.state > 0.0 {
        show_words(
            ui,
            bar,
            &mut left,
            room.state,
            (
                egui::Label::new(RichText::new(&said).small().color(colour(desk.ink().quiet))),
                TextStyle::Small,
            ),
        );
    } else {
        let dot = ui.interact(dot.expand(4.0), egui::Id::unique("save state"), egui::Sense::hover());
        dot.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &said));
        dot.on_hover_text(&said);
    }
    let right = Rect::from_min_max(pos2(bar.right() - room.buttons, bar.top()), bar.max);
    // From the left, as Tab goes through them.
    let layout = UiBuilder::new().max_rect(right).layout(Layout::left_to_right(Align::Center));
    ui.scope_builder(layout, |ui| {
        ui.spacing_mut().item_spacing.x = BUTTON_GAP;
        show_buttons(ui, desk, &room, asks);
    });
}

/// Words in a bar from a place on, cut where they are longer than their room, on the line of the words of its buttons.
fn show_words(
    ui: &mut Ui,
    bar: Rect,
    left: &mut f32,
    room: f32,
    (words, style): (egui::Label, TextStyle),
) -> egui::Response {
    let lower = line_below_middle(ui, &TextStyle::Button) - line_below_middle(ui, &style);
    let place = Rect::from_min_max(pos2(*left, bar.top()), pos2(*left + room, bar.bottom()));
    let place = place.translate(vec2(0.0, lower));
    let layout = UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center));
    *left = place.right() + GAP;
    ui.scope_builder(layout, |ui| ui.add(words.truncate())).inner
}

fn show_buttons(ui: &mut Ui, desk: &Desk, room: &BarRoom, asks: &mut Vec<Ask>) {
    let stands = |name: &str| CAN_FOLD.iter().take(CAN_FOLD.len() - room.folded).any(|known| *known == name);
    let put_if = |ui: &mut Ui, which: usize, asks: &mut Vec<Ask>| {
        if let Some((name, hint, ask)) = FOLDING.get(which).filter(|(name, ..)| stands(name)) {
            put(ui, name, true, hint, ask.clone(), asks);
        }
    };
    // What would be undone is in the hint: named on the button, it would move its neighbours.
    let hint = |verb: &str, name: Option<&str>, keys: &str| {
        format!("{verb} {} ({keys})", name.unwrap_or_default()).replace("  ", " ")
    };
    let undo = desk.undo_name();
    put(ui, "Undo", undo.is_some(), &hint("Undo", undo, "Ctrl+Z"), Ask::Undo, asks);
    let redo = desk.redo_name();
    put(ui, "Redo", redo.is_some(), &hint("Redo", redo, "Ctrl+Shift+Z"), Ask::Redo, asks);
    put_if(ui, 0, asks);
    put_if(ui, 1, asks);
    put(ui, "Save", true, "Save (Ctrl+S)", Ask::File(FileAsk::Save), asks);
    menu(ui, "File", |ui| show_file(ui, desk, room.folded, asks));
    put_if(ui, 2, asks);
    put_if(ui, 3, asks);
    menu(ui, "Sound", |ui| sound_menu::show(ui, desk, asks));
    menu(ui, "View", |ui| show_view(ui, desk, asks));
    put_if(ui, 4, asks);
}

/// The buttons that a narrow bar has in its menu, from the left.
const FOLDING: [(&str, &str, Ask); 5] = [
    ("New…", "A new dance (Ctrl+N)", Ask::File(FileAsk::AskNew)),
    ("Open…", "Open a dance (Ctrl+O)", Ask::File(FileAsk::AskOpen)),
    ("Handout…", "Sheets, the notebook, a page for a phone (Ctrl+P)", Ask::File(FileAsk::AskHandout)),
    ("Still…", "A picture of this moment (Ctrl+E)", Ask::File(FileAsk::AskStill)),
    ("Help", "Keys and mouse (F1)", Ask::View(ViewAsk::ToggleHelp)),
];

/// A button that shows its edge only under the pointer.
fn put(ui: &mut Ui, name: &str, enabled: bool, hint: &str, ask: Ask, asks: &mut Vec<Ask>) {
    let button = ui.add_enabled(enabled, Button::new(name).frame_when_inactive(false));
    if button.on_hover_text(hint).clicked() {
        asks.push(ask);
    }
}

fn menu(ui: &mut Ui, name: &str, show: impl FnOnce(&mut Ui)) {
    MenuButton::from_button(Button::new(name).frame_when_inactive(false)).ui(ui, |ui| {
        ui.set_min_width(190.0);
        show(ui);
    });
}

/// What is done less often with files, and what the bar has no room for.
fn show_file(ui: &mut Ui, desk: &Desk, folded: usize, asks: &mut Vec<Ask>) {
    for (name, hint, ask) in &FOLDING {
        if CAN_FOLD.iter().skip(CAN_FOLD.len() - folded).any(|known| known == name) {
            let button = ui.add(Button::new(*name).frame_when_inactive(false));
            if button.on_hover_text(*hint).clicked() {
                asks.push(ask.clone());
                ui.close();
            }
        }
    }
    if folded > 0 {
        ui.separator();
    }
    let own = desk.path().is_some();
    for (name, enabled, hint, ask) in [
        (
            "This dance…",
            true,
            "Title, side, notes, tune, people: all that is said of this dance",
            Ask::About(AboutAsk::Show),
        ),
        (
            "Steps…",
            true,
            "The side's own steps and the built-in ones: seen, made and changed",
            Ask::Step(StepAsk::Show(None)),
        ),
        (
            "Photograph…",
            true,
            "Lay a photograph or a sketch under the floor, to draw over",
            Ask::Photo(PhotoAsk::AskFile),
        ),
        ("Save as…", true, "Save to another file (Ctrl+Shift+S)", Ask::File(FileAsk::AskSaveAs)),
        ("Compare…", true, "Lay another version of this dance beside it", Ask::Compare(CompareAsk::Ask)),
        ("Earlier saves…", own, "The last ten saves of this file", Ask::Keep(KeepAsk::AskEarlier)),
        (
            "Unsaved work…",
            true,
            "Work that was not saved when a window ended",
            Ask::Keep(KeepAsk::AskRecovered),
        ),
    ] {
        let button = ui.add_enabled(enabled, Button::new(name).frame_when_inactive(false));
        if button.on_hover_text(hint).on_disabled_hover_text("Once the dance has a file").clicked() {
            asks.push(ask);
            ui.close();
        }
    }
}

/// How the window looks.
fn show_view(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let slate = desk.ink() == SLATE;
    for (name, chosen) in [("Slate", slate), ("Paper", !slate)] {
        if ui.selectable_label(chosen, name).clicked() && !chosen {
            asks.push(Ask::View(ViewAsk::ToggleTheme));
            ui.close();
        }
    }
    ui.separator();
    show_parts(ui, desk, asks);
    ui.separator();
    text_size::show_menu(ui, desk, asks);
    ui.separator();
    let mut last = desk.settings().open_last;
    if ui.checkbox(&mut last, "Open on the last dance").on_hover_text("When the program starts").changed() {
        asks.push(Ask::Keep(KeepAsk::OpenLast(last)));
    }
}
