use super::{draw_card, ends_menu, fault_list};
use crate::dance::{Dancer, Figure, LeadRule, Number};
use crate::desk::{Ask, Desk, DrawAsk, OrderAsk};
use crate::figures::{self, Choice, Choices, Kind};
use crate::picture::{Frame, dancer_marks};
use crate::window::{
    fields::{NumberField, NumberKind, show_phrase},
    paint::paint,
};
use crate::words;
use egui::{RichText, ScrollArea, Sense, Ui, vec2};

/// Shows the chosen dancer's card, and the faults under it.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| show_flat(ui, desk, asks));
}

/// The same where all about it goes up and down.
pub fn show_flat(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(12.0);
    match desk.chosen() {
        Some(dancer) => show_dancer(ui, desk, dancer, asks),
        None => {
            ui.heading("Nobody chosen");
            ui.add_space(4.0);
            ui.label("Click a dancer on the floor, or press their number, to see their part.");
        }
    }
    ui.add_space(12.0);
    fault_list::show(ui, desk, asks);
    let span = desk.span().and_then(|index| desk.motion().spans().get(index));
    if let Some(span) = span
        && let Some(figure) = desk.dance().figures.get(span.figure)
    {
        show_choices(ui, desk, span.figure, figure, asks);
    }
    ui.add_space(14.0);
    ui.weak(
        RichText::new("Warm up first, and walk a new figure before you dance it. F1 has the rest.").small(),
    );
}

fn show_dancer(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let motion = desk.motion();
    let pose = motion.pose(dancer, desk.player().count);
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(64.0, 64.0), Sense::hover());
        let centre = rect.center();
        let frame = Frame { centre: (pose.x, pose.y), middle: [centre.x, centre.y], scale: 80.0, up: 0.0 };
        let mut marks = Vec::new();
        dancer_marks(&mut marks, &frame, &desk.ink(), &pose, (false, desk.dance().holding));
        paint(&ui.painter_at(rect.expand(8.0)), &marks);
        ui.vertical(|ui| {
            show_name(ui, desk, pose.number, asks);
            ui.weak(words::standing(motion.ground(), dancer));
        });
    });
    ui.add_space(8.0);
    egui::Grid::new("card").num_columns(2).spacing([14.0, 5.0]).show(ui, |ui| {
        for (name, value) in words::now(motion, dancer, desk.player().count) {
            ui.weak(name);
            ui.add(egui::Label::new(value).wrap());
            ui.end_row();
        }
    });
    ui.add_space(6.0);
    draw_card::show(ui, desk, dancer, asks);
    let span = desk.span().and_then(|index| motion.spans().get(index));
    if let Some(span) = span
        && let Some(figure) = desk.dance().figures.get(span.figure)
    {
        let place = span.place(dancer);
        if figure.named.is_some() && figure.part(place).is_some() {
            ui.add_space(8.0);
            ui.label(format!("{} is redrawn here", pose.number));
            let back = ui.button("Back to the named figure");
            if back.on_hover_text(format!("Dance it as {} has it", figure.name)).clicked() {
                asks.push(Ask::Draw(DrawAsk::RestoreNamed { figure: span.figure, place }));
            }
        }
    }
}

/// The number and the name, which can be typed over. Every letter reaches the desk, so that nothing typed is lost.
fn show_name(ui: &mut Ui, desk: &Desk, number: Number, asks: &mut Vec<Ask>) {
    let mut text = desk.dance().person(number).unwrap_or_default().to_owned();
    ui.horizontal(|ui| {
        ui.label(RichText::new(number.to_string()).heading().strong());
        let edit = egui::TextEdit::singleline(&mut text)
            .id(egui::Id::unique(("name", number)))
            .font(egui::TextStyle::Heading)
            .hint_text("name this dancer")
            .char_limit(200)
            .frame(egui::Frame::NONE)
            .desired_width(f32::INFINITY);
        let response = ui.add(edit).on_hover_text("Who dances this number; click to type");
        if response.changed() {
            asks.push(Ask::Order(OrderAsk::NamePerson(number, text)));
        }
    });
}

/// What the side can choose about the figure under way.
fn show_choices(ui: &mut Ui, desk: &Desk, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    ui.add_space(12.0);
    ui.label(format!("{} as this side dances it", figure.name));
    ui.add_space(2.0);
    egui::Grid::new(("choices", index)).num_columns(2).spacing([14.0, 5.0]).show(ui, |ui| {
        let named = figure.named.as_ref().and_then(|named| {
            let known = figures::find(&named.figure).ok()?;
            Some((known, Choices::of(known, &named.with).ok()?))
        });
        if let Some((known, choices)) = &named {
            for choice in known.choices {
                show_choice(ui, desk, index, (choice, choices), asks);
                ui.end_row();
            }
        }
        show_lead(ui, index, figure, named.is_some(), asks);
        ui.end_row();
    });
    show_phrase(ui, desk, index, figure, asks);
    ui.add_space(4.0);
    egui::Grid::new(("ends", index)).num_columns(2).show(ui, |ui| {
        ends_menu::show_rows(ui, index, figure, asks);
    });
}

fn show_choice(
    ui: &mut Ui,
    desk: &Desk,
    index: usize,
    (choice, choices): (&Choice, &Choices),
    asks: &mut Vec<Ask>,
) {
    let label = ui.weak(choice.key).on_hover_text(choice.help);
    match choice.kind {
        Kind::Number { least, most, unit, .. } => {
            let kind = NumberKind { least, most, places: 2, unit };
            let field = NumberField::new(choices.number(choice.key), kind, 0.01);
            let answer = field.refused(desk.notice()).show(ui);
            answer.response.labelled_by(label.id).on_hover_text(choice.help);
            if let Some(value) = answer.changed {
                asks.push(Ask::Order(OrderAsk::SetChoice(index, choice.key, value.into())));
            }
        }
        Kind::Word(words) => {
            let chosen = choices.word(choice.key);
            // Wrapped in a grid, it would keep the height of a first try in which it had no width yet.
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 2.0;
                for word in words {
                    let button = egui::Button::selectable(chosen == *word, *word);
                    if ui.add(button).on_hover_text(choice.help).clicked() && chosen != *word {
                        asks.push(Ask::Order(OrderAsk::SetChoice(index, choice.key, (*word).into())));
                    }
                }
            });
        }
    }
}

/// The rule for which foot starts.
fn show_lead(ui: &mut Ui, index: usize, figure: &Figure, named: bool, asks: &mut Vec<Ask>) {
    ui.weak("lead").on_hover_text("Which foot starts each half");
    let own = if named { "the figure's own" } else { "right, or as drawn" };
    let mut rule = figure.lead;
    let words = |rule: Option<LeadRule>| rule.map_or(own, LeadRule::words);
    ui.push_id(("lead", index), |ui| {
        ui.menu_button(words(rule), |ui| {
            for other in std::iter::once(None).chain(LeadRule::ALL.map(Some)) {
                if ui.selectable_label(rule == other, words(other)).clicked() {
                    rule = other;
                    ui.close();
                }
            }
        });
    });
    if rule != figure.lead {
        asks.push(Ask::Order(OrderAsk::SetLead(index, rule)));
    }
}
