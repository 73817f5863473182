use super::{grid, head, list, picture};
use crate::dance::{Dance, Foot, Metre};
use crate::desk::{Ask, Desk, StepAsk, ViewAsk};
use crate::edits::danced_in;
use crate::figures::StepAlone;
use crate::motion::known_steps;
use crate::motion::steps::Step;
use crate::picture::EyeSide;
use crate::window::dialogs::shape::foot;
use crate::window::fields::go_to_wrong;
use egui::{Label, Rect, RichText, Ui, UiBuilder, vec2};
use std::collections::BTreeMap;
use std::time::Duration;

/// How wide the list of steps is, points, and what is between it and the step.
const LIST: f32 = 216.0;
const GAP: f32 = 14.0;
/// The bodies are painted each so many milliseconds.
const EACH: u64 = 33;

/// What the step room holds beside the steps themselves.
pub struct StepRoom {
    /// The step that is shown, by its letters, and where it stands among the dance's own, where it does.
    pub(super) shown: String,
    index: Option<usize>,
    /// How many steps of its own the dance had when it was looked at last.
    own: usize,
    /// The foot that leads what is shown.
    pub(super) lead: Foot,
    pub(super) side: EyeSide,
    /// The count of the step at which the picture stands, from 0; nothing while it moves.
    pub(super) count: Option<usize>,
    /// Percent of the dance's own speed.
    pub(super) speed: f64,
    pub(super) drag: Option<picture::Drag>,
    /// Whether the list is still to be taken to the step that is shown.
    taken_to: bool,
    known: BTreeMap<String, Known>,
}

/// A step as it is danced, and what that was worked out from.
struct Known {
    step: Step,
    metre: Metre,
    speed: f64,
    hops: bool,
    alone: Option<StepAlone>,
}

impl StepRoom {
    /// A room in which a step is shown first, by its letters; otherwise the first of the dance's own, or of all.
    #[must_use]
    pub fn new(first: Option<&str>, dance: &Dance) -> Self {
        let own = dance.steps.first().map(|step| step.short.as_str());
        let known = known_steps(&dance.steps);
        let is_known = |short: &&str| known.iter().any(|step| step.short == **short);
        let shown = first.filter(is_known).or(own).unwrap_or("ds").to_owned();
        Self {
            index: dance.steps.iter().position(|step| step.short == shown),
            own: dance.steps.len(),
            shown,
            lead: Foot::Left,
            side: EyeSide::Side,
            count: None,
            speed: 50.0,
            drag: None,
            taken_to: true,
            known: BTreeMap::new(),
        }
    }

    /// A step as one dancer dances it on the spot.
    pub(super) fn alone(&mut self, dance: &Dance, step: &Step) -> Option<&StepAlone> {
        let music = &dance.music;
        let same = |known: &Known| {
            known.step == *step
                && known.metre == music.metre
                && known.speed == music.speed
                && known.hops == dance.hops
        };
        if !self.known.get(&step.short).is_some_and(same) {
            let alone = StepAlone::of(dance, &step.short);
            let known =
                Known { step: step.clone(), metre: music.metre, speed: music.speed, hops: dance.hops, alone };
            self.known.insert(step.short.clone(), known);
        }
        self.known.get(&step.short)?.alone.as_ref()
    }

    /// Shows a step.
    pub(super) fn choose(&mut self, dance: &Dance, short: &str) {
        short.clone_into(&mut self.shown);
        self.index = dance.steps.iter().position(|step| step.short == short);
        (self.count, self.drag) = (None, None);
    }

    /// Whether the list is to be taken to a step, which it is once.
    pub(super) fn takes_to(&mut self, short: &str) -> bool {
        self.shown == short && std::mem::take(&mut self.taken_to)
    }

    /// Follows what has become of the step that is shown: other letters, taken away, or one more, which is then shown.
    fn follow(&mut self, dance: &Dance) {
        let (own, had) = (dance.steps.len(), std::mem::replace(&mut self.own, dance.steps.len()));
        let short = |index: usize| dance.steps.get(index).map(|step| step.short.clone());
        if own > had {
            if let Some(last) = short(own - 1) {
                self.choose(dance, &last);
                self.taken_to = true;
            }
        } else if own == had {
            if let Some(now) = self.index.and_then(short) {
                self.shown = now;
            }
        } else {
            let built_in = known_steps(&dance.steps).into_iter().any(|step| step.short == self.shown);
            let next =
                if built_in { self.shown.clone() } else { short(own.max(1) - 1).unwrap_or("ds".to_owned()) };
            self.choose(dance, &next);
        }
        let counts =
            known_steps(&dance.steps).iter().find(|step| step.short == self.shown).map_or(1, Step::counts);
        self.count = self.count.map(|count| count.min(counts.max(1) - 1));
    }

    /// The step that is shown among the dance's own.
    pub(super) fn index(&self) -> Option<usize> {
        self.index
    }
}

/// Shows the steps, and one of them large with what each of its counts says.
pub fn show_steps(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, asks: &mut Vec<Ask>) {
    room.follow(desk.dance());
    let known = known_steps(&desk.dance().steps);
    let Some(step) = known.iter().find(|step| step.short == room.shown) else { return };
    let place = ui.available_rect_before_wrap();
    let (left, right) = place.split_left_right_at_x(place.left() + LIST);
    let right = Rect::from_min_max(right.min + vec2(GAP, 0.0), right.max);
    let mut child = ui.new_child(UiBuilder::new().max_rect(left).id_salt("list"));
    list::show(&mut child, desk, room, &known);
    let mut child = ui.new_child(UiBuilder::new().max_rect(right).id_salt("step"));
    head::show(&mut child, desk, room, step, asks);
    child.add_space(6.0);
    picture::show(&mut child, desk, room, step, asks);
    child.add_space(8.0);
    grid::show(&mut child, desk, room, step, asks);
    show_foot(ui, desk, room, asks);
    if room.count.is_none() {
        ui.ctx().request_repaint_after(Duration::from_millis(EACH));
    }
}

fn show_foot(ui: &mut Ui, desk: &Desk, room: &StepRoom, asks: &mut Vec<Ask>) {
    foot(ui, |ui| {
        if ui.button("Done").clicked() && !go_to_wrong(ui.ctx()) {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
        for (name, keys, of, ask) in [
            ("Undo", "Ctrl+Z", desk.undo_name(), Ask::Undo),
            ("Redo", "Ctrl+Shift+Z", desk.redo_name(), Ask::Redo),
        ] {
            let button = ui.add_enabled(of.is_some(), egui::Button::new(name));
            if button.on_hover_text(format!("{name} {} ({keys})", of.unwrap_or_default())).clicked() {
                asks.push(ask);
            }
        }
        let danced = danced_in(desk.dance(), &room.shown);
        let hint = danced.map_or_else(
            || "Take this step out of the dance".to_owned(),
            |figure| format!("It is danced in {figure}"),
        );
        let button = ui.add_enabled(room.index().is_some(), egui::Button::new("Take away"));
        if button.on_hover_text(hint).on_disabled_hover_text("A built-in step stays").clicked()
            && let Some(index) = room.index()
        {
            asks.push(Ask::Step(StepAsk::TakeAway(index)));
        }
        if let Some(said) = desk.notice() {
            let text = RichText::new(said).small().color(ui.visuals().error_fg_color);
            ui.add(Label::new(text).truncate()).on_hover_text(said);
        }
    });
}
