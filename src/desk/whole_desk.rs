use super::{
    ask::{Ask, Grip},
    asked::Asked,
    compare::Compared,
    compiled::Compiled,
    drag::Drag,
    history::History,
    keep::Keep,
    new_dance::NewDance,
    photo_lay::Laying,
    photos::Photos,
    player::Player,
    question::Question,
    room::{Declined, RoomSearch},
    view::View,
    wake::Wake,
    watching::Watching,
    work::Work,
    writing::FileWriting,
};
use crate::dance::{Air, Dance, DanceError, Dancer, FaultKind, Number, read};
use crate::edits::{Guide, LegFrom, Mend, Together};
use crate::faults::Faults;
use crate::motion::{Clock, Motion, Span, SpanIndex};
use crate::sound::Performance;
use crate::store::Recent;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

/// The dances that are part of the program: name and text.
pub const SAMPLES: [(&str, &str); 5] = [
    ("Nine Geese Home", include_str!("../../dances/nine-geese-home.dance.json")),
    ("Low Water", include_str!("../../dances/low-water.dance.json")),
    ("Kettle Bridge", include_str!("../../dances/kettle-bridge.dance.json")),
    ("Ferryman's Candle", include_str!("../../dances/ferrymans-candle.dance.json")),
    ("Thimble Row", include_str!("../../dances/thimble-row.dance.json")),
];

/// Everything that is being worked on. It is read with its methods and changed by [`apply`](Self::apply), and by nothing
/// else.
pub struct Desk {
    /// The dance, and what follows from it.
    pub(super) now: Arc<Compiled>,
    /// The last of it whose faults are known: until those of the dance now are found, these are told.
    pub(super) looked: Arc<Compiled>,
    /// The search for the faults of the dance now, while it goes on beside the window.
    pub(super) looking: Option<Work<Faults>>,
    /// How long the last search took; nothing where there was none.
    pub(super) took: Option<Duration>,
    /// What names the fault that is shown: its kind, dancers and span.
    pub(super) shown: Option<(FaultKind, Vec<Number>, SpanIndex)>,
    /// A mend that is looked for.
    pub(super) seeking: Option<RoomSearch>,
    /// Which faults no room could be made for.
    pub(super) declined: Declined,
    /// A mend that is proposed.
    pub(super) proposed: Option<Mend>,
    /// The other version that this one is compared with.
    pub(super) compared: Option<Compared>,
    pub(super) history: History,
    /// The dance as it is on the disk.
    pub(super) saved: Arc<Dance>,
    pub(super) path: Option<PathBuf>,
    /// Whether the dance was made here and has never had a file.
    pub(super) never_saved: bool,
    pub(super) drag: Option<Drag>,
    /// What a drag has caught on.
    pub(super) guides: Vec<Guide>,
    pub(super) together: Together,
    /// Where a leg begins that a drag makes anew.
    pub(super) leg_from: LegFrom,
    pub(super) player: Player,
    /// What is listened to beside the dance.
    pub(super) listening: Option<Performance>,
    pub(super) chosen: Option<Dancer>,
    /// The dancers that are picked.
    pub(super) picked: Vec<Dancer>,
    pub(super) asked: Asked,
    pub(super) notice: Option<String>,
    pub(super) view: View,
    /// What to watch for.
    pub(super) watching: Watching,
    /// What is known of the photographs under the floor.
    pub(super) photos: Photos,
    /// One that is being read, to be laid there.
    pub(super) laying: Option<Laying>,
    pub(super) recent: Recent,
    pub(super) keep: Keep,
    /// A handout that is being written.
    pub(super) writing: Option<FileWriting>,
    pub(super) wake: Wake,
    pub(super) may_close: bool,
}

impl Desk {
    /// A desk with a dance on it.
    ///
    /// # Errors
    /// When a figure of the dance cannot be worked out.
    pub fn new(dance: Dance, path: Option<PathBuf>, recent: Recent) -> Result<Self, DanceError> {
        let mut desk = Self::on(Compiled::read(Arc::new(dance), None)?, path, recent);
        desk.look_for_faults();
        Ok(desk)
    }

    /// A desk with the first sample dance on it, or an empty dance if that cannot be read.
    #[must_use]
    pub fn with_sample(recent: Recent) -> Self {
        let sample = SAMPLES.first().and_then(|(_, text)| read(text.as_bytes()).ok());
        let dance = Arc::new(sample.unwrap_or_else(|| NewDance::default().empty()));
        let compiled = Compiled::read(Arc::clone(&dance), None).unwrap_or_else(|_| Compiled::still(dance));
        let mut desk = Self::on(compiled, None, recent);
        desk.look_for_faults();
        desk
    }

    /// A desk on which the faults of the dance have not been looked for.
    pub(super) fn on(compiled: Compiled, path: Option<PathBuf>, recent: Recent) -> Self {
        let now = Arc::new(compiled);
        Self {
            looked: Arc::clone(&now),
            looking: None,
            took: None,
            shown: None,
            seeking: None,
            declined: Declined::default(),
            proposed: None,
            compared: None,
            history: History::default(),
            saved: Arc::clone(now.dance()),
            path,
            never_saved: false,
            drag: None,
            guides: Vec::new(),
            together: Together::default(),
            leg_from: LegFrom::default(),
            listening: None,
            player: Player { count: first_moving_count(now.motion()), ..Player::default() },
            chosen: Some(Dancer(0)),
            picked: vec![Dancer(0)],
            asked: Asked::default(),
            notice: None,
            view: View::default(),
            watching: Watching::default(),
            photos: Photos::default(),
            laying: None,
            recent,
            keep: Keep::default(),
            writing: None,
            wake: Wake::default(),
            may_close: false,
            now,
        }
    }

