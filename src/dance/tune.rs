use super::abc::{At, Event, ReadBar, ReadTune, Sounded, read_events};
use super::counted_bars::CountedBars;
use super::length::Length;
use super::passages::{MOST_TIMES, Passage, expanded, letter, passages};
use super::strain_speeds::StrainSpeeds;
use super::tempo::Tempo;
use super::tune_error::TuneError;
use super::tune_remark::TuneRemark;
use super::{BarCounts, Metre, SpeedChange};

/// What the ABC text of a tune says of its bars.
///
/// ```
/// let tune = bellpad::dance::Tune::read("X:1\nM:6/8\nK:G\nD|:GAB d2B|cBA B2:|\n").unwrap();
/// assert_eq!((tune.metre, tune.upbeat_counts()), ((6, 8), 1));
/// assert_eq!((tune.strains[0].name.as_str(), tune.strains[0].bars), ("A", 2));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Tune {
    /// Beats in a bar, and which part of a whole note each is.
    pub metre: (u64, u64),
    /// How fast it says that it goes, strong beats a minute; nothing where it does not say, or has a metre in which nobody dances.
    pub speed: Option<f64>,
    /// How much of a bar comes before the first whole one.
    pub upbeat_share: f64,
    /// The strains in the order they are written.
    pub strains: Vec<TuneStrain>,
    /// The names of its strains in the order in which its head has them played, once through; empty where it gives none, or one of
    /// parts that are no strains.
    pub order: Vec<String>,
    /// What is odd in it or is left out, in the order of its lines.
    pub told: Vec<TuneRemark>,
}

/// A note of a strain; times are bars.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TuneNote {
    /// When it begins, from the strain's first whole bar; the upbeat's notes begin before 0.
    pub begin: f64,
    /// How long it lasts.
    pub length: f64,
    /// Its key: semitones, 60 for middle C.
    pub key: u8,
    /// Where it stands on the stave: steps above middle C.
    pub step: i32,
}

/// A strain as the ABC text has it, in bars of the tune.
#[derive(Clone, Debug, PartialEq)]
pub struct TuneStrain {
    /// The name of its part, or else A, B and so on by its place.
    pub name: String,
    /// How many bars it has when played once.
    pub bars: u32,
    /// Whether the tune repeats it.
    pub repeated: bool,
    /// How often the tune plays it by its repeat signs; 0 where it has none.
    pub passes: u32,
    /// Its notes in the order in which they begin, played once with the first ending.
    pub notes: Vec<TuneNote>,
    /// The same for the times after the first, where they end otherwise.
    pub again: Vec<Vec<TuneNote>>,
    /// The metre of each of its bars: beats in a bar, and which part of a whole note each is.
    pub metres: Vec<(u64, u64)>,
    /// Where it is to go at another speed than the tune as a whole, each time it is played.
    pub speeds: Vec<SpeedChange>,
}

impl TuneStrain {
    /// The metre in which it begins.
    #[must_use]
    pub fn metre(&self) -> Option<(u64, u64)> {
        self.metres.first().copied()
    }

    /// How counts fall into its bars; those of a metre that nobody dances are taken for usual ones.
    #[must_use]
    pub fn bar_counts(&self) -> BarCounts {
        let mut bars = BarCounts::default();
        for metre in &self.metres {
            bars.add(Metre::as_written(*metre).unwrap_or_default(), 1);
        }
        bars
    }

    /// How often the tune plays it before it goes on: once for each of its endings, and as often as it is repeated.
    #[must_use]
    pub fn times(&self) -> usize {
        (self.again.len() + 1).max(self.passes as usize).max(if self.repeated { 2 } else { 1 })
    }

    /// Its notes when it has been played so many times already: after as many as it has endings it begins anew.
    #[must_use]
    pub fn notes_after(&self, times: u32) -> &[TuneNote] {
        let which = times as usize % (self.again.len() + 1);
        which.checked_sub(1).and_then(|which| self.again.get(which)).unwrap_or(&self.notes)
    }
}

