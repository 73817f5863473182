//! The marks of a photograph, to drag on the picture itself, and where on the floor each belongs, to choose or to type.

use super::shape::foot;
use crate::dance::{Strength, Underlay, limits, shown_name};
use crate::desk::{Ask, Desk, PhotoAsk, ViewAsk};
use crate::window::context_menu::capital;
use crate::window::fields::{NumberField, NumberKind, go_to_wrong};
use crate::window::keys::was_moved;
use crate::window::theme::colour;
use egui::{
    Align2, Button, Color32, ColorImage, CursorIcon, FontId, Id, Pos2, Rect, RichText, Role, Sense, Stroke,
    TextureHandle, TextureOptions, Ui, WidgetInfo, pos2, vec2,
};
use image::imageops;

/// The most pixels of a side that are shown: no screen has more for it, and no card fewer.
const MOST_SIDE: u32 = 2048;
/// The room for the rows of marks beside the picture, points.
const ROWS: f32 = 366.0;

/// The dialog, with the picture as the screen has it.
#[derive(Default)]
pub struct PhotoDialog {
    texture: Option<TextureHandle>,
}

/// Shows it.
pub fn show(ui: &mut Ui, desk: &Desk, photo: usize, dialog: &mut PhotoDialog, asks: &mut Vec<Ask>) {
    let Some(own) = desk.dance().underlay.get(photo) else {
        // It has been undone.
        asks.push(Ask::View(ViewAsk::PutAway));
        return;
    };
    ui.heading(shown_name(own.name()));
    ui.weak(if own.locked {
        "It is set: its marks keep still. Set it free to move them."
    } else {
        "Drag each mark to something that you know the place of, such as a chalk cross, and say where on the floor that is."
    });
    ui.add_space(4.0);
    let whole = ui.available_rect_before_wrap();
    let whole = whole.intersect(ui.clip_rect());
    let rows = ROWS.min(whole.width() * 0.62);
    let (left, right) = whole.split_left_right_at_x(whole.right() - rows);
    show_picture(ui, desk, (photo, own), dialog, left.with_max_x(left.right() - 12.0), asks);
    let mut side = ui.new_child(egui::UiBuilder::new().max_rect(right));
    egui::ScrollArea::vertical().id_salt("marks").auto_shrink([false, false]).show(&mut side, |ui| {
        show_how_many(ui, (photo, own), asks);
        show_state(ui, desk, photo);
        ui.add_space(6.0);
        show_rows(ui, desk, (photo, own), asks);
        ui.add_space(6.0);
        show_choices(ui, desk, (photo, own), asks);
    });
    ui.allocate_rect(whole, Sense::hover());
    foot(ui, |ui| {
        let set = if own.locked { "Set it free" } else { "Set it" };
        let button = Button::new(RichText::new(set).strong()).min_size(vec2(96.0, 0.0));
        if ui.add(button).clicked() && !go_to_wrong(ui.ctx()) {
            asks.push(Ask::Photo(PhotoAsk::Lock(photo, !own.locked)));
            if !own.locked && desk.photograph_fit(photo).is_ok() {
                asks.push(Ask::View(ViewAsk::PutAway));
            }
        }
        if ui.button("Close").on_hover_text("Its marks have flags on the floor, to drag there").clicked()
            && !go_to_wrong(ui.ctx())
        {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
        if ui.button("Take it away").on_hover_text("From under the floor; its file stays").clicked() {
            asks.push(Ask::Photo(PhotoAsk::TakeAway(photo)));
        }
    });
}

fn show_picture(
    ui: &mut Ui,
    desk: &Desk,
    (photo, own): (usize, &Underlay),
    dialog: &mut PhotoDialog,
    room: Rect,
    asks: &mut Vec<Ask>,
) {
    let Some(known) = desk.photograph(photo) else {
        let said = desk.photograph_lost(photo).map_or("It is being read.".to_owned(), |why| {
            format!("{}. Lay it again from where it is now, and it keeps its marks.", capital(why))
        });
        ui.put(room, egui::Label::new(RichText::new(said).weak()).wrap());
        return;
    };
    let texture = dialog.texture.get_or_insert_with(|| {
        let (wide, high) = known.kept.dimensions();
        let share = (f64::from(MOST_SIDE) / f64::from(wide.max(high))).min(1.0);
        let part = |side: u32| ((f64::from(side) * share) as u32).max(1);
        let small = imageops::thumbnail(&known.kept, part(wide), part(high));
        let size = [small.width() as usize, small.height() as usize];
        let image = ColorImage::from_rgba_unmultiplied(size, small.as_raw());
        ui.ctx().load_texture("photograph", image, TextureOptions::LINEAR)
    });
    let [wide, high] = known.size.map(|side| side as f32);
    let scale = ((room.width() - 8.0) / wide).min((room.height() - 8.0) / high);
    let place = Rect::from_min_size(room.min + vec2(4.0, 4.0), vec2(wide, high) * scale);
    let uv = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    ui.painter().image(texture.id(), place, uv, Color32::WHITE);
    if let Some(ends) = desk.photograph_fit(photo).ok().and_then(|fit| fit.horizon(known.size.map(f64::from)))
    {
        let ends = ends.map(|[across, down]| place.min + vec2(across as f32, down as f32) * scale);
        for (width, ink) in [(4.0, Color32::from_black_alpha(200)), (1.5, ui.visuals().warn_fg_color)] {
            ui.painter().line_segment(ends, Stroke::new(width, ink));
        }
    }
    for (mark, known) in own.marks.iter().enumerate() {
        let at = place.min + vec2(known.across as f32, known.down as f32) * scale;
        show_mark(ui, desk, (photo, mark, at), (place, scale, own.locked), asks);
    }
}

fn show_mark(
    ui: &Ui,
    desk: &Desk,
    (photo, mark, at): (usize, usize, Pos2),
    (place, scale, locked): (Rect, f32, bool),
    asks: &mut Vec<Ask>,
) {
    let id = Id::unique(("mark on the picture", photo, mark));
    let sense = if locked { Sense::hover() } else { Sense::click_and_drag() };
    let response = ui.interact(Rect::from_center_size(at, vec2(26.0, 26.0)), id, sense);
    response.widget_info(|| {
        WidgetInfo::labeled(Role::Button, !locked, format!("Mark {} on the picture", mark + 1))
    });
    let from = id.with("from");
    if response.drag_started() {
        let pressed = ui.input(|input| input.pointer.press_origin()).unwrap_or(at);
        ui.data_mut(|data| data.insert_temp(from, at - pressed));
    }
    let mut to = None;
    if was_moved(&response)
        && let Some(pointer) = response.interact_pointer_pos()
    {
        let offset: egui::Vec2 = ui.data(|data| data.get_temp(from)).unwrap_or_default();
        to = Some(pointer + offset);
    }
    if response.has_focus() {
        let arrows =
            egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, arrows));
        for (key, step) in [
            (egui::Key::ArrowLeft, vec2(-1.0, 0.0)),
            (egui::Key::ArrowRight, vec2(1.0, 0.0)),
            (egui::Key::ArrowUp, vec2(0.0, -1.0)),
            (egui::Key::ArrowDown, vec2(0.0, 1.0)),
        ] {
            let fine = ui.input_mut(|input| input.consume_key(egui::Modifiers::SHIFT, key));
            let plain = ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, key));
            if fine || plain {
                // A point of the screen, or with Shift a pixel of the picture.
                to = Some(at + step * if fine { scale } else { 1.0_f32.max(scale) });
            }
        }
    }
    if let Some(to) = to.filter(|_| !locked) {
        let [across, down] = [(to.x - place.left()) / scale, (to.y - place.top()) / scale].map(f64::from);
        asks.push(Ask::Photo(PhotoAsk::MarkAt { photo, mark, across, down }));
    }
    let lit = response.hovered() || response.dragged() || response.has_focus();
    // Dark round light: seen on any picture.
    let painter = ui.painter();
    let (dark, light) = (Color32::from_black_alpha(200), colour(desk.ink().odd));
    for (width, ink) in [(if lit { 5.0 } else { 4.0 }, dark), (if lit { 2.5 } else { 1.8 }, light)] {
        let stroke = Stroke::new(width, ink);
        painter.circle_stroke(at, 9.0, stroke);
        for [x, y] in [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]] {
            painter.line_segment([at + vec2(x, y) * 3.0, at + vec2(x, y) * 13.0], stroke);
        }
    }
    let label = at + vec2(17.0, -13.0);
    painter.circle_filled(label, 9.0, Color32::from_black_alpha(210));
    let font = FontId::proportional(13.0);
    painter.text(label, Align2::CENTER_CENTER, (mark + 1).to_string(), font, Color32::WHITE);
    if !locked && !response.dragged() {
        response.on_hover_cursor(CursorIcon::Grab).on_hover_text(
            "Drag it to something whose place you know; arrows move it a little, with Shift a pixel",
        );
    }
}

