//! The tune written out as sound and as notes: when it sounds, how high and how loud.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Entry, Extra, Figure, Holding, Metre, Music, PlaceNumber, Set, SpeedChange, Strike, StrikeEnd,
    Striker, Struck, read,
};
use bellpad::figures::{motion_of, named_figure};
use bellpad::sound::{Levels, MusicOf, SAMPLE_RATE, midi, wav};
use midly::{MetaMessage, MidiMessage, Smf, TrackEventKind};
use std::f64::consts::TAU;
use std::io::Cursor;

/// A dance of one figure of eight bars to a tune.
fn dance(metre: Metre, speed: f64, abc: &str) -> Dance {
    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    dance.music = Music { metre, speed, abc: abc.to_owned(), ..Music::default() };
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    let id = dance.figures[0].id.clone();
    dance.order.push(Entry::of(&id));
    dance
}

/// The samples of a dance's music, from -1 to 1.
fn samples(dance: &Dance, levels: Levels, speed: f64) -> Vec<f64> {
    let motion = motion_of(dance, None).unwrap();
    let bytes = wav(&MusicOf::whole(dance, &motion), levels, speed).unwrap();
    let mut reader = hound::WavReader::new(Cursor::new(bytes)).unwrap();
    let spec = reader.spec();
    assert_eq!((spec.channels, spec.bits_per_sample, spec.sample_rate), (1, 16, SAMPLE_RATE));
    reader.samples::<i16>().map(|sample| f64::from(sample.unwrap()) / 32767.0).collect()
}

const CLICK: Levels = Levels { tune: 0.0, click: 1.0, taps: 0.0 };

/// When something is heard after a tenth of a second of all but silence, seconds, and how loud it gets in the next
/// hundredth.
fn onsets(samples: &[f64]) -> Vec<(f64, f64)> {
    let rate = f64::from(SAMPLE_RATE);
    let mut found = Vec::new();
    let mut quiet = usize::MAX / 2;
    for (index, sample) in samples.iter().enumerate() {
        if sample.abs() < 0.01 {
            quiet += 1;
            continue;
        }
        if quiet as f64 > rate * 0.1 {
            let after = &samples[index..(index + SAMPLE_RATE as usize / 100).min(samples.len())];
            let loud = after.iter().fold(0.0, |loud: f64, sample| loud.max(sample.abs()));
            found.push((index as f64 / rate, loud));
        }
        quiet = 0;
    }
    found
}

/// How much of a swing there is in some samples.
fn swing(samples: &[f64], frequency: f64) -> f64 {
    let (mut cos, mut sin) = (0.0, 0.0);
    for (index, sample) in samples.iter().enumerate() {
        // A Hann window, so that what is beside does not leak in.
        let window = 0.5 - 0.5 * (TAU * index as f64 / samples.len() as f64).cos();
        let turn = TAU * frequency * index as f64 / f64::from(SAMPLE_RATE);
        cos += sample * window * turn.cos();
        sin += sample * window * turn.sin();
    }
    cos.hypot(sin)
}

/// How far the strongest swing within sixty cents of a frequency is from it, to a tenth of a cent.
fn cents_off(samples: &[f64], frequency: f64) -> f64 {
    let at = |tenths: i32| swing(samples, frequency * 2.0_f64.powf(f64::from(tenths) / 12_000.0));
    let best = |tenths: Vec<i32>| {
        let with: Vec<(i32, f64)> = tenths.into_iter().map(|tenths| (tenths, at(tenths))).collect();
        with.into_iter().max_by(|one, other| one.1.total_cmp(&other.1)).unwrap().0
    };
    let near = best((-60..=60).map(|cents| cents * 10).collect());
    f64::from(best((near - 10..=near + 10).collect())) / 10.0
}

/// [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907), 6-time diagrams: the four counts of a bar fall
/// on quavers 1, 3, 4 and 6, so at 0, 1/3, 1/2 and 5/6 of it. At 100 strong beats a minute it lasts 1.2 s.
#[test]
fn clicks_fall_on_the_counts_of_six_time_and_strong_beats_are_louder() {
    let found = onsets(&samples(&dance(Metre::SixEight, 100.0, ""), CLICK, 1.0));
    let expected: Vec<f64> =
        (0..8).flat_map(|bar| [0.0, 0.4, 0.6, 1.0].map(|at| f64::from(bar) * 1.2 + at)).collect();
    assert_eq!(found.len(), expected.len());
    for (index, ((at, loud), expected)) in found.iter().zip(&expected).enumerate() {
        assert!((at - expected).abs() < 0.001, "count {index} at {at} s, not {expected}");
        let strong = index % 2 == 0;
        assert!(if strong { *loud > 0.3 } else { *loud < 0.2 && *loud > 0.05 }, "count {index}: {loud}");
    }
}

