//! Loops, stops and other speeds, as they are heard: no round is shorter than another, no note rings over, and nothing cracks.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/beats.rs"]
mod beats;

use beats::performance;
use bellpad::dance::{Dance, Entry, Extra, Metre, Music, Set};
use bellpad::figures::{motion_of, named_figure};
use bellpad::sound::{Band, Levels, MusicOf, Performance, Sound, SoundKind};

const RATE: u32 = 48_000;

/// The A above middle C from one second to another.
fn note(begin: f64, end: f64) -> Sound {
    Sound { begin, length: end - begin, kind: SoundKind::Note(69) }
}

fn made(band: &mut Band, seconds: f64) -> Vec<f32> {
    let mut out = vec![0.0; (seconds * f64::from(RATE)).round() as usize];
    out.chunks_mut(480).for_each(|piece| band.fill(piece));
    out
}

/// How loud it is at most between two seconds.
fn loud(samples: &[f32], from: f64, to: f64) -> f32 {
    let at = |seconds: f64| (seconds * f64::from(RATE)) as usize;
    samples[at(from)..at(to)].iter().fold(0.0, |loud: f32, sample| loud.max(sample.abs()))
}

/// The greatest step from one sample to the next.
fn step(samples: &[f32]) -> f32 {
    samples.windows(2).fold(0.0, |most: f32, pair| most.max((pair[1] - pair[0]).abs()))
}

fn band(tune: f32, click: f32) -> Band {
    Band::new(RATE, Levels { tune, click, taps: 0.0 })
}

/// A round of a count and a half at 77 hundredths lasts no whole number of samples: 23,376.62. The thousandth begins where a
/// thousand of them end.
#[test]
fn after_a_thousand_rounds_none_of_it_is_lost() {
    let mut band = band(0.0, 1.0);
    let speed = 0.77;
    band.play(Performance { round: Some((0.0, 1.5)), speed, ..performance(8.0, None) });
    let long = 0.375 / speed;
    let rounds = 1000.0;
    band.fill(&mut vec![0.0; (long * rounds * f64::from(RATE)) as usize - 1_000]);
    let samples = made(&mut band, 0.2);
    let at = samples.iter().position(|sample| sample.abs() > 0.005).unwrap();
    // A click takes some samples to be heard at all.
    assert!(at.abs_diff(1_000) < 30, "{at} samples, not 1000");
}

/// A note that lasts beyond the end of the loop is let go there: 45 thousandths of a second later nothing of it is heard.
#[test]
fn no_note_rings_over_into_the_next_round() {
    let mut band = band(1.0, 0.0);
    let notes = vec![note(0.5, 2.0)];
    band.play(Performance { round: Some((0.0, 4.0)), ..performance(8.0, Some(notes)) });
    let samples = made(&mut band, 2.0);
    assert!(loud(&samples, 0.9, 0.99) > 0.1);
    assert!(loud(&samples, 1.05, 1.49) < 1e-6, "{}", loud(&samples, 1.05, 1.49));
    assert!(loud(&samples, 1.6, 1.9) > 0.1);
    // At the turn it steps no further than in the middle of the note.
    assert!(step(&samples) < 1.2 * step(&samples[RATE as usize / 2..RATE as usize * 9 / 10]));
}

/// Stopped, or played from elsewhere, in the middle of a note: it dies away.
#[test]
fn a_stop_and_a_leap_do_not_crack() {
    for leap in [false, true] {
        let mut band = band(1.0, 0.0);
        let long = || performance(16.0, Some(vec![note(0.0, 2.0)]));
        band.play(long());
        // Not where a swing goes through nought: 440 a second, and a quarter of one.
        let mut samples = made(&mut band, 0.500_6);
        let within = step(&samples);
        if leap {
            band.play(Performance { from: 12.0, ..long() });
        } else {
            band.stop();
        }
        samples.extend(made(&mut band, 0.5));
        assert!(step(&samples) < 1.2 * within, "{} after {within}", step(&samples));
        assert!(loud(&samples, 0.56, 1.0) < 1e-6);
    }
}

/// A note of two seconds, half of which is over when the speed is halved, goes on for two more; and for half of one at
/// double the speed.
#[test]
fn a_note_under_way_lasts_as_long_as_the_new_speed_has_it() {
    for (speed, end) in [(0.5, 3.0), (2.0, 1.5)] {
        let mut band = band(1.0, 0.0);
        band.play(performance(32.0, Some(vec![note(0.0, 2.0)])));
        let mut samples = made(&mut band, 1.0);
        band.set_speed(speed);
        samples.extend(made(&mut band, 4.0));
        assert!(loud(&samples, end - 0.15, end - 0.1) > 0.1, "{speed}");
        assert!(loud(&samples, end + 0.06, 5.0) < 1e-6, "{speed}");
    }
}

/// A last bar that is too long is played as it stands, as far as its strain is played: it does not ring into what comes after it.
#[test]
fn a_last_bar_that_is_too_long_ends_with_its_strain() {
    for last in ["c12", "A8 c8", "c4 d4 e8"] {
        let abc = format!("X:1\nM:4/4\nL:1/8\nK:C\nG8|G8|G8|G8|G8|G8|G8|{last}|\n");
        let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
        dance.music = Music { metre: Metre::FourFour, abc, ..Music::default() };
        dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
        let id = dance.figures[0].id.clone();
        dance.order.extend([Entry::of(&id), Entry::of(&id)]);
        let motion = motion_of(&dance, None).unwrap();
        let music = MusicOf::whole(&dance, &motion);
        let sounds = music.sounds();
        let notes: Vec<&Sound> =
            sounds.iter().filter(|sound| matches!(sound.kind, SoundKind::Note(_))).collect();
        assert!(notes.len() >= 16);
        for pair in notes.windows(2) {
            let end = pair[0].begin + pair[0].length;
            assert!(end <= pair[1].begin + 1e-6, "{last}: {:?} rings into {:?}", pair[0], pair[1]);
        }
    }
}
