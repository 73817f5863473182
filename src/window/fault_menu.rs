use super::context_menu::item;
use crate::desk::{Ask, Desk, FaultAsk};
use egui::Ui;

/// What can be done about a fault, by its place in the list.
pub fn show(ui: &mut Ui, desk: &Desk, index: usize, asks: &mut Vec<Ask>) {
    let Some(fault) = desk.faults().get(index) else { return };
    ui.weak(fault.kind.words());
    if item(ui, true, "Go there", "And see what can be done") {
        asks.push(Ask::Fault(FaultAsk::GoTo(index)));
    }
    let no_room = desk.why_no_room(index);
    let hint =
        no_room.as_deref().unwrap_or("Look for the least change that parts them, and show it as a ghost");
    if item(ui, no_room.is_none() && desk.proposed().is_none(), "Make room", hint) {
        asks.push(Ask::Fault(FaultAsk::MakeRoom(index)));
    }
    match &fault.allowed {
        None => {
            if item(ui, true, "We mean this…", "Write down why, and have it told no more") {
                asks.push(Ask::Fault(FaultAsk::AskAllow(index)));
            }
        }
        Some(reason) => {
            let figure = desk.motion().span(fault.span).map(|span| span.figure);
            let meant = figure.and_then(|figure| {
                let allow = &desk.dance().figures.get(figure)?.allow;
                let which =
                    allow.iter().position(|allow| allow.kind == fault.kind && allow.reason == *reason)?;
                Some((figure, which))
            });
            if let Some((figure, which)) = meant
                && item(ui, true, "Tell it again", &format!("The side meant it: {reason}"))
            {
                asks.push(Ask::Fault(FaultAsk::NoLongerAllow { figure, which }));
            }
        }
    }
    ui.separator();
    if item(ui, true, "Limits…", "What counts as a fault in this dance") {
        asks.push(Ask::Fault(FaultAsk::AskLimits));
    }
}
