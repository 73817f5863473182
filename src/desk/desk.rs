use super::{
    ask::{Ask, Beats, Grip, Seen},
    compare::Compared,
    history::Undone,
    keep::Keep,
    player::Player,
};
use crate::dance::{Air, Dance, DanceError, Person, read};
use crate::edits::Mend;
use crate::edits::{Guide, Together, restore_named, with_choice, with_set};
use crate::faults::{Fault, FaultKind, Faults, Space};
use crate::figures::motion_of;
use crate::motion::{Clock, Moment, Motion};
use crate::picture::{Ink, PAPER, SLATE};
use crate::store::Recent;
use crate::window::{Dialog, NewDance};
use std::cell::OnceCell;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The dances that are part of the program: name and text.
pub const SAMPLES: [(&str, &str); 4] = [
    ("Nine Geese Home", include_str!("../../dances/nine-geese-home.dance.json")),
    ("Low Water", include_str!("../../dances/low-water.dance.json")),
    ("Kettle Bridge", include_str!("../../dances/kettle-bridge.dance.json")),
    ("Ferryman's Candle", include_str!("../../dances/ferrymans-candle.dance.json")),
];

/// Everything that the window shows, and what can be done to it. It knows nothing of painting.
#[allow(clippy::struct_excessive_bools)] // each is switched by itself
pub struct Desk {
    pub(super) dance: Arc<Dance>,
    pub(super) motion: Arc<Motion>,
    pub(super) faults: Faults,
    /// What names the fault that is shown: its kind, dancers and span.
    pub(super) shown: Option<(FaultKind, Vec<u32>, usize)>,
    /// The floor that the dance needs, once that has been asked for.
    pub(super) space: OnceCell<Space>,
    /// The tune as the dance plays it, once that has been asked for.
    pub(super) air: OnceCell<Option<Air>>,
    /// Whether the floor that it needs is shown.
    pub space_shown: bool,
    /// A mend that is proposed.
    pub(super) proposed: Option<Mend>,
    /// The other version that this one is compared with.
    pub(super) compared: Option<Compared>,
    pub(super) past: Vec<Undone>,
    pub(super) future: Vec<Undone>,
    /// The dance as it is on the disk.
    pub(super) saved: Arc<Dance>,
    pub(super) path: Option<PathBuf>,
    pub(super) drag: Option<Drag>,
    /// The dancers that are picked, by index.
    pub(super) picked: Vec<usize>,
    /// What a drag has caught on.
    pub(super) guides: Vec<Guide>,
    /// Who follows when a dancer is drawn.
    pub together: Together,
    /// The kind of change that the next of its kind joins, while one control is being used.
    pub(super) joining: Option<String>,
    /// Whether the dance was made here and has never had a file.
    pub(super) never_saved: bool,
    /// The playhead and how it moves.
    pub player: Player,
    /// The index of the chosen dancer.
    pub chosen: Option<usize>,
    /// The dialog that is open.
    pub dialog: Option<Dialog>,
    /// A line about what just happened or could not happen.
    pub notice: Option<String>,
    /// How the floor is seen.
    pub seen: Seen,
    /// Zoom of the floor; 1 fits the dance.
    pub zoom: f32,
    /// Where the floor is moved to, points.
    pub pan: [f32; 2],
    /// Whether paths are drawn.
    pub trails: bool,
    /// Whether bodies are drawn at the strong beats round the playhead.
    pub beats: Beats,
    /// The colours.
    pub ink: Ink,
    /// Files opened before.
    pub recent: Recent,
    /// How work is kept from being lost.
    pub(super) keep: Keep,
    /// Whether the window may close although work is unsaved.
    pub may_close: bool,
}

/// A drag under way: all is worked out afresh from where it began.
pub(super) struct Drag {
    pub grip: Grip,
    pub dance: Arc<Dance>,
    pub motion: Arc<Motion>,
    pub count: f64,
}

impl Desk {
    /// A desk with a dance on it.
    ///
    /// # Errors
    /// When a figure of the dance cannot be worked out.
    pub fn new(dance: Dance, path: Option<PathBuf>, recent: Recent) -> Result<Self, DanceError> {
        let motion = motion_of(&dance, None)?;
        Ok(Self::on(dance, motion, path, recent))
    }

    /// A desk with the first sample dance on it, or an empty dance if that cannot be read.
    #[must_use]
    pub fn with_sample(recent: Recent) -> Self {
        let sample = SAMPLES.first().and_then(|(_, text)| read(text.as_bytes()).ok());
        let dance = sample.unwrap_or_else(|| NewDance::default().empty());
        match motion_of(&dance, None) {
            Ok(motion) => Self::on(dance, motion, None, recent),
            Err(_) => {
                let motion = Motion::still(&crate::motion::Ground::of(&dance.set));
                Self::on(dance, motion, None, recent)
            }
        }
    }

