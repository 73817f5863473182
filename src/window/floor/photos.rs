//! The photographs under the floor, and the marks of those that are not set, to drag to where they belong.

use super::{Floor, picks::REACH};
use crate::dance::Strength;
use crate::desk::{Ask, Desk, PhotoAsk};
use crate::picture::{Anchor, Flat, Frame, Mark, Stroke};
use crate::window::{
    context_menu::show_menu,
    explain::explain_aside,
    keys::{goes_free, was_moved},
    photo_menu,
};
use egui::{
    Color32, ColorImage, CursorIcon, Id, Key, Mesh, Modifiers, Painter, PointerButton, Pos2, Rect, Role,
    Sense, Shape, TextureHandle, TextureOptions, Ui, WidgetInfo, vec2,
};
use std::collections::BTreeMap;

/// How far from its place the flag of a mark stands, points across and down: beside whoever stands there.
const FLAG: f32 = 21.0;

/// Which way the flags of a photograph stand, right and down: another way for each of four, whose marks may be on one place.
fn flag_way(photo: usize) -> egui::Vec2 {
    match photo % 4 {
        0 => vec2(1.0, -1.0),
        1 => vec2(-1.0, -1.0),
        2 => vec2(1.0, 1.0),
        _ => vec2(-1.0, 1.0),
    }
}
/// How large the flag is, points from its middle.
const FLAG_RADIUS: f32 = 10.0;

/// The photographs as the screen has them: by their place among those of the dance, each with the number of what it shows.
pub type PhotoTextures = BTreeMap<usize, (u64, TextureHandle)>;

impl Floor {
    /// Paints the photographs that lie under the floor here.
    pub(super) fn show_photos(&mut self, painter: &Painter, desk: &Desk, frame: &Frame) {
        let here = desk.photographs_here();
        self.photos.retain(|index, _| here.iter().any(|photo| photo.index == *index));
        for under in here {
            let cover = match under.photo.strength {
                Strength::Faint => 0.4,
                Strength::Stronger => 0.85,
                Strength::Hidden => continue,
            };
            let Some(flat) = under.flat else { continue };
            let known = self.photos.get(&under.index).filter(|(number, _)| *number == under.number);
            let texture = match known {
                Some((_, texture)) => texture.clone(),
                None => {
                    let texture = load(painter, flat);
                    self.photos.insert(under.index, (under.number, texture.clone()));
                    texture
                }
            };
            let tint = Color32::WHITE.gamma_multiply(cover);
            let mut mesh = Mesh::with_texture(texture.id());
            let [x0, y0, x1, y1] = flat.bounds;
            for ([x, y], uv) in [
                ([x0, y1], [0.0, 0.0]),
                ([x1, y1], [1.0, 0.0]),
                ([x1, y0], [1.0, 1.0]),
                ([x0, y0], [0.0, 1.0]),
            ] {
                let at = Pos2::from(frame.to_picture(x, y));
                mesh.vertices.push(egui::epaint::Vertex { pos: at, uv: uv.into(), color: tint });
            }
            mesh.add_triangle(0, 1, 2);
            mesh.add_triangle(0, 2, 3);
            painter.add(Shape::mesh(mesh));
        }
    }

    /// The marks of those that are not set: each with a flag to drag it by.
    pub(super) fn show_photo_marks(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        if desk.player().playing {
            return;
        }
        for under in desk.photographs_here() {
            if under.photo.locked || under.photo.strength == Strength::Hidden {
                continue;
            }
            for (mark, own) in under.photo.marks.iter().enumerate() {
                self.show_photo_mark(ui, desk, frame, (under.index, mark, [own.x, own.y]), asks);
            }
        }
    }

