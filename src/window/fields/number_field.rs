use super::{
    entry::{Ending, ending, escape, line_with_escape, show_wrong},
    number_entry::NumberKind,
    wrong::Wrong,
    wrong_entry::note_wrong,
};
use crate::window::paint::choose_text;
use egui::{DragValue, EventFilter, FontSelection, Id, Key, Modifiers, Response, Ui, WidgetInfo};

/// A number to drag or to type. What is typed is taken as soon as it can be; what cannot be taken stays in the field, with
/// what is wrong with it, until it is put right or left by Escape.
pub struct NumberField<'a> {
    value: f64,
    kind: NumberKind,
    speed: f64,
    prefix: &'a str,
    hint: &'a str,
    refused: Option<&'a str>,
    /// Whether the arrows up and down change the number.
    steps: bool,
}

/// What somebody did with a number.
pub struct NumberAnswer {
    /// The field.
    pub response: Response,
    /// The number that is wanted instead, within what it can be and rounded.
    pub changed: Option<f64>,
    /// Whether what is typed cannot be taken.
    pub wrong: bool,
    /// Whether it was left by Enter with a number that can be.
    pub entered: bool,
}

/// A number that is being typed, or was left wrong.
#[derive(Clone)]
struct Draft {
    text: String,
    /// The number before anything was typed.
    first: f64,
    /// The number as it was shown last.
    base: f64,
    /// The number that was asked for, until it is seen whether that was done.
    asked: Option<f64>,
    /// Why it was not done.
    refused: Option<String>,
    /// Whether what is unfinished is to be told as well: somebody was done with it.
    told: bool,
    /// The pass of the window in which it was shown last: with what was shut since, it is gone.
    seen: u64,
}

impl<'a> NumberField<'a> {
    /// A field with a number in it.
    #[must_use]
    pub fn new(value: f64, kind: NumberKind, speed: f64) -> Self {
        Self { value, kind, speed, prefix: "", hint: "", refused: None, steps: true }
    }

    /// What it is called, before the number.
    #[must_use]
    pub fn prefix(mut self, prefix: &'a str) -> Self {
        self.prefix = prefix;
        self
    }

    /// What it is for, said to whoever points at it before what it takes.
    #[must_use]
    pub fn hint(mut self, hint: &'a str) -> Self {
        self.hint = hint;
        self
    }

    /// What is said where a number that was asked for is not taken.
    #[must_use]
    pub fn refused(mut self, said: Option<&'a str>) -> Self {
        self.refused = said;
        self
    }

    /// Among the things of a menu: the arrows up and down go on through them, and leave the number as it is.
    #[must_use]
    pub fn among_items(mut self) -> Self {
        self.steps = false;
        self
    }

    /// Shows it.
    pub fn show(self, ui: &mut Ui) -> NumberAnswer {
        // The field has one name to the window whether it is dragged or typed in.
        let id = ui.next_auto_id();
        let layer = ui.layer_id();
        let focused = ui.is_enabled()
            && ui.memory_mut(|memory| {
                memory.interested_in_focus(id, layer);
                memory.has_focus(id)
            });
        let pass = ui.ctx().cumulative_pass_nr();
        let known: Option<Draft> = ui.data(|data| data.get_temp(id));
        let known = known.filter(|draft| pass.saturating_sub(draft.seen) <= 1);
        let known = known.and_then(|draft| self.seen_to(ui, id, draft));
        let (hint, takes) = (self.hint, self.kind.takes());
        let mut answer = match known {
            Some(draft) => self.show_typed(ui, id, draft, false),
            None if focused => {
                let text = self.kind.words(self.value);
                let (first, base) = (self.value, self.value);
                let draft = Draft { text, first, base, asked: None, refused: None, told: false, seen: pass };
                self.show_typed(ui, id, draft, true)
            }
            None => self.show_still(ui, id),
        };
        // Where it says what is wrong it says no more.
        if !answer.wrong {
            let said = if hint.is_empty() { takes } else { format!("{hint}\n{takes}") };
            answer.response = answer.response.on_hover_text(&said).on_disabled_hover_text(said);
        }
        answer
    }

    /// A draft with what has come of it since it was last shown; nothing where the number has changed otherwise.
    fn seen_to(&self, ui: &Ui, id: Id, mut draft: Draft) -> Option<Draft> {
        let same = |one: f64, other: f64| (self.kind.rounded(one) - self.kind.rounded(other)).abs() < 1e-12;
        match draft.asked.take() {
            Some(asked) if same(asked, self.value) => {}
            Some(_) if same(draft.base, self.value) => {
                draft.refused = Some(self.refused.unwrap_or("that cannot be danced").to_owned());
                // Whoever has left the field meanwhile has it back.
                ui.memory_mut(|memory| memory.request_focus(id));
            }
            _ if same(draft.base, self.value) => {}
            _ => return None,
        }
        draft.base = self.value;
        Some(draft)
    }

    fn show_still(self, ui: &mut Ui, id: Id) -> NumberAnswer {
        ui.data_mut(|data| data.remove::<Draft>(id));
        let mut value = self.value;
        let drag = DragValue::new(&mut value)
            .range(self.kind.least..=self.kind.most)
            .clamp_existing_to_range(false)
            .speed(self.speed)
            .max_decimals(usize::from(self.kind.places))
            .prefix(self.prefix)
            .suffix(self.suffix());
        let usual = ui.spacing().interact_size.x;
        ui.spacing_mut().interact_size.x = wide(ui, id).max(usual);
        let response = ui.add(drag);
        ui.spacing_mut().interact_size.x = usual;
        keep_wide(ui, id, response.rect.width());
        let changed = response.changed().then(|| self.kind.rounded(value));
        let changed = changed.filter(|value| (value - self.value).abs() > 1e-12);
        NumberAnswer { response, changed, wrong: false, entered: false }
    }

