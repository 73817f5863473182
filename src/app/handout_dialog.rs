use super::{ask::Ask, desk::Desk};
use crate::handout::{
    Handout, Paper, PaperSize, SheetChoice, dancer_page, figure_sheet, handout_to_pdf, notebook, page_to_rgb,
    sheets,
};
use egui::{ColorImage, RichText, TextureHandle, Ui, vec2};

/// What is handed out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HandoutKind {
    /// The figure at the playhead.
    #[default]
    Figure,
    /// Every figure.
    Dance,
    /// The chosen dancer's own page.
    Dancer,
    /// A notebook of this dance.
    Notebook,
    /// A page that plays on a phone.
    PracticePage,
}

/// What was chosen for a handout, kept from one to the next.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HandoutChoice {
    /// What.
    pub kind: HandoutKind,
    /// The paper.
    pub paper: Paper,
    /// A diagram for each strong beat, not for each bar.
    pub beats: bool,
    /// The words under the diagrams.
    pub words: bool,
}

/// The dialog with its preview.
#[derive(Default)]
pub struct HandoutDialog {
    preview: Option<(HandoutChoice, TextureHandle)>,
    /// How many pages there are, or why there is nothing.
    said: String,
}

/// What was made: pages of paper, or a page for a phone.
pub enum Made {
    /// For paper.
    Pages(Handout),
    /// For a phone.
    Html(String),
}

impl Made {
    /// The bytes of its file.
    ///
    /// # Errors
    /// When the PDF cannot be written.
    pub fn bytes(&self) -> Result<Vec<u8>, String> {
        match self {
            Self::Pages(handout) => handout_to_pdf(handout).map_err(|error| error.to_string()),
            Self::Html(page) => Ok(page.clone().into_bytes()),
        }
    }
}

/// Makes a handout of the dance on the desk.
///
/// # Errors
/// When there is nothing to hand out.
pub fn make(desk: &Desk, choice: HandoutChoice) -> Result<Made, String> {
    let (dance, motion) = (desk.dance(), desk.motion());
    let span = desk.span().ok_or("The dance has no figures to hand out yet.")?;
    let every = if choice.beats { 2.0 } else { 4.0 };
    let sheet = SheetChoice { paper: choice.paper, every, words: choice.words };
    Ok(match choice.kind {
        HandoutKind::Figure => Made::Pages(figure_sheet(dance, motion, span, &sheet)),
        HandoutKind::Dance => Made::Pages(sheets(dance, motion, &sheet, &mut |_, _| {})),
        HandoutKind::Dancer => {
            let dancer = desk.chosen.ok_or("Choose a dancer first, for a page of their own.")?;
            Made::Pages(dancer_page(dance, motion, None, dancer, &sheet))
        }
        HandoutKind::Notebook => {
            let all = [(dance.clone(), motion.as_ref().clone())];
            Made::Pages(notebook(&all, &SheetChoice { words: true, ..sheet }, &mut |_, _| {}))
        }
        HandoutKind::PracticePage => {
            Made::Html(crate::handout::page::page(dance, motion).map_err(|error| error.to_string())?)
        }
    })
}

/// Shows the dialog over the window.
pub fn show_alone(ui: &Ui, desk: &Desk, dialog: &mut HandoutDialog, asks: &mut Vec<Ask>) {
    let frame = egui::Frame::popup(ui.style()).inner_margin(18).corner_radius(10);
    let modal = egui::Modal::new(egui::Id::unique("handout")).frame(frame).show(ui.ctx(), |ui| {
        ui.set_width(560.0);
        let height = (ui.ctx().content_rect().height() - 56.0).max(120.0);
        egui::ScrollArea::vertical().min_scrolled_height(height).max_height(height).show(ui, |ui| {
            show(ui, desk, dialog, asks);
        });
    });
    if modal.should_close() {
        asks.push(Ask::PutAway);
    }
}

