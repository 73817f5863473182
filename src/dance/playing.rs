use super::tune::{Tune, TuneNote};
use super::{BarCounts, Dance, Music, Strain, TuneError, TuneStrain};
use std::sync::Arc;

/// The tune of some music as its ABC text has it, or why that cannot be read; nothing where there is no text.
pub type KnownTune = Option<Result<Arc<Tune>, TuneError>>;

/// Reads the tune of some music.
#[must_use]
pub fn tune_of(music: &Music) -> KnownTune {
    (!music.abc.trim().is_empty()).then(|| Tune::read(&music.abc).map(Arc::new))
}

/// A strain of the tune played in the dance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Playing {
    /// The bar of the dance at which it begins, from 0.
    pub first_bar: u32,
    /// Which strain of the tune it is, from 0.
    pub strain: usize,
    /// How many of its bars are played.
    pub bars: u32,
    /// How often it has been played just before, without another between.
    pub times: u32,
    /// How much of the bar before it is left for its upbeat, a share of that bar.
    pub room: f64,
    /// How much of the bar before it as many notes take as one of its own bars has: 1 but where the metre changes here.
    pub upbeat: f64,
}

/// A note of the tune as the dance plays it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sounded<'a> {
    /// When it begins and ends, bars from the start of the dance; those of an upbeat lie in the bar before.
    pub begin: f64,
    pub end: f64,
    /// As the strain has it.
    pub note: &'a TuneNote,
}

/// The tune as the dance plays it.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    /// As its ABC text has it.
    pub tune: Arc<Tune>,
    /// What is played when, in order.
    pub playings: Vec<Playing>,
}

impl Air {
    /// The tune of a dance, whose lines of the running order begin at a bar and last so many; nothing where it has no
    /// tune or that cannot be read. `bars` are those of the whole dance.
    #[must_use]
    pub fn of(dance: &Dance, bars: &BarCounts, danced: impl IntoIterator<Item = (u32, u32)>) -> Option<Self> {
        Some(Self::with(tune_of(&dance.music)?.ok()?, dance, bars, danced))
    }

    /// The same with the tune that has been read of it.
    #[must_use]
    pub fn with(
        tune: Arc<Tune>,
        dance: &Dance,
        bars: &BarCounts,
        danced: impl IntoIterator<Item = (u32, u32)>,
    ) -> Self {
        let strains: Vec<Played> = tune.strains.iter().map(Played::of).collect();
        let mut air = Self { playings: playings(dance, &strains, danced), tune };
        for index in 0..air.playings.len() {
            let room = air.room_before(index);
            if let Some(playing) = air.playings.get_mut(index) {
                (playing.room, playing.upbeat) = (room, upbeat_share(bars, playing.first_bar));
            }
        }
        air
    }

    /// The notes that sound between two moments, bars from the start of the dance. The upbeat of a strain is heard where what is
    /// played before it leaves room for it, as a last bar does that it completes, and at the start of the dance. Nothing is heard
    /// beyond what is played of a strain, however long its last bar is.
    pub fn notes(&self, from: f64, to: f64) -> impl Iterator<Item = Sounded<'_>> {
        let first =
            self.playings.partition_point(|playing| f64::from(playing.first_bar + playing.bars) <= from);
        let playings = self.playings.iter().skip(first);
        // An upbeat is less than a bar.
        let heard = playings.take_while(move |playing| f64::from(playing.first_bar) - 1.0 <= to);
        heard.flat_map(move |playing| {
            let (bar, bars) = (f64::from(playing.first_bar), f64::from(playing.bars));
            // What is before the first bar lies in another, which may be longer or shorter.
            let there = move |moment: f64| if moment < 0.0 { moment * playing.upbeat } else { moment };
            self.notes_of(playing)
                .iter()
                .map(move |note| (there(note.begin), there(note.begin + note.length).min(bars), note))
                .filter(move |(begin, ..)| *begin < bars - 1e-9 && *begin > -playing.room - 1e-9)
                .map(move |(begin, end, note)| Sounded { begin: bar + begin, end: bar + end, note })
                .filter(move |sounded| sounded.end > from && sounded.begin < to)
        })
    }

    fn notes_of(&self, playing: &Playing) -> &[TuneNote] {
        self.tune.strains.get(playing.strain).map_or(&[][..], |strain| strain.notes_after(playing.times))
    }

    /// How much of a bar nothing sounds before a playing, by its place among them: all of it at the start of the dance, and none
    /// where the music does not go on from one to the other.
    fn room_before(&self, index: usize) -> f64 {
        let Some(before) = index.checked_sub(1).and_then(|before| self.playings.get(before)) else {
            return 1.0;
        };
        let bars = f64::from(before.bars);
        let goes_on =
            self.playings.get(index).is_some_and(|now| now.first_bar == before.first_bar + before.bars);
        let sounded = self.notes_of(before).iter().filter(|note| note.begin < bars - 1e-9);
        let end = sounded.map(|note| note.begin + note.length).fold(0.0, f64::max);
        if goes_on { (bars - end).clamp(0.0, 1.0) } else { 0.0 }
    }
}

