use super::shape::{foot, row};
use super::tune_tab::{TuneFields, show_tune};
use crate::dance::{Dance, Dancer, Grip, Holding, limits};
use crate::desk::{AboutAsk, Ask, Desk, OrderAsk, ViewAsk};
use crate::edits::is_once_to_yourself;
use crate::window::fields::{NumberField, NumberKind, go_to_wrong};
use egui::{Grid, Response, TextEdit, Ui};

/// What the dialog about the whole dance holds beside what the dance itself says.
pub struct ThisDanceFields {
    tab: Tab,
    tune: TuneFields,
    /// Whether a field has been given the focus.
    focused: bool,
}

/// What the dialog shows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tab {
    Dance,
    Tune,
    People,
}

impl ThisDanceFields {
    /// Shows what the dance says, or the tunes that were read for it from a text.
    #[must_use]
    pub fn new(read: Option<&str>, dance: &Dance) -> Self {
        let tune = TuneFields::new(read, &dance.music.abc);
        Self { tab: if read.is_some() { Tab::Tune } else { Tab::Dance }, tune, focused: false }
    }
}

/// Shows all that is said of the dance as a whole. Every letter reaches the desk, and can be undone.
pub fn show_this_dance(ui: &mut Ui, desk: &Desk, fields: &mut ThisDanceFields, asks: &mut Vec<Ask>) {
    let mut chosen = None;
    row(ui, |ui| {
        ui.heading("This dance");
        ui.add_space(16.0);
        for (tab, name, said) in [
            (Tab::Dance, "About", "Title, side, tradition, who wrote it down, notes, what is held"),
            (Tab::Tune, "Tune", "The tune, its metre and speed, its strains"),
            (Tab::People, "People", "Who dances which number"),
        ] {
            let shown = ui.selectable_label(fields.tab == tab, name).on_hover_text(said);
            if shown.clicked() {
                chosen = Some(tab);
            }
        }
    });
    ui.add_space(8.0);
    match fields.tab {
        Tab::Dance => show_about(ui, desk, &mut fields.focused, asks),
        Tab::Tune => show_tune(ui, desk, &mut fields.tune, asks),
        Tab::People => show_people(ui, desk, asks),
    }
    // What is wrong on a page is not left behind.
    if let Some(tab) = chosen.filter(|_| !go_to_wrong(ui.ctx())) {
        fields.tab = tab;
    }
    foot(ui, |ui| {
        if ui.button("Done").clicked() && !go_to_wrong(ui.ctx()) {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
        if let Some(said) = desk.notice() {
            let text = egui::RichText::new(said).small().color(ui.visuals().error_fg_color);
            ui.add(egui::Label::new(text).truncate()).on_hover_text(said);
        }
    });
}

fn show_about(ui: &mut Ui, desk: &Desk, focused: &mut bool, asks: &mut Vec<Ask>) {
    let dance = desk.dance();
    Grid::new("about the dance").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
        let title = field(ui, "Title", &dance.title, "What the dance is called", asks, AboutAsk::SetTitle);
        if !std::mem::replace(focused, true) {
            title.request_focus();
        }
        field(ui, "Side", &dance.side, "The side that dances it", asks, AboutAsk::SetSide);
        let hint = "The tradition that it is danced in, or the village it comes from";
        field(ui, "Tradition", &dance.tradition, hint, asks, AboutAsk::SetTradition);
        field(
            ui,
            "Written down by",
            &dance.author,
            "Who made it or wrote it down",
            asks,
            AboutAsk::SetAuthor,
        );
        ui.label("In the hands");
        row(ui, |ui| {
            for (holding, name) in [
                (Holding::Handkerchiefs, "handkerchiefs"),
                (Holding::Sticks, "sticks"),
                (Holding::Nothing, "nothing"),
            ] {
                let chosen = dance.holding == holding;
                let hint = "What everyone holds: it is drawn, and decides how much room arms take";
                if ui.selectable_label(chosen, name).on_hover_text(hint).clicked() && !chosen {
                    asks.push(Ask::About(AboutAsk::SetHolding(holding)));
                }
            }
        });
        ui.end_row();
        ui.label("Sticks held");
        row(ui, |ui| {
            // It keeps its place where nobody has a stick, and cannot be chosen.
            ui.add_enabled_ui(dance.holding == Holding::Sticks, |ui| {
                for (grip, name) in [(Grip::Middle, "by the middle"), (Grip::End, "by one end")] {
                    let chosen = dance.grip == grip;
                    let hint = "By one end, like a pen, that end is the butt, and its tip reaches farther";
                    if ui.selectable_label(chosen, name).on_hover_text(hint).clicked() && !chosen {
                        asks.push(Ask::About(AboutAsk::SetGrip(grip)));
                    }
                }
            });
        });
        ui.end_row();
        let label = ui.label("How tall");
        let [least, most] = limits::HEIGHTS;
        let kind = NumberKind { least, most, places: 2, unit: "m" };
        let hint = "How tall the dancers are: hands over the head and sticks near it are as high";
        let answer = NumberField::new(dance.height, kind, 0.01).hint(hint).refused(desk.notice()).show(ui);
        answer.response.labelled_by(label.id);
        if let Some(height) = answer.changed {
            asks.push(Ask::About(AboutAsk::SetHeight(height)));
        }
        ui.end_row();
        ui.label("");
        let mut once = is_once_to_yourself(dance);
        let hint = "The music plays a strain before the dancing; all stand, and jump on its last half-bar";
        if ui.checkbox(&mut once, "Once to yourself").on_hover_text(hint).changed() {
            asks.push(Ask::About(AboutAsk::SetOnceToYourself(once)));
        }
        ui.end_row();
        let label = ui.label("Notes");
        let mut notes = dance.notes.clone();
        let edit = TextEdit::multiline(&mut notes).desired_rows(9).desired_width(560.0);
        let edit = ui.add(edit).labelled_by(label.id);
        if edit.on_hover_text("The side's own notes on the dance; Enter begins a line").changed() {
            asks.push(Ask::About(AboutAsk::SetNotes(notes)));
        }
        ui.end_row();
    });
}

