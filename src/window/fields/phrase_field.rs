use super::{
    entry::{Ending, ending, escape, line_with_escape, show_wrong},
    offers::{self, Name},
    step_words::{begun_name, in_letters, in_words},
    wrong::Wrong,
};
use crate::dance::{Dancer, Figure};
use crate::desk::{Ask, Desk, OrderAsk, StepAsk};
use crate::motion::{fill_phrase, known_steps};
use crate::window::paint::choose_text;
use egui::{Id, Ui};

/// A phrase as it is typed.
#[derive(Clone)]
struct Draft {
    text: String,
    /// What the figure had before any of it was typed.
    before: String,
    /// What the figure has by it: where that is something else since, the draft is stale.
    of: String,
    /// Whether what is unfinished is to be told as well: somebody was done with it.
    told: bool,
}

impl Draft {
    /// Has the figure have a phrase.
    fn have(&mut self, figure: usize, phrase: String, asks: &mut Vec<Ask>) {
        if self.of != phrase {
            self.of.clone_from(&phrase);
            asks.push(Ask::Order(OrderAsk::SetPhrase(figure, phrase)));
        }
    }
}

/// The stepping, to write as people write it. What can be danced is danced as it is typed; what cannot is told, and stays
/// to be put right, while the figure has what it had before: half a phrase is nothing to keep. Escape gives that back too.
///
/// `place` tells the field of one part of the window from that of another: they are of the same figure, but not the same field.
pub fn show_phrase(
    ui: &mut Ui,
    desk: &Desk,
    (index, figure): (usize, &Figure),
    place: &str,
    asks: &mut Vec<Ask>,
) {
    let name = Id::unique(("stepping", place, desk.dance().title.as_str(), figure.id.as_str()));
    let draft: Option<Draft> = ui.data(|data| data.get_temp(name));
    let mut draft = draft.filter(|draft| draft.of == figure.phrase).unwrap_or_else(|| Draft {
        text: figure.phrase.clone(),
        before: figure.phrase.clone(),
        of: figure.phrase.clone(),
        told: false,
    });
    // Of the figure that the field is of: while it plays another may be at the playhead.
    let usual = desk.motion().spans().iter().find(|span| span.figure == index);
    let usual = usual.map_or_else(String::new, |span| span.plan().phrase.clone());
    ui.add_space(4.0);
    let label = ui
        .horizontal(|ui| {
            let label = ui.weak("stepping").on_hover_text(TAKES);
            if ui
                .small_button("steps…")
                .on_hover_text("The side's steps and the built-in ones, seen and made")
                .clicked()
            {
                asks.push(Ask::Step(StepAsk::Show(step_here(desk, index))));
            }
            label
        })
        .inner;
    let id = name.with("field");
    let take = offers::take_keys(ui, id);
    let edit =
        line_with_escape(&mut draft.text).id(id).hint_text(usual.as_str()).desired_width(f32::INFINITY);
    let mut field = edit.show(ui);
    let names = step_names(desk);
    let offer = offers::show(ui, &field, &draft.text, &names, take);
    if let Some((text, cursor)) = offer {
        draft.text = text;
        field.response.response.mark_changed();
        field.response.response.request_focus();
        choose_text(ui, id, cursor, cursor);
    }
    let mut response = field.response.response.clone().labelled_by(label.id);
    if draft.text == figure.phrase {
        // While it is written, offers and what is wrong stand there.
        response = response.on_hover_text(TAKES);
    }
    // Whoever writes a step's whole name means its letters.
    let meant = in_letters(&draft.text, &names);
    let wrong = what_is_wrong(&meant, desk, figure).map(|wrong| {
        let begun = begun_name(&draft.text, draft.text.chars().count(), &names).is_some();
        let place = wrong.place.filter(|_| meant == draft.text);
        Wrong { place, unfinished: wrong.unfinished || begun, ..wrong }
    });
    if response.changed() {
        draft.told = false;
        let text = match &wrong {
            Some(_) => draft.before.clone(),
            None if draft.text.trim().is_empty() => String::new(),
            None => meant.clone(),
        };
        draft.have(index, text, asks);
    }
    // While it is written, what there was before is not forgotten.
    let mut over = wrong.is_none() && !response.has_focus();
    match ending(ui, &response) {
        Some(Ending::Enter) if wrong.is_none() => {
            response.surrender_focus();
            over = true;
        }
        Some(Ending::Enter) => {
            draft.told = true;
            response.scroll_to_me(None);
            // What is typed next takes the place of the word that is wrong.
            if let Some(place) = wrong.as_ref().and_then(|wrong| wrong.place.clone()) {
                choose_text(ui, response.id, place.start, place.end);
            }
        }
        Some(Ending::Escape) => {
            escape(ui, &response);
            draft.have(index, draft.before.clone(), asks);
            over = true;
        }
        Some(Ending::Left) => draft.told = true,
        None => {}
    }
    show_meaning(ui, &in_words(if meant.trim().is_empty() { &usual } else { &meant }, &names));
    if let Some(wrong) = wrong.filter(|wrong| !over && (draft.told || !wrong.unfinished)) {
        show_wrong(ui, &field, &wrong);
    }
    ui.data_mut(|data| {
        if over {
            data.remove::<Draft>(name);
        } else {
            data.insert_temp(name, draft);
        }
    });
}

