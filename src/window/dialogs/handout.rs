use super::shape::{foot, row};
use super::still::choose_theme;
use super::waking::waking;
use crate::dance::{Dance, Dancer};
use crate::desk::{Ask, Desk, FileAsk, HandoutOf, ViewAsk, Work};
use crate::figures::motion_of_figure;
use crate::handout::moving::{MovingKind, RATES, SeenFrom, moving_picture};
use crate::handout::{
    HandoutChoice, HandoutKind, Made, OnProgress, PaperFile, PaperSize, moving_choice, page_to_rgb,
};
use crate::motion::{Clock, Motion};
use crate::picture::to_rgb;
use crate::window::share::show_share;
use egui::{Checkbox, ColorImage, Context, RichText, TextureHandle, TextureOptions, Ui, vec2};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// The most points across and down that a preview takes.
const PREVIEW: [f32; 2] = [300.0, 380.0];
/// Pixels along each side of the preview of a moving picture.
const MOVING: u32 = 300;

/// The dialog with its preview.
#[derive(Default)]
pub struct HandoutDialog {
    /// What the preview is of.
    of: Option<HandoutChoice>,
    work: Option<Work<Preview>>,
    texture: Option<TextureHandle>,
    moves: Option<Moves>,
    /// How many pages there are, or why there is nothing.
    said: String,
}

/// What is shown of a handout before it is written.
struct Preview {
    said: String,
    picture: Option<ColorImage>,
}

/// A figure that moves in the preview.
struct Moves {
    dance: Arc<Dance>,
    motion: Motion,
    clock: Clock,
    figure: usize,
    dancer: Option<Dancer>,
    begun: Instant,
    texture: TextureHandle,
}