/// Even time: a count each quarter of a bar, at 120 strong beats a minute and half speed 0.5 s each.
#[test]
fn at_half_speed_everything_takes_twice_as_long() {
    let found = onsets(&samples(&dance(Metre::FourFour, 120.0, ""), CLICK, 0.5));
    assert_eq!(found.len(), 32);
    for (index, (at, _)) in found.iter().enumerate() {
        assert!((at - index as f64 * 0.5).abs() < 0.001, "count {index} at {at} s");
    }
}

/// ISO 16:1975 tunes A above middle C to 440; equal temperament makes each semitone the twelfth root of 2. ABC 2.1,
/// section 4.1: `A` is that A, `c` the C above it, `A,` an octave below.
#[test]
fn notes_have_their_pitch_at_any_speed() {
    let notes =
        [("A", 440.0), ("c", 523.251), ("A,", 220.0), ("^f", 739.989), ("D", 293.665), ("a'", 1760.0)];
    for (note, frequency) in notes {
        let abc = format!("X:1\nM:4/4\nL:1/1\nK:C\n{}|\n", [note; 8].join("|"));
        for speed in [1.0, 0.5] {
            let samples = samples(&dance(Metre::FourFour, 100.0, &abc), Levels::TUNE, speed);
            // From the middle of the first note.
            let off = cents_off(&samples[8_000..24_000], frequency);
            assert!(off.abs() <= 1.0, "{note} at {speed}: {off} cents");
        }
    }
}

/// Of more than an hour nothing is made.
#[test]
fn what_lasts_too_long_is_refused_before_it_is_made() {
    let mut dance = dance(Metre::FourFour, 20.0, "");
    let entry = dance.order[0].clone();
    dance.order.resize(60, entry);
    let motion = motion_of(&dance, None).unwrap();
    let music = MusicOf::whole(&dance, &motion);
    // Six seconds a bar: 480 bars are 48 minutes, and at half the speed twice that.
    assert!((music.seconds() - 2_880.0).abs() < 1e-6);
    let said = wav(&music, CLICK, 0.5).unwrap_err().to_string();
    assert_eq!(said, "it would last 1.6 hours at that speed; expected 1 at the most");
}

/// A crotchet rest is silent; two notes of one key are two; nothing is as loud as it can be.
#[test]
fn notes_begin_and_end_where_the_tune_has_them() {
    let abc = "X:1\nM:4/4\nL:1/4\nK:C\nAzAA|AzAA|AzAA|AzAA|AzAA|AzAA|AzAA|AzAA|\n";
    let samples = samples(&dance(Metre::FourFour, 100.0, abc), Levels::TUNE, 1.0);
    let rate = f64::from(SAMPLE_RATE);
    let loud = |from: f64, to: f64| {
        let part = &samples[(from * rate) as usize..(to * rate) as usize];
        part.iter().fold(0.0, |loud: f64, sample| loud.max(sample.abs()))
    };
    for bar in 0..8 {
        let bar = f64::from(bar) * 1.2;
        assert!(loud(bar + 0.05, bar + 0.25) > 0.15);
        assert!(loud(bar + 0.36, bar + 0.59) < 0.001, "a rest");
        assert!(loud(bar + 0.65, bar + 0.85) > 0.15);
        // Between the third and the fourth.
        assert!(loud(bar + 0.898, bar + 0.902) < 0.8 * loud(bar + 0.7, bar + 0.8));
    }
}

