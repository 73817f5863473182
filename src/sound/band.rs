use super::performance::{CountIn, SHORTEST, round};
use super::{Heard, Levels, Mixer, Performance, Sound};
use crate::motion::Clock;
use std::collections::VecDeque;

/// From a sample on, what is heard goes on evenly.
#[derive(Clone)]
struct Mark {
    sample: u64,
    place: Option<Place>,
}

/// Where the music is from a mark on.
#[derive(Clone)]
struct Place {
    clock: Clock,
    /// Seconds from the start of the dance, at the tune's own speed; those at which the music itself begins; and the
    /// count that is its end.
    seconds: f64,
    begins: f64,
    end: f64,
    speed: f64,
    count_in: CountIn,
    ended: bool,
}

/// Marks older than this, seconds, are heard no more.
const FORGOTTEN: f64 = 20.0;

/// Plays the music of a dance as a stream of samples without end, and knows what is heard at each of them. It is asked for
/// samples ahead of time, and may be changed at any time.
pub struct Band {
    rate: f64,
    mixer: Mixer,
    playing: Option<Performance>,
    /// The clicks before it.
    clicks: Vec<Sound>,
    /// Seconds from the start of the dance, at the tune's own speed; before its own beginning the clicks sound.
    now: f64,
    begins: f64,
    next_click: usize,
    next: usize,
    /// Samples that have been made.
    made: u64,
    marks: VecDeque<Mark>,
}

impl Band {
    /// A band that plays nothing yet, for so many samples a second.
    #[must_use]
    pub fn new(rate: u32, levels: Levels) -> Self {
        Self {
            rate: f64::from(rate),
            mixer: Mixer::new(rate, levels),
            playing: None,
            clicks: Vec::new(),
            now: 0.0,
            begins: 0.0,
            next_click: 0,
            next: 0,
            made: 0,
            marks: VecDeque::from([Mark { sample: 0, place: None }]),
        }
    }

    /// Plays from the next sample on, instead of what was played. From the start of the dance the upbeat sounds before it,
    /// in the last of the clicks where there are some.
    pub fn play(&mut self, playing: Performance) {
        self.mixer.let_go();
        let clock = &playing.clock;
        self.begins = clock.seconds(playing.from);
        let upbeat = playing.sounds.first().map_or(0.0, |sound| sound.begin.min(0.0));
        let first_sound = if playing.from <= 0.0 { upbeat } else { self.begins };
        let counted_in = f64::from(playing.counted_in);
        let count_in = CountIn::before(clock, playing.from, counted_in);
        self.clicks = count_in.clicks(clock, playing.from, counted_in);
        self.now = self.clicks.first().map_or(first_sound, |click| click.begin.min(first_sound));
        (self.next_click, self.next) = (0, first_from(&playing.sounds, first_sound));
        self.playing = Some(playing);
        self.mark(false);
    }

    /// Plays nothing from the next sample on.
    pub fn stop(&mut self) {
        self.mixer.let_go();
        self.playing = None;
        self.marks.push_back(Mark { sample: self.made, place: None });
    }

    /// Goes on at another share of the tune's own speed.
    pub fn set_speed(&mut self, speed: f64) {
        if let Some(playing) = &mut self.playing {
            let before = std::mem::replace(&mut playing.speed, speed);
            self.mixer.stretch(before / speed);
            self.mark(false);
        }
    }

    /// Goes round between other counts, or no more.
    pub fn set_round(&mut self, round: Option<(f64, f64)>) {
        if let Some(playing) = &mut self.playing {
            playing.round = round;
        }
    }

    /// How loud each is from the next sample on.
    pub fn set_levels(&mut self, levels: Levels) {
        self.mixer.levels = levels;
    }

    /// Whether anything is played.
    #[must_use]
    pub fn is_playing(&self) -> bool {
        self.playing.is_some()
    }

    /// Whether anything is played or dies away.
    #[must_use]
    pub fn is_sounding(&self) -> bool {
        self.playing.is_some() || self.mixer.is_sounding()
    }

    /// Samples that have been made so far.
    #[must_use]
    pub fn made(&self) -> u64 {
        self.made
    }

    /// What is heard with a sample.
    #[must_use]
    pub fn heard(&self, sample: u64) -> Heard {
        let index = self.marks.partition_point(|mark| mark.sample <= sample).saturating_sub(1);
        let mark = self.marks.get(index).filter(|mark| mark.sample <= sample);
        let Some((mark, place)) = mark.and_then(|mark| Some((mark, mark.place.as_ref()?))) else {
            return Heard::Nothing;
        };
        if place.ended {
            return Heard::Ended;
        }
        let seconds = place.seconds + (sample - mark.sample) as f64 / self.rate * place.speed;
        if seconds < place.begins - 1e-9 && place.begins - place.seconds > SHORTEST {
            return Heard::CountingIn(place.count_in.left(&place.clock, seconds, place.begins));
        }
        Heard::Count(place.clock.counts(seconds.max(0.0)).min(place.end))
    }

