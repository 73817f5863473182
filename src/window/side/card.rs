use super::card_layout::{CardLayout, ENOUGH};
use super::draw_card;
use super::watch_for::watch_words;
use crate::dance::{Dancer, Number};
use crate::desk::{Ask, Desk, DrawAsk, OrderAsk};
use crate::window::eye_level::show_eye_level;
use crate::words;
use egui::{Align, Label, Layout, Rect, RichText, Sense, Ui, UiBuilder, pos2, vec2};

/// What is said of a dancer, in the order of its rows: each keeps its place, said or not.
const ROWS: [&str; 8] = ["Now", TAPS, "Lead", "Then", "Facing", "Going", "Nearest", "Next"];
/// Left out of dances in which nothing meets.
const TAPS: &str = "Taps";
/// A caution in a line.
const CAUTION: &str = "Warm up first, and walk a new figure before you dance it. F1 has the rest.";
/// How much of a row its name takes, points.
const NAMES: f32 = 64.0;

/// Shows the chosen dancer's card. Nothing on it moves from one count to the next: what is too long is cut, and whole under
/// the pointer.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let taps = !desk.motion().blows().is_empty();
    let rows = rows_of(ui.available_height(), taps);
    let many = rows.len();
    // What is tapped has two lines where they leave the body room enough.
    let tall = CardLayout::with_long_row(ui.available_height(), many).filter(|_| taps);
    let small = taps && tall.is_none();
    let layout = tall.unwrap_or_else(|| CardLayout::of(ui.available_height(), many).with_small_row(small));
    ui.spacing_mut().item_spacing.y = if layout.low { 1.0 } else { 3.0 };
    if !layout.low {
        ui.add_space(6.0);
    }
    let Some(dancer) = desk.chosen() else {
        ui.heading("Nobody chosen");
        ui.add_space(4.0);
        ui.label("Click a dancer on the floor, or press their number, to see their part.");
        show_body(ui, desk, layout.picture, asks);
        show_caution(ui);
        return;
    };
    let motion = desk.motion();
    let pose = motion.pose(dancer, desk.player().count);
    let mut standing = words::standing(motion.ground(), dancer);
    let watch = watch_words(desk, dancer);
    if !layout.watch && !watch.is_empty() {
        standing = format!("{standing} · Watch: {watch}");
    }
    if !layout.cautions {
        // Cut where there is no room for it, and then whole under the pointer.
        standing = format!("{standing} · {CAUTION}");
    }
    let standing = RichText::new(standing).small().weak();
    if layout.low {
        ui.horizontal(|ui| {
            let room = ui.available_width();
            show_name(ui, desk, pose.number, room * 0.45, asks);
            let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
            // On one line with the larger letters of the name.
            show_within(ui, place.translate(vec2(0.0, 3.0)), standing);
        });
    } else {
        ui.horizontal(|ui| show_name(ui, desk, pose.number, f32::INFINITY, asks));
        show_line(ui, standing);
    }
    show_body(ui, desk, layout.picture, asks);
    let feet = desk.gait(dancer).map(|gait| (gait, desk.clock()));
    let said = words::now(motion, dancer, desk.player().count, feet);
    let value = |name: &str| said.iter().find(|(known, _)| *known == name).map_or("", |(_, value)| value);
    ui.spacing_mut().item_spacing.y = 0.0;
    for name in rows {
        let high = match name {
            TAPS if tall.is_some() => 2.0 * layout.row,
            TAPS => layout.row + layout.more,
            _ => layout.row,
        };
        let (place, row) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::hover());
        if name == TAPS && (tall.is_some() || layout.more > 0.0) {
            let words = RichText::new(value(name));
            show_long_row(ui, place, (name, if small { words.small() } else { words }));
            if !value(name).is_empty() {
                row.on_hover_text(value(name));
            }
            continue;
        }
        show_row(ui, place, name, value(name));
        if name == "Now"
            && row.hovered()
            && let Some(step) = words::step_told(motion, dancer, desk.player().count)
        {
            row.on_hover_text(step);
        }
    }
    if layout.watch {
        let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), layout.row), Sense::hover());
        show_row(ui, place, "Watch", &watch);
    }
    ui.add_space(if layout.low { 1.0 } else { 4.0 });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        draw_card::show(ui, desk, dancer, asks);
        show_back(ui, desk, dancer, asks);
    });
    if layout.cautions {
        show_caution(ui);
    }
}