/// However many notes and clicks there are at once, no sample is cut off, and many are louder than one.
#[test]
fn chords_are_pressed_together_and_not_cut_off() {
    let loudest = |chord: &str| {
        let abc = format!("X:1\nM:4/4\nL:1/1\nK:C\n{}|\n", [chord; 8].join("|"));
        let both = Levels { tune: 1.0, click: 1.0, taps: 0.0 };
        let samples = samples(&dance(Metre::FourFour, 100.0, &abc), both, 1.0);
        samples.iter().fold(0.0, |loud: f64, sample| loud.max(sample.abs()))
    };
    let (one, many) = (loudest("A"), loudest("[CEGceg]"));
    assert!(one < many && many > 0.75 && many < 1.0, "{one} {many}");
}

/// A note that goes down or up in a track: tick, key, and whether it goes down.
type Key = (u32, u8, bool);

fn keys(smf: &Smf, channel: u8) -> Vec<Key> {
    let mut found = Vec::new();
    for track in &smf.tracks {
        let mut at = 0;
        for event in track {
            at += event.delta.as_int();
            match event.kind {
                TrackEventKind::Midi { channel: on, message: MidiMessage::NoteOn { key, .. } }
                    if on == channel =>
                {
                    found.push((at, key.as_int(), true));
                }
                TrackEventKind::Midi { channel: on, message: MidiMessage::NoteOff { key, .. } }
                    if on == channel =>
                {
                    found.push((at, key.as_int(), false));
                }
                _ => {}
            }
        }
    }
    found
}

/// By hand, with 960 ticks a crotchet: in 6/8 a quaver is 480 and a bar 2880. G above middle C is key 67.
#[test]
fn the_notes_of_a_midi_file_are_those_of_the_tune() {
    let abc = "X:1\nM:6/8\nL:1/8\nK:G\nGAB d2B|G6|G6|G6|G6|G6|G6|G6|\n";
    let dance = dance(Metre::SixEight, 100.0, abc);
    let motion = motion_of(&dance, None).unwrap();
    let bytes = midi(&MusicOf::whole(&dance, &motion), Levels::default(), 0.8).unwrap();
    let smf = Smf::parse(&bytes).unwrap();
    let downs: Vec<(u32, u8)> =
        keys(&smf, 0).into_iter().filter(|(.., down)| *down).map(|(at, key, _)| (at, key)).collect();
    let bar: u32 = 2880;
    let mut expected = vec![(0, 67), (480, 69), (960, 71), (1440, 74), (2400, 71)];
    expected.extend((1..8).map(|number| (number * bar, 67)));
    assert_eq!(downs, expected);
    let ups: Vec<u32> = keys(&smf, 0).into_iter().filter(|(.., down)| !down).map(|(at, ..)| at).collect();
    assert_eq!(ups[..5], [480, 960, 1440, 2400, 2880]);
    // Quavers 1, 3, 4 and 6 of each bar [MB1].
    let clicks: Vec<u32> = keys(&smf, 9).into_iter().filter(|(.., down)| *down).map(|(at, ..)| at).collect();
    assert_eq!(clicks.len(), 32);
    assert_eq!(clicks[..5], [0, 960, 1440, 2400, bar]);
    // 80 strong beats a minute, each of three quavers: a crotchet lasts two thirds of 0.75 s.
    let tempo = smf.tracks.iter().flatten().find_map(|event| match event.kind {
        TrackEventKind::Meta(MetaMessage::Tempo(micros)) => Some(micros.as_int()),
        _ => None,
    });
    assert_eq!(tempo, Some(500_000));
}

/// An upbeat sounds before the first bar, and everything after it in its place.
#[test]
fn an_upbeat_comes_first() {
    let abc = "X:1\nM:6/8\nL:1/8\nK:G\nD|G6|G6|G6|G6|G6|G6|G6|G5|\n";
    let dance = dance(Metre::SixEight, 100.0, abc);
    let motion = motion_of(&dance, None).unwrap();
    let bytes = midi(&MusicOf::whole(&dance, &motion), Levels::TUNE, 1.0).unwrap();
    let smf = Smf::parse(&bytes).unwrap();
    let downs: Vec<u32> = keys(&smf, 0).into_iter().filter(|(.., down)| *down).map(|(at, ..)| at).collect();
    assert_eq!(downs[..3], [0, 480, 480 + 2880]);
}