/// A line of text of the dance.
fn field(
    ui: &mut Ui,
    name: &str,
    text: &str,
    hint: &str,
    asks: &mut Vec<Ask>,
    ask: fn(String) -> AboutAsk,
) -> Response {
    let label = ui.label(name);
    let mut text = text.to_owned();
    let edit = ui.add(TextEdit::singleline(&mut text).desired_width(560.0)).labelled_by(label.id);
    let edit = edit.on_hover_text(hint);
    if edit.changed() {
        asks.push(Ask::About(ask(text)));
    }
    ui.end_row();
    edit
}

/// How wide a field for a name is, points.
const NAME: f32 = 230.0;

fn show_people(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.weak("Who dances which number, and who holds the stick in the left hand; handouts say the name beside the number.");
    let sticks = desk.dance().holding == Holding::Sticks;
    ui.add_space(6.0);
    Grid::new("people").num_columns(6).spacing([12.0, 6.0]).show(ui, |ui| {
        for dancer in Dancer::all(desk.motion().dancers()) {
            let number = dancer.number();
            ui.label(number.to_string());
            let mut name = desk.dance().person(number).unwrap_or_default().to_owned();
            // A grid would leave those of its first columns less at first, and for good.
            let edit = TextEdit::singleline(&mut name).char_limit(200).desired_width(NAME);
            let edit = ui.add(edit.min_size(egui::vec2(NAME, 0.0)));
            let said = format!("Who dances number {number}");
            // The number beside it would be all its name otherwise.
            ui.ctx().accesskit_node_builder(edit.id, |node| node.set_label(said.clone()));
            if edit.on_hover_text(said).changed() {
                asks.push(Ask::Order(OrderAsk::NamePerson(number, name)));
            }
            let mut left = desk.dance().stick_hand(number) == 0;
            let said = format!("Number {number} has the stick in the left hand");
            let check = ui.add_enabled(sticks, egui::Checkbox::new(&mut left, "left hand"));
            ui.ctx().accesskit_node_builder(check.id, |node| node.set_label(said.clone()));
            let check =
                check.on_disabled_hover_text("Only where sticks are held: see In the hands, under About");
            if check.on_hover_text(said).changed() {
                asks.push(Ask::Order(OrderAsk::SetHand(number, left)));
            }
            if dancer.index() % 2 == 1 {
                ui.end_row();
            }
        }
    });
}
