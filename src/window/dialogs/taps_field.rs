use super::shape::foot;
use crate::dance::Dance;
use crate::desk::{Ask, StrikeAsk, TapsQuestion, ViewAsk};
use crate::window::fields::{Wrong, mark_wrong};
use crate::window::paint::choose_text;
use crate::words::read_taps;
use egui::{Button, Key, Modifiers, RichText, ScrollArea, TextEdit, Ui, WidgetInfo, vec2};

/// What can be written, a line for each of the kinds of things.
const EXAMPLES: [&str; 5] = [
    "bar 1: beat 2, odds tip on partner's butt",
    "bar 4: count 1, odds butt on partner's tip; count 3, odds tip on partner's tip",
    "bars 1 and 3: counts 1 and 3, all tip on ground, at 0.1 m",
    "bar 5: count 1, 3 tip on 5's tip, stay; 4 tip on neighbour down",
    "bar 6: count 1, all both hands together; count 2, all right hand on right knee",
];
/// How high the field is, points; however many lines there are, it goes up and down in that.
const HEIGHT: f32 = 200.0;

/// The taps and claps of a figure as they are typed.
pub struct TapsField {
    figure: usize,
    name: String,
    text: String,
    focused: bool,
    /// Whether what is unfinished is to be told as well: somebody was done with it.
    told: bool,
}

impl TapsField {
    /// A field that holds what there is.
    #[must_use]
    pub fn new(question: &TapsQuestion) -> Self {
        let (name, text) = (question.name.clone(), question.text.clone());
        Self { figure: question.figure, name, text, focused: false, told: false }
    }
}

/// Shows the field. What cannot be read is told, marked and gone to, and nothing is lost of it.
pub fn show_taps(ui: &mut Ui, field: &mut TapsField, dance: &Dance, asks: &mut Vec<Ask>) {
    ui.heading(format!("Taps and claps: {}", field.name));
    ui.add_space(4.0);
    let label = ui.weak("A line for each bar, or for several. Enter begins a line, Ctrl+Enter is done");
    ui.add_space(4.0);
    // Before the field takes it for a line.
    let entered = ui.input_mut(|input| input.consume_key(Modifiers::COMMAND, Key::Enter));
    let id = ui.scope_id().with("taps");
    let area = ScrollArea::vertical().id_salt("taps").max_height(HEIGHT).min_scrolled_height(HEIGHT);
    let read = dance
        .figures
        .get(field.figure)
        .map(|figure| read_taps(&field.text, &dance.bar_counts(figure), dance.set.dancers));
    let wrong = read.as_ref().and_then(|read| read.as_ref().err()).map(|error| Wrong {
        said: error.said.clone(),
        place: Some(error.place.clone()),
        unfinished: error.unfinished,
    });
    let shown = area.auto_shrink([false, false]).show(ui, |ui| {
        let edit = TextEdit::multiline(&mut field.text).id(id).desired_width(f32::INFINITY).desired_rows(1);
        edit.min_size(vec2(0.0, HEIGHT - 4.0)).show(ui)
    });
    let output = shown.inner;
    let response = output.response.response.clone().labelled_by(label.id);
    if response.changed() {
        field.told = false;
    }
    if !std::mem::replace(&mut field.focused, true) {
        response.request_focus();
        let end = field.text.chars().count();
        choose_text(ui, id, end, end);
    }
    ui.add_space(6.0);
    ui.weak(RichText::new("For example, and not of this figure:").small());
    for example in EXAMPLES {
        ui.weak(RichText::new(example).small());
    }
    let told = wrong.filter(|wrong| !response.changed() && (field.told || !wrong.unfinished));
    // Two lines of its own that are always there, so that nothing moves for it.
    let said = told.as_ref().map_or("", |wrong| wrong.said.as_str());
    let high = 2.0 * ui.text_style_height(&egui::TextStyle::Body) + 2.0;
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), high), egui::Sense::hover());
    let mut within = ui.new_child(egui::UiBuilder::new().max_rect(place));
    let line = within.add(egui::Label::new(RichText::new(said).color(ui.visuals().error_fg_color)).wrap());
    line.widget_info(|| WidgetInfo::labeled(egui::Role::Status, true, said));
    if let Some(wrong) = &told {
        mark_wrong(ui, &output, wrong);
    }
    foot(ui, |ui| {
        if ui.add(Button::new(RichText::new("Done").strong())).clicked() || entered {
            match &read {
                Some(Ok(strikes)) => {
                    let (figure, strikes) = (field.figure, strikes.clone());
                    asks.push(Ask::View(ViewAsk::PutAway));
                    asks.push(Ask::Strike(StrikeAsk::Write { figure, strikes }));
                }
                Some(Err(error)) => {
                    // It is put right in the field: what is typed next takes the place of the word that is wrong.
                    field.told = true;
                    response.request_focus();
                    choose_text(ui, id, error.place.start, error.place.end);
                }
                None => asks.push(Ask::View(ViewAsk::PutAway)),
            }
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}
