//! Music that does not keep one speed: what is said of a figure goes over what is said of a strain, and that over the tune.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Entry, Extra, FaultKind, Figure, Leg, Part, PlayedTune, Set, SpeedChange, Strain, check_rules,
    follow_tune, read,
};
use bellpad::faults::Faults;
use bellpad::figures::{motion_of, motion_of_figure};
use bellpad::motion::{Clock, SpanIndex};
use bellpad::sound::{Band, Heard, Levels, MusicOf, Performance, SoundKind, TuneAlone, midi};
use midly::{MetaMessage, MidiMessage, Smf, TrackEventKind};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// Three lines of eight bars, danced to strains A, B and A: what is danced first is danced last too.
fn dance() -> Dance {
    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    for (id, strain) in [("one", "A"), ("two", "B"), ("one", "A")] {
        if dance.figure_index(id).is_none() {
            dance.figures.push(Figure::drawn(id, id, 8));
        }
        dance.order.push(Entry { strain: strain.to_owned(), ..Entry::of(id) });
    }
    for name in ["A", "B"] {
        let (name, speeds) = (name.to_owned(), Vec::new());
        dance.music.strains.push(Strain { name, bars: 4, metre: None, speeds, extra: Extra::new() });
    }
    dance
}

fn clock(dance: &Dance) -> Clock {
    check_rules(dance).unwrap();
    Clock::of_dance(dance, &motion_of(dance, None).unwrap())
}

fn lasts(clock: &Clock, from: f64, to: f64) -> f64 {
    clock.seconds(to) - clock.seconds(from)
}

/// `Q:` among the notes (ABC 2.1, 3.1.8) is heard alike in the tune by itself and where the dance has all as the tune has it: each
/// time that a strain is played it begins as it is written. Of the eight bars two of A, twice, are at 100 and at 50, and those of B
/// at 50 and at 80: 2 (1.2 + 2.4) + 2 (2.4 + 1.5) s.
#[test]
fn a_tune_that_changes_its_speed_is_danced_as_it_is_heard_by_itself() {
    let mut dance = dance();
    dance.figures[1].bars = 2;
    dance.music.abc =
        "X:1\nM:4/4\nL:1/4\nQ:1/2=100\nK:C\n|:C4|[Q:1/2=50]D4:|\n|:E4|[Q:1/2=80]F4:|\n".to_owned();
    dance.order.truncate(0);
    dance.order.extend([Entry::of("two"), Entry::of("two"), Entry::of("two"), Entry::of("two")]);
    for (entry, strain) in dance.order.iter_mut().zip(["A", "A", "B", "B"]) {
        entry.strain = strain.to_owned();
    }
    dance.figures.retain(|figure| figure.id == "two");
    dance.music = follow_tune(&dance.music).unwrap();
    let clock = clock(&dance);
    let tune = PlayedTune::read(&dance.music.abc).unwrap();
    let alone = TuneAlone::of(&tune, "").seconds_in_all();
    let danced = lasts(&clock, 0.0, 32.0);
    assert!((danced - 15.0).abs() < 1e-9 && (alone - danced).abs() < 1e-9, "{danced} {alone}");
}

/// A bar of two strong beats takes 1.2 s at 100 a minute, and 2 s at 60.
#[test]
fn a_slow_figure_is_slow_and_nothing_else_is() {
    let mut dance = dance();
    dance.figures[1].speeds = vec![SpeedChange::at(0.0, 60.0)];
    let clock = clock(&dance);
    assert!((lasts(&clock, 0.0, 32.0) - 9.6).abs() < 1e-9);
    assert!((lasts(&clock, 32.0, 36.0) - 2.0).abs() < 1e-9);
    assert!((lasts(&clock, 32.0, 64.0) - 16.0).abs() < 1e-9);
    assert!((lasts(&clock, 64.0, 96.0) - 9.6).abs() < 1e-9);
    // Before the start and after the end it goes on as it is there.
    assert!((clock.seconds(-4.0) + 1.2).abs() < 1e-9 && (lasts(&clock, 96.0, 100.0) - 1.2).abs() < 1e-9);
    assert!((clock.speed(40.0) - 60.0).abs() < 1e-9 && (clock.speed(70.0) - 100.0).abs() < 1e-9);
}

