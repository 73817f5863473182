use super::clap::ClapSounding;
use super::knock::KnockSounding;
use super::reed::{Reed, ReedNote};
use super::{Levels, Sound, SoundKind};

/// Below this a sum of sounds is as it is; above it is pressed together, so that no sample is over 1.
const BENDS: f32 = 0.7;

/// The most notes that sound at once.
const MOST_NOTES: usize = 32;

/// Makes samples of sounds, one channel. Sounds that have begun go on over as many calls as they last.
pub struct Mixer {
    rate: f64,
    reed: Reed,
    notes: Vec<ReedNote>,
    knocks: Vec<KnockSounding>,
    claps: Vec<ClapSounding>,
    /// How loud each is, now and from now on.
    pub levels: Levels,
}

impl Mixer {
    /// For so many samples a second.
    #[must_use]
    pub fn new(rate: u32, levels: Levels) -> Self {
        let rate = f64::from(rate);
        let (notes, knocks, claps) = (Vec::new(), Vec::new(), Vec::new());
        Self { rate, reed: Reed::new(rate), notes, knocks, claps, levels }
    }

    /// Begins a sound with the next sample; `speed` is the share of the tune's own speed at which it is played.
    pub fn begin(&mut self, sound: &Sound, speed: f64) {
        match sound.kind {
            SoundKind::Note(key) => {
                // Of more than anyone could hear apart the oldest gives way.
                if self.notes.len() >= MOST_NOTES {
                    self.notes.remove(0);
                }
                self.notes.push(self.reed.note(key, sound.length / speed));
            }
            SoundKind::Clap(many) => self.claps.push(ClapSounding::of(many, self.rate)),
            SoundKind::Beat | SoundKind::Count | SoundKind::Tap(_) | SoundKind::Dib(_) => {
                self.knocks.extend(KnockSounding::of(sound.kind));
            }
        }
    }

    /// Lets go of every note: it dies away as one does that has come to its end, and so without a crack. A knock or a clap does so anyway.
    pub fn let_go(&mut self) {
        for note in &mut self.notes {
            note.let_go();
        }
    }

    /// What sounds of notes goes on for so many times as long as it would have.
    pub fn stretch(&mut self, times: f64) {
        for note in &mut self.notes {
            note.stretch(times);
        }
    }

    /// Forgets what sounds, where nobody hears it.
    pub fn forget(&mut self) {
        self.notes.clear();
        self.knocks.clear();
        self.claps.clear();
    }

    /// Whether anything sounds.
    #[must_use]
    pub fn is_sounding(&self) -> bool {
        !self.notes.is_empty() || !self.knocks.is_empty() || !self.claps.is_empty()
    }

    /// Writes the next samples, from -1 to 1.
    pub fn fill(&mut self, out: &mut [f32]) {
        out.fill(0.0);
        let levels = self.levels;
        self.notes.retain_mut(|note| self.reed.add(note, levels.tune, out));
        self.knocks.retain_mut(|knock| knock.add(self.rate, &levels, out));
        self.claps.retain_mut(|clap| clap.add(levels.taps, out));
        for sample in out {
            let loud = sample.abs();
            if loud > BENDS {
                let over = (loud - BENDS) / (1.0 - BENDS);
                *sample = sample.signum() * (BENDS + (1.0 - BENDS) * over.tanh());
            }
        }
    }
}
