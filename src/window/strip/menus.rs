//! What can be done with what is on the bars: the menus of a right click, or of the menu key.

use crate::dance::{Dancer, Metre};
use crate::desk::{AboutAsk, Ask, Desk, DrawAsk, PlayAsk};
use crate::motion::Span;
use crate::window::{context_menu::item, fields::show_phrase, strike_menu};
use crate::words::{fall_words, hands_words, step_said};
use egui::Ui;

/// The figure that was clicked: while it plays the playhead goes on to others.
fn span_at(desk: &Desk, count: f64) -> Option<&Span> {
    desk.motion().span_under(count)
}

/// What can be done with a bar, and with the path of the chosen dancer at a count in it.
pub fn show_bar(ui: &mut Ui, desk: &Desk, count: f64, asks: &mut Vec<Ask>) {
    let span = span_at(desk, count);
    let bars = desk.motion().bar_counts();
    let bar = bars.begin_of(bars.at(count + 1e-9).0.min(bars.bars().saturating_sub(1)));
    let moment = |count: f64| span.map_or_else(|| desk.motion().moment(count), |span| span.moment(count));
    ui.weak(format!("Bar {}", moment(bar).bar));
    let mut play = |ui: &mut Ui, name: &str, hint: &str, ask: PlayAsk| {
        if item(ui, true, name, hint) {
            asks.push(Ask::Play(ask));
        }
    };
    play(ui, "Go to its start", "", PlayAsk::Seek(bar));
    ui.separator();
    play(ui, "Loop this bar", "L loops on or off", PlayAsk::LoopBar(bar));
    play(ui, "Loop from here", "From this bar ([ at the playhead)", PlayAsk::LoopFromAt(bar));
    play(ui, "Loop to here", "To the end of this bar (] at the playhead)", PlayAsk::LoopToAt(bar));
    if let Some(span) = span {
        show_metre(ui, desk, span, moment(bar).bar, asks);
    }
    ui.separator();
    if let Some((index, span)) = desk.motion().span_at(count).zip(span) {
        strike_menu::show_bare(ui, desk, (index, span), count, asks);
        ui.separator();
    }
    let leg = desk.chosen().and_then(|dancer| Some((dancer, leg_under_way(span?, dancer, count)?)));
    let at = moment(count);
    let go = Ask::Play(PlayAsk::Seek(count));
    let hint = match leg {
        Some((dancer, _)) => format!("In the path of {dancer} at {at}, to drag"),
        None => "Where the chosen dancer is on the way".to_owned(),
    };
    if item(ui, leg.is_some(), &format!("Put a point in at {at}"), &hint)
        && let Some((dancer, _)) = leg
    {
        asks.extend([go.clone(), Ask::Draw(DrawAsk::InsertPoint(dancer))]);
    }
    let hint = "Two paths, the first of which ends then";
    if item(ui, leg.is_some(), &format!("Split the path at {at}"), hint)
        && let Some((dancer, _)) = leg
    {
        asks.extend([go, Ask::Draw(DrawAsk::SplitLeg(dancer))]);
    }
}

/// The metre of a bar, from 1, of a figure.
fn show_metre(ui: &mut Ui, desk: &Desk, span: &Span, bar: u32, asks: &mut Vec<Ask>) {
    let Some(figure) = desk.dance().figures.get(span.figure) else { return };
    let usual = desk.dance().metre_of(figure);
    let own = figure.metres.get(&bar).copied();
    let said = own.map_or_else(|| format!("Metre: {usual}"), |own| format!("Metre: {own}, of its own"));
    ui.menu_button(said, |ui| {
        let others = Metre::ALL.into_iter().filter(|metre| *metre != usual).map(Some);
        for metre in std::iter::once(None).chain(others) {
            let name = metre.map_or_else(|| format!("As the tune, {usual}"), |metre| metre.to_string());
            if ui.selectable_label(own == metre, name).clicked() {
                asks.push(Ask::About(AboutAsk::SetBarMetre(span.figure, bar, metre)));
                ui.close();
            }
        }
    })
    .response
    .on_hover_text("A bar of three strong beats has six counts; what is danced after it comes as much later");
}

/// The leg of a dancer that is under way at a count from the start of the dance.
fn leg_under_way(span: &Span, dancer: Dancer, count: f64) -> Option<usize> {
    let local = count - span.begin();
    span.part(dancer)?.legs.iter().position(|leg| leg.begin + 1e-6 < local && local < leg.end - 1e-6)
}

/// What there is to say of a step and of the hands on it, and the phrase of the figure.
pub fn show_step(ui: &mut Ui, desk: &Desk, dancer: Dancer, count: f64, asks: &mut Vec<Ask>) {
    let Some(span) = span_at(desk, count) else { return };
    let local = count - span.begin();
    let said = [
        step_said(desk.motion(), span, dancer, local).map(|step| step.words),
        fall_words(desk.motion(), span, dancer, local),
        hands_words(span, dancer, local.floor()),
    ];
    for words in said.into_iter().flatten() {
        ui.weak(words);
        ui.add_space(2.0);
    }
    if item(ui, true, "Go there", "") {
        asks.push(Ask::Play(PlayAsk::Seek(span.begin() + local.floor())));
    }
    ui.separator();
    if let Some(figure) = desk.dance().figures.get(span.figure) {
        ui.set_max_width(300.0);
        ui.label(format!("{} is danced to", figure.name));
        show_phrase(ui, desk, (span.figure, figure), "menu", asks);
    }
}
