//! Play in the window, heard: what is drawn follows what sounds, and what is chosen about it does what it says. The machine's
//! sound is stood in for by a sink that the test holds.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/test_sink.rs"]
mod test_sink;

use bellpad::desk::{Ask, Desk, KeepAsk, PlayAsk};
use bellpad::sound::{Keeper, LivePlayer, SoundChoice, Voice};
use bellpad::store::{Home, Recent};
use bellpad::window::Window;
use driven::{Driven, activate, count, desk, press, sample, take};
use egui::{Key, accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable};
use test_sink::{Hand, TestSink};

/// A window whose sound the test holds.
struct Heard {
    harness: Driven,
    keeper: Keeper,
    hand: Hand,
}

impl Heard {
    /// On the first sample dance, at its start, with loudspeakers or without.
    fn open(there: bool) -> Self {
        Self::on(Desk::new(sample(0), None, Recent::default()).unwrap(), there)
    }

    fn on(desk: Desk, there: bool) -> Self {
        let (sink, hand) = TestSink::new(there);
        let clock = hand.clone();
        let (player, keeper) = LivePlayer::by_hand(sink, move || clock.now());
        let mut harness =
            Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(60).build_ui_state(
                |ui, window: &mut Window| window.show(ui),
                Window::new(desk, false).aloud(player),
            );
        harness.run();
        press(&mut harness, Key::Home);
        Self { harness, keeper, hand }
    }

    /// Lets time go by, a frame each fiftieth of a second.
    fn go_on(&mut self, seconds: f64) {
        for _ in 0..(seconds * 50.0).round() as usize {
            self.hand.pass(0.02);
            self.keeper.look();
            self.harness.step();
        }
    }

    /// Presses a key in one frame: what plays never comes to rest.
    fn press(&mut self, key: Key) {
        self.harness.key_press(key);
        self.harness.step();
    }

    /// Seconds of the dance at the count that is drawn.
    fn drawn(&self) -> f64 {
        desk(&self.harness).clock().seconds(count(&self.harness))
    }

    /// How much of the music has been heard since the first click.
    fn heard(&self) -> f64 {
        self.hand.heard_seconds() - self.hand.clicks()[0]
    }
}

#[test]
fn what_is_drawn_is_what_is_heard_at_any_speed() {
    let mut window = Heard::open(true);
    // The click alone: the upbeat of the tune sounds before it.
    window.press(Key::N);
    assert!(desk(&window.harness).settings().sound.tune.muted);
    window.press(Key::Space);
    window.go_on(2.0);
    assert!((window.drawn() - window.heard()).abs() < 0.001, "{} and {}", window.drawn(), window.heard());
    assert!(window.drawn() > 1.5);
    // From here on at half the speed: what lies ready still goes at the old one.
    take_playing(&mut window, Ask::Play(PlayAsk::Tempo(0.5)));
    window.go_on(0.2);
    let (drawn, heard) = (window.drawn(), window.heard());
    window.go_on(2.0);
    let (drawn, heard) = (window.drawn() - drawn, window.heard() - heard);
    assert!((drawn - 0.5 * heard).abs() < 0.001, "{drawn} and {heard}");
    // Stopped, it stands where it was heard, and nothing more sounds.
    window.press(Key::Space);
    let stands = count(&window.harness);
    window.go_on(0.5);
    let sounded = window.hand.clicks().len();
    window.go_on(1.0);
    assert_eq!(count(&window.harness), stands);
    assert_eq!(window.hand.clicks().len(), sounded);
}

/// Has the desk do something while it plays.
fn take_playing(window: &mut Heard, ask: Ask) {
    window.harness.state_mut().desk.apply(ask);
    window.harness.step();
}

#[test]
fn a_loop_is_heard_and_drawn_round_and_round() {
    let mut window = Heard::open(true);
    window.press(Key::N);
    take_playing(&mut window, Ask::Play(PlayAsk::LoopBar(0.0)));
    window.press(Key::Space);
    let bar = desk(&window.harness).clock().seconds(4.0);
    for _ in 0..40 {
        window.go_on(0.1);
        let heard = if window.hand.clicks().is_empty() { 0.0 } else { window.heard().max(0.0) };
        let expected = heard % bar;
        let off = (window.drawn() - expected).abs();
        assert!(off < 0.001 || bar - off < 0.001, "{} and {expected}", window.drawn());
    }
    assert!(window.heard() > 2.0 * bar);
}

