//! The tune as a real sound server plays it: a `PulseAudio` or a `PipeWire` of the test's own, with loudspeakers that are only recorded. `.ci/run`
//! asks for these.
//!
//! Sources: [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907), the 6-time diagrams, for where counts fall;
//! ISO 16:1975 and equal temperament for the pitch.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/sound_server.rs"]
mod sound_server;

use bellpad::dance::{Dance, Entry, Extra, Metre, Music, Set};
use bellpad::figures::{motion_of, named_figure};
use bellpad::sound::{Heard, Levels, LivePlayer, MachineSink, MusicOf, Performance, Server};
use sound_server::{Onsets, Recorder, Recording, SoundServer};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Strong beats a minute.
const SPEED: f64 = 100.0;

/// A note for each bar of sixteen in 6/8, and how high it is: so low that clicks stand out above it.
const NOTES: [(&str, f64); 4] = [("A,", 220.0), ("C", 261.626), ("E", 329.628), ("D", 293.665)];

/// Sixteen bars.
fn sixteen() -> Dance {
    let bars: Vec<String> = (0..8).map(|bar| format!("{}6", NOTES[bar % 4].0)).collect();
    let abc = format!("X:1\nM:6/8\nL:1/8\nK:Am\n{}|\n", bars.join("|"));
    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    dance.music = Music { metre: Metre::SixEight, speed: SPEED, abc, ..Music::default() };
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    let id = dance.figures[0].id.clone();
    dance.order.extend([Entry::of(&id), Entry::of(&id)]);
    dance
}

fn performance(dance: &Dance) -> Performance {
    let motion = motion_of(dance, None).unwrap();
    let music = MusicOf::whole(dance, &motion);
    assert_eq!(music.counts, (0.0, 64.0), "sixteen bars");
    Performance {
        sounds: music.sounds().into(),
        clock: music.clock().clone(),
        from: 0.0,
        end: music.counts.1,
        round: None,
        speed: 1.0,
        counted_in: 0,
    }
}

/// What is drawn for a window that paints every sixtieth of a second, until the end or for so many seconds: the time, and the
/// count.
fn drawn(player: &LivePlayer, epoch: Instant, most: f64) -> Vec<(f64, f64)> {
    let (mut drawn, begun) = (Vec::new(), Instant::now());
    while begun.elapsed().as_secs_f64() < most {
        sleep(Duration::from_millis(16));
        let at = epoch.elapsed().as_secs_f64();
        match player.heard() {
            Heard::Count(count) => drawn.push((at, count)),
            Heard::Ended => return drawn,
            Heard::Nothing | Heard::CountingIn(_) => {}
        }
    }
    drawn
}

/// What this process has taken of the processors, seconds.
fn taken() -> f64 {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ProcessCPUTime);
    time.tv_sec as f64 + time.tv_nsec as f64 * 1e-9
}

/// What begins in a recording at the counts of the first that does, and what begins elsewhere, where a server that the machine gave
/// no time to left out some of what it had been given: nothing comes later for it.
fn clicks_and_cracks(recording: &Recording, expected: impl Fn(usize) -> f64) -> (Onsets, Onsets) {
    let all = recording.clicks();
    let begins = all[0].0;
    all.into_iter().partition(|(at, _)| (0..64).any(|index| (at - begins - expected(index)).abs() < 0.05))
}

#[test]
#[ignore = "needs pulseaudio; .ci/run asks for it"]
fn sixteen_bars_sound_where_they_are_drawn_as_high_as_they_are_at_100_and_at_60() {
    let folder = tempfile::tempdir().unwrap();
    sixteen_bars_sound(&SoundServer::pulse(folder.path()));
}

#[test]
#[ignore = "needs pipewire; .ci/run asks for it"]
fn sixteen_bars_sound_so_through_the_other_server_too() {
    let folder = tempfile::tempdir().unwrap();
    sixteen_bars_sound(&SoundServer::pipewire(folder.path()));
}