/// How many marks there are to be: above their rows, so that no button moves as they come and go.
fn show_how_many(ui: &mut Ui, (photo, own): (usize, &Underlay), asks: &mut Vec<Ask>) {
    ui.horizontal_wrapped(|ui| {
        let many = own.marks.len();
        for (name, hint, to) in [
            ("Two marks", "For a sketch seen from above: scale and turn", 2),
            ("Four marks", "For a photograph taken from anywhere", 4),
            ("One more", "What is measured by more marks is as near to all of them as can be", many + 1),
            ("One fewer", "The last of them goes", many.saturating_sub(1)),
        ] {
            let enabled = !own.locked && to != many && (2..=limits::MOST_MARKS).contains(&to);
            if ui.add_enabled(enabled, Button::new(name)).on_hover_text(hint).clicked() {
                asks.push(Ask::Photo(PhotoAsk::Marks(photo, to)));
            }
        }
    });
    ui.add_space(6.0);
}

fn show_rows(ui: &mut Ui, desk: &Desk, (photo, own): (usize, &Underlay), asks: &mut Vec<Ask>) {
    let far = limits::FARTHEST;
    let kind = NumberKind { least: -far, most: far, places: 3, unit: "m" };
    let ground = desk.motion().ground();
    egui::Grid::new("marks").num_columns(4).spacing([8.0, 6.0]).show(ui, |ui| {
        ui.weak("Mark");
        ui.weak("Right");
        ui.weak("Up");
        ui.weak("Spot");
        ui.end_row();
        for (mark, known) in own.marks.iter().enumerate() {
            ui.label((mark + 1).to_string());
            let mut place = None;
            ui.add_enabled_ui(!own.locked, |ui| {
                let hint = format!("Mark {}: to the right of the middle of the set", mark + 1);
                let field = NumberField::new(known.x, kind, 0.01).hint(&hint).show(ui);
                place = field.changed.map(|x| [x, known.y]).or(place);
            });
            ui.add_enabled_ui(!own.locked, |ui| {
                let hint = format!("Mark {}: up from the middle of the set", mark + 1);
                let field = NumberField::new(known.y, kind, 0.01).hint(&hint).show(ui);
                place = field.changed.map(|y| [known.x, y]).or(place);
            });
            let here = ground
                .places()
                .zip(&ground.stands)
                .find(|(_, stand)| (stand.x - known.x).hypot(stand.y - known.y) < 0.002);
            let shown = here.map_or_else(|| "–".to_owned(), |(spot, _)| format!("of {spot}"));
            ui.add_enabled_ui(!own.locked, |ui| {
                let combo = egui::ComboBox::from_id_salt(("spot", mark)).width(64.0).selected_text(shown);
                let answer = combo.show_ui(ui, |ui| {
                    for (spot, stand) in ground.places().zip(&ground.stands).take(MOST_SPOTS) {
                        let is_here = here.is_some_and(|(known, _)| known == spot);
                        if ui.selectable_label(is_here, format!("the spot of {spot}")).clicked() {
                            place = Some([stand.x, stand.y]);
                        }
                    }
                });
                let name = format!("Spot of mark {}", mark + 1);
                answer.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &name));
                answer.response.on_hover_text("The spot that it lies on");
            });
            ui.end_row();
            if let Some([x, y]) = place {
                asks.push(Ask::Photo(PhotoAsk::PlaceAt { photo, mark, x, y, reach: 0.0 }));
            }
        }
    });
}

