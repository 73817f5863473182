use super::shape::foot;
use crate::dance::{FaultLimits, Holding};
use crate::desk::{Ask, FaultAsk, ViewAsk};
use crate::window::fields::{Ending, NumberField, NumberKind, ending, go_to_wrong, line, show_words};
use egui::{RichText, Ui};

/// Why the side means a fault, to write.
pub struct AllowField {
    /// Its place in the list.
    index: usize,
    /// What it says.
    said: String,
    reason: String,
    focused: bool,
    /// Whether somebody was done with it before there was a reason.
    told: bool,
}

impl AllowField {
    /// A field for a fault, by its place in the list and what it says.
    #[must_use]
    pub fn new(index: usize, said: String) -> Self {
        Self { index, said, reason: String::new(), focused: false, told: false }
    }
}

/// Asks why the side means a fault.
pub fn show_allow(ui: &mut Ui, field: &mut AllowField, asks: &mut Vec<Ask>) {
    let AllowField { index, said, reason, focused, told } = field;
    ui.heading("We mean this");
    ui.add_space(6.0);
    ui.label(said.as_str());
    ui.add_space(6.0);
    let label = ui.weak("Why, in a few words; it is kept with the figure");
    let line = line(reason).char_limit(500).desired_width(f32::INFINITY);
    let edit = ui.add(line).labelled_by(label.id).on_hover_text("Up to 500 letters; Enter is done");
    if !std::mem::replace(focused, true) {
        edit.request_focus();
    }
    let entered = ending(ui, &edit) == Some(Ending::Enter);
    let ready = !reason.trim().is_empty();
    *told |= entered;
    if *told && !ready {
        show_words(ui, &edit, "why you mean it: a word or two will do");
    }
    ui.add_space(4.0);
    ui.weak(RichText::new("It is told again if it gets worse.").small());
    foot(ui, |ui| {
        if ui.add_enabled(ready, egui::Button::new("We mean it")).clicked() || (entered && ready) {
            asks.push(Ask::View(ViewAsk::PutAway));
            asks.push(Ask::Fault(FaultAsk::Allow(*index, reason.clone())));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}

/// The limits with what each means, in the order they are shown.
const ROWS: [(&str, &str, &str); 12] = [
    ("breadth", "Body, shoulder to shoulder", "m"),
    ("depth", "Body, front to back", "m"),
    ("apart", "Least between bodies", "m"),
    ("arms", "Reach of arms from the middle", "m"),
    ("stick", "Reach of a stick from the middle", "m"),
    ("home", "Farthest from the spot at the end", "m"),
    ("home_facing", "Most turned away at the end", "°"),
    ("step", "Longest step", "m"),
    ("speed", "Fastest travelling", "m a second"),
    ("turn", "Fastest turn", "° a count"),
    ("jump_turn", "Still to turn as a jump begins", "°"),
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
            let kind = NumberKind { least, most, places: 2, unit };
            let speed = if unit == "m" { 0.01 } else { 1.0 };
            let answer = NumberField::new(value_of(limits, key), kind, speed).hint(words).show(ui);
            answer.response.labelled_by(label.id);
            if let Some(value) = answer.changed
                && let Some(slot) = changed.slot(key)
            {
                // What is as usual follows the program.
                *slot = Some(value).filter(|value| *value != value_of(&usual, key));
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
        asks.push(Ask::Fault(FaultAsk::SetLimits(Box::new(changed))));
    }
    ui.add_space(8.0);
    ui.weak(
        RichText::new("Keep clear floor beyond the reach of arms and sticks, and spectators outside it.")
            .small(),
    );
    if foot(ui, |ui| ui.button("Close")).clicked() && !go_to_wrong(ui.ctx()) {
        asks.push(Ask::View(ViewAsk::PutAway));
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
        "speed" => limits.speed(),
        "turn" => limits.turn(),
        "jump_turn" => limits.jump_turn(),
        "bow" => limits.bow(),
        _ => 0.0,
    }
}