impl Tune {
    /// Reads the first tune of an ABC text. A first bar that is not full is the upbeat; a strain's last bar that
    /// an upbeat completes is a bar; the first and the second ending belong to one time through each. A bar that is too
    /// short or too long for its metre is played as it stands, and told.
    ///
    /// # Errors
    /// When the text is no tune: it has no key, no metre or not one whole bar.
    pub fn read(abc: &str) -> Result<Self, TuneError> {
        Self::of(read_events(abc)?)
    }

    /// The tune that has been read.
    pub(super) fn of(ReadTune { metre, tempo, order, events, told }: ReadTune) -> Result<Self, TuneError> {
        let last = events.last().map_or(1, |(line, _)| *line);
        let mut gather = Gather { told, tempo, ..Gather::default() };
        let (passages, names) = passages(&events);
        let mut part = 0;
        for passage in passages {
            if std::mem::replace(&mut part, passage.part) != passage.part {
                gather.name = names.get(passage.part.saturating_sub(1)).cloned();
            }
            gather.passage(&events, passage);
        }
        gather.close();
        if gather.strains.is_empty() {
            return Err(TuneError { line: last, wrong: "the tune has not one whole bar".to_owned() });
        }
        gather.told.sort_by_key(|remark| remark.line);
        let upbeat_share = gather.upbeat.unwrap_or(0.0);
        let speed = tempo.zip(Metre::as_written(metre)).map(|(tempo, of)| {
            let strong_beat = metre.0 as f64 / metre.1 as f64 / of.strong_beats();
            tempo.length / strong_beat * tempo.a_minute
        });
        let order = order_of(&gather.strains, &order);
        Ok(Self { metre, speed, upbeat_share, strains: gather.strains, order, told: gather.told })
    }

    /// The strain with a name, in any case.
    #[must_use]
    pub fn strain(&self, name: &str) -> Option<&TuneStrain> {
        self.strains.iter().find(|strain| strain.name.eq_ignore_ascii_case(name.trim()))
    }

    /// The counts of the upbeat; part of a count is one. In 6/8 the counts fall on quavers 1, 3, 4 and 6 [MB1], so
    /// they begin 1/6, 1/2, 2/3 and 1 of a bar before the next; in the other metres likewise, by where their counts fall.
    #[must_use]
    pub fn upbeat_counts(&self) -> u32 {
        let metre = Metre::as_written(self.metre).unwrap_or_default();
        // From the end of the bar back.
        let begins = metre.shares().iter().rev().map(|share| 1.0 - share).take(metre.counts() as usize);
        begins.filter(|begin| self.upbeat_share > begin + 1e-9).count() as u32
    }
}

/// The order of parts as names of strains, each as often as it is repeated (3.1.9, 4.10).
fn order_of(strains: &[TuneStrain], order: &str) -> Vec<String> {
    let mut names = Vec::new();
    let letters = expanded(order);
    for run in letters.chunk_by(|one, other| one == other) {
        let of_letter =
            |strain: &&TuneStrain| run.first().is_some_and(|letter| strain.name == letter.to_string());
        // A part of several strains has one of a name of its own.
        let Some(strain) = strains.iter().find(of_letter) else { return Vec::new() };
        let own_ends = !strain.again.is_empty() && run.len() > strain.again.len();
        let times = if own_ends { 1 } else { strain.times() };
        names.extend(std::iter::repeat_n(strain.name.clone(), times * run.len()));
    }
    let is_played = |strain: &TuneStrain| names.contains(&strain.name);
    if strains.iter().all(is_played) { names } else { Vec::new() }
}

/// The strains as they come together.
#[derive(Default)]
struct Gather {
    strains: Vec<TuneStrain>,
    told: Vec<TuneRemark>,
    /// How fast the tune as a whole says that it goes.
    tempo: Option<Tempo>,
    /// The part of a bar before the first strain.
    upbeat: Option<f64>,
    now: Open,
    /// The name of the part that begins.
    name: Option<String>,
}

/// The most ties that wait for their other note.
const MOST_TIED: usize = 64;