/// Shows what there is to choose, and the first page as it will be.
fn show(ui: &mut Ui, desk: &Desk, dialog: &mut HandoutDialog, asks: &mut Vec<Ask>) {
    let before = desk.handout;
    let mut choice = before;
    ui.heading("Handout");
    ui.add_space(6.0);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(220.0);
            let own = desk.chosen.map_or_else(
                || "A dancer's own page".to_owned(),
                |dancer| format!("{}'s own page", dancer + 1),
            );
            let figure = desk
                .span()
                .and_then(|index| desk.motion().spans().get(index))
                .and_then(|span| desk.dance().figures.get(span.figure))
                .map_or_else(|| "This figure".to_owned(), |figure| format!("{}, a sheet", figure.name));
            for (kind, name) in [
                (HandoutKind::Figure, figure.as_str()),
                (HandoutKind::Dance, "Every figure, sheets"),
                (HandoutKind::Dancer, own.as_str()),
                (HandoutKind::Notebook, "The notebook of this dance"),
                (HandoutKind::PracticePage, "Practice page for a phone"),
            ] {
                ui.radio_value(&mut choice.kind, kind, name);
            }
            ui.add_space(8.0);
            if choice.kind == HandoutKind::PracticePage {
                ui.label("One file that plays the dance on a phone, with no network: choose your number, slow it down, loop.");
            } else {
                ui.horizontal(|ui| {
                    ui.selectable_value(&mut choice.paper.size, PaperSize::A4, "A4");
                    ui.selectable_value(&mut choice.paper.size, PaperSize::Letter, "Letter");
                });
                ui.checkbox(&mut choice.paper.landscape, "on its long side");
                ui.checkbox(&mut choice.beats, "a diagram each strong beat");
                if matches!(choice.kind, HandoutKind::Figure | HandoutKind::Dance) {
                    ui.checkbox(&mut choice.words, "words for each number");
                }
            }
            ui.add_space(8.0);
            ui.weak(&dialog.said);
        });
        show_preview(ui, desk, dialog, choice);
    });
    if choice != before {
        asks.push(Ask::ChooseHandout(choice));
    }
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if ui.button(RichText::new("Save…").strong()).clicked() {
            asks.push(Ask::AskHandoutPath);
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::PutAway);
        }
    });
}

/// The first page, small; worked out again when something is chosen.
fn show_preview(ui: &mut Ui, desk: &Desk, dialog: &mut HandoutDialog, choice: HandoutChoice) {
    if dialog.preview.as_ref().is_none_or(|(known, _)| *known != choice) {
        let made = make(desk, choice);
        let (said, picture) = match &made {
            Ok(Made::Pages(handout)) => {
                let many = handout.pages.len();
                let pages = if many == 1 { "1 page".to_owned() } else { format!("{many} pages") };
                (format!("{pages}, as PDF"), handout.pages.first().and_then(picture_of))
            }
            Ok(Made::Html(page)) => (format!("{} KB, as HTML", page.len().div_ceil(1024)), None),
            Err(said) => (said.clone(), None),
        };
        dialog.said = said;
        let picture = picture.unwrap_or_else(|| ColorImage::filled([1, 1], egui::Color32::TRANSPARENT));
        let texture = ui.ctx().load_texture("handout", picture, egui::TextureOptions::LINEAR);
        dialog.preview = Some((choice, texture));
    }
    if let Some((_, texture)) = &dialog.preview {
        let size = texture.size_vec2();
        if size.x > 1.0 {
            let scale = (300.0 / size.x).min(380.0 / size.y);
            ui.add(egui::Image::new((texture.id(), size * scale)).alt_text("The first page"));
        } else {
            ui.allocate_space(vec2(10.0, 10.0));
        }
    }
}

/// A page as a picture for the screen.
fn picture_of(page: &crate::handout::Page) -> Option<ColorImage> {
    let [across, down] = page.paper.points();
    let size = (across as u32, down as u32);
    let rgb = page_to_rgb(page, size).ok()?;
    Some(ColorImage::from_rgb([size.0 as usize, size.1 as usize], &rgb))
}
