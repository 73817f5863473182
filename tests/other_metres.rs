//! Bars of three strong beats among bars of two, and dances that have nothing else.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Entry, Extra, FaultKind, Figure, Leg, Metre, Part, Set, SpeedChange, Strain, check_rules,
    read, write,
};
use bellpad::faults::{Faults, find_faults};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Clock, Moment};
use bellpad::sound::{Levels, MusicOf, SoundKind, midi};
use midly::{MetaMessage, Smf, TrackEventKind};

/// The shape of a dibbing tune [MB1]: five bars of 6/8 and one of 9/8, twice.
fn dibbing() -> Dance {
    let mut dance = Dance::new("", Set::longways(6, 2.4, 1.8));
    let mut figure = Figure::drawn("dib", "Dib", 12);
    figure.metres = [(6, Metre::NineEight), (12, Metre::NineEight)].into();
    "st".clone_into(&mut figure.phrase);
    dance.figures.push(figure);
    dance.music.metre = Metre::SixEight;
    dance
}

#[test]
fn a_bar_of_its_own_metre_has_its_own_counts() {
    let dance = dibbing();
    check_rules(&dance).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!((motion.bars(), motion.counts()), (12, 52.0));
    let said = |count: f64| motion.moment(count).to_string();
    assert_eq!([19.0, 20.0, 25.5, 26.0, 51.0].map(said), ["5:4", "6:1", "6:6.5", "7:1", "12:6"]);
    let at = |text: &str| text.parse::<Moment>().unwrap();
    assert!(at("6:6.9").is_in(motion.bar_counts()) && !at("5:5").is_in(motion.bar_counts()));
    // At 100 strong beats a minute 6/8 has two in 1.2 s and 9/8 three in 1.8 s; counts at 0, 1/3, 1/2, 5/6 of the one and
    // at 0, 2/9, 1/3, 5/9, 2/3 and 8/9 of the other.
    let clock = Clock::of_dance(&dance, &motion);
    for (count, seconds) in [
        (1.0, 0.4),
        (2.0, 0.6),
        (3.0, 1.0),
        (20.0, 6.0),
        (21.0, 6.4),
        (22.0, 6.6),
        (23.0, 7.0),
        (24.0, 7.2),
        (25.0, 7.6),
        (26.0, 7.8),
    ] {
        assert!((clock.seconds(count) - seconds).abs() < 1e-9, "{count}: {}", clock.seconds(count));
        assert!((clock.counts(seconds) - count).abs() < 1e-9);
        assert!((clock.speed(count) - 100.0).abs() < 1e-9);
    }
    let again = read(write(&dance).unwrap().as_bytes()).unwrap();
    assert_eq!(again.figures[0].metres, dance.figures[0].metres);
}

/// What has no bars is refused before anything is asked of them.
#[test]
fn a_figure_of_no_bars_is_refused() {
    let mut dance = dibbing();
    dance.figures[0].bars = 0;
    assert!(check_rules(&dance).unwrap_err().to_string().starts_with("figures[0].bars"));
    dance.figures[0].bars = 5;
    assert_eq!(
        dance.bar_counts(&dance.figures[0]).counts(),
        20.0,
        "what is after its end is for when it is longer"
    );
}

#[test]
fn the_click_and_the_written_music_know_the_metre() {
    let dance = dibbing();
    let motion = motion_of(&dance, None).unwrap();
    let music = MusicOf::whole(&dance, &motion);
    let sounds = music.sounds();
    assert_eq!(sounds.len(), 52);
    // Strong on 1, 3 and 5.
    let strong: Vec<bool> = sounds[20..26].iter().map(|sound| sound.kind == SoundKind::Beat).collect();
    assert_eq!(strong, [true, false, true, false, true, false]);
    let bytes = midi(&music, Levels::default(), 1.0).unwrap();
    let smf = Smf::parse(&bytes).unwrap();
    let mut tick = 0;
    let mut signatures = Vec::new();
    for event in &smf.tracks[0] {
        tick += event.delta.as_int();
        if let TrackEventKind::Meta(MetaMessage::TimeSignature(beats, of, clocks, _)) = event.kind {
            signatures.push((tick, beats, 1 << of, clocks));
        }
    }
    // A bar of 6/8 is three crotchets of 960 ticks, one of 9/8 four and a half; the beat a dotted crotchet, 36 of 24.
    let (six, nine) = (2880, 4320);
    let expected =
        [(0, 6, 8, 36), (5 * six, 9, 8, 36), (5 * six + nine, 6, 8, 36), (10 * six + nine, 9, 8, 36)];
    assert_eq!(signatures, expected);
}

