use super::{
    aloud::Aloud,
    dialogs, first_minute,
    floor::Floor,
    keys, news, pace, place,
    side::{Sides, draw_card, show_mend},
    strip::BarStrip,
    text_size, theme, top_bar,
    views::show_views,
    what_if,
};
use crate::desk::{Ask, Desk, DrawAsk, FileAsk, KeepAsk, Pasted, PhotoAsk, PlayAsk};
use crate::picture::{Ink, is_photograph_name};
use crate::sound::LivePlayer;
use egui::{CentralPanel, Frame, Panel, Ui, ViewportCommand};
use std::sync::Arc;
use std::time::Duration;

/// The whole window.
pub struct Window {
    /// What it shows.
    pub desk: Desk,
    /// The floor.
    pub floor: Floor,
    strip: BarStrip,
    sides: Sides,
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
    pace: pace::Pace,
    aloud: Aloud,
    dialogs: dialogs::Dialogs,
    /// Where the floor was last shown.
    pub floor_rect: egui::Rect,
}

/// A picture that was pasted.
fn pasted(ctx: &egui::Context) -> Option<Ask> {
    let image = ctx.input(|input| {
        input.events.iter().find_map(|event| match event {
            egui::Event::PasteImage(image) => Some(Arc::clone(image)),
            _ => None,
        })
    })?;
    let size = image.size.map(|side| side as u32);
    let rgba = image.pixels.iter().flat_map(egui::Color32::to_srgba_unmultiplied).collect();
    Some(Ask::Photo(PhotoAsk::Paste(Pasted { size, rgba: Arc::new(rgba) })))
}

impl Window {
    /// A window on a desk.
    #[must_use]
    pub fn new(desk: Desk, native_dialogs: bool) -> Self {
        Self {
            desk,
            floor: Floor::default(),
            strip: BarStrip::default(),
            sides: Sides::default(),
            keys: keys::Keys::default(),
            asks: Vec::new(),
            dressed: None,
            titled: String::new(),
            native_dialogs,
            closing: false,
            shown: None,
            asking: false,
            place: place::WindowPlace::default(),
            pace: pace::Pace::default(),
            aloud: Aloud::default(),
            dialogs: dialogs::Dialogs::default(),
            floor_rect: egui::Rect::NOTHING,
        }
    }

    /// The window, with what it plays heard.
    #[must_use]
    pub fn aloud(self, player: LivePlayer) -> Self {
        Self { aloud: Aloud::on(player), ..self }
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
        self.sides.order.take_keys(&ctx, &self.desk, self.floor.over_point, &mut self.asks);
        self.keys.take(&ctx, &self.desk, self.floor.focused, &mut self.asks);
        self.take_asks();
        if self.desk.question().is_some() && !self.asking {
            // A menu must not lie over what is asked.
            egui::Popup::close_all(&ctx);
            // Nor what was said of whatever the pointer rests on: it is nowhere until it moves.
            ctx.input_mut(|input| input.pointer = egui::PointerState::default());
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
            .exact_size(self.strip.height(desk, ui.ctx().content_rect().height()))
            .frame(plain)
            .show(ui, |ui| {
                self.strip.show(ui, desk, asks);
            });
        if let Some(line) = self.strip.renames.take() {
            self.sides.rename(desk, line, asks);
        }
        self.sides.show(ui, desk, asks);
        CentralPanel::default().frame(plain).show(ui, |ui| {
            self.floor_rect = self.floor.show(ui, desk, asks).rect;
            let hidden = self.floor.hides_someone(desk, self.floor_rect);
            let views = show_views(ui, desk, self.floor_rect, hidden, asks);
            first_minute::show(ui, desk, self.floor_rect, views, asks);
            draw_card::show_over_floor(ui, desk, self.floor_rect, asks);
            show_mend(ui, desk, self.floor_rect, asks);
            what_if::show(ui, desk, self.floor_rect, self.floor.would_meet(), asks);
        });
        self.dialogs.show(ui, &self.desk, self.native_dialogs, &mut self.asks);
        let dropped = ctx.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        if let Some(path) = dropped {
            let is_photograph = is_photograph_name(&path.to_string_lossy());
            self.asks.push(if is_photograph {
                Ask::Photo(PhotoAsk::Lay(path))
            } else {
                Ask::File(FileAsk::Open(path))
            });
        }
        if self.desk.question().is_none() {
            self.asks.extend(pasted(&ctx));
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
        if !self.desk.player().playing {
            self.pace.rest();
        }
        if changed {
            ctx.request_repaint();
        } else if self.desk.player().playing {
            ctx.request_repaint_after(self.pace.next());
        } else if self.desk.listening().is_some() {
            // Its end is looked for now and then.
            ctx.request_repaint_after(Duration::from_millis(100));
        }
    }

    fn play_on(&mut self, ctx: &egui::Context) {
        let (now, held) = ctx.input(|input| (input.time, input.pointer.any_down()));
        if self.aloud.follow(&mut self.desk, held) {
            // What is heard leads; a window that nobody hears goes by the time.
        } else if let Some(before) = self.shown.replace(now).filter(|_| self.desk.player().playing) {
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
    /// What to watch for here: whether it is being worked out, and whether it is known.
    watch: (bool, bool),
    /// The photographs, as they lie.
    photos: Vec<u64>,
}

impl Told {
    fn by(desk: &Desk) -> Self {
        Self {
            question: (desk.question().is_some(), desk.question_revision()),
            notice: desk.notice().map(str::to_owned),
            line: desk.keep_line().map(str::to_owned),
            looks_for_faults: desk.looks_for_faults(),
            proposes: desk.proposed().is_some(),
            photos: desk.photographs_here().iter().map(|photo| photo.number).collect(),
            watch: (desk.looks_for_watch(), desk.to_watch().is_some()),
        }
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn clear_color(&self, _visuals: &egui::Visuals) -> [f32; 4] {
        theme::colour(self.desk.ink().panel).to_normalized_gamma_f32()
    }
}