#[test]
fn a_strain_has_its_speed_each_time_it_is_played_and_a_figure_its_own_over_it() {
    let mut dance = dance();
    // Each strain has four bars and is played twice in a line: the last of its four is slow.
    dance.music.strains[0].speeds = vec![SpeedChange::at(12.0, 50.0)];
    let slow = clock(&dance);
    for bar in 0..24 {
        let first = f64::from(bar) * 4.0;
        let expected = if [3, 7, 19, 23].contains(&bar) { 2.4 } else { 1.2 };
        assert!((lasts(&slow, first, first + 4.0) - expected).abs() < 1e-9, "bar {}", bar + 1);
    }
    dance.figures[0].speeds = vec![SpeedChange::at(16.0, 200.0)];
    let over = clock(&dance);
    assert!((lasts(&over, 12.0, 16.0) - 2.4).abs() < 1e-9, "until the figure's own begins");
    assert!((lasts(&over, 16.0, 32.0) - 2.4).abs() < 1e-9);
    assert!((lasts(&over, 28.0, 32.0) - 0.6).abs() < 1e-9);
}

/// From v0 to v1 evenly over n counts, each half a strong beat, takes 30 n ln(v1 / v0) / (v1 - v0) seconds.
#[test]
fn a_slowing_takes_the_time_that_its_integral_says() {
    let mut dance = dance();
    dance.figures[1].speeds = vec![SpeedChange::at(16.0, 50.0).eased()];
    let clock = clock(&dance);
    let expected = 30.0 * 16.0 * (50.0_f64 / 100.0).ln() / (50.0 - 100.0);
    assert!((lasts(&clock, 32.0, 48.0) - expected).abs() < 1e-9);
    assert!((lasts(&clock, 48.0, 64.0) - 30.0 * 16.0 / 50.0).abs() < 1e-9);
    // Each count is longer than the one before it.
    let counts: Vec<f64> =
        (32..48).map(|count| lasts(&clock, f64::from(count), f64::from(count + 1))).collect();
    assert!(counts.windows(2).all(|pair| pair[0] < pair[1]), "{counts:?}");
    assert!(counts[0] > 0.3 && counts[15] < 0.6);
}

/// 1.6 m in two counts are 2.7 m a second at 100 strong beats a minute, 5.3 at 200 and 1.6 at 60.
#[test]
fn slow_capers_to_slow_music_are_not_too_fast() {
    let mut dance = dance();
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(4.0, 6.0, -1.2, 2.5));
    part.legs.push(Leg::straight(8.0, 10.0, -1.2, 0.9));
    dance.figures[0].parts.push(part);
    dance.limits.step = Some(2.0);
    dance.music.speed = 200.0;
    let fast = |dance: &Dance| {
        let faults = Faults::of(dance, &motion_of(dance, None).unwrap());
        let over = faults.iter().filter(|fault| fault.kind == FaultKind::OverLong);
        over.map(|fault| fault.span).collect::<Vec<_>>()
    };
    let lines = |dance: &Dance| {
        let mut lines = fast(dance);
        lines.dedup();
        lines
    };
    assert_eq!(lines(&dance), [SpanIndex(0), SpanIndex(2)], "danced twice, told twice");
    // A slow strain only where its line is danced to it.
    dance.order[2].strain = "B".to_owned();
    dance.music.strains[1].speeds = vec![SpeedChange::at(0.0, 60.0)];
    assert_eq!(lines(&dance), [SpanIndex(0)]);
    dance.figures[0].speeds = vec![SpeedChange::at(0.0, 60.0)];
    assert!(fast(&dance).is_empty());
}