/// The letters of the step that the chosen dancer is in, or of the first one of a figure.
fn step_here(desk: &Desk, figure: usize) -> Option<String> {
    let motion = desk.motion();
    let here = desk.span_here().filter(|span| span.figure == figure);
    let span = here.or_else(|| motion.spans().iter().find(|span| span.figure == figure))?;
    let falls = span.falls(desk.chosen().unwrap_or(Dancer(0)));
    let at = here.map_or(0.0, |span| desk.player().count - span.begin());
    let fall = falls.get(at.max(0.0) as usize).or(falls.last())?;
    motion.known().get(fall.step).map(|step| step.short.clone())
}

/// What the phrase means, in two lines that keep their place: cut where it is too long, and whole under the pointer.
fn show_meaning(ui: &mut Ui, words: &str) {
    let (place, response) =
        ui.allocate_exact_size(egui::vec2(ui.available_width(), 32.0), egui::Sense::hover());
    let (font, ink) = (egui::TextStyle::Small.resolve(ui.style()), ui.visuals().weak_text_color());
    let mut job = egui::text::LayoutJob::simple(words.to_owned(), font, ink, place.width());
    job.wrap.max_rows = 2;
    let galley = ui.painter().layout_job(job);
    let cut = galley.elided;
    ui.painter().galley(place.min, galley, ink);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, words));
    if cut {
        response.on_hover_text(words);
    }
}

/// What the field takes.
const TAKES: &str = "Such as 2 ds, 2 ss, ftj, or 2 double steps, 2 single steps. Left or right before a step chooses its foot. Empty for what the figure has";

/// What can be written in a phrase.
fn step_names(desk: &Desk) -> Vec<Name> {
    let feet =
        ["left", "right"].map(|foot| (foot.to_owned(), "the foot that the next step starts on".to_owned()));
    let steps = known_steps(&desk.dance().steps).into_iter().map(|step| (step.short, step.name));
    steps.chain(feet).map(|(short, long)| Name { short, long }).collect()
}

/// What is wrong with a phrase for a figure; nothing where it can be danced, and where it is left to the figure.
fn what_is_wrong(text: &str, desk: &Desk, figure: &Figure) -> Option<Wrong> {
    if text.trim().is_empty() {
        return None;
    }
    let known = known_steps(&desk.dance().steps);
    let error = fill_phrase(text, &known, desk.dance().bar_counts(figure).counts() as usize).err()?;
    Some(Wrong { said: error.told(), place: error.place(), unfinished: error.is_unfinished() })
}
