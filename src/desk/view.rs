use super::{
    Desk,
    ask::{Beats, Seen, ViewAsk},
    purpose::Purpose,
    question::Question,
};
use crate::dance::Dancer;
use crate::edits::{LegFrom, Together};
use crate::faults::{MOST_SHIFT, WhatIf};
use crate::motion::limbs::Gait;
use crate::picture::{EyeSide, Ink, PAPER, SLATE};

/// The most that a way is shown short, a share of it.
const MOST_SHORT: f64 = 0.5;

/// How the floor is looked at.
#[derive(Clone, Debug)]
pub(super) struct View {
    pub seen: Seen,
    /// 1 fits the dance.
    pub zoom: f32,
    /// Where the floor is moved to, points.
    pub pan: [f32; 2],
    /// Changes each time that the floor is to be fitted into the window.
    pub fitted: u64,
    pub trails: bool,
    pub beats: Beats,
    /// Whether the floor that the dance needs is shown.
    pub space: bool,
    /// From where a body is seen at eye level, and whether that is large, over the floor.
    pub eye_side: EyeSide,
    pub eye_level: bool,
    /// How the chosen dancer is shown otherwise than drawn.
    pub what_if: Option<WhatIf>,
    pub ink: Ink,
}

impl Default for View {
    fn default() -> Self {
        Self {
            seen: Seen::default(),
            zoom: 1.0,
            pan: [0.0, 0.0],
            fitted: 0,
            trails: true,
            beats: Beats::default(),
            space: false,
            eye_side: EyeSide::default(),
            eye_level: false,
            what_if: None,
            ink: SLATE,
        }
    }
}

/// What is looked at, and how.
impl Desk {
    /// How the floor is seen.
    #[must_use]
    pub fn seen(&self) -> Seen {
        self.view.seen
    }

    /// Zoom of the floor; 1 fits the dance.
    #[must_use]
    pub fn zoom(&self) -> f32 {
        self.view.zoom
    }

    /// Where the floor is moved to, points right and down.
    #[must_use]
    pub fn pan(&self) -> [f32; 2] {
        self.view.pan
    }

    /// A number that changes each time that the floor is to be fitted into the window: on opening a dance, and when
    /// that is asked for. Nothing else moves it.
    #[must_use]
    pub fn fitted(&self) -> u64 {
        self.view.fitted
    }

    /// Whether paths are drawn.
    #[must_use]
    pub fn trails(&self) -> bool {
        self.view.trails
    }

    /// Whether bodies are drawn at the strong beats round the playhead.
    #[must_use]
    pub fn beats(&self) -> Beats {
        self.view.beats
    }

    /// Whether the floor that the dance needs is shown.
    #[must_use]
    pub fn space_shown(&self) -> bool {
        self.view.space
    }

    /// From where a body is seen at eye level.
    #[must_use]
    pub fn eye_side(&self) -> EyeSide {
        self.view.eye_side
    }

    /// Whether the body is seen at eye level, large, over the floor.
    #[must_use]
    pub fn eye_level(&self) -> bool {
        self.view.eye_level
    }

    /// The colours.
    #[must_use]
    pub fn ink(&self) -> Ink {
        self.view.ink
    }

    /// How a dancer goes through the dance on their feet; nothing for a number that is not in the set.
    #[must_use]
    pub fn gait(&self, dancer: Dancer) -> Option<&Gait> {
        self.now.gait(dancer)
    }

    /// Who follows when a dancer is drawn.
    #[must_use]
    pub fn together(&self) -> Together {
        self.together
    }

    /// Where a leg begins that a drag makes anew.
    #[must_use]
    pub fn leg_from(&self) -> LegFrom {
        self.leg_from
    }

    /// The dancers that are picked; the chosen one where no more are.
    #[must_use]
    pub fn picked(&self) -> &[Dancer] {
        &self.picked
    }