/// ABC 2.1, section 4.8: a repeat goes back to its beginning. A pickup written before each bar line that a last bar completes is
/// heard each time, and where the last bar is full, or the music begins anew, it is not.
#[test]
fn an_upbeat_sounds_wherever_there_is_room_for_it() {
    let onsets = |abc: &str| -> Vec<u32> {
        let mut dance = dance(Metre::SixEight, 100.0, abc);
        dance.order.push(dance.order[0].clone());
        let motion = motion_of(&dance, None).unwrap();
        let bytes = midi(&MusicOf::whole(&dance, &motion), Levels::TUNE, 1.0).unwrap();
        keys(&Smf::parse(&bytes).unwrap(), 0)
            .into_iter()
            .filter(|(.., down)| *down)
            .map(|(at, ..)| at)
            .collect()
    };
    // A quaver is 480 ticks and a bar 2880; the first pickup stands before the first bar.
    let bar = |number: u32| 480 + number * 2880;
    let repeated = onsets("X:1\nM:6/8\nL:1/8\nK:G\n|:D|G6|G6|G6|G6|G6|G6|G6|G5:|\n");
    assert_eq!(repeated.len(), 18);
    assert_eq!((repeated[0], repeated[8], repeated[9], repeated[10]), (0, bar(7), bar(8) - 480, bar(8)));
    let parts = onsets("X:1\nM:6/8\nL:1/8\nK:G\nD|G6|G6|G6|G6|G6|G6|G6|G5||d|g6|g6|g6|g6|g6|g6|g6|g5||\n");
    assert_eq!((parts.len(), parts[9], parts[10]), (18, bar(8) - 480, bar(8)));
    let full = onsets("X:1\nM:6/8\nL:1/8\nK:G\n|:D|G6|G6|G6|G6|G6|G6|G6|G6:|\n");
    assert_eq!((full.len(), full[9]), (17, bar(8)));
}

/// By hand: at 10 strong beats a minute a bar of 4/4 lasts 12 s, and at a tenth of that speed a crotchet 30 s.
#[test]
fn what_a_file_cannot_hold_is_refused_and_not_bent() {
    let slow = dance(Metre::FourFour, 10.0, "");
    let motion = motion_of(&slow, None).unwrap();
    let music = MusicOf::whole(&slow, &motion);
    let said = midi(&music, CLICK, 0.1).unwrap_err().to_string();
    assert!(said.contains("30.0 s"), "{said}");
    let metronomes =
        [(Metre::FourFour, 48), (Metre::TwoTwo, 48), (Metre::TwoFour, 24), (Metre::SixEight, 36)];
    for (metre, expected) in metronomes {
        let dance = dance(metre, 100.0, "");
        let motion = motion_of(&dance, None).unwrap();
        let bytes = midi(&MusicOf::whole(&dance, &motion), CLICK, 1.0).unwrap();
        let clocks = Smf::parse(&bytes).unwrap().tracks.iter().flatten().find_map(|event| match event.kind {
            TrackEventKind::Meta(MetaMessage::TimeSignature(_, _, clocks, _)) => Some(clocks),
            _ => None,
        });
        assert_eq!(clocks, Some(expected), "{metre:?}");
    }
    let mut long = dance(Metre::FourFour, 10.0, "");
    long.order = vec![long.order[0].clone(); 40];
    let motion = motion_of(&long, None).unwrap();
    let said = wav(&MusicOf::whole(&long, &motion), CLICK, 1.0).unwrap_err().to_string();
    assert!(said.contains("1.1 hours") && said.contains("expected 1 at the most"), "{said}");
}

/// The whole of the sample sounds from end to end, and a figure of it is as it sounds there.
#[test]
fn a_figure_sounds_as_it_does_in_the_dance() {
    let dance = read(include_bytes!("../dances/nine-geese-home.dance.json")).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let whole = MusicOf::whole(&dance, &motion);
    let span = &motion.spans()[3];
    let figure = MusicOf::figure(&dance, &motion, span.figure).unwrap();
    let first = motion.spans().iter().find(|other| other.figure == span.figure).unwrap();
    let clock = whole.clock();
    let start = clock.seconds(first.begin());
    let there: Vec<_> = whole
        .sounds()
        .into_iter()
        .filter(|sound| sound.begin > start - 1e-6 && sound.begin < clock.seconds(first.end()) - 1e-6)
        .collect();
    let here = figure.sounds();
    assert!(here.len() > 32 && here.len() == there.len(), "{} {}", here.len(), there.len());
    for (here, there) in here.iter().zip(&there) {
        assert_eq!(here.kind, there.kind);
        assert!((here.begin + start - there.begin).abs() < 1e-9);
    }
}