/// A strain that is not at its end.
#[derive(Default)]
struct Open {
    name: Option<String>,
    /// The line of its last bar.
    line: usize,
    upbeat: Option<f64>,
    count: CountedBars,
    endings: Vec<OpenEnding>,
    passes: u32,
    notes: Vec<TuneNote>,
    /// The keys that a tie carries over, with where they end; and those that one carried into the endings.
    tied: Vec<(u8, f64)>,
    tied_before: Vec<(u8, f64)>,
    /// The metre of each of its bars, with the first ending.
    metres: Vec<(u64, u64)>,
    /// How fast it goes, with the first ending.
    speeds: StrainSpeeds,
    /// Whether it has come to an ending that is left out.
    beyond: bool,
}

/// An ending of a strain.
struct OpenEnding {
    /// The times that it is for, from 1.
    times: Vec<u32>,
    /// The bars up to its end, from the start of the strain.
    count: CountedBars,
    notes: Vec<TuneNote>,
    /// How long those notes before it last that are tied into it, by their places.
    rings: Vec<(usize, f64)>,
}

impl Open {
    fn is_empty(&self) -> bool {
        self.count.total() == 0 && self.endings.is_empty()
    }

    /// Takes the notes of a bar, or of a part of one, that begins at a number of bars.
    fn sound(&mut self, at: f64, full: Length, sounded: &[Sounded]) {
        for note in sounded {
            let (begin, length) = (at + note.begin.share_of(full), note.length.share_of(full));
            let before =
                self.tied.iter().position(|(key, end)| *key == note.key && (end - begin).abs() < 1e-9);
            let carried = before.map(|place| self.tied.swap_remove(place));
            let is_tied = |earlier: &TuneNote| carried.is_some() && earlier.key == note.key;
            let sounded = TuneNote { begin, length, key: note.key, step: note.step };
            let before = self.notes.iter().rposition(is_tied);
            match self.endings.last_mut() {
                None => match before.and_then(|place| self.notes.get_mut(place)) {
                    Some(earlier) => earlier.length = begin + length - earlier.begin,
                    None => self.notes.push(sounded),
                },
                Some(ending) => match ending.notes.iter_mut().rev().find(|earlier| is_tied(earlier)) {
                    Some(earlier) => earlier.length = begin + length - earlier.begin,
                    // What is tied into an ending rings on from before it, with that ending alone.
                    None => match before.and_then(|place| Some((place, self.notes.get(place)?.begin))) {
                        Some((place, begun)) => {
                            ending.rings.retain(|(other, _)| *other != place);
                            ending.rings.push((place, begin + length - begun));
                        }
                        None => ending.notes.push(sounded),
                    },
                },
            }
            if note.tied {
                // One that found no note of its key binds nothing: the oldest give way.
                if self.tied.len() >= MOST_TIED {
                    self.tied.remove(0);
                }
                self.tied.push((note.key, begin + length));
            }
        }
    }
}

impl Open {
    /// Its notes for each time that it is played, as far as those differ.
    fn each_time(self) -> Vec<Vec<TuneNote>> {
        let last = self.endings.iter().flat_map(|ending| &ending.times).max().copied().unwrap_or(1);
        let times = last.max(self.endings.len() as u32).max(1);
        let of_time = |time: u32| {
            let told = self.endings.iter().find(|ending| ending.times.contains(&time));
            told.or_else(|| self.endings.get(time as usize - 1)).or(self.endings.last())
        };
        (1..=times)
            .map(|time| {
                let mut notes = self.notes.clone();
                if let Some(ending) = of_time(time) {
                    for (place, length) in &ending.rings {
                        if let Some(note) = notes.get_mut(*place) {
                            note.length = *length;
                        }
                    }
                    notes.extend(&ending.notes);
                }
                notes.sort_by(|one, other| one.begin.total_cmp(&other.begin));
                notes
            })
            .collect()
    }
}

