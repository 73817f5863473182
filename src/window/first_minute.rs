use super::{paint::words_within, theme::colour, views::views_stand_aside, what_if};
use crate::dance::Dancer;
use crate::desk::{Ask, Desk, FileAsk, KeepAsk, SAMPLES};
use egui::{Align2, Area, Frame, Id, Rect, RichText, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

/// Shows what helps in the first minute: a card beside the sample dance, or what to do first where nothing is danced.
///
/// `views` is where the row of views ends.
pub fn show(ui: &Ui, desk: &Desk, floor: Rect, views: f32, asks: &mut Vec<Ask>) {
    if desk.question().is_some() {
        return;
    }
    show_hint(ui, desk, floor, views);
    if let Some(said) = what_first(desk) {
        show_sentence(ui, desk, floor, said);
    } else if desk.welcomes() && !what_if::is_shown(desk) {
        show_card(ui, desk, floor, asks);
    }
}

/// What a drag of the dancer under the pointer does, beside the row of views: a hint at the pointer would lie over the
/// other dancers.
fn show_hint(ui: &Ui, desk: &Desk, floor: Rect, views: f32) {
    let room = floor.right() - views - 12.0;
    if desk.held().is_some() || desk.player().playing || room < 150.0 || views_stand_aside(floor) {
        return;
    }
    let is_under = |dancer: &Dancer| {
        ui.ctx()
            .read_response(Id::unique(("dancer", dancer.index())))
            .is_some_and(|response| response.hovered())
    };
    let Some(dancer) = Dancer::all(desk.motion().dancers()).find(is_under) else { return };
    let said = format!("Drag {dancer} to where they are at this count");
    let at = pos2(floor.right() - room, floor.bottom() - 20.0);
    let painter = ui.painter_at(floor);
    let back = Rect::from_min_max(at - vec2(6.0, 12.0), floor.max - vec2(4.0, 8.0));
    painter.rect_filled(back, 6.0, colour(desk.ink().floor.faded(225)));
    words_within(&painter, at, room - 10.0, &said, 12.5, colour(desk.ink().quiet));
}

/// What to do first, where nobody moves yet.
fn what_first(desk: &Desk) -> Option<&'static str> {
    if desk.held().is_some() || desk.player().playing {
        return None;
    }
    if desk.motion().spans().is_empty() {
        return Some("No figure is danced yet. Put one in from the shelf, at the left, and everybody moves.");
    }
    // Who taps on the spot is about it already.
    let bare = desk
        .dance()
        .figures
        .iter()
        .all(|figure| figure.named.is_none() && figure.parts.is_empty() && figure.strikes.is_empty());
    bare.then_some(
        "Nobody moves yet. Press Right to go on some counts, then drag a dancer to where they should be by then; \
         or put a figure in from the shelf, at the left.",
    )
}

fn show_sentence(ui: &Ui, desk: &Desk, floor: Rect, said: &str) {
    let width = (floor.width() - 80.0).clamp(120.0, 430.0);
    let ink = colour(desk.ink().words);
    let galley = ui.painter().layout(said.to_owned(), egui::FontId::proportional(15.0), ink, width);
    let at = pos2(floor.center().x, floor.bottom() - 92.0 - galley.size().y / 2.0);
    let back = Align2::CENTER_CENTER.anchor_size(at, galley.size()).expand2(vec2(12.0, 8.0));
    let back = clear_of_dancers(ui, desk, floor, back);
    let painter = ui.painter_at(floor);
    painter.rect(
        back,
        8.0,
        colour(desk.ink().panel),
        Stroke::new(1.0, colour(desk.ink().faint)),
        egui::StrokeKind::Inside,
    );
    painter.galley(back.shrink2(vec2(12.0, 8.0)).min, galley, ink);
    let spoken = ui.interact(back, Id::unique("what first"), Sense::hover());
    spoken.widget_info(|| WidgetInfo::labeled(Role::Label, true, said));
}