    fn on(dance: Dance, motion: Motion, path: Option<PathBuf>, recent: Recent) -> Self {
        let dance = Arc::new(dance);
        Self {
            saved: Arc::clone(&dance),
            shown: None,
            proposed: None,
            space: OnceCell::new(),
            air: OnceCell::new(),
            space_shown: false,
            compared: None,
            faults: Faults::of(&dance, &motion),
            dance,
            player: Player { count: first_moving_count(&motion), ..Player::default() },
            motion: Arc::new(motion),
            past: Vec::new(),
            future: Vec::new(),
            path,
            drag: None,
            picked: vec![0],
            guides: Vec::new(),
            together: Together::default(),
            joining: None,
            never_saved: false,
            chosen: Some(0),
            dialog: None,
            notice: None,
            seen: Seen::default(),
            zoom: 1.0,
            pan: [0.0, 0.0],
            trails: true,
            beats: Beats::default(),
            ink: SLATE,
            recent,
            keep: Keep::default(),
            may_close: false,
        }
    }

    /// The dance.
    #[must_use]
    pub fn dance(&self) -> &Dance {
        &self.dance
    }

    /// The dance, to keep hold of.
    #[must_use]
    pub fn dance_to_keep(&self) -> Arc<Dance> {
        Arc::clone(&self.dance)
    }

    /// Its motion.
    #[must_use]
    pub fn motion(&self) -> &Arc<Motion> {
        &self.motion
    }

    /// Its tune as it is played; nothing where it has none.
    #[must_use]
    pub fn air(&self) -> Option<&Air> {
        let danced = self.motion.spans().iter().map(|span| (span.first_bar, span.bars));
        self.air.get_or_init(|| Air::of(&self.dance, danced)).as_ref()
    }

    /// Its faults.
    #[must_use]
    pub fn faults(&self) -> &Faults {
        &self.faults
    }

    /// The file it was opened from or saved to.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Whether there is work that no file has.
    #[must_use]
    pub fn unsaved(&self) -> bool {
        self.never_saved || (!Arc::ptr_eq(&self.dance, &self.saved) && self.dance != self.saved)
    }

    /// What is being dragged.
    #[must_use]
    pub fn held(&self) -> Option<Grip> {
        self.drag.as_ref().map(|drag| drag.grip)
    }

    /// The clock of the tune.
    #[must_use]
    pub fn clock(&self) -> Clock {
        Clock::of(&self.dance.music)
    }

    /// The index of the span at the playhead.
    #[must_use]
    pub fn span(&self) -> Option<usize> {
        self.motion.span_at(self.player.count)
    }

    /// A moment in words, with the bar as its figure counts it: `Hey, bar 3:1`.
    #[must_use]
    pub fn moment_words(&self, count: f64) -> String {
        let span = self.motion.span_at(count).and_then(|index| self.motion.spans().get(index));
        let figure = span.and_then(|span| self.dance.figures.get(span.figure));
        let moment = Moment::at(count - span.map_or(0.0, crate::motion::Span::begin));
        figure.map_or_else(|| format!("bar {moment}"), |figure| format!("{}, bar {moment}", figure.name))
    }

    /// Where to go to see a fault: a figure's end is the next one's start, so a count before it.
    #[must_use]
    pub fn before_fault(&self, fault: &Fault) -> f64 {
        let count = fault.counts();
        let ends = self.motion.spans().iter().any(|span| (span.end() - count).abs() < 1e-6);
        if ends { (count - 1.0).max(0.0) } else { count }
    }

    /// The name of the file on the disk, or a word for there being none.
    #[must_use]
    pub fn file_name(&self) -> String {
        self.path
            .as_ref()
            .and_then(|path| path.file_name())
            .map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    }

    /// What the title of the window says.
    #[must_use]
    pub fn window_title(&self) -> String {
        let mark = if self.unsaved() { "• " } else { "" };
        format!("{mark}{} · Bellpad", self.dance.title)
    }

