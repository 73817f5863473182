use super::ask::Ask;
use crate::dance::{FaultLimits, Holding};
use egui::{DragValue, Key, RichText, Ui};

/// Asks why the side means a fault.
pub fn show_mean(ui: &mut Ui, index: usize, said: &str, reason: &mut String, asks: &mut Vec<Ask>) {
    ui.heading("We mean this");
    ui.add_space(6.0);
    ui.label(said);
    ui.add_space(6.0);
    let label = ui.weak("Why, in a few words; it is kept with the figure");
    let edit = ui
        .add(egui::TextEdit::singleline(reason).char_limit(500).desired_width(f32::INFINITY))
        .labelled_by(label.id);
    if !edit.has_focus() && !edit.lost_focus() {
        edit.request_focus();
    }
    let entered = edit.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let ready = !reason.trim().is_empty();
    ui.add_space(4.0);
    ui.weak(RichText::new("It is told again if it gets worse.").small());
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if ui.add_enabled(ready, egui::Button::new("We mean it")).clicked() || (entered && ready) {
            asks.push(Ask::PutAway);
            asks.push(Ask::Mean(index, reason.clone()));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::PutAway);
        }
    });
}

/// The limits with what each means, in the order they are shown.
const ROWS: [(&str, &str, &str); 11] = [
    ("breadth", "Body, shoulder to shoulder", "m"),
    ("depth", "Body, front to back", "m"),
    ("apart", "Least between bodies", "m"),
    ("arms", "Reach of arms from the middle", "m"),
    ("stick", "Reach of a stick from the middle", "m"),
    ("home", "Farthest from the spot at the end", "m"),
    ("home_facing", "Most turned away at the end", "°"),
    ("step", "Longest step", "m"),
    ("turn", "Fastest turn", "° a count"),
    ("jump_turn", "Left of a turn at a jump", "°"),
    ("bow", "Bow of a straight way home", "m"),
];

/// The limits of what is a fault in this dance.
pub fn show_limits(ui: &mut Ui, limits: &FaultLimits, asks: &mut Vec<Ask>) {
    ui.heading("What counts as a fault");
    ui.add_space(4.0);
    ui.weak("Sides differ. These are kept with the dance; what is left as usual follows the program.");
    ui.add_space(6.0);
    let usual = FaultLimits::default();
    let mut changed = limits.clone();
    egui::Grid::new("limits").num_columns(3).spacing([14.0, 5.0]).show(ui, |ui| {
        for (key, words, unit) in ROWS {
            let label = ui.label(words);
            let range = limits.given().into_iter().find(|given| given.0 == key);
            let (least, most) = range.map_or((0.0, 100.0), |(_, _, least, most, _)| (least, most));
            let mut value = value_of(limits, key);
            let drag = DragValue::new(&mut value)
                .range(least..=most)
                .clamp_existing_to_range(false)
                .speed(if unit == "m" { 0.01 } else { 1.0 })
                .max_decimals(2)
                .suffix(format!(" {unit}"));
            if ui.add(drag).labelled_by(label.id).changed()
                && let Some(slot) = changed.slot(key)
            {
                *slot = Some((value * 100.0).round() / 100.0);
            }
            let own = limits.given().iter().any(|given| given.0 == key && given.1.is_some());
            if own {
                if ui.small_button(format!("usual: {}", value_of(&usual, key))).clicked()
                    && let Some(slot) = changed.slot(key)
                {
                    *slot = None;
                }
            } else {
                ui.weak("usual");
            }
            ui.end_row();
        }
    });
    if changed != *limits {
        asks.push(Ask::SetLimits(Box::new(changed)));
    }
    ui.add_space(8.0);
    ui.weak(
        RichText::new("Keep clear floor beyond the reach of arms and sticks, and spectators outside it.")
            .small(),
    );
    ui.add_space(8.0);
    if ui.button("Close").clicked() {
        asks.push(Ask::PutAway);
    }
}

/// A limit as it is in force.
fn value_of(limits: &FaultLimits, key: &str) -> f64 {
    match key {
        "breadth" => limits.breadth(),
        "depth" => limits.depth(),
        "apart" => limits.apart(),
        "arms" => limits.reach(Holding::Handkerchiefs),
        "stick" => limits.stick.unwrap_or(1.2),
        "home" => limits.home(),
        "home_facing" => limits.home_facing(),
        "step" => limits.step(),
        "turn" => limits.turn(),
        "jump_turn" => limits.jump_turn(),
        "bow" => limits.bow(),
        _ => 0.0,
    }
}