    fn show_typed(self, ui: &mut Ui, id: Id, mut draft: Draft, begun: bool) -> NumberAnswer {
        let mut changed = self.stepped(ui, id, &mut draft);
        let size = ui.spacing().interact_size;
        let size = egui::vec2(wide(ui, id).max(size.x), size.y);
        let font = FontSelection::from(ui.style().drag_value_text_style.clone());
        let keeps =
            EventFilter { horizontal_arrows: true, vertical_arrows: self.steps, escape: true, tab: false };
        let field = line_with_escape(&mut draft.text)
            .event_filter(keeps)
            .id(id)
            .clip_text(false)
            .align(ui.layout().align2())
            .min_size(size)
            .desired_width(0.0)
            .font(font)
            .show(ui);
        let response = field.response.response.clone();
        keep_wide(ui, id, response.rect.width());
        if begun {
            choose_text(ui, id, 0, draft.text.chars().count());
        }
        let typed = response.changed();
        if typed {
            (draft.told, draft.refused) = (false, None);
        }
        let read = self.kind.read(&draft.text);
        let done = ending(ui, &response);
        if typed || done == Some(Ending::Escape) {
            // What cannot be taken, or is given up, changes nothing, whatever was taken on the way to it.
            let given_up =
                read.as_ref().is_err_and(|wrong| !wrong.unfinished) || done == Some(Ending::Escape);
            let wanted = if given_up { Some(draft.first) } else { read.as_ref().ok().copied() };
            changed = wanted.filter(|wanted| (wanted - self.value).abs() > 1e-12);
            draft.asked = changed;
        }
        let wrong = match (&read, &draft.refused) {
            (Err(wrong), _) => Some(wrong.clone()),
            (Ok(_), Some(said)) => Some(Wrong::whole(said.clone())),
            (Ok(_), None) => None,
        };
        let mut over = false;
        match done {
            Some(Ending::Escape) => {
                escape(ui, &response);
                over = true;
            }
            Some(_) if wrong.is_some() => draft.told = true,
            Some(Ending::Enter) => response.surrender_focus(),
            // It waits until it is seen whether what was asked for last was done.
            Some(Ending::Left) => over = draft.asked.is_none(),
            None => over = !response.has_focus() && wrong.is_none() && draft.asked.is_none(),
        }
        if let Some(wrong) = wrong.as_ref().filter(|_| !over) {
            note_wrong(ui.ctx(), id);
            if draft.told || !wrong.unfinished {
                show_wrong(ui, &field, wrong);
            }
        }
        self.name(ui, &response);
        draft.seen = ui.ctx().cumulative_pass_nr();
        ui.data_mut(|data| {
            if over {
                data.remove::<Draft>(id);
            } else {
                data.insert_temp(id, draft);
            }
        });
        let entered = done == Some(Ending::Enter) && wrong.is_none();
        NumberAnswer { response, changed, wrong: wrong.is_some() && !over, entered }
    }

    /// The number that the arrows up and down have gone to.
    fn stepped(&self, ui: &Ui, id: Id, draft: &mut Draft) -> Option<f64> {
        if !self.steps || !ui.memory(|memory| memory.has_focus(id)) {
            return None;
        }
        let steps = ui.input_mut(|input| {
            let up = input.count_and_consume_key(Modifiers::NONE, Key::ArrowUp) as f64;
            up - input.count_and_consume_key(Modifiers::NONE, Key::ArrowDown) as f64
        });
        let to = (self.value + self.speed.max(self.kind.step()) * steps)
            .clamp(self.kind.least.min(self.value), self.kind.most.max(self.value));
        let to = self.kind.rounded(to);
        if steps == 0.0 || (to - self.value).abs() < 1e-12 {
            return None;
        }
        draft.text = self.kind.words(to);
        (draft.asked, draft.refused, draft.told) = (Some(to), None, false);
        Some(to)
    }

    fn suffix(&self) -> String {
        match self.kind.unit {
            "" | "°" => self.kind.unit.to_owned(),
            unit => format!(" {unit}"),
        }
    }

    /// Names it as when it is dragged, for those who hear the window.
    fn name(&self, ui: &Ui, response: &Response) {
        let value = self.value;
        response.widget_info(|| WidgetInfo::drag_value(ui.is_enabled(), value));
        let words: Vec<&str> =
            [self.prefix.trim(), self.kind.unit].into_iter().filter(|part| !part.is_empty()).collect();
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.clear_label();
            if !words.is_empty() {
                node.set_label(words.join(" "));
            }
        });
    }
}

/// How wide a field has been, points: it never becomes narrower, so that what is beside it keeps its place.
fn wide(ui: &Ui, id: Id) -> f32 {
    ui.data(|data| data.get_temp(id.with("wide"))).unwrap_or(0.0)
}

fn keep_wide(ui: &Ui, id: Id, now: f32) {
    let now = now.max(wide(ui, id));
    ui.data_mut(|data| data.insert_temp(id.with("wide"), now));
}