    fn show_photo_mark(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        frame: &Frame,
        (photo, mark, [x, y]): (usize, usize, [f64; 2]),
        asks: &mut Vec<Ask>,
    ) {
        let place: Pos2 = frame.to_picture(x, y).into();
        let way = flag_way(photo);
        let flag = place + way * FLAG;
        let size = vec2(2.0 * FLAG_RADIUS, 2.0 * FLAG_RADIUS);
        let response = ui.interact(
            Rect::from_center_size(flag, size),
            Id::unique(("photo mark", photo, mark)),
            Sense::click_and_drag(),
        );
        let name = desk.dance().underlay.get(photo).map_or("", |own| own.name());
        response.widget_info(|| {
            WidgetInfo::labeled(Role::Button, true, format!("Mark {} of {name} on the floor", mark + 1))
        });
        if response.drag_started_by(PointerButton::Primary)
            && let Some(from) = ui.input(|input| input.pointer.press_origin())
        {
            let (held_x, held_y) = frame.to_floor(from.into());
            self.offset = (x - held_x, y - held_y);
        }
        if was_moved(&response)
            && let Some(pointer) = response.interact_pointer_pos()
        {
            let (right, up) = frame.to_floor(pointer.into());
            let reach = if goes_free(ui) { 0.0 } else { REACH / frame.scale };
            let (x, y) = (right + self.offset.0, up + self.offset.1);
            asks.push(Ask::Photo(PhotoAsk::PlaceAt { photo, mark, x, y, reach }));
        }
        let open = show_menu(&response, |ui, _| photo_menu::show_one(ui, desk, photo, asks));
        if response.has_focus() && !open {
            nudge(ui, &response, frame, (photo, mark, place), asks);
        }
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let ink = desk.ink();
        let line = Stroke { colour: ink.odd, width: if lit { 2.4 } else { 1.6 } };
        let ring = |at: Pos2, radius: f32, fill| Mark::Oval {
            at: at.into(),
            radii: [radius, radius],
            turn: 0.0,
            fill,
            stroke: Some(line),
        };
        let arm = 7.0;
        for ends in [
            [[place.x - arm, place.y], [place.x + arm, place.y]],
            [[place.x, place.y - arm], [place.x, place.y + arm]],
        ] {
            self.marks.push(Mark::Line { points: ends.to_vec(), stroke: line, dash: None });
        }
        self.marks.push(ring(place, 4.0, None));
        let stem = vec![(place + way * 3.0).into(), (flag - way * 7.0).into()];
        self.marks.push(Mark::Line { points: stem, stroke: line, dash: None });
        self.marks.push(ring(flag, FLAG_RADIUS, Some(ink.floor)));
        self.marks.push(Mark::Words {
            at: [flag.x, flag.y],
            size: 12.0,
            anchor: Anchor::Middle,
            text: (mark + 1).to_string(),
            colour: ink.words,
            heavy: true,
        });
        if !response.dragged() && !open {
            let said = format!(
                "Mark {} of {name}: drag it to where it belongs on the floor; arrows move it; right click for more",
                mark + 1
            );
            explain_aside(&response, self.beside_set(frame, flag), &said);
        }
        response.on_hover_cursor(CursorIcon::Grab);
    }
}

/// Arrows move a mark that has the focus 5 cm as the floor is seen, with Shift 1 cm.
fn nudge(
    ui: &Ui,
    response: &egui::Response,
    frame: &Frame,
    (photo, mark, place): (usize, usize, Pos2),
    asks: &mut Vec<Ask>,
) {
    let arrows = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    for (key, [right, down]) in [
        (Key::ArrowLeft, [-1.0, 0.0]),
        (Key::ArrowRight, [1.0, 0.0]),
        (Key::ArrowUp, [0.0, -1.0]),
        (Key::ArrowDown, [0.0, 1.0]),
    ] {
        for (modifiers, metres) in [(Modifiers::SHIFT, 0.01), (Modifiers::NONE, 0.05)] {
            if ui.input_mut(|input| input.consume_key(modifiers, key)) {
                let by = frame.length(metres);
                let (x, y) = frame.to_floor([place.x + right * by, place.y + down * by]);
                asks.push(Ask::Photo(PhotoAsk::PlaceAt { photo, mark, x, y, reach: 0.0 }));
            }
        }
    }
}

fn load(painter: &Painter, flat: &Flat) -> TextureHandle {
    let size = [flat.pixels.width() as usize, flat.pixels.height() as usize];
    let image = ColorImage::from_rgba_unmultiplied(size, flat.pixels.as_raw());
    painter.ctx().load_texture("photograph under the floor", image, TextureOptions::LINEAR)
}