/// Sets of more have a list that does not go down for ever: metres can be typed.
const MOST_SPOTS: usize = 24;

/// What the marks come to, or why they come to nothing.
fn state_words(desk: &Desk, photo: usize) -> Result<String, String> {
    let own = desk.dance().underlay.get(photo);
    let (many, locked) = own.map_or((0, false), |own| (own.marks.len(), own.locked));
    let fit = desk.photograph_fit(photo).map_err(|why| format!("{}.", capital(&why.to_string())))?;
    let fresh = if locked { Vec::new() } else { desk.fresh_marks(photo) };
    let numbers: Vec<String> = fresh.iter().map(|mark| (mark + 1).to_string()).collect();
    let mut said = match numbers.as_slice() {
        all if !all.is_empty() && all.len() == many => {
            return Ok("Nothing is set yet: its marks are where they were put at first.".to_owned());
        }
        [] if many == 4 => "Four marks: it is true once each of them is on its own place.".to_owned(),
        [] if many == 2 => "Flat, by 2 marks: right for a sketch seen from above.".to_owned(),
        [] if many < 4 => format!(
            "Flat, by {many} marks, within {:.0} cm: right for a sketch seen from above.",
            fit.worst() * 100.0
        ),
        [] => format!("{many} marks agree within {:.1} cm.", fit.worst() * 100.0),
        [one] => format!("Not set yet: mark {one} is where it was put at first."),
        some => format!("Not set yet: marks {} are where they were put at first.", some.join(", ")),
    };
    if fit.unsure() >= 0.05 {
        let off = fit.unsure() * 100.0;
        said.push_str(&format!(
            " A mark a hair off moves the floor by some {off:.0} cm: set them farther apart."
        ));
    }
    let size = desk.photograph(photo).map(|known| known.size.map(f64::from));
    if size.and_then(|size| fit.horizon(size)).is_some() {
        said.push_str(" The line is the horizon that they make.");
    }
    Ok(said)
}

