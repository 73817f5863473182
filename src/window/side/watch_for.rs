//! Where the figure at the playhead goes wrong first: for a dancer in a line, and for the side beside the faults.

use crate::dance::Dancer;
use crate::desk::Desk;
use crate::faults::MOST_WATCHED;
use egui::{Label, RichText, Ui};

/// What is said while it is not known yet.
const WORKED_OUT: &str = "being worked out";
/// What is said where that came to nothing.
const NOT_WORKED_OUT: &str = "it could not be worked out";
/// What is said where nothing takes little.
const NOTHING: &str = "nothing that takes little: keep to the figure";

/// What a dancer should watch for at the playhead, in a line; nothing where no figure is danced.
pub fn watch_words(desk: &Desk, dancer: Dancer) -> String {
    let Some(span) = desk.span_here() else { return String::new() };
    match desk.to_watch() {
        Some(list) => {
            let local = desk.player().count - span.begin();
            list.words_for(dancer, local).unwrap_or_else(|| nothing(desk))
        }
        None => unknown(desk),
    }
}

/// What is said where nothing takes little: faults come first, where the figure has any.
fn nothing(desk: &Desk) -> String {
    let many = desk.span().map_or(0, |span| desk.faults().in_span(span).0);
    match many {
        0 => NOTHING.to_owned(),
        1 => "a fault to mend first".to_owned(),
        many => format!("{many} faults to mend first"),
    }
}

/// Why nothing can be told yet.
fn unknown(desk: &Desk) -> String {
    if desk.motion().dancers() > MOST_WATCHED {
        return format!("not worked out for more than {MOST_WATCHED} dancers");
    }
    if desk.cannot_watch() { NOT_WORKED_OUT } else { WORKED_OUT }.to_owned()
}

/// What to watch for in the figure at the playhead: the chosen dancer's own first, then the side's.
pub fn show(ui: &mut Ui, desk: &Desk) {
    let Some(figure) = desk.span_here().and_then(|span| desk.dance().figures.get(span.figure)) else {
        return;
    };
    ui.add_space(6.0);
    ui.add(Label::new(format!("Watch for in {}", figure.name)).truncate());
    let mut lines: Vec<String> = Vec::new();
    if let Some(dancer) = desk.chosen() {
        lines.push(format!("{dancer}: {}", watch_words(desk, dancer)));
    }
    match desk.to_watch() {
        Some(list) => {
            // What is the chosen dancer's own is said.
            let own = desk.chosen().and_then(|dancer| list.for_dancer(dancer));
            let is_own = |text: &str| own.is_some_and(|own| own.text == text);
            let side = list.for_side().into_iter().map(|watched| watched.text);
            lines.extend(side.filter(|text| !is_own(text)));
        }
        None if lines.is_empty() => lines.push(unknown(desk)),
        None => {}
    }
    if lines.is_empty() {
        lines.push(nothing(desk));
    }
    for line in lines {
        ui.add(Label::new(RichText::new(line).small()).wrap());
    }
}
