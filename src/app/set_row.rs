use super::{ask::Ask, desk::Desk};
use crate::dance::{ClearFloor, Extra, Set, SetKind, limits};
use crate::faults::SPACE_CAUTION;
use egui::{DragValue, Ui};

/// The set: how many dancers and how far apart. Named figures follow while a number is dragged.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = &desk.dance().set;
    let mut set = before.clone();
    ui.add_space(10.0);
    ui.horizontal_wrapped(|ui| {
        ui.weak("Set");
        let numbers: Vec<u32> = match set.kind {
            SetKind::Longways => Set::USUAL_SIZES.to_vec(),
            SetKind::Ring => (1..=16).collect(),
            SetKind::Spots => vec![set.dancers],
        };
        egui::ComboBox::from_label(if set.dancers == 1 { "dancer" } else { "dancers" })
            .width(52.0)
            .selected_text(set.dancers.to_string())
            .show_ui(ui, |ui| {
                for number in numbers {
                    ui.selectable_value(&mut set.dancers, number, number.to_string());
                }
            });
        let mut hops = desk.dance().hops;
        let hint = "The hop on the upbeat: on the last count before a half that starts on one foot, on the other one";
        if ui.checkbox(&mut hops, "upbeat hop").on_hover_text(hint).changed() {
            asks.push(Ask::SetHops(hops));
        }
    });
    let mut changed = set.dancers != before.dancers;
    ui.horizontal(|ui| {
        // To the centimetre: what a side can pace out.
        let centimetres = |metres: f64| (metres * 100.0).round() / 100.0;
        match set.kind {
            SetKind::Longways if set.dancers > 1 => {
                if ui.add(number(&mut set.across, "across ")).on_hover_text("Between the files").changed() {
                    set.across = centimetres(set.across);
                    changed = true;
                }
                if ui.add(number(&mut set.along, "along ")).on_hover_text("From rank to rank").changed() {
                    set.along = centimetres(set.along);
                    changed = true;
                }
            }
            SetKind::Ring => {
                let mut radius = set.radius.unwrap_or_else(|| Set::usual_radius(set.dancers));
                if ui.add(number(&mut radius, "radius ")).on_hover_text("From the middle").changed() {
                    set.radius = Some(centimetres(radius));
                    changed = true;
                }
            }
            SetKind::Longways | SetKind::Spots => {}
        }
    });
    show_space(ui, desk, asks);
    if changed && set != *before {
        asks.push(Ask::ChangeSet(Box::new(set)));
    }
}

/// The floor that the dance needs, and the clear floor that there is.
fn show_space(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let space = desk.space();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let up = |metres: f64| (metres * 10.0 - 1e-3).ceil() / 10.0;
        let needs = format!("needs {:.1} × {:.1} m", up(space.across), up(space.along));
        let button = egui::Button::selectable(desk.space_shown, needs);
        let hint =
            format!("The floor that the whole dance {}. Click to see it. {SPACE_CAUTION}", space.words());
        if ui.add(button).on_hover_text(hint).clicked() {
            asks.push(Ask::ToggleSpace);
        }
        let there = match &desk.dance().floor {
            Some(floor) => format!("of {} × {}", floor.across, floor.along),
            None => "of any".to_owned(),
        };
        ui.menu_button(there, |ui| show_floor_given(ui, desk, asks))
            .response
            .on_hover_text("The clear floor that there is");
    });
}

fn show_floor_given(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = desk.dance().floor.clone();
    let mut given = before.is_some();
    if ui.checkbox(&mut given, "check against a clear floor").changed() {
        let [left, bottom, right, top] = desk.space().edges;
        let wide = |metres: f64| metres.ceil().max(1.0);
        asks.push(Ask::SetFloor(given.then(|| {
            let (across, along) = (wide(2.0 * right.max(-left)), wide(2.0 * top.max(-bottom)));
            Box::new(ClearFloor { across, along, x: 0.0, y: 0.0, extra: Extra::new() })
        })));
    }
    let Some(mut floor) = before.clone() else { return };
    for (name, metres, least) in [
        ("across", &mut floor.across, limits::CLOSEST),
        ("along", &mut floor.along, limits::CLOSEST),
        ("middle to the right", &mut floor.x, -limits::FARTHEST),
        ("middle up", &mut floor.y, -limits::FARTHEST),
    ] {
        ui.horizontal(|ui| {
            let label = ui.label(name);
            let drag = DragValue::new(metres)
                .range(least..=limits::FARTHEST)
                .speed(0.05)
                .max_decimals(2)
                .suffix(" m");
            if ui.add(drag.clamp_existing_to_range(false)).labelled_by(label.id).changed() {
                *metres = (*metres * 100.0).round() / 100.0;
            }
        });
    }
    if Some(&floor) != before.as_ref() {
        asks.push(Ask::SetFloor(Some(Box::new(floor))));
    }
    ui.weak(egui::RichText::new(SPACE_CAUTION).small());
}

/// A length to drag. What a file holds is left as it is, however large or small; only a drag is kept in reach.
fn number<'a>(metres: &'a mut f64, label: &'static str) -> DragValue<'a> {
    DragValue::new(metres)
        .range(limits::CLOSEST..=limits::FARTHEST)
        .clamp_existing_to_range(false)
        .speed(0.01)
        .max_decimals(2)
        .prefix(label)
        .suffix(" m")
}
