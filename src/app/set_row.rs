use super::{ask::Ask, desk::Desk};
use crate::dance::{Set, SetKind, limits};
use egui::{DragValue, Ui};

/// The set: how many dancers and how far apart. Named figures follow while a number is dragged.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = &desk.dance().set;
    let mut set = before.clone();
    ui.add_space(10.0);
    ui.horizontal(|ui| {
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
    if changed && set != *before {
        asks.push(Ask::ChangeSet(Box::new(set)));
    }
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