/// The lowest place for words on the floor at which they lie over no dancer; where they are if there is none.
fn clear_of_dancers(ui: &Ui, desk: &Desk, floor: Rect, words: Rect) -> Rect {
    let bodies: Vec<Rect> = Dancer::all(desk.motion().dancers())
        .filter_map(|index| ui.ctx().read_response(Id::unique(("dancer", index))))
        .map(|response| response.rect.expand(response.rect.width() * 0.45))
        .collect();
    let higher = (0..).map(|step| words.translate(vec2(0.0, -6.0 * step as f32)));
    let mut on_floor = higher.take_while(|place| place.top() > floor.top() + 60.0);
    let clear = |place: &Rect| bodies.iter().all(|body| !body.intersects(*place));
    on_floor.find(clear).unwrap_or(words)
}

/// The card of the first minute, at the side of the floor or low down on a narrow one, so that the dancers stay in
/// sight.
fn show_card(ui: &Ui, desk: &Desk, floor: Rect, asks: &mut Vec<Ask>) {
    let wide = floor.width() > 560.0;
    let frame = Frame::new()
        .fill(colour(desk.ink().panel))
        .stroke(Stroke::new(1.0, colour(desk.ink().faint)))
        .corner_radius(8)
        .inner_margin(if wide { 10 } else { 6 });
    let area = Area::new(Id::unique("first minute"))
        .pivot(Align2::LEFT_BOTTOM)
        .fixed_pos(pos2(floor.left() + 12.0, floor.bottom() - 40.0))
        .order(egui::Order::Middle);
    area.show(ui.ctx(), |ui| {
        frame.show(ui, |ui| {
            if wide {
                ui.set_width(196.0);
                ui.label(RichText::new("A dance to try things on").strong());
                let drag = "Drag a dancer: they are there at this count, and their path bends to go there. \
                            Space plays; Ctrl+Z undoes.";
                ui.label(RichText::new(drag).small());
                ui.add_space(4.0);
                ui.horizontal_wrapped(|ui| show_ways_on(ui, ["New dance…", "Open a file…"], asks));
                ui.add_space(2.0);
                ui.horizontal(|ui| show_away(ui, asks));
            } else {
                ui.set_width((floor.width() - 40.0).clamp(100.0, 420.0));
                ui.label(RichText::new("A dance to try things on: drag a dancer, or press Space.").small());
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().button_padding = vec2(6.0, 2.0);
                    show_ways_on(ui, ["New…", "Open…"], asks);
                    show_away(ui, asks);
                });
            }
        });
    });
}

/// What else to begin with.
fn show_ways_on(ui: &mut Ui, [new, open]: [&str; 2], asks: &mut Vec<Ask>) {
    let samples = ui.menu_button(RichText::new("Samples").small(), |ui| {
        for (index, (name, _)) in SAMPLES.iter().enumerate() {
            if ui.button(*name).clicked() {
                asks.push(Ask::File(FileAsk::OpenSample(index)));
                ui.close();
            }
        }
    });
    samples.response.on_hover_text("Dances that come with Bellpad");
    if ui.button(RichText::new(new).small()).clicked() {
        asks.push(Ask::File(FileAsk::AskNew));
    }
    if ui.button(RichText::new(open).small()).clicked() {
        asks.push(Ask::File(FileAsk::AskOpen));
    }
}

fn show_away(ui: &mut Ui, asks: &mut Vec<Ask>) {
    for (words, hint, for_good) in [
        ("Put away", "It comes again the next time", false),
        ("Not again", "Put this card away for good", true),
    ] {
        let button = egui::Button::new(RichText::new(words).small()).frame_when_inactive(false);
        if ui.add(button).on_hover_text(hint).clicked() {
            asks.push(Ask::Keep(KeepAsk::ShutWelcome(for_good)));
        }
    }
}
