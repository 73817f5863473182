use super::ends_menu;
use crate::dance::{Entry, Figure, LeadRule, Number, limits, shown_name};
use crate::desk::{AboutAsk, Ask, Desk, OrderAsk, StrikeAsk};
use crate::figures::{self, Choice, Choices, Kind, by_numbers, told_by};
use crate::window::fields::{NumberField, NumberKind, show_phrase, show_speeds};
use egui::{Id, RichText, Role, Ui, WidgetInfo};
use serde_json::Value;

/// The figure at the playhead as this side dances it. What every figure has stands first, so that it keeps its place from
/// one to the next.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(8.0);
    let span = desk.span_here();
    match span.and_then(|span| Some((span.figure, desk.dance().figures.get(span.figure)?))) {
        Some((index, figure)) => show_choices(ui, desk, index, figure, asks),
        None => {
            ui.heading("No figure here");
            ui.label("Put one in from the shelf, or draw a new one.");
        }
    }
}

/// What the side can choose about the figure under way.
fn show_choices(ui: &mut Ui, desk: &Desk, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    ui.add(egui::Label::new(RichText::new(&figure.name).heading()).truncate());
    ui.weak(RichText::new("as this side dances it").small());
    ui.add_space(4.0);
    egui::Grid::new(("every", index)).num_columns(2).spacing([14.0, 5.0]).show(ui, |ui| {
        show_lead(ui, index, figure, figure.named.is_some(), asks);
        ui.end_row();
        ends_menu::show_rows(ui, index, figure, asks);
        show_called(ui, desk, asks);
        ui.end_row();
        show_taps(ui, index, figure, asks);
        ui.end_row();
    });
    show_speed(ui, desk, index, figure, asks);
    show_phrase(ui, desk, (index, figure), "card", asks);
    ui.add_space(6.0);
    let named = figure.named.as_ref().and_then(|named| {
        let known = figures::find(&named.figure).ok()?;
        let told = by_numbers(named, &desk.dance().people).ok()?;
        Some((known, Choices::of(known, &told.with).ok()?))
    });
    let Some((known, choices)) = &named else {
        ui.weak("It is drawn, so it has no choices of its own.");
        return;
    };
    egui::Grid::new(("choices", index)).num_columns(2).spacing([14.0, 5.0]).show(ui, |ui| {
        for choice in known.choices {
            show_choice(ui, desk, index, (choice, choices), asks);
            ui.end_row();
        }
    });
}

fn show_choice(
    ui: &mut Ui,
    desk: &Desk,
    index: usize,
    (choice, choices): (&Choice, &Choices),
    asks: &mut Vec<Ask>,
) {
    let label = ui.weak(choice.label).on_hover_text(choice.help);
    match choice.kind {
        Kind::Number { least, most, unit, .. } => {
            let (places, speed) = if choice.is_whole() { (0, 0.05) } else { (2, 0.01) };
            let kind = NumberKind { least, most, places, unit };
            let field = NumberField::new(choices.number(choice.key), kind, speed).hint(choice.help);
            let answer = field.refused(desk.notice()).show(ui);
            answer.response.labelled_by(label.id);
            if let Some(value) = answer.changed {
                asks.push(Ask::Order(OrderAsk::SetChoice(index, choice.key, value.into())));
            }
        }
        Kind::Dancer { nobody, .. } => {
            let chosen = choices.number(choice.key);
            show_dancers(ui, desk, (choice, nobody, chosen), &mut |value| {
                asks.push(Ask::Order(OrderAsk::SetChoice(index, choice.key, value)));
            });
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

/// Nobody alone, or one of the dancers, by name where they have one.
fn show_dancers(
    ui: &mut Ui,
    desk: &Desk,
    (choice, nobody, chosen): (&Choice, &str, f64),
    choose: &mut impl FnMut(Value),
) {
    let people = &desk.dance().people;
    let words = |number: u32| match (number, desk.dance().person(Number(number))) {
        (0, _) => nobody.to_owned(),
        (_, Some(name)) if !name.trim().is_empty() => format!("{number} {}", shown_name(name.trim())),
        _ => number.to_string(),
    };
    ui.push_id(("dancers", choice.key), |ui| {
        let button = ui.menu_button(words(chosen as u32), |ui| {
            egui::ScrollArea::vertical().max_height(LONGEST_MENU).show(ui, |ui| {
                for number in 0..=desk.dance().set.dancers {
                    let is_it = chosen == f64::from(number);
                    if ui.selectable_label(is_it, words(number)).clicked() {
                        if !is_it {
                            choose(if number == 0 { 0.into() } else { told_by(Number(number), people) });
                        }
                        ui.close();
                    }
                }
            });
        });
        button.response.on_hover_text(choice.help);
    });
}

/// A menu that is longer than this goes on by scrolling, points.
const LONGEST_MENU: f32 = 320.0;

/// How many bars before it begins the line at the playhead is called.
fn show_called(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let hint = "How many bars before it begins the foreman calls it, at this line";
    let label = ui.weak("called").on_hover_text(hint);
    let Some(line) = desk.span() else { return };
    let before = desk.dance().order.get(line.index()).map_or(Entry::CALL_BEFORE, Entry::called_before);
    let kind = NumberKind { least: 0.0, most: limits::EARLIEST_CALL, places: 2, unit: "bars before" };
    let answer = NumberField::new(before, kind, 0.05).hint(hint).refused(desk.notice()).show(ui);
    answer.response.labelled_by(label.id);
    if let Some(before) = answer.changed {
        let own = (before != Entry::CALL_BEFORE).then_some(before);
        asks.push(Ask::Order(OrderAsk::SetCallBefore(line.index(), own)));
    }
}

/// How often something is struck in the figure, to write.
fn show_taps(ui: &mut Ui, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    let hint = "Taps of sticks and claps of hands, to write in a line for each bar; they are in the row of taps as well";
    ui.weak("taps").on_hover_text(hint);
    let many: usize = figure.strikes.iter().map(|strike| strike.counts().count()).sum();
    let name = if many == 0 { "none…".to_owned() } else { format!("{many}…") };
    let button = ui.button(name);
    button.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Taps: {many}, to write")));
    if button.on_hover_text(hint).clicked() {
        asks.push(Ask::Strike(StrikeAsk::AskToWrite(index)));
    }
}

/// The speeds that the music has of its own in the figure.
fn show_speed(ui: &mut Ui, desk: &Desk, index: usize, figure: &Figure, asks: &mut Vec<Ask>) {
    let dance = desk.dance();
    let of_strain = dance.strain_of(figure).and_then(|strain| strain.speeds.first());
    let usual = of_strain.filter(|first| first.count == 0.0).map_or(dance.music.speed, |first| first.speed);
    let name = Id::unique(("speeds", dance.title.as_str(), figure.id.as_str()));
    let bars = dance.bar_counts(figure);
    ui.add_space(4.0);
    let label = ui.weak("played at").on_hover_text("How fast the music is while this figure is danced");
    let place = (name, f32::INFINITY);
    let (response, changed) = show_speeds(ui, place, (&figure.speeds, &bars), usual);
    response.labelled_by(label.id);
    if let Some(speeds) = changed {
        asks.push(Ask::About(AboutAsk::SetSpeeds(index, speeds)));
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