/// Whether it is true, or why not; three lines high whatever it says.
fn show_state(ui: &mut Ui, desk: &Desk, photo: usize) {
    let (said, ink) = match state_words(desk, photo) {
        Ok(said) => (said, ui.visuals().text_color()),
        Err(why) => (why, ui.visuals().warn_fg_color),
    };
    let height = 3.0 * ui.text_style_height(&egui::TextStyle::Body) + 4.0;
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let mut child = ui.new_child(egui::UiBuilder::new().max_rect(place));
    child.add(egui::Label::new(RichText::new(said).color(ink)).wrap());
}

fn show_choices(ui: &mut Ui, desk: &Desk, (photo, own): (usize, &Underlay), asks: &mut Vec<Ask>) {
    ui.horizontal(|ui| {
        for strength in Strength::ALL {
            let chosen = own.strength == strength;
            if ui.selectable_label(chosen, capital(strength.words())).clicked() && !chosen {
                asks.push(Ask::Photo(PhotoAsk::Strength(photo, strength)));
            }
        }
    });
    let mut alone = own.figure.is_some();
    let figure = own.figure.as_deref().and_then(|id| desk.dance().figure_index(id));
    let figure =
        figure.and_then(|index| desk.dance().figures.get(index)).map(|figure| shown_name(&figure.name));
    let words = figure
        .map_or("Under the figure at the playhead alone".to_owned(), |name| format!("Under {name} alone"));
    if ui.checkbox(&mut alone, words).on_hover_text("Otherwise it lies under the whole dance").changed() {
        asks.push(Ask::Photo(PhotoAsk::OneFigure(photo, alone)));
    }
    let mut inside = !own.inside.is_empty();
    let hint =
        "One file with the dance, where it is under 1 MB; otherwise the dance has the path of its file";
    if ui.checkbox(&mut inside, "Kept inside the dance").on_hover_text(hint).changed() {
        asks.push(Ask::Photo(PhotoAsk::KeepInside(photo, inside)));
    }
    ui.weak(RichText::new("It is never on a still or a handout.").small());
    // What could not be done is said here: the floor, which says it otherwise, lies under this.
    if let Some(said) = desk.notice() {
        ui.add_space(4.0);
        ui.weak(capital(said));
    }
}