    pub(super) fn apply_view(&mut self, ask: ViewAsk) {
        match ask {
            ViewAsk::Choose(dancer) => {
                self.end_drag();
                self.choose(dancer);
            }
            ViewAsk::ChooseFor(dancer) => {
                if !self.picked.contains(&dancer) {
                    self.end_drag();
                    self.choose(Some(dancer));
                }
            }
            ViewAsk::Pick(dancers) => self.pick(dancers),
            ViewAsk::AlsoPick(dancer) => self.also_pick(dancer),
            ViewAsk::See(seen) => {
                self.end_drag();
                self.view.seen = seen;
            }
            ViewAsk::Zoom(factor, [x, y]) => {
                let View { zoom, pan, .. } = &mut self.view;
                let to = (*zoom * factor).clamp(0.2, 20.0);
                let factor = to / *zoom;
                *zoom = to;
                *pan = [x + (pan[0] - x) * factor, y + (pan[1] - y) * factor];
            }
            ViewAsk::Pan([x, y]) => self.view.pan = [self.view.pan[0] + x, self.view.pan[1] + y],
            ViewAsk::FitFloor => {
                (self.view.zoom, self.view.pan) = (1.0, [0.0, 0.0]);
                self.view.fitted += 1;
            }
            ViewAsk::ToggleTrails => {
                self.end_drag();
                self.view.trails = !self.view.trails;
            }
            ViewAsk::ToggleBeats => self.view.beats = self.view.beats.other(),
            ViewAsk::EyeSide(side) => self.view.eye_side = side,
            ViewAsk::ToggleEyeLevel => {
                self.end_drag();
                self.view.eye_level = !self.view.eye_level;
            }
            ViewAsk::WhatIf(what_if) => {
                let within = |value: f64, least: f64, most: f64| {
                    if value.is_nan() { 0.0 } else { value.clamp(least, most) }
                };
                self.view.what_if = what_if.map(|asked| WhatIf {
                    late: within(asked.late, -MOST_SHIFT, MOST_SHIFT),
                    short: within(asked.short, 0.0, MOST_SHORT),
                });
            }
            ViewAsk::ToggleSpace => self.view.space = !self.view.space,
            ViewAsk::ToggleTheme => self.view.ink = if self.view.ink == SLATE { PAPER } else { SLATE },
            ViewAsk::DropNotice => self.notice = None,
            ViewAsk::ToggleHelp => match self.asked.question() {
                Some(Question::Help) => self.asked.put_away(),
                _ => self.asked.ask(Question::Help),
            },
            ViewAsk::PutAway => {
                self.listening = None;
                // Who wanted a tune from a file goes on saying what the dance is danced to.
                let from_tune = matches!(
                    self.asked.question(),
                    Some(Question::Path(asked)) if matches!(asked.purpose, Purpose::Tune)
                );
                if from_tune {
                    self.asked.ask(Question::ThisDance(Some(String::new())));
                } else {
                    self.asked.put_away();
                }
                // What is being written is stopped with its question.
                self.writing = None;
            }
        }
    }

    fn choose(&mut self, dancer: Option<Dancer>) {
        self.chosen = dancer.filter(|dancer| dancer.index() < self.now.motion().dancers());
        self.picked = self.chosen.into_iter().collect();
    }

    /// Picks dancers; the first of them is the chosen one, unless the chosen one is among them.
    fn pick(&mut self, mut dancers: Vec<Dancer>) {
        dancers.retain(|dancer| dancer.index() < self.now.motion().dancers());
        dancers.sort_unstable();
        dancers.dedup();
        if !self.chosen.is_some_and(|chosen| dancers.contains(&chosen)) {
            self.chosen = dancers.first().copied();
        }
        self.picked = dancers;
    }

    fn also_pick(&mut self, dancer: Dancer) {
        let mut picked = self.picked.clone();
        match picked.iter().position(|known| *known == dancer) {
            Some(index) => {
                picked.remove(index);
            }
            None => picked.push(dancer),
        }
        self.pick(picked);
        if self.picked.contains(&dancer) {
            self.chosen = Some(dancer);
        }
    }
}