/// A bar before a slow figure is counted in as slowly, and one before a bar that slows down as that does.
#[test]
fn counting_in_goes_at_the_speed_of_what_comes() {
    const RATE: u32 = 8_000;
    let mut dance = dance();
    dance.figures[1].speeds = vec![SpeedChange::at(0.0, 60.0), SpeedChange::at(16.0, 30.0).eased()];
    let motion = motion_of(&dance, None).unwrap();
    let clock = clock(&dance);
    for from in [0.0, 32.0, 36.0, 64.0] {
        let music = MusicOf::whole(&dance, &motion);
        let mut band = Band::new(RATE, Levels::default());
        band.play(Performance {
            sounds: music.sounds().into(),
            clock: clock.clone(),
            from,
            end: 96.0,
            round: None,
            speed: 1.0,
            counted_in: 4,
        });
        let bar = lasts(&clock, from, from + 4.0);
        band.fill(&mut vec![0.0; ((bar + 0.5) * f64::from(RATE)) as usize]);
        let heard = |seconds: f64| band.heard((seconds * f64::from(RATE)).round() as u64);
        for count in 0..4 {
            let Heard::CountingIn(left) = heard(lasts(&clock, from, from + f64::from(count))) else {
                panic!("{count} from {from}: {:?}", heard(lasts(&clock, from, from + f64::from(count))))
            };
            assert!((left - f64::from(4 - count)).abs() < 0.01, "{count} from {from}: {left}");
        }
        let Heard::Count(count) = heard(bar + 0.01) else { panic!("from {from} it has begun") };
        assert!((count - from).abs() < 0.1, "{count}");
    }
}

/// A figure by itself goes as the strain does that it is first danced to.
#[test]
fn a_figure_by_itself_has_the_speed_of_its_own_strain() {
    let mut dance = dance();
    dance.music.strains[1].speeds = vec![SpeedChange::at(0.0, 60.0)];
    for (figure, bar) in [(0, 1.2), (1, 2.0)] {
        let clock = Clock::of_dance(&dance, &motion_of_figure(&dance, figure).unwrap());
        assert!(
            (lasts(&clock, 0.0, 4.0) - bar).abs() < 1e-9 && (lasts(&clock, 28.0, 32.0) - bar).abs() < 1e-9
        );
    }
}

/// When each key of a MIDI file goes down, seconds by its own tempo map, as the standard has it: microseconds a crotchet.
fn downs(bytes: &[u8]) -> Vec<f64> {
    let smf = Smf::parse(bytes).unwrap();
    let midly::Timing::Metrical(crotchet) = smf.header.timing else { panic!("timed by frames") };
    let (mut tempos, mut downs) = (Vec::new(), Vec::new());
    for track in &smf.tracks {
        let mut tick = 0_u32;
        for event in track {
            tick += event.delta.as_int();
            match event.kind {
                TrackEventKind::Meta(MetaMessage::Tempo(micros)) => tempos.push((tick, micros.as_int())),
                TrackEventKind::Midi { message: MidiMessage::NoteOn { .. }, .. } => downs.push(tick),
                _ => {}
            }
        }
    }
    downs.sort_unstable();
    let seconds = |tick: u32| {
        let mut seconds = 0.0;
        for (index, (from, micros)) in tempos.iter().enumerate() {
            let until = tempos.get(index + 1).map_or(tick, |next| next.0.min(tick));
            seconds += f64::from(until.saturating_sub(*from)) * f64::from(*micros)
                / 1e6
                / f64::from(crotchet.as_int());
        }
        seconds
    };
    downs.into_iter().map(seconds).collect()
}

#[test]
fn what_is_written_out_follows_the_clock() {
    let mut dance = dance();
    dance.figures[0].speeds = vec![SpeedChange::at(8.0, 60.0), SpeedChange::at(24.0, 140.0).eased()];
    let motion = motion_of(&dance, None).unwrap();
    let clock = clock(&dance);
    let music = MusicOf::whole(&dance, &motion);
    let clicks: Vec<f64> = music
        .sounds()
        .iter()
        .filter(|sound| !matches!(sound.kind, SoundKind::Note(_)))
        .map(|sound| sound.begin)
        .collect();
    assert_eq!(clicks.len(), 96);
    let written = downs(&midi(&music, Levels::default(), 1.0).unwrap());
    assert_eq!(written.len(), 96);
    for (count, (sounded, written)) in clicks.iter().zip(written).enumerate() {
        let expected = clock.seconds(count as f64);
        assert!((sounded - expected).abs() < 1e-9);
        // A tempo is whole microseconds a crotchet: a millionth part of each count.
        assert!((written - expected).abs() < 1e-3, "count {count}: {written} s, not {expected}");
    }
}