/// An upbeat is as long as it is written, whatever the bar that it lies in: a quaver of 9/8 before a bar of 6/8 is a ninth of its own
/// bar and a sixth of that one, and a last bar of five quavers leaves just the room for it.
#[test]
fn an_upbeat_into_another_metre_is_as_long_as_it_is_written() {
    for (before, last, after, quavers) in
        [("6/8", "A6|A5", "9/8", 11.0), ("9/8", "A9|A8", "6/8", 17.0), ("6/8", "A6|A6", "9/8", f64::NAN)]
    {
        let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
        let bars: u8 = after[..1].parse().unwrap();
        dance.music.abc =
            format!("X:1\nM:{before}\nL:1/8\nK:C\nP:A\n{last}|]\nP:B\nM:{after}\nB|c{bars}|]\n");
        let metre = |metre: &str| Metre::ALL.into_iter().find(|known| known.to_string() == metre);
        dance.music.metre = metre(before).unwrap();
        dance.figures = [("one", 2), ("two", 1)].map(|(id, bars)| Figure::drawn(id, id, bars)).into();
        for (name, bars, metre) in [("A", 2, None), ("B", 1, metre(after))] {
            let (name, speeds) = (name.to_owned(), Vec::new());
            dance.music.strains.push(Strain { name, bars, metre, speeds, extra: Extra::new() });
        }
        dance.order = [("one", "A"), ("two", "B")]
            .map(|(id, strain)| Entry { strain: strain.to_owned(), ..Entry::of(id) })
            .into();
        let motion = motion_of(&dance, None).unwrap();
        let sounds = MusicOf::whole(&dance, &motion).sounds();
        let upbeat = sounds.iter().find(|sound| sound.kind == SoundKind::Note(71));
        let Some(upbeat) = upbeat else {
            assert!(quavers.is_nan(), "{before} to {after}: the upbeat is not heard");
            continue;
        };
        // At 100 strong beats a minute of three quavers each lasts a fifth of a second.
        assert!((upbeat.begin - quavers * 0.2).abs() < 1e-9, "{before} to {after}: {upbeat:?}");
        assert!((upbeat.length - 0.2).abs() < 1e-9, "{before} to {after}: {upbeat:?}");
    }
}

/// In bars of three strong beats no named figure does what no body would, nor do dancers meet, whatever its steps do to the
/// counts on which it goes.
#[test]
fn in_bars_of_six_no_named_figure_does_what_no_body_would() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for set in [6, 8].map(|dancers| Set::longways(dancers, 2.4, 1.8)) {
        for named in all() {
            let Ok(figure) = named_figure(named.name, Extra::new(), &set) else { continue };
            for metre in [Metre::NineEight, Metre::ThreeFour, Metre::ThreeTwo] {
                let mut dance = Dance::new("", set.clone());
                dance.figures.push(figure.clone());
                dance.music.metre = metre;
                seen += 1;
                for fault in find_faults(&dance, &motion_of(&dance, None).unwrap()) {
                    let at = (fault.bar, fault.count);
                    wrong
                        .push(format!("{} by {} in {metre}: {at:?} {}", named.name, set.dancers, fault.said));
                }
            }
        }
    }
    assert!(seen > 90, "{seen}");
    assert!(wrong.is_empty(), "{} of {seen}: {wrong:#?}", wrong.len());
}