/// A dance of one figure in a bar of which sticks and hands meet: at 100 strong beats a minute, changing speed in the third bar.
fn tapping(metre: Metre) -> Dance {
    let mut dance = Dance::new("", Set::longways(4, 1.2, 1.2));
    dance.music = Music { metre, speed: 100.0, ..Music::default() };
    let mut figure = Figure::drawn("tapping", "Tapping", 8);
    let stick =
        Strike { again: vec![5.0, 9.5], ..Strike::new(2.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner) };
    let ground = Strike::new(13.0, Striker::All, StrikeEnd::Butt, Struck::Ground);
    let hands = Strike::new(16.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Right, Struck::Down);
    // There is nobody above the top couple: nothing meets, and nothing is heard.
    let nobody = Strike::new(18.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Tip, Struck::Up);
    let own = Strike::new(24.5, Striker::Evens, StrikeEnd::Both, Struck::Own);
    figure.strikes = vec![stick, ground, hands, nobody, own];
    figure.speeds = vec![SpeedChange::at(8.0, 60.0), SpeedChange::at(14.0, 120.0).eased()];
    dance.figures.push(figure);
    dance.holding = Holding::Sticks;
    dance.order.push(Entry::of("tapping"));
    dance
}

/// The counts at which something meets in it.
const MEET: [f64; 6] = [2.0, 5.0, 9.5, 13.0, 16.0, 24.5];

const TAPS: Levels = Levels { tune: 0.0, click: 0.0, taps: 1.0 };

/// In each metre, also in 9/8, and while the speed changes: at the seconds that the clock has for the count, to a thousandth.
#[test]
fn taps_and_claps_sound_on_their_counts() {
    for metre in [Metre::FourFour, Metre::SixEight, Metre::NineEight] {
        let dance = tapping(metre);
        let motion = motion_of(&dance, None).unwrap();
        let clock = bellpad::motion::Clock::of_dance(&dance, &motion);
        for speed in [1.0, 0.5] {
            let found = onsets(&samples(&dance, TAPS, speed));
            assert_eq!(found.len(), MEET.len(), "{metre:?} {found:?}");
            for ((at, loud), count) in found.iter().zip(MEET) {
                let expected = clock.seconds(count) / speed;
                assert!((at - expected).abs() < 0.001, "{metre:?}: count {count} at {at} s, not {expected}");
                assert!(*loud > 0.2 && *loud < 1.0, "{metre:?}: count {count}: {loud}");
            }
        }
    }
    // By hand: in 9/8 the counts are at 0, 2/9, 1/3, 5/9, 2/3 and 8/9 of a bar, which lasts 1.8 s at 100 strong beats a minute.
    let found = onsets(&samples(&tapping(Metre::NineEight), TAPS, 1.0));
    assert!((found[0].0 - 0.6).abs() < 0.001 && (found[1].0 - 1.6).abs() < 0.001, "{found:?}");
}

/// A stick on the ground is lower than one on another, and hands have no pitch; nothing of it changes the tune or the click.
#[test]
fn wood_ground_and_hands_sound_each_in_its_own_way() {
    let dance = tapping(Metre::FourFour);
    let samples_of = |levels| samples(&dance, levels, 1.0);
    let taps = samples_of(TAPS);
    let at = |index: usize| (onsets(&taps)[index].0 * f64::from(SAMPLE_RATE)) as usize;
    let [tap, dib, clap] = [at(0), at(3), at(4)].map(|from| &taps[from..from + 1_500]);
    let high = |samples: &[f64]| swing(samples, 740.0) / swing(samples, 415.0);
    assert!(high(tap) > 4.0 && high(dib) < 0.25, "{} {}", high(tap), high(dib));
    // A tone has all its strength in one place; noise is spread.
    let peak = |samples: &[f64]| {
        let all: Vec<f64> = (4..60).map(|step| swing(samples, f64::from(step) * 50.0)).collect();
        all.iter().copied().fold(0.0, f64::max) / (all.iter().sum::<f64>() / all.len() as f64)
    };
    assert!(peak(clap) < 0.6 * peak(tap), "{} {}", peak(clap), peak(tap));
    let mut silent = dance.clone();
    silent.figures[0].strikes.clear();
    assert!(samples_of(CLICK) == samples(&silent, CLICK, 1.0), "the click is as without taps");
}

