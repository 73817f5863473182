//! The window: floor, bar strip, running order, card, dialogs.
//!
//! Panels read the [`Desk`] and push [`Ask`]s; the desk takes them in one place, so that everything that changes a
//! dance goes through one door and can be undone. No rule of the dance lives here.

mod bar_room;
mod dialogs;
mod fields;
mod first_minute;
mod floor;
mod keys;
mod news;
mod paint;
mod place;
mod share;
mod side;
mod strip;
mod text_size;
mod theme;
mod top_bar;

pub use crate::words::CAUTIONS;
pub use dialogs::KEYS;
pub use fields::PathText;
pub use floor::Floor;
pub use strip::{BarAxis, BarStrip};

use self::side::{card, differences, draw_card, fault_list, running_order, set_row, shelf};
use crate::desk::{Ask, Beats, Desk, DrawAsk, FileAsk, KeepAsk, PlayAsk, Seen, ViewAsk};
use crate::picture::Ink;
use crate::store::{Home, Recent};
use egui::{CentralPanel, Frame, Panel, Ui, ViewportCommand};
use std::path::PathBuf;

/// Windows lower than this have no room for lists that go up and down each by itself, and narrower than this for a
/// card on the right, points: both grow with the size of the text.
const LOW: f32 = 560.0;
const NARROW: f32 = 780.0;

/// The whole window.
pub struct Window {
    /// What it shows.
    pub desk: Desk,
    /// The floor.
    pub floor: Floor,
    strip: BarStrip,
    shelf: shelf::Shelf,
    order: running_order::RunningOrder,
    keys: keys::Keys,
    asks: Vec<Ask>,
    dressed: Option<Ink>,
    titled: String,
    /// Whether the desktop's own file dialogs are asked.
    native_dialogs: bool,
    /// Whether the window has been told to close.
    closing: bool,
    /// When the last frame was shown, seconds.
    shown: Option<f64>,
    /// Whether a dialog was open in the last frame.
    asking: bool,
    place: place::WindowPlace,
    dialogs: dialogs::Dialogs,
    /// Where the floor was last shown.
    pub floor_rect: egui::Rect,
}

impl Window {
    /// A window on a desk.
    #[must_use]
    pub fn new(desk: Desk, native_dialogs: bool) -> Self {
        Self {
            desk,
            floor: Floor::default(),
            strip: BarStrip::default(),
            shelf: shelf::Shelf::default(),
            order: running_order::RunningOrder::default(),
            keys: keys::Keys::default(),
            asks: Vec::new(),
            dressed: None,
            titled: String::new(),
            native_dialogs,
            closing: false,
            shown: None,
            asking: false,
            place: place::WindowPlace::default(),
            dialogs: dialogs::Dialogs::default(),
            floor_rect: egui::Rect::NOTHING,
        }
    }