/// How much of the bar before one as many notes take as that one has.
fn upbeat_share(bars: &BarCounts, bar: u32) -> f64 {
    let whole_notes = |bar| {
        let (beats, each) = bars.metre(bar).written();
        f64::from(beats) / f64::from(each)
    };
    bar.checked_sub(1).map_or(1.0, |before| whole_notes(bar) / whole_notes(before))
}

/// The strains that the dance says something of, as they are played: each with the bar at which it begins, from 0, and how many
/// of its bars are played. The lines of the running order begin at a bar and last so many.
#[must_use]
pub fn played_strains(
    dance: &Dance,
    danced: impl IntoIterator<Item = (u32, u32)>,
) -> Vec<(&Strain, u32, u32)> {
    let known = &dance.music.strains;
    let tune = tune_of(&dance.music);
    let strains: Vec<Played> = match &tune {
        Some(Ok(tune)) => tune.strains.iter().map(Played::of).collect(),
        _ => known.iter().map(|strain| Played { name: &strain.name, bars: strain.bars, times: 1 }).collect(),
    };
    let named = |name: &str| known.iter().find(|strain| strain.name.eq_ignore_ascii_case(name));
    playings(dance, &strains, danced)
        .into_iter()
        .filter_map(|playing| {
            Some((named(strains.get(playing.strain)?.name)?, playing.first_bar, playing.bars))
        })
        .collect()
}

/// A strain as it is played.
struct Played<'a> {
    name: &'a str,
    bars: u32,
    /// How often the tune plays it before it goes on.
    times: usize,
}

impl<'a> Played<'a> {
    fn of(strain: &'a TuneStrain) -> Self {
        Self { name: &strain.name, bars: strain.bars, times: strain.times() }
    }
}

/// When each playing of a strain begins. A strain is played again for as long as its line of the running order lasts;
/// where no line names a strain the tune goes on, each strain as often as it is repeated.
fn playings(dance: &Dance, strains: &[Played], danced: impl IntoIterator<Item = (u32, u32)>) -> Vec<Playing> {
    let entries: Vec<_> =
        dance.order.iter().filter(|entry| dance.figure_index(&entry.figure).is_some()).collect();
    // The tune once through, for lines that name no strain.
    let listed: Vec<usize> = dance
        .music
        .played
        .iter()
        .filter_map(|name| strains.iter().position(|strain| strain.name.eq_ignore_ascii_case(name.trim())))
        .collect();
    let through = if listed.is_empty() {
        strains
            .iter()
            .enumerate()
            .flat_map(|(index, strain)| std::iter::repeat_n(index, strain.times))
            .collect()
    } else {
        listed
    };
    let (mut at, mut next) = (Vec::new(), 0);
    for (index, (first_bar, lasts)) in danced.into_iter().enumerate() {
        let name = entries.get(index).map_or("", |entry| entry.strain.trim());
        let named = strains.iter().position(|strain| strain.name.eq_ignore_ascii_case(name));
        if named.is_none() && !name.is_empty() {
            // A strain that the tune has not: nothing but the click.
            continue;
        }
        let mut bar = 0;
        while bar < lasts {
            let strain = named.or_else(|| through.get(next % through.len().max(1)).copied());
            let Some((strain, bars)) =
                strain.and_then(|index| Some((index, strains.get(index)?.bars.max(1))))
            else {
                break;
            };
            next += usize::from(named.is_none());
            let begin = first_bar + bar;
            let same = at.last().filter(|before: &&Playing| {
                before.strain == strain && before.first_bar + before.bars == begin
            });
            let times = same.map_or(0, |before| before.times + 1);
            let bars_played = bars.min(lasts - bar);
            at.push(Playing { first_bar: begin, strain, bars: bars_played, times, room: 0.0, upbeat: 1.0 });
            bar += bars;
        }
    }
    at
}