/// The rows in a side of a height, points. Where something is tapped, a low side leaves out what the floor shows as well, so that the body
/// keeps its room.
fn rows_of(side: f32, taps: bool) -> Vec<&'static str> {
    let mut rows: Vec<&str> = ROWS.into_iter().filter(|name| *name != TAPS || taps).collect();
    for spare in ["Nearest", "Going"] {
        if taps && CardLayout::of(side, rows.len()).picture < ENOUGH {
            rows.retain(|name| *name != spare);
        }
    }
    rows
}

fn show_caution(ui: &mut Ui) {
    ui.add_space(10.0);
    ui.weak(RichText::new(CAUTION).small());
}

/// A line that keeps its height.
fn show_line(ui: &mut Ui, words: RichText) {
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    show_within(ui, place, words);
}

fn show_within(ui: &mut Ui, place: Rect, words: RichText) {
    let layout = UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center));
    ui.scope_builder(layout, |ui| ui.add(Label::new(words).truncate()));
}

/// What is said under a name, in its place.
fn show_row(ui: &mut Ui, place: Rect, name: &str, value: &str) {
    let middle = place.left() + NAMES;
    show_within(
        ui,
        Rect::from_min_max(place.min, pos2(middle - 6.0, place.bottom())),
        RichText::new(name).weak(),
    );
    show_within(ui, Rect::from_min_max(pos2(middle, place.top()), place.max), RichText::new(value));
}

/// The same on two lines; what is longer than that is cut.
fn show_long_row(ui: &mut Ui, place: Rect, (name, words): (&str, RichText)) {
    let middle = place.left() + NAMES;
    show_within(ui, place.with_max_x(middle - 6.0), RichText::new(name).weak());
    let place = place.with_min_x(middle);
    let text = egui::WidgetText::from(words);
    let job = text.into_layout_job(ui.style(), egui::FontSelection::Default, Align::Center);
    let mut job = (*job).clone();
    job.wrap = egui::text::TextWrapping { max_width: place.width(), max_rows: 2, ..Default::default() };
    // Laid out beforehand: in a row it would not be parted into lines.
    let galley = ui.painter().layout_job(job);
    // A child of its own: nothing under it moves, however much there is to say.
    let layout = UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center));
    ui.new_child(layout).add(Label::new(galley));
}

/// The body at eye level, as large as its place.
fn show_body(ui: &mut Ui, desk: &Desk, tall: f32, asks: &mut Vec<Ask>) {
    ui.add_space(2.0);
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), tall), Sense::hover());
    show_eye_level(ui, desk, place, asks);
    ui.add_space(2.0);
}

/// For one who is redrawn: the way back to the figure as it is named.
fn show_back(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let span = desk.span_here();
    let redrawn = span.and_then(|span| {
        let figure = desk.dance().figures.get(span.figure)?;
        let place = span.place(dancer);
        (figure.named.is_some() && figure.part(place).is_some()).then_some((span.figure, place, &figure.name))
    });
    let button = ui.add_enabled(redrawn.is_some(), egui::Button::new("As named"));
    let hint = redrawn.map_or_else(String::new, |(_, _, name)| {
        format!("{dancer} is redrawn here. Back to the named figure: as {name} has it")
    });
    let button = button.on_hover_text(hint);
    let button = button.on_disabled_hover_text("Back to the named figure, for a dancer who is redrawn in it");
    if let Some((figure, place, _)) = redrawn.filter(|_| button.clicked()) {
        asks.push(Ask::Draw(DrawAsk::RestoreNamed { figure, place }));
    }
}

/// The number and the name, which can be typed over. Every letter reaches the desk, so that nothing typed is lost.
fn show_name(ui: &mut Ui, desk: &Desk, number: Number, wide: f32, asks: &mut Vec<Ask>) {
    let mut text = desk.dance().person(number).unwrap_or_default().to_owned();
    ui.label(RichText::new(number.to_string()).heading().strong());
    let edit = egui::TextEdit::singleline(&mut text)
        .id(egui::Id::unique(("name", number)))
        .font(egui::TextStyle::Heading)
        .hint_text("name this dancer")
        .char_limit(200)
        .frame(egui::Frame::NONE)
        .desired_width(wide);
    let response = ui.add(edit).on_hover_text("Who dances this number; click to type");
    if response.changed() {
        asks.push(Ask::Order(OrderAsk::NamePerson(number, text)));
    }
}