    /// Takes what a panel asked for.
    pub fn take(&mut self, ask: Ask) {
        let elsewhere = matches!(
            ask,
            Ask::Seek(_)
                | Ask::StepCounts(_)
                | Ask::Choose(_)
                | Ask::ToggleTrails
                | Ask::See(_)
                | Ask::TogglePlay
        );
        if elsewhere && self.drag.is_some() {
            self.end_drag();
        }
        match ask {
            Ask::Seek(count) => self.seek(count),
            Ask::StepCounts(counts) => {
                self.player.playing = false;
                self.seek(self.player.stepped(counts, self.motion.counts()));
            }
            Ask::TogglePlay => self.toggle_play(),
            Ask::Tempo(tempo) => {
                self.player.tempo = tempo.clamp(*Player::TEMPOS.start(), *Player::TEMPOS.end());
            }
            Ask::ToggleLoop => self.toggle_loop(),
            Ask::LoopFrom => self.set_loop(true),
            Ask::LoopTo => self.set_loop(false),
            Ask::Choose(dancer) => {
                self.chosen = dancer.filter(|&index| index < self.motion.dancers());
                self.picked = self.chosen.into_iter().collect();
            }
            Ask::RestoreNamed(figure, place) => {
                let dance = restore_named(&self.dance, figure, place);
                self.edit(format!("have {place} as the figure is named"), dance);
            }
            Ask::InsertFigure(_) | Ask::TakeOut(_) | Ask::Order(_) => self.take_order_ask(ask),
            Ask::SetChoice(figure, key, value) => {
                let name = self.dance.figures.get(figure).map_or("", |figure| figure.name.as_str());
                let step = format!("set {key} of {name}");
                match with_choice(&self.dance, figure, key, value) {
                    Ok(dance) => self.edit_on(step, dance),
                    Err(error) => self.notice = Some(error.to_string()),
                }
            }
            Ask::SetLead(figure, rule) => self.change_figure(figure, "lead", |figure| figure.lead = rule),
            Ask::SetPhrase(figure, phrase) => {
                self.change_figure(figure, "stepping", |figure| figure.phrase = phrase);
            }
            Ask::ChangeSet(set) => match with_set(&self.dance, *set) {
                Ok(dance) => {
                    let other = dance.set.dancers != self.dance.set.dancers;
                    let name = if other { "change the number of dancers" } else { "change the set" };
                    if other {
                        self.part_steps();
                    }
                    self.edit_on(name.to_owned(), dance);
                }
                Err(error) => self.notice = Some(error.message),
            },
            Ask::SetHops(hops) => {
                let name = if hops { "hop on the upbeat" } else { "leave out the hop on the upbeat" };
                self.edit(name.to_owned(), Dance { hops, ..Dance::clone(&self.dance) });
            }
            Ask::NamePerson(number, name) => self.name_person(number, &name),
            Ask::Undo => self.undo(),
            Ask::Redo => self.redo(),
            Ask::See(seen) => self.seen = seen,
            Ask::Zoom(factor, [x, y]) => {
                let zoom = (self.zoom * factor).clamp(0.2, 20.0);
                let factor = zoom / self.zoom;
                self.zoom = zoom;
                self.pan = [x + (self.pan[0] - x) * factor, y + (self.pan[1] - y) * factor];
            }
            Ask::Pan([x, y]) => self.pan = [self.pan[0] + x, self.pan[1] + y],
            Ask::FitFloor => (self.zoom, self.pan) = (1.0, [0.0, 0.0]),
            Ask::ToggleTrails => self.trails = !self.trails,
            Ask::ToggleBeats => self.beats = self.beats.other(),
            Ask::DropNotice => self.notice = None,
            Ask::ToggleTheme => self.ink = if self.ink == SLATE { PAPER } else { SLATE },
            Ask::ToggleHelp => {
                self.dialog =
                    if matches!(self.dialog, Some(Dialog::Help)) { None } else { Some(Dialog::Help) };
            }
            Ask::PutAway => self.dialog = None,
            other => self.take_draw_ask(other),
        }
    }

    fn name_person(&mut self, number: u32, name: &str) {
        let mut dance = Dance::clone(&self.dance);
        dance.people.retain(|person| person.number != number || !name.is_empty());
        match dance.people.iter_mut().find(|person| person.number == number) {
            Some(person) => name.clone_into(&mut person.name),
            None if name.is_empty() => {}
            None => {
                dance.people.push(Person {
                    number,
                    name: name.to_owned(),
                    extra: crate::dance::Extra::new(),
                });
                dance.people.sort_by_key(|person| person.number);
            }
        }
        self.edit_on(format!("name {number}"), dance);
    }
}

/// The count at which somebody first moves, so that a dance opens on something to see; at most the start of the
/// second figure.
fn first_moving_count(motion: &Motion) -> f64 {
    motion
        .spans()
        .iter()
        .find(|span| {
            (0..motion.dancers())
                .any(|dancer| span.track(dancer).is_some_and(|track| !track.moves().is_empty()))
        })
        .map_or(0.0, crate::motion::Span::begin)
}