    /// Shows a frame and takes what was asked for in it.
    pub fn show(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        if self.dressed != Some(self.desk.ink()) {
            theme::dress(&ctx, &self.desk.ink());
            self.dressed = Some(self.desk.ink());
            ctx.options_mut(|options| options.zoom_with_keyboard = false);
        }
        text_size::apply(&ctx, &self.desk);
        if ctx.input(|input| input.events.contains(&egui::Event::WindowFocused(true))) {
            self.asks.push(Ask::Keep(KeepAsk::LookOutside));
        }
        text_size::take_keys(&ctx, &self.desk, &mut self.asks);
        self.play_on(&ctx);
        if ctx.input(|input| input.pointer.any_pressed()) {
            self.asks.push(Ask::Draw(DrawAsk::PartSteps));
        }
        self.order.take_keys(&ctx, &self.desk, &mut self.asks);
        self.keys.take(&ctx, &self.desk, self.floor.focused, &mut self.asks);
        self.take_asks();
        if self.desk.question().is_some() && !self.asking {
            // A menu must not lie over what is asked.
            egui::Popup::close_all(&ctx);
        }
        self.asking = self.desk.question().is_some();
        let ink = self.desk.ink();
        // The window is cleared in the colour of its panels and the floor paints itself: each pixel once, since on a
        // machine without a GPU every layer over the whole window takes some ten milliseconds.
        let plain = Frame::new();
        let (desk, asks) = (&self.desk, &mut self.asks);
        Panel::top("top").exact_size(42.0).frame(plain.fill(theme::colour(ink.bar)).inner_margin(4)).show(
            ui,
            |ui| {
                top_bar::show(ui, desk, asks);
            },
        );
        news::show(ui, desk, asks);
        Panel::bottom("strip")
            .exact_size(BarStrip::height(desk, ui.ctx().content_rect().height()))
            .frame(plain)
            .show(ui, |ui| {
                self.strip.show(ui, desk, asks);
            });
        let side = plain.inner_margin(egui::Margin::symmetric(10, 0));
        let room = ctx.content_rect().size();
        // With large text the window holds less: then the left goes up and down as one, and the card goes there too.
        let (low, narrow) = (room.y < LOW, room.x < NARROW);
        Panel::left("order").default_size(232.0).size_range(150.0..=420.0).frame(side).show(ui, |ui| {
            if low || narrow {
                egui::ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                    set_row::show(ui, desk, asks);
                    self.order.show(ui, desk, true, asks);
                    self.shelf.show_flat(ui, desk, asks);
                    if narrow {
                        ui.separator();
                        differences::show(ui, desk, asks);
                        card::show_flat(ui, desk, asks);
                    }
                });
            } else {
                self.shelf.show(ui, desk, asks);
                set_row::show(ui, desk, asks);
                self.order.show(ui, desk, false, asks);
            }
        });
        if !narrow {
            Panel::right("card").default_size(290.0).size_range(220.0..=460.0).frame(side).show(ui, |ui| {
                differences::show(ui, desk, asks);
                card::show(ui, desk, asks);
            });
        }
        CentralPanel::default().frame(plain).show(ui, |ui| {
            self.floor_rect = self.floor.show(ui, desk, asks).rect;
            show_views(ui, desk, self.floor_rect, asks);
            first_minute::show(ui, desk, self.floor_rect, asks);
            draw_card::show_over_floor(ui, desk, self.floor_rect, asks);
            fault_list::show_mend(ui, desk, self.floor_rect, asks);
        });
        self.dialogs.show(ui, &self.desk, self.native_dialogs, &mut self.asks);
        let dropped = ctx.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        if let Some(path) = dropped {
            self.asks.push(Ask::File(FileAsk::Open(path)));
        }
        if ctx.input(|input| input.viewport().close_requested()) && !self.desk.may_close() {
            if self.desk.unsaved() {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            }
            self.asks.push(Ask::File(FileAsk::Close));
        }
        if self.desk.held().is_some() && !ctx.input(|input| input.pointer.any_down()) {
            // A handle that has gone from the floor cannot say that it was let go.
            self.asks.push(Ask::Draw(DrawAsk::EndDrag));
        }
        let changed = !self.asks.is_empty();
        self.take_asks();
        let before = Told::by(&self.desk);
        self.place.look(&ctx, &self.desk, &mut self.asks);
        self.asks.push(Ask::Keep(KeepAsk::CatchUp));
        self.take_asks();
        let changed = changed || before != Told::by(&self.desk);
        if self.desk.may_close() && !std::mem::replace(&mut self.closing, true) {
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
        let title = self.desk.window_title();
        if title != self.titled {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.titled = title;
        }
        // What was asked for shows in the next frame; apart from that and playing, nothing is painted again.
        if changed || self.desk.player().playing {
            ctx.request_repaint();
        }
    }

    fn play_on(&mut self, ctx: &egui::Context) {
        let now = ctx.input(|input| input.time);
        if let Some(before) = self.shown.replace(now).filter(|_| self.desk.player().playing) {
            // After a pause of the machine the dance goes on where it was, not where it would be.
            self.desk.apply(Ask::Play(PlayAsk::Advance((now - before).min(0.25))));
        }
    }

    fn take_asks(&mut self) {
        for ask in std::mem::take(&mut self.asks) {
            self.desk.apply(ask);
        }
    }
}

/// What the desk tells of itself that can change between frames.
#[derive(PartialEq)]
struct Told {
    question: (bool, u64),
    notice: Option<String>,
    line: Option<String>,
    looks_for_faults: bool,
    proposes: bool,
}

impl Told {
    fn by(desk: &Desk) -> Self {
        Self {
            question: (desk.question().is_some(), desk.question_revision()),
            notice: desk.notice().map(str::to_owned),
            line: desk.keep_line().map(str::to_owned),
            looks_for_faults: desk.looks_for_faults(),
            proposes: desk.proposed().is_some(),
        }
    }
}