/// Shows what there is to choose, and the handout as it will be.
pub fn show(ui: &mut Ui, desk: &Desk, dialog: &mut HandoutDialog, asks: &mut Vec<Ask>) {
    let before = desk.handout();
    let mut choice = before;
    ui.heading("Handout");
    ui.add_space(6.0);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(230.0);
            show_kinds(ui, desk, &mut choice);
            ui.add_space(8.0);
            match choice.kind {
                HandoutKind::PracticePage => {
                    show_told(ui, &mut choice);
                    ui.label("One file that plays the dance on a phone, with no network: choose your number, slow it down, loop.");
                }
                HandoutKind::Moving => show_moving(ui, desk.chosen(), &mut choice),
                _ => show_paper(ui, &mut choice),
            }
            ui.add_space(8.0);
            match &dialog.work {
                Some(work) if work.is_long() => show_share(ui, work.share(), "How far the preview is"),
                _ => {
                    ui.weak(&dialog.said);
                }
            }
        });
        show_preview(ui, desk, dialog, choice);
    });
    if choice != before {
        asks.push(Ask::File(FileAsk::ChooseHandout(choice)));
    }
    foot(ui, |ui| {
        if ui.button(RichText::new("Save…").strong()).clicked() {
            asks.push(Ask::File(FileAsk::AskHandoutPath));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}

fn show_kinds(ui: &mut Ui, desk: &Desk, choice: &mut HandoutChoice) {
    let own = desk
        .chosen()
        .map_or_else(|| "A dancer's own page".to_owned(), |dancer| format!("{dancer}'s own page"));
    let figure = figure_at(desk)
        .and_then(|figure| desk.dance().figures.get(figure))
        .map_or("This figure", |figure| figure.name.as_str());
    let pocket = desk
        .chosen()
        .map_or_else(|| "A dancer's pocket page".to_owned(), |dancer| format!("{dancer}'s pocket page"));
    for (kind, name, hint) in [
        (HandoutKind::Figure, format!("{figure}, a sheet"), "The figure in diagrams, bar by bar"),
        (HandoutKind::Dance, "Every figure, sheets".to_owned(), "The same of every figure, each once"),
        (
            HandoutKind::Whole,
            "The whole dance on one sheet".to_owned(),
            "Running order with strains and calls, each figure in a line and a small diagram, the tune, the stepping",
        ),
        (HandoutKind::Dancer, own, "That dancer's own way and words, figure by figure"),
        (
            HandoutKind::Pocket,
            pocket,
            "That dancer's part, a clause a bar, on one side of a sheet: fold it twice for the pocket",
        ),
        (
            HandoutKind::Stepping,
            "The stepping, at eye level".to_owned(),
            "Each step that the dance uses, count by count",
        ),
        (
            HandoutKind::Tapping,
            "The tapping, as a table of beats".to_owned(),
            "What meets on which beat, figure by figure",
        ),
        (
            HandoutKind::Notebook,
            "The notebook of this dance".to_owned(),
            "All of it in one PDF: running order, tune, sheets and words, stepping, tapping",
        ),
        (
            HandoutKind::PracticePage,
            "Practice page for a phone".to_owned(),
            "One file that plays the dance on a phone, with no network",
        ),
        (HandoutKind::Moving, format!("{figure}, moving"), "The figure as a moving picture, for a chat"),
    ] {
        ui.radio_value(&mut choice.kind, kind, name).on_hover_text(hint);
    }
}

/// What there is to choose about paper.
fn show_paper(ui: &mut Ui, choice: &mut HandoutChoice) {
    // What every kind has comes first, so that it keeps its place.
    show_told(ui, choice);
    row(ui, |ui| {
        ui.selectable_value(&mut choice.paper.size, PaperSize::A4, "A4");
        ui.selectable_value(&mut choice.paper.size, PaperSize::Letter, "Letter");
        ui.checkbox(&mut choice.paper.landscape, "landscape").on_hover_text("The paper on its long side");
    });
    show_files(ui, choice);
    if matches!(choice.kind, HandoutKind::Figure | HandoutKind::Dance | HandoutKind::Notebook) {
        ui.checkbox(&mut choice.beats, "a diagram each strong beat");
    }
    if matches!(choice.kind, HandoutKind::Figure | HandoutKind::Dance) {
        ui.checkbox(&mut choice.words, "words for each number");
    }
    if choice.kind == HandoutKind::Notebook {
        ui.checkbox(&mut choice.abc, "tunes as ABC text too");
    }
}

/// Whether people are named, and whether it is told what to watch for, which not every kind has room for.
fn show_told(ui: &mut Ui, choice: &mut HandoutChoice) {
    ui.checkbox(&mut choice.no_names, "without names").on_hover_text(
        "Neither who dances which number nor who wrote the dance down, for a handout that goes round",
    );
    let tells = matches!(
        choice.kind,
        HandoutKind::Figure
            | HandoutKind::Dance
            | HandoutKind::Dancer
            | HandoutKind::Notebook
            | HandoutKind::PracticePage
    );
    let mut no = false;
    let chosen = if tells { &mut choice.watch } else { &mut no };
    ui.add_enabled(tells, Checkbox::new(chosen, "what to watch for"))
        .on_hover_text("Where each figure goes wrong first, in at most three sentences")
        .on_disabled_hover_text(
            "Sheets of figures, a dancer's own page, the notebook and the practice page have it",
        );
}

/// As what pages are written.
fn show_files(ui: &mut Ui, choice: &mut HandoutChoice) {
    let one_file = choice.kind == HandoutKind::Notebook;
    row(ui, |ui| {
        ui.weak("as");
        for (file, name, hint) in [
            (PaperFile::Pdf, "PDF", "All pages in one file, to print or to send"),
            (PaperFile::Png, "PNG", "A picture of each page, for a screen"),
            (PaperFile::Svg, "SVG", "Outlines of each page, to draw on with another program"),
        ] {
            let is_now = file == if one_file { PaperFile::Pdf } else { choice.file };
            let button = ui.add_enabled(!one_file || is_now, egui::Button::selectable(is_now, name));
            let button = button.on_hover_text(hint).on_disabled_hover_text("The notebook is one PDF");
            if button.clicked() && !one_file {
                choice.file = file;
            }
        }
    });
}

/// What there is to choose about a moving picture; at eye level it is of the chosen dancer, or of everyone side by side.
fn show_moving(ui: &mut Ui, chosen: Option<Dancer>, choice: &mut HandoutChoice) {
    row(ui, |ui| {
        ui.weak("seen");
        for seen in SeenFrom::ALL {
            let hint = match (seen.eye(), chosen) {
                (None, _) => "The floor, from above".to_owned(),
                (Some(side), Some(dancer)) => format!("{dancer} at eye level, {}", side.words()),
                (Some(side), None) => {
                    format!(
                        "Everyone at eye level, side by side, {}; for one, choose a dancer first",
                        side.words()
                    )
                }
            };
            ui.selectable_value(&mut choice.seen, seen, seen.word()).on_hover_text(hint);
        }
    });
    row(ui, |ui| {
        ui.weak("speed");
        for speed in [50, 70, 100] {
            ui.selectable_value(&mut choice.speed, speed, format!("{speed} %"));
        }
    });
    row(ui, |ui| {
        ui.weak("size");
        for (size, name) in [(240, "small"), (360, "middling"), (540, "large")] {
            ui.selectable_value(&mut choice.size, size, name)
                .on_hover_text(format!("{size} by {size} pixels"));
        }
    });
    row(ui, |ui| choose_theme(ui, &mut choice.theme));
    row(ui, |ui| {
        ui.weak("as");
        ui.selectable_value(&mut choice.moving, MovingKind::Gif, "GIF")
            .on_hover_text("Plays in every chat group");
        ui.selectable_value(&mut choice.moving, MovingKind::Png, "animated PNG")
            .on_hover_text("Finer, but some programs show only its first picture");
    });
}

/// The first page, small, or the figure as it moves; made anew when something is chosen.
fn show_preview(ui: &mut Ui, desk: &Desk, dialog: &mut HandoutDialog, choice: HandoutChoice) {
    if dialog.of != Some(choice) {
        dialog.of = Some(choice);
        dialog.said.clear();
        let of = desk.handout_of();
        dialog.moves = (choice.kind == HandoutKind::Moving).then(|| Moves::new(ui.ctx(), desk)).flatten();
        let pixels = ui.ctx().pixels_per_point();
        dialog.work = Some(Work::begin("preview", &waking(ui.ctx()), move |progress| {
            preview(&of, choice, pixels, progress)
        }));
    }
    if let Some(answer) = dialog.work.as_ref().and_then(Work::answer) {
        dialog.work = None;
        let preview = answer.unwrap_or_else(|said| Preview { said, picture: None });
        dialog.said = preview.said;
        dialog.texture =
            preview.picture.map(|picture| ui.ctx().load_texture("handout", picture, TextureOptions::LINEAR));
    }
    if let Some(moves) = &mut dialog.moves {
        moves.show(ui, choice);
        return;
    }
    match &dialog.texture {
        Some(texture) => {
            let size = texture.size_vec2();
            let scale = (PREVIEW[0] / size.x).min(PREVIEW[1] / size.y);
            ui.add(egui::Image::new((texture.id(), size * scale)).alt_text("The first page"));
        }
        None => {
            ui.allocate_space(vec2(10.0, 10.0));
        }
    }
}

/// Makes the handout, and of it what is shown, for a screen of so many pixels to the point.
fn preview(
    of: &HandoutOf,
    choice: HandoutChoice,
    pixels: f32,
    progress: OnProgress,
) -> Result<Preview, String> {
    let made = of.make(choice, progress).map_err(|error| error.to_string())?;
    let ending = choice.endings().first().copied().unwrap_or_default().to_uppercase();
    Ok(match &made {
        Made::Pages(handout, file) => {
            let many = handout.pages.len();
            let pages = if many == 1 { "1 page".to_owned() } else { format!("{many} pages") };
            let each = if many > 1 && *file != PaperFile::Pdf { ", a file each" } else { "" };
            let picture = handout.pages.first().and_then(|page| {
                let [across, down] = page.paper.points();
                let scale = (PREVIEW[0] / across).min(PREVIEW[1] / down) * pixels;
                let size = ((across * scale).round() as u32, (down * scale).round() as u32);
                let rgb = page_to_rgb(page, size).ok()?;
                Some(ColorImage::from_rgb([size.0 as usize, size.1 as usize], &rgb))
            });
            Preview { said: format!("{pages}, as {ending}{each}"), picture }
        }
        Made::File(bytes) => {
            Preview { said: format!("{} KB, as {ending}", bytes.len().div_ceil(1024)), picture: None }
        }
    })
}

/// The figure at the playhead.
fn figure_at(desk: &Desk) -> Option<usize> {
    desk.span_here().map(|span| span.figure)
}

impl Moves {
    fn new(ctx: &Context, desk: &Desk) -> Option<Self> {
        let figure = figure_at(desk)?;
        let motion = motion_of_figure(desk.dance(), figure).ok()?;
        let blank = ColorImage::filled([1, 1], egui::Color32::TRANSPARENT);
        let texture = ctx.load_texture("moving handout", blank, TextureOptions::LINEAR);
        let dance = desk.dance_to_keep();
        let clock = Clock::of_dance(&dance, &motion);
        Some(Self { dance, motion, clock, figure, dancer: desk.chosen(), begun: Instant::now(), texture })
    }

    /// Shows where it is now.
    fn show(&mut self, ui: &mut Ui, choice: HandoutChoice) {
        let clock = &self.clock;
        let speed = f64::from(choice.speed) / 100.0;
        let whole = clock.seconds(self.motion.counts()) / speed + 0.8;
        let now = self.begun.elapsed().as_secs_f64() % whole.max(0.1);
        let count = clock.counts(now * speed).min(self.motion.counts());
        let moving =
            moving_choice(&self.dance, (self.figure, self.dancer), HandoutChoice { size: MOVING, ..choice });
        if let Ok(rgb) = to_rgb(&moving_picture(&self.dance, &self.motion, count, &moving)) {
            let side = MOVING as usize;
            self.texture.set(ColorImage::from_rgb([side, side], &rgb), TextureOptions::LINEAR);
        }
        let side = PREVIEW[0];
        let seen =
            choice.seen.eye().map_or_else(String::new, |side| format!(", at eye level, {}", side.words()));
        let image = egui::Image::new((self.texture.id(), vec2(side, side)));
        ui.add(image.alt_text(format!("The figure as it moves{seen}")));
        ui.ctx().request_repaint_after(Duration::from_secs_f64(
            1.0 / f64::from(moving.rate.clamp(RATES[0], RATES[1])),
        ));
    }
}
