use super::{
    ask::{Ask, Grip, Seen},
    dialogs::{After, Dialog, NewDance, PathField, Purpose},
    files::ChosenFile,
    player::Player,
};
use crate::dance::{Dance, DanceError, Person, read};
use crate::faults::{Fault, find_faults};
use crate::figures::{drag_dancer, drag_facing, drag_point, drop_point, motion_of, restore_named};
use crate::motion::{Clock, Moment, Motion};
use crate::picture::{Ink, PAPER, SLATE, StillChoice, still, to_png, to_svg};
use crate::store::{self, Recent};
use crate::verbs::figure_name_at;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The dances that are part of the program: name and text.
pub const SAMPLES: [(&str, &str); 2] = [
    ("Nine Geese Home", include_str!("../../dances/nine-geese-home.dance.json")),
    ("Low Water", include_str!("../../dances/low-water.dance.json")),
];

/// Everything that the window shows, and what can be done to it. It knows nothing of painting.
pub struct Desk {
    dance: Arc<Dance>,
    motion: Arc<Motion>,
    faults: Vec<Fault>,
    past: Vec<Undone>,
    future: Vec<Undone>,
    /// The dance as it is on the disk.
    saved: Arc<Dance>,
    path: Option<PathBuf>,
    drag: Option<Drag>,
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
    /// The colours.
    pub ink: Ink,
    /// Files opened before.
    pub recent: Recent,
    /// Whether the window may close although work is unsaved.
    pub may_close: bool,
}

/// A state of the dance to go back or on to, and what was done between.
struct Undone {
    name: String,
    dance: Arc<Dance>,
    count: f64,
    chosen: Option<usize>,
}