/// The choice of view, at the foot of the floor.
fn show_views(ui: &mut Ui, desk: &Desk, rect: egui::Rect, asks: &mut Vec<Ask>) {
    let area = egui::Rect::from_min_max(
        egui::pos2(rect.left() + 14.0, rect.bottom() - 34.0),
        egui::pos2(rect.right() - 8.0, rect.bottom() - 6.0),
    );
    // Where the floor is moved or made larger dancers can lie under the row.
    let under = ui.painter().add(egui::Shape::Noop);
    let row = ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            // In a narrow floor the row says less, so that all of it can be reached.
            let narrow = rect.width() < 440.0;
            if narrow {
                ui.spacing_mut().button_padding.x = 5.0;
            } else {
                ui.weak("view");
            }
            let top = if narrow { "at top" } else { "music at top" };
            let own = desk
                .chosen()
                .map_or_else(|| "own facing".to_owned(), |index| format!("{}'s facing", index + 1));
            for (seen, name, hint) in [
                (Seen::FromBottom, top.to_owned(), "As you look up the set"),
                (Seen::FromTop, "at bottom".to_owned(), "As the musicians see it"),
                (Seen::OwnFacing, own, "As the chosen dancer faces"),
            ] {
                let button = egui::Button::selectable(desk.seen() == seen, name);
                if ui.add(button).on_hover_text(format!("{hint} (V)")).clicked() {
                    asks.push(Ask::View(ViewAsk::See(seen)));
                }
            }
            let button = egui::Button::selectable(desk.trails(), "paths");
            if ui.add(button).on_hover_text("Paths on or off (T)").clicked() {
                asks.push(Ask::View(ViewAsk::ToggleTrails));
            }
            let button = egui::Button::selectable(desk.beats() == Beats::Shown, "beats");
            if ui.add(button).on_hover_text("Where they are at the strong beats, on or off (B)").clicked() {
                asks.push(Ask::View(ViewAsk::ToggleBeats));
            }
            if (desk.zoom() - 1.0).abs() > 1e-3 || desk.pan() != [0.0, 0.0] {
                let button = egui::Button::new("fit").frame_when_inactive(false);
                if ui.add(button).on_hover_text("The whole floor again (F)").clicked() {
                    asks.push(Ask::View(ViewAsk::FitFloor));
                }
            }
        });
    });
    let fill = theme::colour(desk.ink().floor.faded(225));
    let ground = row.response.rect.expand2(egui::vec2(6.0, 2.0));
    ui.painter().set(under, egui::Shape::rect_filled(ground, 6.0, fill));
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn clear_color(&self, _visuals: &egui::Visuals) -> [f32; 4] {
        theme::colour(self.desk.ink().panel).to_normalized_gamma_f32()
    }
}

/// Whether there is a display for a window to open on.
#[must_use]
pub fn display_is_there() -> bool {
    if cfg!(all(unix, not(target_os = "macos"))) {
        ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
            .iter()
            .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
    } else {
        true
    }
}

/// Opens the window, on a file or on the sample dance, and ends when it is closed. A file that cannot be opened is
/// told of in the window, over the sample dance.
///
/// # Errors
/// One line, when no window can be opened.
pub fn open_window(file: Option<PathBuf>) -> Result<(), String> {
    let mut desk = Desk::with_sample(Recent::of_user()).at_home(Home::of_user());
    if let Some(path) = file {
        desk.apply(Ask::File(FileAsk::Open(path)));
    }
    let viewport = egui::ViewportBuilder::default()
        .with_title(desk.window_title())
        .with_app_id("bellpad")
        .with_drag_and_drop(true);
    let viewport = place::asked(viewport);
    let before = desk.settings().window;
    let options = eframe::NativeOptions {
        viewport,
        window_builder: Some(Box::new(move |builder| place::opened(builder, before))),
        ..eframe::NativeOptions::default()
    };
    let make: eframe::AppCreator = Box::new(|creation| {
        text_size::apply(&creation.egui_ctx, &desk);
        let ctx = creation.egui_ctx.clone();
        let desk = desk.waking(move || ctx.request_repaint());
        Ok(Box::new(Window::new(desk, true)))
    });
    let made = eframe::run_native("bellpad", options, make);
    made.map_err(|error| error.to_string())
}