fn sixteen_bars_sound(server: &SoundServer) {
    let dance = sixteen();
    for speed in [1.0, 0.6] {
        let epoch = Instant::now();
        let recorder = Recorder::start(server, epoch);
        let player = LivePlayer::begin(MachineSink::at(server.socket().to_owned()));
        player.set_levels(Levels { tune: 0.4, click: 1.0, taps: 0.0 });
        let before = taken();
        let played = Performance { speed, ..performance(&dance) };
        let clock = played.clock.clone();
        player.play(played);
        let drawn = drawn(&player, epoch, 60.0);
        let lasted = clock.seconds(64.0) / speed;
        eprintln!(
            "at {speed}: {:.2} % of a core, with the recorder's reader",
            (taken() - before) / lasted * 100.0
        );
        assert_eq!(player.server(), Server::There);
        sleep(Duration::from_millis(200));
        let recording = recorder.end();

        let expected = |index: usize| clock.seconds(index as f64) / speed;
        let (clicks, cracks) = clicks_and_cracks(&recording, expected);
        eprintln!("at {speed}: {} cracks {cracks:?}", cracks.len());
        assert_eq!(clicks.len(), 64, "{clicks:?}");
        // A click too many would be as loud as the others are: what is left out of a recording is far louder.
        let loudest = clicks.iter().map(|click| click.1).fold(0.0, f64::max);
        let left_out = |crack: &(f64, f64)| crack.1 > 1.5 * loudest;
        assert!(cracks.len() <= 1 && cracks.iter().all(left_out), "{cracks:?} besides {clicks:?}");
        // When the dance begins, as the middle one of the clicks has it.
        let mut begins: Vec<f64> =
            clicks.iter().enumerate().map(|(index, (at, _))| at - expected(index)).collect();
        begins.sort_by(f64::total_cmp);
        let first = begins[32];
        let worst = (begins[63] - first).max(first - begins[0]);
        eprintln!("at {speed}: clicks within {:.2} ms", worst * 1e3);
        assert!(worst < 0.010, "{worst} s");

        // The first begins with the stream, whose beginning the recording has as a crack.
        let loudness = |rest: usize| clicks.iter().skip(2 + rest).step_by(2).map(|click| click.1);
        let (strong, soft) = (loudness(0).fold(f64::INFINITY, f64::min), loudness(1).fold(0.0, f64::max));
        eprintln!("at {speed}: strong beats at least {:.2} times as loud", strong / soft);
        assert!(strong > 1.5 * soft, "{strong} and {soft}");

        // A bar, but for where one note gives way to the next.
        let bar = clock.seconds(4.0) / speed;
        let mut cents: f64 = 0.0;
        for index in 0..16 {
            let begin = first + bar * index as f64;
            let off = recording.cents_off(begin + 0.1 * bar, begin + 0.85 * bar, NOTES[index % 4].1);
            cents = cents.max(off.abs());
        }
        eprintln!("at {speed}: pitch within {cents:.1} cents");
        assert!(cents < 5.0, "{cents} cents");

        // Against the time at which the recording has the drawn count.
        let begun = recording.begun + first;
        let mut off: Vec<f64> = drawn
            .iter()
            .filter(|(_, count)| *count > 0.0)
            .map(|(at, count)| (begun + clock.seconds(*count) / speed - at).abs())
            .collect();
        off.sort_by(f64::total_cmp);
        let within = off[off.len() * 95 / 100];
        eprintln!(
            "at {speed}: drawn within {:.1} ms in 95 of 100, {:.1} in the middle one, of {}",
            within * 1e3,
            off[off.len() / 2] * 1e3,
            off.len()
        );
        assert!(within < 0.015, "{within} s");
        assert!(drawn.windows(2).all(|pair| pair[1].1 >= pair[0].1), "it never runs back");
    }
}

#[test]
#[ignore = "needs pulseaudio; .ci/run asks for it"]
fn a_server_that_is_killed_in_play_stops_nothing_and_sounds_again_when_it_is_there_again() {
    let folder = tempfile::tempdir().unwrap();
    let epoch = Instant::now();
    let dance = sixteen();
    let player = LivePlayer::begin(MachineSink::at(SoundServer::pulse_socket(folder.path())));
    player.set_levels(Levels { tune: 0.0, click: 1.0, taps: 0.0 });
    let played = performance(&dance);
    let clock = played.clock.clone();
    // How long what is drawn took between two frames, against the time.
    let goes_on = |drawn: &[(f64, f64)], from: (f64, f64), most: f64| {
        let mut before = from;
        for (at, count) in drawn {
            let (dance, time) = (clock.seconds(*count) - clock.seconds(before.1), at - before.0);
            assert!(dance >= 0.0 && dance < time + 0.05, "{dance} s in {time} s");
            before = (*at, *count);
        }
        let lost = (before.0 - from.0) - (clock.seconds(before.1) - clock.seconds(from.1));
        assert!(lost.abs() < most, "{lost} s are lost");
        before
    };
    // Without one it plays silently from the start.
    player.play(played);
    let silent = drawn(&player, epoch, 2.0);
    assert!(silent.len() > 60);
    assert!(matches!(player.server(), Server::Missing(_)));
    let last = goes_on(&silent, silent[0], 0.1);
    // One appears: it sounds, and soon.
    let server = SoundServer::pulse(folder.path());
    let recorder = Recorder::start(&server, epoch);
    let heard = drawn(&player, epoch, 6.0);
    assert_eq!(player.server(), Server::There);
    let last = goes_on(&heard, last, 0.3);
    let clicks = recorder.end().clicks();
    assert!(clicks.len() >= 5, "{clicks:?}");
    // It dies.
    server.kill();
    let unheard = drawn(&player, epoch, 2.0);
    assert!(matches!(player.server(), Server::Missing(_)));
    let last = goes_on(&unheard, last, 0.3);
    // And is there again.
    let server = SoundServer::pulse(folder.path());
    let recorder = Recorder::start(&server, epoch);
    let again = drawn(&player, epoch, 6.0);
    assert_eq!(player.server(), Server::There);
    goes_on(&again, last, 0.3);
    let recording = recorder.end();
    let clicks = recording.clicks();
    assert!(clicks.len() >= 5, "{clicks:?}");
    // What is drawn after it is what sounds: each of the last clicks at a whole count.
    let (at, count) = again[again.len() - 1];
    let (click, _) = clicks[clicks.len() - 1];
    let when = clock.counts(clock.seconds(count) - (at - recording.begun - click));
    let off = clock.seconds(when.round()) - clock.seconds(when);
    eprintln!("after it was there again: {:.1} ms off", off * 1e3);
    assert!(off.abs() < 0.015, "{off} s off");
}