impl Gather {
    /// Takes a passage: a strain, but where nothing but the upbeat of the next is in it.
    fn passage(&mut self, events: &[At], Passage { body, endings, passes, .. }: Passage) {
        if !self.now.is_empty() {
            self.close();
        }
        if let Some(name) = self.name.take().filter(|name| !name.is_empty()) {
            self.now.name = Some(name);
        }
        self.now.passes = passes;
        let bar_at = |place: &usize| match events.get(*place) {
            Some((line, Event::Bar(bar))) => Some((*line, bar)),
            _ => None,
        };
        for (line, bar) in body.iter().filter_map(bar_at) {
            self.bar(line, bar);
        }
        for (times, bars) in endings {
            let line = bars.first().and_then(bar_at).map_or(self.now.line, |(line, _)| line);
            self.ending(line, times);
            for (line, bar) in bars.iter().filter_map(bar_at) {
                self.bar(line, bar);
            }
        }
    }

    fn bar(&mut self, line: usize, bar: &ReadBar) {
        let &ReadBar { length, metre, ref sounded, tempo, ref tempos, .. } = bar;
        if self.now.beyond {
            return;
        }
        let full = Length::of(metre.0, metre.1).unwrap_or(Length::NOTHING);
        let now = &mut self.now;
        now.line = line;
        now.speeds.begin(tempo);
        let changes = tempos.iter().map(|(at, tempo)| (at.share_of(full), *tempo));
        if now.is_empty() && now.upbeat.is_none() && length < full {
            let share = length.share_of(full);
            now.upbeat = Some(share);
            now.sound(-share, full, sounded);
            changes.for_each(|(at, tempo)| now.speeds.change(at - share, tempo));
            return;
        }
        let count = now.endings.last().map_or(now.count, |ending| ending.count);
        if now.endings.len() < 2 && count.part.is_none() {
            now.metres.resize(count.whole as usize, metre);
            now.metres.push(metre);
        }
        let at = count.played(full);
        now.sound(at, full, sounded);
        if now.endings.len() < 2 {
            changes.for_each(|(inside, tempo)| now.speeds.change(at + inside, tempo));
        }
        let told =
            now.endings.last_mut().map_or(&mut now.count, |ending| &mut ending.count).add(line, length, full);
        if let Some((line, wrong)) = told {
            let said = format!("{wrong} for {}/{}, and is played as it stands", metre.0, metre.1);
            self.told.push(TuneRemark { line, said, is_odd: true });
        }
    }

    fn ending(&mut self, line: usize, times: Vec<u32>) {
        let now = &mut self.now;
        now.beyond = now.endings.len() >= MOST_TIMES as usize;
        if now.beyond {
            let said = format!("an ending after {MOST_TIMES} of one strain is left out");
            self.told.push(TuneRemark { line, said, is_odd: false });
            return;
        }
        // Every ending follows what is before the first.
        if now.endings.is_empty() {
            now.tied_before.clone_from(&now.tied);
        } else {
            now.tied.clone_from(&now.tied_before);
        }
        now.endings.push(OpenEnding { times, count: now.count, notes: Vec::new(), rings: Vec::new() });
    }

    fn close(&mut self) {
        let mut now = std::mem::take(&mut self.now);
        let bars = now.endings.first().map_or(now.count, |ending| ending.count).total();
        if bars == 0 {
            return;
        }
        if let Some(other) =
            now.endings.iter().map(|ending| ending.count.total()).find(|other| *other != bars)
        {
            let said = format!(
                "with one ending this strain has {bars} bars, and with another {other}; it is taken to have {bars}"
            );
            self.told.push(TuneRemark { line: now.line, said, is_odd: true });
        }
        let name = now.name.clone().unwrap_or_else(|| letter(self.strains.len()));
        if self.strains.is_empty() {
            self.upbeat = now.upbeat;
        }
        let (passes, repeated) = (now.passes, now.passes > 1 || now.endings.len() > 1);
        let mut metres = now.metres.clone();
        let speeds = std::mem::take(&mut now.speeds);
        let mut each = now.each_time().into_iter();
        let notes = each.next().unwrap_or_default();
        metres.resize(bars as usize, metres.last().copied().unwrap_or_default());
        let (again, speeds) = (each.collect(), speeds.changes(self.tempo, &metres));
        self.strains.push(TuneStrain { name, bars, repeated, passes, notes, again, metres, speeds });
    }
}