    /// Has somebody woken, from any thread, when something has been done beside the desk: they then ask it to catch up.
    /// Without it, slow work is done while they wait.
    #[must_use]
    pub fn waking(mut self, wake: impl Fn() + Send + Sync + 'static) -> Self {
        self.wake = Wake::new(wake);
        self.keep.wake_with(self.wake.clone());
        self
    }

    /// Takes what is asked for.
    pub fn apply(&mut self, ask: Ask) {
        match ask {
            Ask::Play(ask) => self.apply_play(ask),
            Ask::View(ask) => self.apply_view(ask),
            Ask::Draw(ask) => self.apply_draw(ask),
            Ask::Order(ask) => self.apply_order(ask),
            Ask::About(ask) => self.apply_about(ask),
            Ask::Step(ask) => self.apply_step(ask),
            Ask::Strike(ask) => self.apply_strike(ask),
            Ask::Fault(ask) => self.apply_fault(ask),
            Ask::Photo(ask) => self.apply_photo(ask),
            Ask::File(ask) => self.apply_file(ask),
            Ask::Compare(ask) => self.apply_compare(ask),
            Ask::Keep(ask) => self.apply_keep(ask),
            Ask::Undo => self.undo(),
            Ask::Redo => self.redo(),
        }
    }

    /// The dance on the desk, as the last edit left it.
    #[must_use]
    pub fn dance(&self) -> &Dance {
        self.now.dance()
    }

    /// The dance, to keep hold of.
    #[must_use]
    pub fn dance_to_keep(&self) -> Arc<Dance> {
        Arc::clone(self.now.dance())
    }

    /// What everyone does in it, worked out.
    #[must_use]
    pub fn motion(&self) -> &Arc<Motion> {
        self.now.motion()
    }

    /// A number that is another after each change of the dance, and the same again where that is undone.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.now.revision()
    }

    /// Its tune as it is played; nothing where it has none.
    #[must_use]
    pub fn air(&self) -> Option<&Air> {
        self.now.air()
    }

    /// The file it was opened from or saved to.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Files opened before.
    #[must_use]
    pub fn recent(&self) -> &Recent {
        &self.recent
    }

    /// Whether there is work that no file has.
    #[must_use]
    pub fn unsaved(&self) -> bool {
        let dance = self.now.dance();
        self.never_saved || (!Arc::ptr_eq(dance, &self.saved) && *dance != self.saved)
    }

    /// Whether the window may close although work is unsaved.
    #[must_use]
    pub fn may_close(&self) -> bool {
        self.may_close
    }

    /// The playhead and how it moves.
    #[must_use]
    pub fn player(&self) -> &Player {
        &self.player
    }

    /// The chosen dancer.
    #[must_use]
    pub fn chosen(&self) -> Option<Dancer> {
        self.chosen
    }

    /// What is being dragged.
    #[must_use]
    pub fn held(&self) -> Option<Grip> {
        self.drag.as_ref().map(|drag| drag.grip)
    }

    /// What is asked of the user.
    #[must_use]
    pub fn question(&self) -> Option<&Question> {
        self.asked.question()
    }

    /// A number that changes each time something is asked of the user.
    #[must_use]
    pub fn question_revision(&self) -> u64 {
        self.asked.revision()
    }

    /// A line about what just happened or could not happen.
    #[must_use]
    pub fn notice(&self) -> Option<&str> {
        self.notice.as_deref()
    }

    /// The clock of the tune.
    #[must_use]
    pub fn clock(&self) -> &Clock {
        self.now.clock()
    }

    /// The line of the running order at the playhead.
    #[must_use]
    pub fn span(&self) -> Option<SpanIndex> {
        self.now.motion().span_at(self.player.count)
    }

    /// What is danced at the playhead.
    #[must_use]
    pub fn span_here(&self) -> Option<&Span> {
        self.now.motion().span_under(self.player.count)
    }

    /// A moment in words, with the bar as its figure counts it: `Hey, bar 3:1`.
    #[must_use]
    pub fn moment_words(&self, count: f64) -> String {
        let motion = self.now.motion();
        let span = motion.span_under(count);
        let figure = span.and_then(|span| self.dance().figures.get(span.figure));
        let moment = motion.moment_in_figure(count);
        let over = span.is_some_and(|span| count >= span.end() - 1e-6);
        let moment = if over { "the end".to_owned() } else { format!("bar {moment}") };
        figure.map_or_else(|| moment.clone(), |figure| format!("{}, {moment}", figure.name))
    }

    /// The name of the file on the disk; empty where there is none.
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
        format!("{mark}{} · Bellpad", self.dance().title)
    }
}

/// The count at which somebody first moves, so that a dance opens on something to see; at most the start of the
/// second figure.
fn first_moving_count(motion: &Motion) -> f64 {
    motion
        .spans()
        .iter()
        .find(|span| {
            Dancer::all(motion.dancers())
                .any(|dancer| span.track(dancer).is_some_and(|track| !track.moves().is_empty()))
        })
        .map_or(0.0, Span::begin)
}