#[test]
fn going_through_the_dance_by_hand_is_silent_and_it_goes_on_from_there() {
    let mut window = Heard::open(true);
    window.press(Key::N);
    window.press(Key::Space);
    window.go_on(1.0);
    let bars = window.harness.get_by_label("Bars").rect();
    let at = |share: f32| bars.lerp_inside(vec2(share, 0.5));
    window.harness.hover_at(at(0.3));
    window.harness.step();
    window.harness.drag_at(at(0.3));
    window.go_on(0.1);
    window.harness.hover_at(at(0.5));
    window.go_on(0.4);
    let (place, sounded) = (count(&window.harness), window.hand.clicks().len());
    for step in 0..40 {
        window.harness.hover_at(at(0.5 + 0.005 * step as f32));
        window.go_on(0.04);
    }
    assert_eq!(window.hand.clicks().len(), sounded, "nothing is heard");
    let there = count(&window.harness);
    assert!(there > place + 1.0, "{place} to {there}");
    window.harness.drop_at(at(0.7));
    window.go_on(1.0);
    assert!(count(&window.harness) > there + 1.0, "{there} to {}", count(&window.harness));
    assert!(window.hand.clicks().len() > sounded);
}

#[test]
fn a_bar_is_counted_in_where_that_is_chosen() {
    let mut window = Heard::open(true);
    window.press(Key::N);
    window.press(Key::I);
    window.press(Key::Space);
    window.go_on(0.8);
    assert_eq!(count(&window.harness), 0.0);
    assert!(desk(&window.harness).player().counting_in.is_some());
    assert!(!window.hand.clicks().is_empty());
    window.go_on(1.2);
    let bar = desk(&window.harness).clock().seconds(4.0);
    assert!(
        (window.drawn() - (window.heard() - bar)).abs() < 0.001,
        "{} and {}",
        window.drawn(),
        window.heard()
    );
    assert!(window.drawn() > 0.3 && desk(&window.harness).player().counting_in.is_none());
}

#[test]
fn without_loudspeakers_it_says_so_once_and_plays_at_the_right_speed() {
    let mut window = Heard::open(false);
    window.press(Key::Space);
    window.go_on(0.2);
    let notice = desk(&window.harness).notice().unwrap_or_default().to_owned();
    assert_eq!(notice, "There is no sound: nothing to play on. It will sound as soon as it can");
    let before = window.drawn();
    window.go_on(2.0);
    assert!((window.drawn() - before - 2.0).abs() < 0.05, "{before} to {}", window.drawn());
    window.press(Key::Space);
    window.press(Key::Space);
    window.go_on(0.2);
    assert_eq!(desk(&window.harness).notice(), None, "it was told");
    activate_playing(&mut window, "Sound");
    assert!(window.harness.query_by_label("There is no sound: nothing to play on").is_some());
    // There are some: it is no longer said, and sounds.
    window.hand.set_there(true);
    window.go_on(6.0);
    assert!(window.harness.query_by_label("There is no sound: nothing to play on").is_none());
    assert!(!window.hand.clicks().is_empty());
}

/// Clicks as a screen reader does, while it plays.
fn activate_playing(window: &mut Heard, label: &str) {
    window.harness.get_by_label(label).click_accesskit();
    window.harness.step();
    window.harness.step();
}

#[test]
fn what_is_chosen_about_sound_is_remembered() {
    let folder = tempfile::tempdir().unwrap();
    let home = || Home::at(&folder.path().join("state"));
    let desk_at = || Desk::new(sample(0), None, Recent::default()).unwrap().at_home(home());
    let mut window = Heard::on(desk_at(), true);
    take(&mut window.harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
    let harness = &mut window.harness;
    activate(harness, "Sound");
    activate(harness, "Click");
    activate(harness, "Count a bar in");
    let slide = |harness: &mut Driven, label: &str, value: f64| {
        harness.get_by_role_and_label(Role::Slider, label).set_value_accesskit(value);
        harness.run();
    };
    slide(harness, "Tune volume", 40.0);
    slide(harness, "Taps volume", 30.0);
    slide(harness, "Speed of the tune", 60.0);
    slide(harness, "Loudspeakers lag", 180.0);
    let chosen = SoundChoice {
        tune: Voice { volume: 40, muted: false },
        click: Voice { volume: 60, muted: true },
        taps: Voice { volume: 30, muted: false },
        counts_in: true,
        speed: 60,
        delay: 180,
    };
    assert_eq!(desk(harness).settings().sound, chosen);
    let again = desk_at();
    assert_eq!(again.settings().sound, chosen);
    assert!((again.player().tempo - 0.6).abs() < 1e-9);
}
