use super::{ask::Ask, desk::Desk};
use crate::dance::{Set, SetKind};
use egui::{DragValue, Ui};

/// The set: how many dancers and how far apart. Named figures follow while a number is dragged.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = &desk.dance().set;
    let mut set = before.clone();
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        ui.weak("Set");
        let numbers: Vec<u32> = match set.kind {
            SetKind::Longways => vec![1, 2, 4, 6, 8, 10, 12],
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
    ui.horizontal(|ui| {
        let number = |value, label: &'static str| {
            DragValue::new(value).range(0.5..=20.0).speed(0.01).max_decimals(2).prefix(label).suffix(" m")
        };
        match set.kind {
            SetKind::Longways if set.dancers > 1 => {
                ui.add(number(&mut set.across, "across ")).on_hover_text("Between the files");
                ui.add(number(&mut set.along, "along ")).on_hover_text("From rank to rank");
            }
            SetKind::Ring => {
                let mut radius = set.radius.unwrap_or_else(|| Set::usual_radius(set.dancers));
                if ui.add(number(&mut radius, "radius ")).on_hover_text("From the middle").changed() {
                    set.radius = Some(radius);
                }
            }
            SetKind::Longways | SetKind::Spots => {}
        }
    });
    // To the centimetre: what a side can pace out.
    for value in [&mut set.across, &mut set.along] {
        *value = (*value * 100.0).round() / 100.0;
    }
    if (set.across - before.across).abs() < 0.006 {
        set.across = before.across;
    }
    if (set.along - before.along).abs() < 0.006 {
        set.along = before.along;
    }
    if set != *before {
        asks.push(Ask::ChangeSet(Box::new(set)));
    }
}
