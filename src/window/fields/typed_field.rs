use super::entry::{Ending, ending, escape, line_with_escape, show_wrong};
use super::wrong::Wrong;
use super::wrong_entry::{is_taken_back, note_wrong};
use crate::window::paint::choose_text;
use egui::{Id, Response, Ui};

/// Something as it is typed.
#[derive(Clone)]
struct Draft<T> {
    text: String,
    /// What there was before any of it was typed.
    before: T,
    /// What there is by it: where that is something else since, the draft is stale.
    of: T,
    /// Whether what is unfinished is to be told as well: somebody was done with it.
    told: bool,
    /// The frame in which it was last seen: what is typed in a dialog that is put away is gone with it.
    seen: u64,
}

/// How something is typed.
pub struct Typed<'a, T> {
    /// What there is, and how it is written.
    pub now: T,
    pub written: String,
    /// What stands there where nothing is written, and what the field takes.
    pub hint: String,
    pub takes: &'static str,
    /// Reads it.
    pub read: &'a dyn Fn(&str) -> Result<T, Wrong>,
}

/// A field for something that is written in words of its own. What can be read is given as it is typed, where it is something else than
/// there is; what cannot be is told with its place, and stays to be put right. Escape gives back what there was.
pub fn show_typed<T: Clone + PartialEq + Send + Sync + 'static>(
    ui: &mut Ui,
    place: (Id, f32),
    typed: Typed<T>,
) -> (Response, Option<T>) {
    show(ui, place, typed, false)
}

/// The same where what is typed is given once somebody is done with it: half of it would be something else, and change what it should not.
pub fn show_typed_when_done<T: Clone + PartialEq + Send + Sync + 'static>(
    ui: &mut Ui,
    place: (Id, f32),
    typed: Typed<T>,
) -> (Response, Option<T>) {
    show(ui, place, typed, true)
}

fn show<T: Clone + PartialEq + Send + Sync + 'static>(
    ui: &mut Ui,
    (name, width): (Id, f32),
    typed: Typed<T>,
    when_done: bool,
) -> (Response, Option<T>) {
    let Typed { now, written, hint, takes, read } = typed;
    let frame = ui.ctx().cumulative_pass_nr();
    let draft: Option<Draft<T>> = ui.data(|data| data.get_temp(name));
    let is_fresh = |draft: &Draft<T>| draft.of == now && frame.saturating_sub(draft.seen) < LATELY;
    let mut draft = draft.filter(is_fresh).unwrap_or_else(|| Draft {
        text: written.clone(),
        before: now.clone(),
        of: now,
        told: false,
        seen: frame,
    });
    draft.seen = frame;
    let field = name.with("field");
    if is_undone(ui, field, || read(&draft.text).is_err()) {
        // What was refused changed nothing, so that it alone is taken back.
        draft.text = written;
        draft.told = false;
    }
    let edit = line_with_escape(&mut draft.text).id(field).hint_text(hint).char_limit(400);
    // A grid would leave it less at first, and for good.
    let least = if width.is_finite() { egui::vec2(width, 0.0) } else { egui::Vec2::ZERO };
    let field = edit.desired_width(width).min_size(least).show(ui);
    let mut response = field.response.response.clone();
    let found = read(&draft.text);
    let mut changed = None;
    if response.changed() {
        draft.told = false;
        changed = (!when_done).then(|| found.as_ref().unwrap_or(&draft.before).clone());
    } else if !response.has_focus() && found.is_ok() {
        let said =
            if draft.text.is_empty() { takes.to_owned() } else { format!("{}\n\n{takes}", draft.text) };
        response = response.on_hover_text(said);
    }
    let mut over = found.is_ok() && !response.has_focus();
    let ended = ending(ui, &response);
    match ended {
        Some(Ending::Enter) if found.is_ok() => {
            response.surrender_focus();
            // Nothing else may be painted anew, and the field would look as if it were still typed in.
            ui.ctx().request_repaint();
            over = true;
        }
        Some(Ending::Enter) => {
            draft.told = true;
            if let Some(place) = found.as_ref().err().and_then(|wrong| wrong.place.clone()) {
                choose_text(ui, response.id, place.start, place.end);
            }
        }
        Some(Ending::Escape) => {
            escape(ui, &response);
            changed = Some(draft.before.clone());
            over = true;
        }
        Some(Ending::Left) => draft.told = true,
        None => {}
    }
    if when_done && matches!(ended, Some(Ending::Enter | Ending::Left)) {
        changed = found.as_ref().ok().cloned();
    }
    let changed = changed.filter(|changed| *changed != draft.of);
    if let Some(changed) = &changed {
        draft.of.clone_from(changed);
    }
    if let Err(wrong) = found
        && !over
    {
        note_wrong(ui.ctx(), response.id);
        if draft.told || !wrong.unfinished {
            show_wrong(ui, &field, &wrong);
        }
    }
    ui.data_mut(|data| {
        if over {
            data.remove::<Draft<T>>(name);
        } else {
            data.insert_temp(name, draft);
        }
    });
    (response, changed)
}

/// Whether what cannot be read in a field is taken back: by undo in it, or by undo anywhere where nothing is typed.
fn is_undone(ui: &Ui, field: Id, wrong: impl Fn() -> bool) -> bool {
    if is_taken_back(ui.ctx(), field) {
        return true;
    }
    let typing = ui.memory(|memory| memory.has_focus(field));
    let pressed = |input: &egui::InputState| input.modifiers.command && input.key_pressed(egui::Key::Z);
    typing
        && ui.input(pressed)
        && wrong()
        && ui.input_mut(|input| input.consume_key(egui::Modifiers::COMMAND, egui::Key::Z))
}

/// A draft that was not shown for so many frames is gone.
const LATELY: u64 = 4;
