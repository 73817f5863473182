use super::{
    shape::{foot, row},
    waking::waking,
};
use crate::desk::{Ask, Desk, FileAsk, StillOf, ViewAsk, Work};
use crate::picture::{STILL_SIZES, StillLook, Theme, to_rgb};
use crate::window::fields::{NumberField, NumberKind};
use egui::{ColorImage, RichText, Sense, TextureHandle, TextureOptions, Ui, vec2};

/// How large the preview is, points along each side, whatever the size of the still.
const PREVIEW: f32 = 310.0;

/// Sizes that stills often have, pixels along each side, and what for.
const OFTEN_CHOSEN: [(u32, &str); 3] = [(600, "For a chat"), (1200, "For a screen"), (2400, "To print")];

/// The dialog with its preview.
#[derive(Default)]
pub struct StillDialog {
    /// What the preview is of.
    of: Option<(StillOf, StillLook)>,
    work: Option<Work<ColorImage>>,
    texture: Option<TextureHandle>,
    /// Why there is no preview.
    wrong: String,
    /// Whether a button has been given the focus.
    focused: bool,
}

/// Shows what there is to choose about a still, and the still as it will be.
pub fn show(ui: &mut Ui, desk: &Desk, dialog: &mut StillDialog, asks: &mut Vec<Ask>) {
    let before = desk.still_look();
    let mut look = before;
    ui.heading("Still");
    ui.add_space(6.0);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(240.0);
            show_choices(ui, &mut look);
            ui.add_space(8.0);
            ui.weak("A picture of this moment, as pixels (.png) or outlines (.svg): the ending of its name says which.");
            ui.weak(&dialog.wrong);
        });
        show_preview(ui, desk.still_made_of(), look, dialog);
    });
    if look != before {
        asks.push(Ask::File(FileAsk::ChooseStill(look)));
    }
    foot(ui, |ui| {
        let save = ui.button(RichText::new("Save…").strong());
        if !std::mem::replace(&mut dialog.focused, true) {
            save.request_focus();
        }
        if save.clicked() {
            asks.push(Ask::File(FileAsk::AskStillPath));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}

fn show_choices(ui: &mut Ui, look: &mut StillLook) {
    row(ui, |ui| choose_theme(ui, &mut look.theme));
    ui.checkbox(&mut look.trails, "paths").on_hover_text("Everyone's way through the figure");
    ui.add_space(8.0);
    row(ui, |ui| {
        ui.weak("size");
        for (size, hint) in OFTEN_CHOSEN {
            ui.selectable_value(&mut look.size, size, size.to_string())
                .on_hover_text(format!("{hint}: {size} by {size} pixels"));
        }
    });
    row(ui, |ui| {
        ui.weak("or");
        let kind = NumberKind {
            least: f64::from(STILL_SIZES[0]),
            most: f64::from(STILL_SIZES[1]),
            places: 0,
            unit: "px",
        };
        let field = NumberField::new(f64::from(look.size), kind, 10.0).hint("Pixels along each side");
        if let Some(size) = field.show(ui).changed {
            look.size = size as u32;
        }
    });
}

/// The colours of a picture, to choose.
pub(super) fn choose_theme(ui: &mut Ui, chosen: &mut Theme) {
    ui.weak("colours");
    for theme in Theme::ALL {
        ui.selectable_value(chosen, theme, theme.word()).on_hover_text(theme.words());
    }
}

/// The still, small; made anew beside the window when something is chosen.
fn show_preview(ui: &mut Ui, of: StillOf, look: StillLook, dialog: &mut StillDialog) {
    let known = dialog.of.as_ref();
    // A larger still looks the same.
    let is_same = |(known, of_look): &(StillOf, StillLook)| {
        known.is_same(&of) && (of_look.trails, of_look.theme) == (look.trails, look.theme)
    };
    if !known.is_some_and(is_same) {
        let side = (PREVIEW * ui.ctx().pixels_per_point()).round() as u32;
        let made = of.clone();
        dialog.work = Some(Work::begin("preview", &waking(ui.ctx()), move |_| {
            let picture = made.picture(StillLook { size: side, ..look });
            let rgb = to_rgb(&picture).map_err(|error| error.to_string())?;
            Ok(ColorImage::from_rgb([side as usize; 2], &rgb))
        }));
        dialog.of = Some((of, look));
    }
    if let Some(answer) = dialog.work.as_ref().and_then(Work::answer) {
        dialog.work = None;
        match answer {
            Ok(picture) => {
                dialog.texture = Some(ui.ctx().load_texture("still", picture, TextureOptions::LINEAR));
            }
            Err(said) => dialog.wrong = said,
        }
    }
    let size = vec2(PREVIEW, PREVIEW);
    // What is shown while the next one is made is still the one before.
    match dialog.texture.as_ref().filter(|_| dialog.wrong.is_empty()) {
        Some(texture) => {
            let ready = if dialog.work.is_none() { "" } else { ", being drawn anew" };
            let paths = if look.trails { "with paths" } else { "without paths" };
            let said = format!("The still, {}, {paths}{ready}", look.theme.words());
            ui.add(egui::Image::new((texture.id(), size)).alt_text(said));
        }
        None => {
            ui.allocate_exact_size(size, Sense::hover());
        }
    }
}