/// Two hundred pairs at once are louder than one, and nothing is cut off.
#[test]
fn many_that_meet_at_once_are_one_sound_and_not_cut_off() {
    let loudest = |dancers: u32| {
        let mut dance = tapping(Metre::FourFour);
        dance.set = Set::longways(dancers, 1.2, 1.2);
        let samples = samples(&dance, Levels { tune: 1.0, click: 1.0, taps: 1.0 }, 1.0);
        let found = onsets(&samples).len();
        assert!(found >= MEET.len(), "{found}");
        samples.iter().fold(0.0, |loud: f64, sample| loud.max(sample.abs()))
    };
    let (one, many) = (loudest(2), loudest(400));
    assert!(one < many && many < 1.0, "{one} {many}");
}

/// General MIDI Level 1, percussion map: 75 claves, 37 side stick, 39 hand clap. With 960 ticks a crotchet a count of 4/4 is 960.
#[test]
fn taps_are_percussion_in_a_midi_file() {
    let dance = tapping(Metre::FourFour);
    let motion = motion_of(&dance, None).unwrap();
    let written = |levels| midi(&MusicOf::whole(&dance, &motion), levels, 1.0);
    let bytes = written(TAPS).unwrap();
    let downs: Vec<(u32, u8)> = keys(&Smf::parse(&bytes).unwrap(), 9)
        .into_iter()
        .filter(|(.., down)| *down)
        .map(|(at, key, _)| (at, key))
        .collect();
    let expected = MEET.map(|count| (count * 960.0).round() as u32);
    assert_eq!(downs, expected.into_iter().zip([75, 75, 75, 37, 39, 39]).collect::<Vec<_>>());
    // With the click they are on a track of their own, and the click is as it was.
    let bytes = written(Levels::default()).unwrap();
    let smf = Smf::parse(&bytes).unwrap();
    assert_eq!(smf.tracks.len(), 3);
    let clicks = keys(&smf, 9).into_iter().filter(|(_, key, down)| *down && [76, 77].contains(key)).count();
    assert_eq!(clicks, 32);
    assert!(written(Levels::TUNE).is_err(), "a dance without a tune has nothing but its taps");
}

/// The verb writes them unless it is told not to; a dance without strikes has none.
#[test]
fn the_verb_has_taps_unless_it_is_told_not_to() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    std::fs::write(path("taps.dance.json"), bellpad::dance::write(&tapping(Metre::FourFour)).unwrap())
        .unwrap();
    let run = |more: &[&str]| {
        common::bellpad([&["tune", &path("taps.dance.json"), "-o", &path("taps.mid")], more].concat())
    };
    let ran = run(&[]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
    let bytes = std::fs::read(path("taps.mid")).unwrap();
    assert_eq!(keys(&Smf::parse(&bytes).unwrap(), 9).len(), 12);
    common::assert_refused(&run(&["--no-taps"]), &["nothing to hear", "no tune", "no click"]);
    let ran = run(&["--no-taps", "--click"]);
    assert_eq!(ran.code, Some(0));
    let bytes = std::fs::read(path("taps.mid")).unwrap();
    assert_eq!(keys(&Smf::parse(&bytes).unwrap(), 9).len(), 64);
}

/// What cannot be done is told in one line that says what was expected, and nothing is written.
#[test]
fn the_verb_says_what_it_cannot_do() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("silent.dance.json");
    let mut silent = dance(Metre::FourFour, 100.0, "");
    silent.figures.push(named_figure("hey", Extra::new(), &Set::longways(6, 2.4, 1.8)).unwrap());
    silent.set = Set::longways(6, 2.4, 1.8);
    std::fs::write(&file, bellpad::dance::write(&silent).unwrap()).unwrap();
    let file = file.to_str().unwrap();
    let out = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let run =
        |arguments: &[&str], out: &str| common::bellpad([&["tune", file, "-o", out], arguments].concat());
    common::assert_refused(&run(&[], &out("a.wav")), &["no tune that can be read", "no click"]);
    common::assert_refused(&run(&[], &out("a.mid")), &["no tune that can be read", "no click"]);
    common::assert_refused(&run(&["--click"], &out("a.mp3")), &["a.mp3", ".wav or .mid"]);
    common::assert_refused(&run(&["--click", "--speed", "5"], &out("a.wav")), &["--speed 5", "10 to 400"]);
    common::assert_refused(&run(&["--click", "--speed", "nan"], &out("a.wav")), &["10 to 400"]);
    common::assert_refused(&run(&["--click", "--figure", "hey"], &out("a.wav")), &["hey", "running order"]);
    common::assert_refused(&run(&["--click", "--figure", "hay"], &out("a.wav")), &["hay", "hey"]);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    let ran = run(&["--click", "--speed", "50", "--figure", "Cross over"], &out("a.wav"));
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
    // Eight bars of 1.2 s at half speed, and half a second in which the last of it dies away.
    let reader = hound::WavReader::open(out("a.wav")).unwrap();
    assert_eq!(reader.duration(), (19.7 * f64::from(SAMPLE_RATE)) as u32);
}

