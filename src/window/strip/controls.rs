//! What stands at the left of the bars: play, where we are, how fast, the loop, and which rows have no room.

use super::{show_parts, without_room};
use crate::desk::{Ask, Desk, PlayAsk};
use crate::motion::Span;
use crate::window::theme::colour;
use egui::{Align2, FontId, Id, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

/// Play, where we are, and how fast.
pub fn show_controls(ui: &mut Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    let centre = rect.left_top() + vec2(44.0, 52.0);
    let button = Rect::from_center_size(centre, vec2(46.0, 46.0));
    let response = ui.interact(button, Id::unique("play"), Sense::click());
    let playing = desk.player().playing;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, if playing { "Stop" } else { "Play" }));
    if response.clicked() {
        asks.push(Ask::Play(PlayAsk::Toggle));
    }
    let painter = ui.painter().clone();
    let (words, ground) = (colour(desk.ink().words), colour(desk.ink().panel));
    let radius = if response.hovered() || response.has_focus() { 23.0 } else { 21.5 };
    painter.circle_filled(centre, radius, words);
    if playing {
        painter.rect_filled(Rect::from_center_size(centre, vec2(15.0, 15.0)), 1.0, ground);
    } else {
        let arrow = vec![centre + vec2(-6.0, -10.0), centre + vec2(11.0, 0.0), centre + vec2(-6.0, 10.0)];
        painter.add(Shape::convex_polygon(arrow, ground, Stroke::NONE));
    }
    response.on_hover_text(if playing { "Stop (Space)" } else { "Play (Space)" });
    let span = desk.span_here();
    let moment = desk.motion().moment_in_figure(desk.player().count);
    let at = centre + vec2(34.0, -10.0);
    let over = desk.player().count >= desk.motion().counts() - 1e-6 && desk.player().count > 0.0;
    let counting_in = desk.player().counting_in.filter(|_| desk.player().playing);
    let said = match counting_in {
        Some(left) => format!("{:.0}", left.ceil()),
        None if over => "end".to_owned(),
        None => format!("bar {moment}"),
    };
    painter.text(at, Align2::LEFT_CENTER, said, FontId::proportional(19.0), words);
    let quiet = colour(desk.ink().quiet);
    let (speed, tempo) = (desk.clock().speed(desk.player().count), desk.player().tempo);
    let share = if (tempo - 1.0).abs() < 1e-6 { String::new() } else { format!(", {:.0} %", tempo * 100.0) };
    let said = match counting_in {
        Some(_) => "counting in".to_owned(),
        None => format!("{:.0} a minute{share}", speed * tempo),
    };
    let place =
        painter.text(centre + vec2(34.0, 12.0), Align2::LEFT_CENTER, said, FontId::proportional(12.5), quiet);
    let spoken = ui.interact(place, Id::unique("how fast"), Sense::hover());
    spoken.widget_info(|| WidgetInfo::labeled(Role::Label, true, "Strong beats a minute"));
    let how = format!(
        "{:.0} strong beats a minute: {:.0} % of the dance's {speed:.0}",
        speed * tempo,
        tempo * 100.0
    );
    spoken.on_hover_text(how);
    show_no_room(ui, desk, rect, asks);
    let below = Rect::from_min_max(pos2(rect.left() + 18.0, rect.top() + 88.0), rect.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        let mut percent = desk.player().tempo * 100.0;
        ui.spacing_mut().slider_width = 96.0;
        let slider = ui
            .add(egui::Slider::new(&mut percent, 30.0..=130.0).step_by(5.0).show_value(false).text("speed"));
        if slider.changed() {
            asks.push(Ask::Play(PlayAsk::Tempo(percent / 100.0)));
        }
        slider.on_hover_text(
            "How fast it is played here, 30 to 130 % of the dance's own speed, which stays as it is (- and +)",
        );
        let mut looping = desk.player().looping;
        let name = loop_words(desk, span);
        if ui.checkbox(&mut looping, name).on_hover_text(loop_hint(desk)).changed() {
            asks.push(Ask::Play(PlayAsk::ToggleLoop));
        }
    });
}

/// The rows that there is no room for, in a menu over the controls: none goes without a word.
fn show_no_room(ui: &mut Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    let without = without_room(desk, ui.ctx().content_rect().height());
    let names: Vec<&str> = [
        ("tune", without.tune),
        ("hands", without.hands),
        ("path", without.path),
        ("turn", without.turn),
        ("taps", without.taps),
        ("feet", without.feet),
    ]
    .into_iter()
    .filter_map(|(name, is_without)| is_without.then_some(name))
    .collect();
    if names.is_empty() {
        return;
    }
    let rows = if names.len() == 1 { "row" } else { "rows" };
    let place = Rect::from_min_size(rect.min + vec2(14.0, 7.0), vec2((rect.width() - 20.0).max(60.0), 20.0));
    ui.scope_builder(egui::UiBuilder::new().max_rect(place), |ui| {
        ui.spacing_mut().button_padding = vec2(4.0, 0.0);
        let words = egui::RichText::new(format!("no room for {} {rows}…", names.len())).small().weak();
        let button = egui::Button::new(words).frame_when_inactive(false);
        let (response, _) = egui::containers::menu::MenuButton::from_button(button).ui(ui, |ui| {
            show_parts(ui, desk, asks);
        });
        response.on_hover_text(format!(
            "There is no room for: {}. Drag the upper edge of the bars higher, or put another row away",
            names.join(", ")
        ));
    });
}

/// What the loop is, or what it would be: the figure, where nothing is looped. Bars are the figure's own, as on the clock.
fn loop_words(desk: &Desk, span: Option<&Span>) -> String {
    let Some((from, to)) = loop_known(desk) else { return "loop this figure".to_owned() };
    let last = (to - 1e-3).max(from);
    match span.filter(|span| span.begin() <= from + 1e-6 && to <= span.end() + 1e-6) {
        Some(span) => match (span.moment(from).bar, span.moment(last).bar) {
            (first, last) if first >= last => format!("loop bar {first}"),
            (first, last) => format!("loop bars {first} to {last}"),
        },
        None => {
            let spans = desk.motion().spans();
            let many = spans.iter().filter(|span| span.begin() < last && from < span.end() - 1e-6).count();
            if many == 1 { "loop another figure".to_owned() } else { format!("loop over {many} figures") }
        }
    }
}

/// From where to where the loop goes, counts; nothing where none is known that holds what is seen.
fn loop_known(desk: &Desk) -> Option<(f64, f64)> {
    let player = desk.player();
    // A loop that was put aside comes back where it holds what is seen.
    let comes = |(from, to): &(f64, f64)| player.looping || (*from..*to).contains(&player.count);
    player.loop_counts.filter(comes)
}

/// The loop, whole: with the figures that it begins and ends in.
fn loop_hint(desk: &Desk) -> String {
    let ends = loop_known(desk).map_or_else(String::new, |(from, to)| {
        format!("\nFrom {} to {}", desk.moment_words(from), desk.moment_words((to - 1.0).max(from)))
    });
    format!("Loop (L); [ and ] set its ends{ends}")
}
