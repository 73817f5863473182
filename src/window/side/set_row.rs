use crate::dance::{ClearFloor, Extra, Set, SetKind, limits};
use crate::desk::{Ask, Desk, FaultAsk, OrderAsk, ViewAsk};
use crate::faults::SPACE_CAUTION;
use crate::window::fields::{NumberAnswer, NumberField, NumberKind};
use egui::Ui;

/// The set: how many dancers and how far apart. Named figures follow while a number is dragged.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = &desk.dance().set;
    let mut set = before.clone();
    ui.add_space(8.0);
    ui.heading("The set");
    ui.add_space(4.0);
    ui.horizontal(|ui| {
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
        let mut number = |metres: f64, name: &str, hint: &str| {
            let answer = number(ui, desk, metres, (name, hint));
            changed |= answer.changed.is_some();
            answer.changed
        };
        match set.kind {
            SetKind::Longways if set.dancers > 1 => {
                set.across = number(set.across, "across ", "Between the files").unwrap_or(set.across);
                set.along = number(set.along, "along ", "From rank to rank").unwrap_or(set.along);
            }
            SetKind::Ring => {
                let usual = Set::usual_radius(set.dancers);
                let radius = number(set.radius.unwrap_or(usual), "radius ", "From the middle");
                // What is as usual follows the number of dancers.
                set.radius = radius
                    .or(set.radius)
                    .filter(|radius| before.radius.is_some() || (radius - usual).abs() > 0.005);
            }
            SetKind::Longways | SetKind::Spots => {}
        }
    });
    let mut hops = desk.dance().hops;
    let hint = "On the last count before a half that starts on one foot, a hop on the other one: the hop on the upbeat";
    if ui.checkbox(&mut hops, "hop on the upbeat").on_hover_text(hint).changed() {
        asks.push(Ask::Order(OrderAsk::SetHops(hops)));
    }
    ui.add_space(10.0);
    ui.heading("The floor");
    ui.add_space(4.0);
    show_space(ui, desk, asks);
    if changed && set != *before {
        asks.push(Ask::Order(OrderAsk::ChangeSet(Box::new(set))));
    }
}

/// The floor that the dance needs, and the clear floor that there is.
fn show_space(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let space = desk.space();
    ui.vertical(|ui| {
        let up = |metres: f64| (metres * 10.0 - 1e-3).ceil() / 10.0;
        let needs = format!("needs {:.1} × {:.1} m", up(space.across), up(space.along));
        let button = egui::Button::selectable(desk.space_shown(), needs);
        let hint =
            format!("The floor that the whole dance {}. Click to see it. {SPACE_CAUTION}", space.words());
        if ui.add(button).on_hover_text(hint).clicked() {
            asks.push(Ask::View(ViewAsk::ToggleSpace));
        }
        let there = match &desk.dance().floor {
            Some(floor) => format!("floor: {} × {} m", floor.across, floor.along),
            None => "floor: any size".to_owned(),
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
        asks.push(Ask::Fault(FaultAsk::SetFloor(given.then(|| {
            let (across, along) = (wide(2.0 * right.max(-left)), wide(2.0 * top.max(-bottom)));
            Box::new(ClearFloor { across, along, x: 0.0, y: 0.0, extra: Extra::new() })
        }))));
    }
    let Some(mut floor) = before.clone() else { return };
    for (name, hint, metres, least) in [
        ("across", "Its width, as you face up", &mut floor.across, limits::CLOSEST),
        ("along", "Its length, towards the music", &mut floor.along, limits::CLOSEST),
        ("middle to the right", "Where its middle is, from that of the set", &mut floor.x, -limits::FARTHEST),
        ("middle up", "Where its middle is, from that of the set", &mut floor.y, -limits::FARTHEST),
    ] {
        ui.horizontal(|ui| {
            let label = ui.label(name);
            let kind = NumberKind { least, most: limits::FARTHEST, places: 2, unit: "m" };
            let answer = NumberField::new(*metres, kind, 0.05).hint(hint).refused(desk.notice()).show(ui);
            answer.response.labelled_by(label.id);
            *metres = answer.changed.unwrap_or(*metres);
        });
    }
    if Some(&floor) != before.as_ref() {
        asks.push(Ask::Fault(FaultAsk::SetFloor(Some(Box::new(floor)))));
    }
    ui.weak(egui::RichText::new(SPACE_CAUTION).small());
}

/// A length to drag or type, to the centimetre: what a side can pace out. What a file holds is left as it is, however
/// large or small; only what is chosen here is kept in reach.
fn number(ui: &mut Ui, desk: &Desk, metres: f64, (name, hint): (&str, &str)) -> NumberAnswer {
    let kind = NumberKind { least: limits::CLOSEST, most: limits::FARTHEST, places: 2, unit: "m" };
    NumberField::new(metres, kind, 0.01).prefix(name).hint(hint).refused(desk.notice()).show(ui)
}
