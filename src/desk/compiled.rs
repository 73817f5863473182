use crate::dance::{Air, Dance, DanceError, Dancer, KnownTune, check_rules, tune_of};
use crate::faults::{Faults, Heard, Space, space_needed};
use crate::figures::{motion_after, motion_of};
use crate::motion::limbs::Gait;
use crate::motion::{Clock, Ground, Motion};
use crate::sound::{Sound, sounds};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, OnceLock};

/// A dance and all that follows from it. It never changes: what was not worked out at once is worked out once, and an edit
/// makes another. History holds these, so that going back works nothing out anew.
pub struct Compiled {
    dance: Arc<Dance>,
    motion: Arc<Motion>,
    faults: OnceLock<Faults>,
    tune: OnceLock<KnownTune>,
    air: OnceLock<Option<Arc<Air>>>,
    space: OnceLock<Space>,
    clock: OnceLock<Clock>,
    gaits: OnceLock<Box<[OnceLock<Gait>]>>,
    sounds: OnceLock<Arc<[Sound]>>,
    revision: u64,
}

/// The revision of the next one.
static NEXT: AtomicU64 = AtomicU64::new(0);

impl Compiled {
    /// Works out a dance; figures that are as in another are taken from there.
    ///
    /// # Errors
    /// When it could not be opened again from a file, or a figure cannot be worked out; with the path of the key.
    pub fn of(dance: Arc<Dance>, before: Option<&Self>) -> Result<Self, DanceError> {
        check_rules(&dance)?;
        Self::read(dance, before)
    }

    /// The same of a dance that comes from a file, and so keeps the rules of files.
    ///
    /// # Errors
    /// When a figure cannot be worked out; with the path of the key.
    pub fn read(dance: Arc<Dance>, before: Option<&Self>) -> Result<Self, DanceError> {
        let motion = match before {
            Some(before) => motion_after(&dance, (&before.dance, &before.motion))?,
            None => motion_of(&dance, None)?,
        };
        Ok(Self::with(dance, motion, before))
    }

    /// The same of a dance whose motion is worked out already.
    ///
    /// # Errors
    /// When it could not be opened again from a file; with the path of the key.
    pub(super) fn made(dance: Arc<Dance>, motion: Motion, before: &Self) -> Result<Self, DanceError> {
        check_rules(&dance)?;
        Ok(Self::with(dance, motion, Some(before)))
    }

    /// A dance in which nobody moves.
    #[must_use]
    pub fn still(dance: Arc<Dance>) -> Self {
        let motion = Motion::still(&Ground::of(&dance.set));
        Self::with(dance, motion, None)
    }

    /// A dance whose motion is worked out already; what is heard is taken from one before it that is heard just so, and the tune
    /// that was read from one of the same text.
    fn with(dance: Arc<Dance>, motion: Motion, before: Option<&Self>) -> Self {
        let heard = before.filter(|before| {
            before.motion.bar_counts() == motion.bar_counts() && is_heard_as(&before.dance, &dance)
        });
        let taps = heard.filter(|before| before.motion.blows() == motion.blows());
        let read = before.filter(|before| before.dance.music.abc == dance.music.abc);
        Self {
            dance,
            motion: Arc::new(motion),
            faults: OnceLock::new(),
            tune: read.map(|before| before.tune.clone()).unwrap_or_default(),
            air: heard.map(|before| before.air.clone()).unwrap_or_default(),
            space: OnceLock::new(),
            gaits: OnceLock::new(),
            clock: heard.map(|before| before.clock.clone()).unwrap_or_default(),
            sounds: taps.map(|before| before.sounds.clone()).unwrap_or_default(),
            revision: NEXT.fetch_add(1, Ordering::Relaxed),
        }
    }

    /// Another for each dance that is worked out.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// What the file says.
    #[must_use]
    pub fn dance(&self) -> &Arc<Dance> {
        &self.dance
    }

    /// What everyone does, worked out.
    #[must_use]
    pub fn motion(&self) -> &Arc<Motion> {
        &self.motion
    }

    /// Its faults, once they have been found.
    #[must_use]
    pub fn faults(&self) -> Option<&Faults> {
        self.faults.get()
    }

    /// Takes down the faults that were found.
    pub(super) fn set_faults(&self, faults: Faults) {
        // Two searches of one dance find the same.
        let _ = self.faults.set(faults);
    }

    /// Its tune as it is played; nothing where it has none.
    #[must_use]
    pub fn air(&self) -> Option<&Air> {
        let danced = self.motion.spans().iter().map(|span| (span.first_bar, span.bars));
        let air = || {
            let tune = Arc::clone(self.tune().as_ref()?.as_ref().ok()?);
            Some(Arc::new(Air::with(tune, &self.dance, self.motion.bar_counts(), danced)))
        };
        self.air.get_or_init(air).as_deref()
    }

    /// Its tune as its text has it.
    fn tune(&self) -> &KnownTune {
        self.tune.get_or_init(|| tune_of(&self.dance.music))
    }

    /// How it is heard, for those who look for faults.
    #[must_use]
    pub fn heard(&self) -> Heard<'_> {
        Heard { tune: self.tune(), air: self.air(), clock: self.clock() }
    }

    /// Its counts to seconds and back.
    #[must_use]
    pub fn clock(&self) -> &Clock {
        self.clock.get_or_init(|| Clock::of_dance(&self.dance, &self.motion))
    }

    /// How a dancer goes through it on their feet; nothing for a number that is not in the set.
    #[must_use]
    pub fn gait(&self, dancer: Dancer) -> Option<&Gait> {
        let none = || (0..self.motion.dancers()).map(|_| OnceLock::new()).collect();
        let gait = self.gaits.get_or_init(none).get(dancer.index())?;
        Some(gait.get_or_init(|| Gait::of(&self.motion, self.clock(), dancer)))
    }

    /// Bytes of the bodies in space that it holds.
    pub(super) fn gait_bytes(&self) -> usize {
        let known = self.gaits.get().into_iter().flatten();
        known.filter_map(OnceLock::get).map(Gait::bytes).sum()
    }

    /// All that sounds in it, in order, with seconds from its start.
    #[must_use]
    pub fn sounds(&self) -> &Arc<[Sound]> {
        self.sounds.get_or_init(|| {
            sounds(self.air(), self.motion.blows(), self.clock(), (0.0, self.motion.counts())).into()
        })
    }

    /// Bytes of what is heard that it holds and another does not.
    pub(super) fn heard_bytes_beside(&self, other: &Self) -> usize {
        let is_other =
            |sounds: &&Arc<[Sound]>| other.sounds.get().is_none_or(|known| !Arc::ptr_eq(known, sounds));
        self.sounds.get().filter(is_other).map_or(0, |sounds| size_of_val(&**sounds))
    }

    /// The floor that it needs.
    #[must_use]
    pub fn space(&self) -> &Space {
        self.space.get_or_init(|| space_needed(&self.dance, &self.motion))
    }
}

/// Whether one dance is heard just as another but for its taps: the same tune to as many bars, at the same speeds.
fn is_heard_as(one: &Dance, other: &Dance) -> bool {
    one.music == other.music
        && one.order.len() == other.order.len()
        && one.figures.len() == other.figures.len()
        && one
            .order
            .iter()
            .zip(&other.order)
            .all(|(one, other)| (&one.figure, &one.strain) == (&other.figure, &other.strain))
        && one.figures.iter().zip(&other.figures).all(|(one, other)| {
            (&one.id, one.bars, &one.metres, &one.speeds)
                == (&other.id, other.bars, &other.metres, &other.speeds)
        })
}