    /// Lets so many samples go by that nobody hears.
    pub fn pass(&mut self, samples: u64) {
        let mut left = samples;
        while left > 0 {
            let long = left.min(self.begin_what_begins().max(1));
            self.mixer.forget();
            self.go_on(long);
            left -= long;
        }
    }

    /// Makes the next samples.
    pub fn fill(&mut self, out: &mut [f32]) {
        let mut rest = out;
        while !rest.is_empty() {
            let until_next = self.begin_what_begins().max(1);
            let long = rest.len().min(usize::try_from(until_next).unwrap_or(usize::MAX));
            let (now, later) = rest.split_at_mut(long);
            self.mixer.fill(now);
            self.go_on(long as u64);
            rest = later;
        }
    }

    /// Begins all that begins with the next sample; the samples until something else does, or until it turns.
    fn begin_what_begins(&mut self) -> u64 {
        let Some(playing) = &self.playing else { return u64::MAX };
        let (rate, now, speed) = (self.rate, self.now, playing.speed);
        let samples = |seconds: f64| ((seconds - now) / speed * rate).round().max(0.0) as u64;
        let mut next = samples(self.turns_at(playing));
        for (all, index) in [(&self.clicks[..], &mut self.next_click), (&playing.sounds[..], &mut self.next)]
        {
            while let Some(sound) = all.get(*index) {
                let after = samples(sound.begin);
                if after > 0 {
                    next = next.min(after);
                    break;
                }
                self.mixer.begin(sound, speed);
                *index += 1;
            }
        }
        next
    }

    /// Seconds from the start of the dance at which it goes round or ends.
    fn turns_at(&self, playing: &Performance) -> f64 {
        match round(playing) {
            // One that ends before the place where it was begun is not gone round.
            Some((_, to)) if self.now < to && self.begins < to => to,
            _ => playing.clock.seconds(playing.end),
        }
    }

    /// Goes on by samples that have been made.
    fn go_on(&mut self, samples: u64) {
        self.made += samples;
        let Some(playing) = &self.playing else { return };
        let half = 0.5 / self.rate * playing.speed;
        let turns = self.turns_at(playing);
        self.now += samples as f64 / self.rate * playing.speed;
        if self.now < turns - half {
            return;
        }
        match round(playing).filter(|(_, to)| *to == turns) {
            Some((from, to)) => {
                // What was begun in the round before is not heard beside this one. Up to half a sample is carried over either
                // way, so that many rounds are as long as one is, as often.
                self.mixer.let_go();
                self.now = from + (self.now - to);
                self.begins = self.begins.min(from);
                self.next = first_from(&playing.sounds, from);
                self.mark(false);
            }
            None => {
                self.mark(true);
                self.playing = None;
            }
        }
    }

    /// Remembers where it is, from the next sample on.
    fn mark(&mut self, ended: bool) {
        let place = self.playing.as_ref().map(|playing| Place {
            clock: playing.clock.clone(),
            seconds: self.now,
            begins: if playing.counted_in > 0 { self.begins } else { f64::NEG_INFINITY },
            end: playing.end,
            speed: playing.speed,
            count_in: CountIn::before(&playing.clock, playing.from, f64::from(playing.counted_in)),
            ended,
        });
        self.marks.push_back(Mark { sample: self.made, place });
        let forgotten = (FORGOTTEN * self.rate) as u64;
        while self.marks.get(1).is_some_and(|next| next.sample + forgotten < self.made) {
            self.marks.pop_front();
        }
    }
}