/// A drag under way: all is worked out afresh from where it began.
struct Drag {
    grip: Grip,
    dance: Arc<Dance>,
    motion: Arc<Motion>,
    count: f64,
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
            dance,
            faults: find_faults(&motion),
            player: Player { count: first_moving_count(&motion), ..Player::default() },
            motion: Arc::new(motion),
            past: Vec::new(),
            future: Vec::new(),
            path,
            drag: None,
            chosen: Some(0),
            dialog: None,
            notice: None,
            seen: Seen::default(),
            zoom: 1.0,
            pan: [0.0, 0.0],
            trails: true,
            ink: SLATE,
            recent,
            may_close: false,
        }
    }

    /// The dance.
    #[must_use]
    pub fn dance(&self) -> &Dance {
        &self.dance
    }

    /// Its motion.
    #[must_use]
    pub fn motion(&self) -> &Arc<Motion> {
        &self.motion
    }

    /// Its faults.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
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
        !Arc::ptr_eq(&self.dance, &self.saved) && self.dance != self.saved
    }

    /// What undo would undo.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// What redo would redo.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
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
            }
            Ask::BeginDrag(grip) => self.begin_drag(grip),
            Ask::DragTo(x, y) => self.drag_to(x, y),
            Ask::DragBy(degrees) => self.drag_by(degrees),
            Ask::EndDrag => self.end_drag(),
            Ask::CancelDrag => self.cancel_drag(),
            Ask::DropPoint(span, dancer, point) => {
                let made =
                    self.motion.spans().get(span).map(|span| drop_point(&self.dance, span, dancer, point));
                match made {
                    Some(Ok(dance)) => self.edit(format!("take away a point of {}", dancer + 1), dance),
                    Some(Err(error)) => self.notice = Some(error.to_string()),
                    None => {}
                }
            }
            Ask::RestoreNamed(figure, place) => {
                let dance = restore_named(&self.dance, figure, place);
                self.edit(format!("have {place} as the figure is named"), dance);
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
            Ask::ToggleTheme => self.ink = if self.ink == SLATE { PAPER } else { SLATE },
            Ask::ToggleHelp => {
                self.dialog =
                    if matches!(self.dialog, Some(Dialog::Help)) { None } else { Some(Dialog::Help) };
            }
            Ask::PutAway => self.dialog = None,
            other => self.take_file_ask(other),
        }
    }

    /// Takes what is asked for about files.
    fn take_file_ask(&mut self, ask: Ask) {
        match ask {
            Ask::AskNew => self.dialog = Some(Dialog::New(NewDance::default())),
            Ask::AskOpen => self.unless_unsaved(After::AskOpen),
            Ask::Open(path) => self.unless_unsaved(After::Open(path)),
            Ask::OpenSample(index) => self.unless_unsaved(After::OpenSample(index)),
            Ask::PutNew(dance) => self.unless_unsaved(After::PutNew(dance)),
            Ask::Save => match self.path.clone() {
                Some(path) => self.save_to(&path),
                None => self.ask_path(Purpose::SaveAs, None),
            },
            Ask::AskSaveAs => self.ask_path(Purpose::SaveAs, None),
            Ask::SaveTo(path) => self.save_to(&path),
            Ask::AskStill => self.ask_path(Purpose::Still, None),
            Ask::StillTo(path) => self.write_still(&path),
            Ask::GoOnUnsaved => {
                if let Some(Dialog::Unsaved(after)) = self.dialog.take() {
                    self.go_on(after);
                }
            }
            Ask::SaveAndGoOn => {
                if let Some(Dialog::Unsaved(after)) = self.dialog.take() {
                    match self.path.clone() {
                        Some(path) => {
                            self.save_to(&path);
                            if !self.unsaved() {
                                self.go_on(after);
                            }
                        }
                        None => self.ask_path(Purpose::SaveAs, Some(after)),
                    }
                }
            }
            Ask::Close => self.unless_unsaved(After::Close),
            _ => {}
        }
    }

    fn seek(&mut self, count: f64) {
        let count = if count.is_finite() { count } else { 0.0 };
        self.player.count = count.clamp(0.0, self.motion.counts());
        self.notice = None;
    }

    fn toggle_play(&mut self) {
        self.end_drag();
        if !self.player.playing && self.player.count >= self.motion.counts() {
            self.player.count = 0.0;
        }
        self.player.playing = !self.player.playing && self.motion.counts() > 0.0;
        self.notice = None;
    }

    fn toggle_loop(&mut self) {
        self.player.looping = !self.player.looping;
        if self.player.loop_counts.is_none() {
            self.player.loop_counts = self
                .span()
                .and_then(|index| self.motion.spans().get(index))
                .map(|span| (span.begin(), span.end()));
            self.player.looping = self.player.loop_counts.is_some();
        }
    }

    /// Sets one end of the loop to the bar at the playhead; the other end gives way if it has to.
    fn set_loop(&mut self, from: bool) {
        let bar = (self.player.count / 4.0).floor() * 4.0;
        let (bar, next) = (bar, (bar + 4.0).min(self.motion.counts()));
        let span = self.span().and_then(|index| self.motion.spans().get(index));
        let (begin, end) = self
            .player
            .loop_counts
            .or(span.map(|span| (span.begin(), span.end())))
            .unwrap_or((0.0, self.motion.counts()));
        let (begin, end) = if from {
            (bar, if end > bar { end } else { next })
        } else {
            (if begin < next { begin } else { bar }, next)
        };
        if end > begin {
            self.player.loop_counts = Some((begin, end));
            self.player.looping = true;
        }
    }

    /// Puts a changed dance in place; gives whether its figures could be worked out.
    fn put(&mut self, dance: Arc<Dance>) -> bool {
        match motion_of(&dance, Some(&self.motion)) {
            Ok(motion) => {
                self.faults = find_faults(&motion);
                self.motion = Arc::new(motion);
                self.dance = dance;
                self.player.count = self.player.count.min(self.motion.counts());
                self.chosen = self.chosen.filter(|&index| index < self.motion.dancers());
                true
            }
            Err(error) => {
                self.notice = Some(error.to_string());
                false
            }
        }
    }

    /// Makes a change that is one step to undo.
    fn edit(&mut self, name: String, dance: Dance) {
        self.end_drag();
        let before = Arc::clone(&self.dance);
        if *before != dance && self.put(Arc::new(dance)) {
            self.remember(name, before);
        }
    }

    fn remember(&mut self, name: String, dance: Arc<Dance>) {
        self.past.push(Undone { name, dance, count: self.player.count, chosen: self.chosen });
        self.future.clear();
        self.notice = None;
    }

    fn undo(&mut self) {
        if self.drag.is_some() {
            self.cancel_drag();
            return;
        }
        if let Some(step) = self.past.pop() {
            let back = self.go_to(step);
            self.future.push(back);
        }
    }

    fn redo(&mut self) {
        self.end_drag();
        if let Some(step) = self.future.pop() {
            let back = self.go_to(step);
            self.past.push(back);
        }
    }

    /// Goes to a remembered state and gives the one that was left.
    fn go_to(&mut self, step: Undone) -> Undone {
        let left = Undone {
            name: step.name,
            dance: Arc::clone(&self.dance),
            count: step.count,
            chosen: step.chosen,
        };
        self.player.playing = false;
        self.put(step.dance);
        self.player.count = step.count.min(self.motion.counts());
        self.chosen = step.chosen;
        self.notice = None;
        left
    }

    fn begin_drag(&mut self, grip: Grip) {
        self.end_drag();
        self.player.playing = false;
        let (Grip::Dancer(dancer) | Grip::Facing(dancer) | Grip::Point(_, dancer, _)) = grip;
        self.chosen = Some(dancer);
        self.notice = None;
        self.drag = Some(Drag {
            grip,
            dance: Arc::clone(&self.dance),
            motion: Arc::clone(&self.motion),
            count: self.player.count,
        });
    }

    fn drag_to(&mut self, x: f64, y: f64) {
        let Some(drag) = &self.drag else { return };
        let made = match drag.grip {
            Grip::Dancer(dancer) => drag_dancer(&drag.dance, &drag.motion, dancer, drag.count, x, y),
            Grip::Point(span, dancer, point) => match drag.motion.spans().get(span) {
                Some(span) => drag_point(&drag.dance, span, dancer, point, x, y),
                None => return,
            },
            Grip::Facing(_) => return,
        };
        self.show_dragged(made);
    }

    fn drag_by(&mut self, degrees: f64) {
        if let Some(Drag { grip: Grip::Facing(dancer), dance, motion, count }) = &self.drag {
            let made = drag_facing(dance, motion, *dancer, *count, degrees);
            self.show_dragged(made);
        }
    }

    fn show_dragged(&mut self, made: Result<Dance, crate::figures::EditError>) {
        match made {
            Ok(dance) => {
                self.notice = None;
                self.put(Arc::new(dance));
            }
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    fn end_drag(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        if self.dance == drag.dance {
            return;
        }
        let bar = Moment::at(drag.count).bar;
        let name = match drag.grip {
            Grip::Dancer(dancer) => format!("move {} at bar {bar}", dancer + 1),
            Grip::Facing(dancer) => format!("turn {} at bar {bar}", dancer + 1),
            Grip::Point(_, dancer, _) => format!("move a point of {}", dancer + 1),
        };
        let notice = self.notice.take();
        self.remember(name, drag.dance);
        self.notice = notice;
    }

    fn cancel_drag(&mut self) {
        if let Some(drag) = self.drag.take() {
            self.dance = drag.dance;
            self.faults = find_faults(&drag.motion);
            self.motion = drag.motion;
            self.notice = None;
        }
    }

    fn name_person(&mut self, number: u32, name: &str) {
        let mut dance = Dance::clone(&self.dance);
        let name = name.trim();
        dance.people.retain(|person| person.number != number || !name.is_empty());
        match dance.people.iter_mut().find(|person| person.number == number) {
            Some(person) => person.name = name.to_owned(),
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
        self.edit(format!("name {number}"), dance);
    }

    /// Does something that puts this dance away, or asks first if there is work that no file has.
    fn unless_unsaved(&mut self, after: After) {
        self.end_drag();
        if self.unsaved() {
            self.player.playing = false;
            self.dialog = Some(Dialog::Unsaved(after));
        } else {
            self.go_on(after);
        }
    }

    fn go_on(&mut self, after: After) {
        match after {
            After::AskOpen => self.ask_path(Purpose::Open, None),
            After::Open(path) => self.open(&path),
            After::OpenSample(index) => {
                let sample = SAMPLES.get(index).and_then(|(_, text)| read(text.as_bytes()).ok());
                if let Some(dance) = sample {
                    self.put_on_desk(dance, None);
                }
            }
            After::PutNew(dance) => {
                self.put_on_desk(*dance, None);
            }
            After::Close => self.may_close = true,
        }
    }

    fn open(&mut self, path: &Path) {
        match store::open(path) {
            Ok(dance) => {
                if self.put_on_desk(dance, Some(path.to_owned())) {
                    self.recent.add(path);
                }
            }
            Err(error) => self.dialog = Some(Dialog::Trouble(error.to_string())),
        }
    }

    /// Takes another dance onto the desk; the one before it stays if this one's figures cannot be worked out.
    fn put_on_desk(&mut self, dance: Dance, path: Option<PathBuf>) -> bool {
        let place = path.as_ref().map_or_else(String::new, |path| format!("{}: ", path.display()));
        match Self::new(dance, path, self.recent.clone()) {
            Ok(desk) => {
                let (ink, trails) = (self.ink, self.trails);
                *self = Self { ink, trails, ..desk };
                true
            }
            Err(error) => {
                self.dialog = Some(Dialog::Trouble(format!("{place}{error}")));
                false
            }
        }
    }

    fn save_to(&mut self, path: &Path) {
        self.end_drag();
        match store::save(path, &self.dance) {
            Ok(()) => {
                self.saved = Arc::clone(&self.dance);
                self.path = Some(path.to_owned());
                self.recent.add(path);
                self.notice = Some(format!("saved as {}", self.file_name()));
            }
            Err(error) => self.dialog = Some(Dialog::Trouble(error.to_string())),
        }
    }

    /// The picture that a still made now would be.
    #[must_use]
    pub fn still_picture(&self) -> crate::picture::Picture {
        let choice = StillChoice {
            trails: self.trails,
            ink: self.ink,
            title: self.dance.title.clone(),
            figure: figure_name_at(&self.dance, &self.motion, self.player.count),
            ..StillChoice::default()
        };
        still(&self.motion, self.player.count, &choice)
    }

    fn write_still(&mut self, path: &Path) {
        let picture = self.still_picture();
        let svg = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg"));
        let bytes = if svg {
            Ok(to_svg(&picture).into_bytes())
        } else {
            to_png(&picture).map_err(|error| error.to_string())
        };
        let written =
            bytes.and_then(|bytes| store::write_whole(path, &bytes).map_err(|error| error.to_string()));
        match written {
            Ok(()) => self.notice = Some(format!("still written to {}", path.display())),
            Err(said) => self.dialog = Some(Dialog::Trouble(said)),
        }
    }

    /// Shows where to choose a file. The desktop's own dialog is asked as well, by the window.
    fn ask_path(&mut self, purpose: Purpose, then: Option<After>) {
        let text = match purpose {
            Purpose::Open => String::new(),
            Purpose::SaveAs => self.path.as_ref().map_or_else(
                || format!("{}.dance.json", slug(&self.dance.title)),
                |path| path.display().to_string(),
            ),
            Purpose::Still => {
                let moment = Moment::at(self.player.count);
                format!("{}-bar-{}.png", slug(&self.dance.title), moment.to_string().replace(':', "-"))
            }
        };
        self.dialog = Some(Dialog::Path(PathField::new(purpose, text, then)));
    }

    /// Takes the file that was chosen in the path field or the desktop's dialog.
    pub fn take_file(&mut self, chosen: ChosenFile) {
        let Some(Dialog::Path(field)) = self.dialog.take() else { return };
        let path = chosen.path;
        match field.purpose {
            Purpose::Open => self.open(&path),
            Purpose::SaveAs => {
                self.save_to(&with_ending(path, "dance.json"));
                if !self.unsaved()
                    && let Some(after) = field.then
                {
                    self.go_on(after);
                }
            }
            Purpose::Still => self.write_still(&with_ending(path, "png")),
        }
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

/// A path with an ending, where it has none of its own.
fn with_ending(path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_some() {
        return path;
    }
    let mut name = path.into_os_string();
    name.push(".");
    name.push(ending);
    PathBuf::from(name)
}

/// A title as part of a file name: small letters, figures and hyphens.
fn slug(title: &str) -> String {
    let mut slug = String::new();
    for letter in title.chars().flat_map(char::to_lowercase).take(60) {
        if letter.is_alphanumeric() {
            slug.push(letter);
        } else if !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() { "dance".to_owned() } else { slug.to_owned() }
}