/// Every figure in every metre fills its bars, goes where it goes in the usual one, and ends with its dancers in the same
/// places.
#[test]
fn every_figure_can_be_danced_in_every_metre() {
    let set = Set::longways(6, 2.4, 1.8);
    let mut seen = 0;
    for named in all() {
        let Ok(figure) = named_figure(named.name, Extra::new(), &set) else { continue };
        seen += 1;
        let mut dance = Dance::new("", set.clone());
        dance.figures.push(figure);
        let usual = motion_of(&dance, None).unwrap();
        for metre in Metre::ALL {
            dance.music.metre = metre;
            let motion = motion_of(&dance, None).unwrap();
            let each = metre.counts();
            assert_eq!(motion.counts(), f64::from(motion.bars() * each), "{} in {metre}", named.name);
            for bar in 0..=motion.bars() {
                let [was, is] = [4, each].map(|each| f64::from(bar) * f64::from(each));
                for dancer in Dancer::all(6) {
                    let (before, after) = (usual.pose(dancer, was), motion.pose(dancer, is));
                    let off = (before.x - after.x).hypot(before.y - after.y);
                    // Between its ends a way goes as its steps do.
                    let bound = if bar == motion.bars() { 1e-6 } else { 0.8 };
                    assert!(off < bound, "{} in {metre}, {dancer} at bar {bar}: {off} m", named.name);
                }
            }
        }
    }
    assert!(seen > 12, "{seen}");
}

#[test]
fn a_strain_has_a_metre_for_the_figure_danced_to_it() {
    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    dance.figures = ["one", "two"].map(|id| Figure::drawn(id, id, 8)).into();
    for (name, metre) in [("A", None), ("B", Some(Metre::ThreeTwo))] {
        let (name, speeds) = (name.to_owned(), Vec::new());
        dance.music.strains.push(Strain { name, bars: 8, metre, speeds, extra: Extra::new() });
    }
    dance.order = [("one", "A"), ("two", "B")]
        .map(|(id, strain)| Entry { strain: strain.to_owned(), ..Entry::of(id) })
        .into();
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!((motion.bar_counts().in_bar(7), motion.bar_counts().in_bar(8)), (4, 6));
    assert_eq!(motion.counts(), 32.0 + 48.0);
    // What is drawn has the time that there is.
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(40.0, 48.0, -1.2, 1.0));
    dance.figures[1].parts.push(part);
    check_rules(&dance).unwrap();
    dance.music.strains[1].metre = None;
    assert!(check_rules(&dance).unwrap_err().to_string().starts_with("figures[1].parts[0].legs[0]"));
}

/// What is said of bars and counts that there are not, and a strain in another metre than its figure, is told.
#[test]
fn what_nothing_comes_of_is_told() {
    let said = |dance: &Dance| -> Vec<String> {
        let faults = Faults::of(dance, &motion_of(dance, None).unwrap());
        faults.iter().filter(|fault| fault.kind == FaultKind::Music).map(|fault| fault.said.clone()).collect()
    };
    let mut dance = dibbing();
    assert!(said(&dance).is_empty(), "{:?}", said(&dance));
    dance.figures[0].metres.insert(16, Metre::NineEight);
    dance.figures[0].speeds.push(SpeedChange::at(60.0, 80.0));
    let told = said(&dance);
    assert!(
        told.iter().any(|text| text.contains("bar 16 of Dib is said to be in 9/8, and it has 12 bars")),
        "{told:?}"
    );
    assert!(
        told.iter().any(|text| text.contains("is said to go at 80 from bar 14:3 on, and it has 12 bars")),
        "{told:?}"
    );

    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    dance.figures.push(Figure::drawn("one", "One", 8));
    for (name, metre) in [("A", None), ("B", Some(Metre::NineEight))] {
        let (name, speeds) = (name.to_owned(), Vec::new());
        dance.music.strains.push(Strain { name, bars: 8, metre, speeds, extra: Extra::new() });
    }
    dance.order = ["A", "B"].map(|strain| Entry { strain: strain.to_owned(), ..Entry::of("one") }).into();
    let told = said(&dance);
    assert!(
        told.iter().any(|text| text.contains("One is danced in 4/4") && text.contains("strain B is in 9/8")),
        "{told:?}"
    );
}