/// The first of some sounds that begins at so many seconds, or later.
fn first_from(sounds: &[Sound], seconds: f64) -> usize {
    sounds.partition_point(|sound| sound.begin < seconds - 1e-6)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Metre, Music};
    use crate::sound::{SoundKind, sounds};

    const RATE: u32 = 8_000;

    /// Clicks alone of so many counts, at a strong beat each half second.
    fn playing(counts: f64) -> Performance {
        let clock = Clock::of(&Music { metre: Metre::FourFour, speed: 120.0, ..Music::default() });
        Performance {
            sounds: sounds(None, &[], &clock, (0.0, counts)).into(),
            clock,
            from: 0.0,
            end: counts,
            round: None,
            speed: 1.0,
            counted_in: 0,
        }
    }

    /// The samples of seconds, made in pieces of odd lengths; with each, what the next one hears.
    fn made(band: &mut Band, seconds: f64) -> Vec<f32> {
        let mut out = vec![0.0; (seconds * f64::from(RATE)) as usize];
        out.chunks_mut(307).for_each(|piece| band.fill(piece));
        out
    }

    /// The samples at which a click begins.
    fn clicks(samples: &[f32]) -> Vec<usize> {
        let mut found: Vec<usize> = Vec::new();
        let mut quiet = 1_000;
        for (index, sample) in samples.iter().enumerate() {
            quiet = if sample.abs() > 0.005 { 0 } else { quiet + 1 };
            if quiet == 0 && found.last().is_none_or(|last| index - last > 1_500) {
                found.push(index);
            }
        }
        found
    }

    /// The count that is heard; not a number where there is none.
    fn count(band: &Band, sample: usize) -> f64 {
        match band.heard(sample as u64) {
            Heard::Count(count) => count,
            _ => f64::NAN,
        }
    }

    /// What is heard at each click is a whole count, however it got there.
    fn assert_on_counts(band: &Band, clicks: &[usize], expected: &[f64]) {
        let heard: Vec<f64> = clicks.iter().map(|sample| count(band, *sample)).collect();
        assert_eq!(heard.len(), expected.len(), "{heard:?}");
        for (heard, expected) in heard.iter().zip(expected) {
            // A click takes some samples until it is heard at all.
            assert!((heard - expected).abs() < 0.005, "{heard} is not {expected}");
        }
    }

    #[test]
    fn what_is_heard_is_where_the_clicks_are() {
        let mut band = Band::new(RATE, Levels { tune: 0.0, click: 1.0, taps: 0.0 });
        assert_eq!(band.heard(0), Heard::Nothing);
        band.play(playing(8.0));
        let samples = made(&mut band, 3.0);
        assert_on_counts(&band, &clicks(&samples), &[0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0]);
        assert_eq!(band.heard(u64::from(RATE) * 5 / 2), Heard::Ended);
        assert!(!band.is_sounding());
    }

    #[test]
    fn a_round_has_no_gap_and_another_speed_is_heard_from_then_on() {
        let mut band = Band::new(RATE, Levels { tune: 0.0, click: 1.0, taps: 0.0 });
        band.play(Performance { round: Some((2.0, 5.0)), from: 1.0, ..playing(8.0) });
        let first = made(&mut band, 2.0);
        let begun = clicks(&first);
        assert_on_counts(&band, &begun, &[1.0, 2.0, 3.0, 4.0, 2.0, 3.0, 4.0, 2.0]);
        for pair in begun.windows(2) {
            assert!(pair[1].abs_diff(pair[0] + 2_000) <= 1, "{begun:?}");
        }
        // At half speed counts take twice as long, from here.
        band.set_speed(0.5);
        let later = clicks(&made(&mut band, 2.0));
        let later: Vec<usize> = later.into_iter().map(|sample| sample + first.len()).collect();
        assert_on_counts(&band, &later, &[3.0, 4.0, 2.0, 3.0]);
        assert!(later[1].abs_diff(later[0] + 4_000) <= 1);
        // What was heard before is as it was.
        assert_on_counts(&band, &begun, &[1.0, 2.0, 3.0, 4.0, 2.0, 3.0, 4.0, 2.0]);
        band.set_round(None);
        let last = made(&mut band, 4.0);
        let ends: Vec<usize> = clicks(&last).into_iter().map(|sample| sample + 4 * RATE as usize).collect();
        assert_on_counts(&band, &ends, &[4.0, 5.0, 6.0, 7.0]);
        assert_eq!(band.heard(band.made()), Heard::Ended);
    }

    #[test]
    fn a_bar_is_counted_in_and_the_upbeat_sounds_in_it() {
        let mut with_upbeat = playing(8.0);
        let mut all = with_upbeat.sounds.to_vec();
        all.insert(0, Sound { begin: -0.25, length: 0.2, kind: SoundKind::Note(69) });
        with_upbeat.sounds = all.into();
        let mut band = Band::new(RATE, Levels::TUNE);
        band.play(Performance { counted_in: 4, ..with_upbeat.clone() });
        let samples = made(&mut band, 1.5);
        let first = samples.iter().position(|sample| sample.abs() > 0.005).unwrap();
        assert!(first.abs_diff(6_000) < 60, "{first}");
        for (sample, left) in [(0, 4.0), (2_000, 3.0), (7_000, 0.5)] {
            let heard = band.heard(sample);
            assert!(matches!(heard, Heard::CountingIn(counts) if (counts - left).abs() < 1e-6), "{heard:?}");
        }
        assert!(count(&band, 8_000).abs() < 1e-6);
        assert!((count(&band, 10_000) - 1.0).abs() < 1e-6);
        // Without clicks before it the upbeat is heard at once, and nobody has set off.
        band.play(with_upbeat);
        let before = band.made() as usize;
        let samples = made(&mut band, 0.5);
        assert!(samples.iter().position(|sample| sample.abs() > 0.005).unwrap() < 60);
        assert!(count(&band, before + 1_000).abs() < 1e-6);
        assert!((count(&band, before + 4_000) - 1.0).abs() < 1e-6);
        band.stop();
        assert_eq!(band.heard(band.made()), Heard::Nothing);
    }
}
