use super::{grid, head, list, picture};
use crate::dance::{Dance, Foot, Metre, OwnStep};
use crate::desk::{Ask, Desk, StepAsk, ViewAsk};
use crate::edits::danced_in;
use crate::figures::StepAlone;
use crate::motion::steps::{Step, built_in};
use crate::picture::EyeSide;
use crate::window::dialogs::shape::foot;
use crate::window::fields::{go_to_wrong, take_wrong_back};
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
    /// By their places among the dance's own, their letters, and whether the left foot leads.
    known: BTreeMap<(Option<usize>, String, bool), Known>,
    /// Whether a copy has been asked for, and whether its name is to be typed.
    pub(super) copied: bool,
    pub(super) to_name: bool,
    /// How long they have danced here, seconds of the dance.
    pub(super) danced: f64,
}

/// A step as it is danced, and what that was worked out from.
struct Known {
    step: Step,
    lead: Foot,
    metre: Metre,
    speed: f64,
    hops: bool,
    alone: Option<StepAlone>,
}

impl StepRoom {
    /// A room in which a step is shown first, by its letters; otherwise the first of the dance's own, or of all.
    #[must_use]
    pub fn new(first: Option<&str>, dance: &Dance) -> Self {
        let own = |short: &str| dance.steps.iter().rposition(|step| step.short == short);
        let is_built_in = |short: &&str| built_in().iter().any(|step| step.short == **short);
        let (index, shown) = match first {
            Some(short) if own(short).is_some() => (own(short), short),
            Some(short) if is_built_in(&short) => (None, short),
            _ => dance.steps.first().map_or((None, "ds"), |step| (Some(0), step.short.as_str())),
        };
        let shown = shown.to_owned();
        Self {
            index,
            own: dance.steps.len(),
            shown,
            lead: Foot::Left,
            side: EyeSide::Side,
            count: None,
            speed: 50.0,
            drag: None,
            taken_to: true,
            known: BTreeMap::new(),
            copied: false,
            to_name: false,
            danced: 0.0,
        }
    }

    /// A step as one dancer dances it on the spot: one of the dance's own, or a built-in one by its letters.
    pub(super) fn alone(
        &mut self,
        dance: &Dance,
        own: Option<&OwnStep>,
        step: &Step,
        lead: Foot,
    ) -> Option<&StepAlone> {
        let music = &dance.music;
        let same = |known: &Known| {
            known.step == *step
                && known.lead == lead
                && known.metre == music.metre
                && known.speed == music.speed
                && known.hops == dance.hops
        };
        let place = own.and_then(|own| dance.steps.iter().position(|other| std::ptr::eq(other, own)));
        let key = (place, step.short.clone(), lead == Foot::Left);
        if !self.known.get(&key).is_some_and(same) {
            let alone = StepAlone::of(dance, own, &step.short, lead);
            let (metre, speed, hops) = (music.metre, music.speed, dance.hops);
            self.known.insert(key.clone(), Known { step: step.clone(), lead, metre, speed, hops, alone });
        }
        self.known.get(&key)?.alone.as_ref()
    }

    /// Shows a step: one of the dance's own by its place, or a built-in one by its letters.
    pub(super) fn choose(&mut self, index: Option<usize>, short: &str) {
        short.clone_into(&mut self.shown);
        self.index = index;
        (self.count, self.drag) = (None, None);
    }

    /// Whether this is the step that is shown.
    pub(super) fn is_shown(&self, index: Option<usize>, short: &str) -> bool {
        self.index == index && (index.is_some() || self.shown == short)
    }

    /// Whether the list is to be taken to a step, which it is once.
    pub(super) fn takes_to(&mut self, index: Option<usize>, short: &str) -> bool {
        self.is_shown(index, short) && std::mem::take(&mut self.taken_to)
    }

    /// Has the list taken to the step that is shown.
    pub(super) fn take_there(&mut self) {
        self.taken_to = true;
    }

    /// Follows what has become of the step that is shown: other letters, taken away, or one more, which is then shown.
    fn follow(&mut self, dance: &Dance) {
        let (own, had) = (dance.steps.len(), std::mem::replace(&mut self.own, dance.steps.len()));
        let copied = std::mem::take(&mut self.copied);
        if own > had {
            self.to_name = copied;
            if let Some((index, last)) = dance.steps.iter().enumerate().next_back() {
                self.choose(Some(index), &last.short);
                self.taken_to = true;
            }
        } else if let Some(index) = self.index {
            match dance.steps.get(index).or(dance.steps.last()) {
                Some(step) if own == had => step.short.clone_into(&mut self.shown),
                Some(step) => self.choose(Some(index.min(own - 1)), &step.short),
                None => self.choose(None, "ds"),
            }
        }
        let counts = self.step(dance).map_or(1, |step| step.counts().max(1));
        self.count = self.count.map(|count| count.min(counts - 1));
    }

    /// The step that is shown.
    fn step(&self, dance: &Dance) -> Option<Step> {
        match self.index {
            Some(index) => dance.steps.get(index).map(Step::from),
            None => built_in().into_iter().find(|step| step.short == self.shown),
        }
    }

    /// The step that is shown among the dance's own.
    pub(super) fn index(&self) -> Option<usize> {
        self.index
    }
}

/// Shows the steps, and one of them large with what each of its counts says.
pub fn show_steps(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, asks: &mut Vec<Ask>) {
    room.follow(desk.dance());
    let Some(step) = room.step(desk.dance()) else { return };
    let step = &step;
    if room.count.is_none() {
        // However fast they go, they go on from where they are.
        room.danced += f64::from(ui.input(|input| input.stable_dt).min(0.1)) * room.speed / 100.0;
    }
    let place = ui.available_rect_before_wrap();
    let (left, right) = place.split_left_right_at_x(place.left() + LIST);
    let right = Rect::from_min_max(right.min + vec2(GAP, 0.0), right.max);
    let mut child = ui.new_child(UiBuilder::new().max_rect(left).id_salt("list"));
    list::show(&mut child, desk, room);
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
            if button.on_hover_text(format!("{name} {} ({keys})", of.unwrap_or_default())).clicked()
                && !(ask == Ask::Undo && take_wrong_back(ui.ctx()))
            {
                asks.push(ask);
            }
        }
        let danced = danced_in(desk.dance(), &room.shown).filter(|_| room.index().is_some());
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
