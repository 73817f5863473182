use super::room::StepRoom;
use crate::dance::{Foot, OwnStep};
use crate::desk::{Ask, Desk, StepAsk};
use crate::edits::{check_names, with_counts, with_hands_following};
use crate::motion::steps::Step;
use crate::picture::EyeSide;
use crate::window::dialogs::shape::row;
use crate::window::fields::{Typed, Wrong, show_typed, show_typed_when_done};
use crate::window::paint::choose_text;
use egui::{Button, Direction, Id, Layout, RichText, Role, Sense, Slider, Ui, UiBuilder, WidgetInfo, vec2};

/// How wide the fields of the name and the letters are, points.
const NAME: f32 = 190.0;
const LETTERS: f32 = 64.0;

/// What the step is called, how long it is, and how it is looked at.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, step: &Step, asks: &mut Vec<Ask>) {
    let own = room.index().and_then(|index| Some((index, desk.dance().steps.get(index)?)));
    row(ui, |ui| match own {
        Some((index, own)) => show_names(ui, desk, room, (index, own), asks),
        None => {
            let button = Button::new(RichText::new("Make our own of it").strong());
            let hint = "A copy with a name and letters of its own, which can be changed. Turns tied to this step by its letters stay with this one";
            if ui.add(button).on_hover_text(hint).clicked() {
                room.copied = true;
                asks.push(Ask::Step(StepAsk::Copy(step.short.clone())));
            }
            ui.add_space(6.0);
            ui.heading(&step.name);
            ui.weak(&step.short);
        }
    });
    row(ui, |ui| {
        for (lead, name) in [(Foot::Left, "left first"), (Foot::Right, "right first")] {
            let hint = "The foot that leads it, in the picture and in the rows below";
            if ui.selectable_label(room.lead == lead, name).on_hover_text(hint).clicked() {
                room.lead = lead;
            }
        }
        ui.add_space(10.0);
        for side in EyeSide::ALL {
            let hint = format!("Seen {}", side.words());
            let button = ui.selectable_label(room.side == side, side.word());
            let name = format!("seen {}", side.words());
            button.widget_info(|| WidgetInfo::selected(Role::Button, true, room.side == side, &name));
            if button.on_hover_text(hint).clicked() {
                room.side = side;
            }
        }
        ui.add_space(10.0);
        let moves = ui.selectable_label(room.count.is_none(), "moving");
        if moves
            .on_hover_text(
                "The whole step, again and again, here and in the list; a count below stops it there",
            )
            .clicked()
        {
            room.count = if room.count.is_none() { Some(0) } else { None };
        }
        ui.spacing_mut().slider_width = 96.0;
        let slider = ui.add(Slider::new(&mut room.speed, 2.0..=100.0).show_value(false));
        slider.widget_info(|| WidgetInfo::slider(true, room.speed, "How fast the step is danced, percent"));
        slider.on_hover_text(format!("{:.0} % of the dance's own speed", room.speed));
        if let Some((index, own)) = own {
            let mut follow = own.hands_follow_lead;
            let hint = "The hands change sides with the foot that leads: the rows say them for the foot that is chosen here";
            if ui.checkbox(&mut follow, "hands with the foot").on_hover_text(hint).changed() {
                let step = Box::new(with_hands_following(own, follow, room.lead));
                let what = "with which foot the hands go".to_owned();
                asks.push(Ask::Step(StepAsk::Set { index, step, what }));
            }
        }
    });
}

fn show_names(
    ui: &mut Ui,
    desk: &Desk,
    room: &mut StepRoom,
    (index, own): (usize, &OwnStep),
    asks: &mut Vec<Ask>,
) {
    let dance = desk.dance();
    let set = |step: OwnStep, what: &str| {
        Ask::Step(StepAsk::Set { index, step: Box::new(step), what: what.to_owned() })
    };
    let id = Id::unique(("step room", index));
    let read = |text: &str| {
        let found = check_names(dance, index, text, &own.short).map(|()| text.to_owned());
        found.map_err(|error| Wrong { unfinished: text.trim().is_empty(), ..Wrong::whole(error.to_string()) })
    };
    let label = ui.label("name");
    let name = typed(&own.name, "What the side calls the step", &read);
    let (field, changed) = show_typed(ui, (id.with("name"), NAME), name);
    let field = field.labelled_by(label.id);
    if std::mem::take(&mut room.to_name) {
        // A copy is called something first.
        field.request_focus();
        choose_text(ui, field.id, 0, own.name.chars().count());
    }
    if let Some(name) = changed {
        asks.push(set(OwnStep { name, ..own.clone() }, "the name"));
    }
    let read = |text: &str| {
        let found = check_names(dance, index, &own.name, text).map(|()| text.to_owned());
        found.map_err(|error| Wrong { unfinished: text.is_empty(), ..Wrong::whole(error.to_string()) })
    };
    let label = ui.label("letters");
    let letters = typed(
        &own.short,
        "The letters by which steppings name it, such as ds; those of a built-in step take its place in this dance",
        &read,
    );
    // Half of them may be another step's, whose steppings they must not touch.
    let (field, changed) = show_typed_when_done(ui, (id.with("letters"), LETTERS), letters);
    let _ = field.labelled_by(label.id);
    if let Some(short) = changed {
        asks.push(set(OwnStep { short, ..own.clone() }, "the letters"));
    }
    let counts = own.feet.len();
    for (sign, to, said) in [
        ("−", counts.saturating_sub(1), "One count less, at its end"),
        ("+", counts + 1, "One count more, at its end"),
    ] {
        if sign == "+" {
            let words = if counts == 1 { "1 count".to_owned() } else { format!("{counts} counts") };
            let (place, _) = ui.allocate_exact_size(vec2(62.0, 18.0), Sense::hover());
            let layout = Layout::centered_and_justified(Direction::LeftToRight);
            let mut child = ui.new_child(UiBuilder::new().max_rect(place).layout(layout));
            child.label(words).on_hover_text("How many counts it takes: half a strong beat each");
        }
        let button = ui.add_enabled((1..=64).contains(&to), Button::new(sign));
        button.widget_info(|| WidgetInfo::labeled(Role::Button, true, said));
        if button.on_hover_text(said).clicked() {
            asks.push(set(with_counts(own, to), "the counts"));
        }
    }
    if ui.button("Make a copy").on_hover_text("Make another step of this one").clicked() {
        room.copied = true;
        asks.push(Ask::Step(StepAsk::Copy(own.short.clone())));
    }
}

fn typed<'a>(
    now: &str,
    takes: &'static str,
    read: &'a dyn Fn(&str) -> Result<String, Wrong>,
) -> Typed<'a, String> {
    Typed { now: now.to_owned(), written: now.to_owned(), hint: String::new(), takes, read }
}