#[test]
fn what_cannot_be_is_refused_with_its_key() {
    for (speeds, key) in [
        (vec![SpeedChange::at(0.0, 5.0)], "figures[1].speeds[0].speed"),
        (vec![SpeedChange::at(-1.0, 90.0)], "figures[1].speeds[0].count"),
        (vec![SpeedChange::at(8.0, 90.0), SpeedChange::at(8.0, 80.0)], "figures[1].speeds[1].count"),
        (vec![SpeedChange::at(0.0, f64::NAN)], "figures[1].speeds[0].speed"),
    ] {
        let mut dance = dance();
        dance.figures[1].speeds = speeds;
        let said = check_rules(&dance).unwrap_err().to_string();
        assert!(said.starts_with(key), "{said}");
    }
    let mut dance = dance();
    dance.music.strains[1].speeds = vec![SpeedChange::at(0.0, 401.0)];
    assert!(check_rules(&dance).unwrap_err().to_string().starts_with("music.strains[1].speeds[0].speed"));
}

#[test]
fn speeds_are_written_as_they_are_read() {
    let mut dance = dance();
    dance.figures[1].speeds = vec![SpeedChange::at(0.0, 60.0), SpeedChange::at(16.0, 90.0).eased()];
    let text = bellpad::dance::write(&dance).unwrap();
    let again = read(text.as_bytes()).unwrap();
    assert_eq!(again.figures[1].speeds, dance.figures[1].speeds);
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let written = &value["figures"][1]["speeds"];
    assert_eq!((&written[1]["count"], &written[1]["ease"]), (&16.0.into(), &true.into()));
    assert!(written[0].get("ease").is_none());
}

fn changes() -> impl Strategy<Value = Vec<SpeedChange>> {
    let change = (0.0..40.0f64, 10.0..400.0f64, any::<bool>());
    prop::collection::vec(change, 0..4).prop_map(|mut changes| {
        changes.sort_by(|one, other| one.0.total_cmp(&other.0));
        changes.dedup_by(|one, other| one.0 == other.0);
        let change = |(count, speed, ease)| SpeedChange { ease, ..SpeedChange::at(count, speed) };
        changes.into_iter().map(change).collect()
    })
}

/// Small steps of a count.
const PARTS: u32 = 2_000;

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, rng_seed: RngSeed::Fixed(100), ..ProptestConfig::default() })]

    /// Time goes on, no faster than the fastest and no slower than the slowest that is said; and back again it is the same.
    #[test]
    fn counts_and_seconds_are_turned_into_each_other(
        figures in [changes(), changes()],
        strains in [changes(), changes()],
        counts in prop::collection::vec(-8.0..110.0f64, 20),
    ) {
        let mut dance = dance();
        for (figure, speeds) in dance.figures.iter_mut().zip(figures) {
            figure.speeds = speeds;
        }
        for (strain, speeds) in dance.music.strains.iter_mut().zip(strains) {
            strain.speeds = speeds;
        }
        let clock = clock(&dance);
        for pair in counts.windows(2) {
            let (from, to) = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            let seconds = lasts(&clock, from, to);
            prop_assert!(seconds >= (to - from) * 30.0 / 400.0 - 1e-6);
            prop_assert!(seconds <= (to - from) * 30.0 / 10.0 + 1e-6);
        }
        for count in counts {
            prop_assert!((clock.counts(clock.seconds(count)) - count).abs() < 1e-6);
            prop_assert!((clock.counts_of_bars(clock.bars_of_counts(count)) - count).abs() < 1e-9);
        }
    }

    /// The time of each count is the integral of what is said there, summed in small steps.
    #[test]
    fn no_other_sum_gives_another_time(speeds in changes()) {
        let mut dance = dance();
        dance.figures[1].speeds.clone_from(&speeds);
        let clock = clock(&dance);
        let speed_at = |count: f64| {
            let mut now = (100.0, 0.0);
            for change in &speeds {
                if count < change.count {
                    let share = (count - now.1) / (change.count - now.1);
                    return if change.ease { now.0 + (change.speed - now.0) * share } else { now.0 };
                }
                now = (change.speed, change.count);
            }
            now.0
        };
        for count in 0..32 {
            let step = 1.0 / f64::from(PARTS);
            let sum: f64 = (0..PARTS)
                .map(|part| step * 30.0 / speed_at(f64::from(count) + (f64::from(part) + 0.5) * step))
                .sum();
            let seconds = lasts(&clock, 32.0 + f64::from(count), 33.0 + f64::from(count));
            prop_assert!((sum - seconds).abs() < 3e-3, "count {count}: {seconds} s, not {sum}");
        }
    }
}