/// A tune without a dance is played through as it is written, at its own speeds (ABC 2.1, 3.1.8 and 4.9): of 2/4 at 120 crotchets a
/// minute a bar lasts a second, and at 60 two.
#[test]
fn a_tune_by_itself_is_written_played_through() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let abc = "X:1\nT:Alone\nM:2/4\nL:1/8\nQ:1/4=120\nK:C\nC2|:{d}C4|[1 D4:|[2 [Q:1/4=60]E2\n";
    std::fs::write(path("alone.abc"), abc).unwrap();
    let ran = common::bellpad(["tune", &path("alone.abc"), "--click", "-o", &path("alone.mid")]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""));
    assert!(ran.err.contains("Alone: line 7: not played or drawn: grace notes"), "{}", ran.err);
    let bytes = std::fs::read(path("alone.mid")).unwrap();
    let smf = Smf::parse(&bytes).unwrap();
    let heard = |track: usize| -> Vec<(u32, u8, u8)> {
        let mut at = 0;
        let mut heard = Vec::new();
        for event in &smf.tracks[track] {
            at += event.delta.as_int();
            if let TrackEventKind::Midi { message: MidiMessage::NoteOn { key, vel }, .. } = event.kind {
                heard.push((at, key.as_int(), vel.as_int()));
            }
        }
        heard
    };
    let keys: Vec<(u32, u8)> = heard(1).into_iter().map(|(at, key, _)| (at, key)).collect();
    assert_eq!(keys, [(0, 60), (960, 60), (2880, 62), (4800, 60), (6720, 64)]);
    // Of the bar that the upbeat is the end of, its third and fourth count.
    let strong: Vec<u32> =
        heard(2).into_iter().filter(|(_, _, hard)| *hard > 100).map(|(at, _, _)| at).collect();
    assert_eq!(strong, [0, 960, 1920, 2880, 3840, 4800, 5760, 6720]);
    assert_eq!(heard(2).len(), 16);
    let done = common::bellpad(["tune", &path("alone.abc"), "-o", &path("alone.wav")]);
    assert_eq!(done.code, Some(0), "{}", done.err);
    // Half a second, three bars of a second, a second of the last, and half a second in which it dies away.
    assert_eq!(hound::WavReader::open(path("alone.wav")).unwrap().duration(), 5 * SAMPLE_RATE);
}

#[test]
fn a_tune_by_itself_that_cannot_be_written_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let run = |name: &str, more: &[&str]| {
        common::bellpad([&["tune", &path(name), "-o", &path("out.wav")], more].concat())
    };
    std::fs::write(path("words.abc"), "Dear all,\npractice is at eight.\n").unwrap();
    std::fs::write(path("free.abc"), "X:1\nK:G\nGB dB|\n").unwrap();
    std::fs::write(path("tune.abc"), "X:1\nM:2/4\nK:G\nGB dB|\n").unwrap();
    common::assert_refused(&run("words.abc", &[]), &["words.abc", "no tune in it", "K:G"]);
    common::assert_refused(&run("free.abc", &[]), &["free.abc", "line 3", "no metre"]);
    common::assert_refused(&run("none.abc", &[]), &["none.abc", "no such file"]);
    common::assert_refused(&run("tune.abc", &["--figure", "hey"]), &["tune.abc", "hey", "dance file"]);
    assert!(!folder.path().join("out.wav").exists());
}
