//! Taps and claps in words: a line a bar for each number, and that what is told is what is danced.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Dancer, Entry, Figure, Foot, Holding, Metre, Number, PlaceNumber, Set, Strike, StrikeEnd,
    StrikePart, Striker, Struck, write,
};
use bellpad::figures::motion_of;
use bellpad::motion::{Blow, BlowOn, Motion, SpanIndex};
use bellpad::words::{TapsTold, met_line, met_said, now, tap_now, taps_told, tell};
use common::{bellpad, text};
use std::collections::BTreeSet;

/// A dance of one figure of so many bars, and what is struck in it.
fn dance(bars: u32, holding: Holding, strikes: Vec<Strike>) -> Dance {
    let mut dance = Dance::new("Taps", Set::longways(6, 1.2, 1.2));
    dance.holding = holding;
    let mut figure = Figure::drawn("tap", "Tapping", bars);
    figure.strikes = strikes;
    dance.figures.push(figure);
    dance.order.push(Entry::of("tap"));
    dance
}

fn lines(dance: &Dance, number: u32) -> Vec<String> {
    let motion = motion_of(dance, None).unwrap();
    taps_told(&motion, SpanIndex(0), Number(number).dancer()).iter().map(TapsTold::line).collect()
}

fn tip_on_butt(at: f64, by: Striker) -> Strike {
    Strike { their: Some(StrikeEnd::Butt), ..Strike::new(at, by, StrikeEnd::Tip, Struck::Partner) }
}

/// A stick that dibs and taps on the counts of the jump is not said to be high on it; one that does nothing then is.
#[test]
fn a_stick_that_taps_on_the_jump_is_not_high_on_it() {
    let dib = Strike::new(12.0, Striker::Odds, StrikeEnd::Butt, Struck::Ground);
    for (strikes, high) in [(vec![dib, tip_on_butt(14.0, Striker::Odds)], false), (Vec::new(), true)] {
        let mut dance = dance(4, Holding::Sticks, strikes);
        dance.figures[0].phrase = "2 ds, 2 ss, ftj".to_owned();
        let motion = motion_of(&dance, None).unwrap();
        let told = tell(&dance, &motion, SpanIndex(0), Dancer(0));
        assert_eq!(told[0].text.contains("Stick high on the jump"), high, "{}", told[0].text);
    }
}

/// Single tapping as [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907) has it: bar 1 on the half-bar 1's tip on
/// 2's butt; bar 2 the other way about; bar 3 as 1; bar 4 at its beginning 1's butt on 2's tip, and on the half-bar tip on tip.
#[test]
fn single_tapping_is_a_line_a_bar() {
    let strikes = vec![
        Strike { again: vec![10.0], ..tip_on_butt(2.0, Striker::Odds) },
        tip_on_butt(6.0, Striker::Evens),
        Strike {
            their: Some(StrikeEnd::Tip),
            ..Strike::new(12.0, Striker::Odds, StrikeEnd::Butt, Struck::Partner)
        },
        Strike::new(14.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner),
    ];
    let dance = dance(4, Holding::Sticks, strikes);
    assert_eq!(
        lines(&dance, 1),
        [
            "Bars 1 and 3: Tap 2, tip on butt, on the second beat.",
            "Bar 2: 2 taps you, tip on your butt, on the second beat.",
            "Bar 4: Tap 2, butt on tip, on the first beat; tip on tip on the second beat.",
        ]
    );
    assert_eq!(
        lines(&dance, 6),
        [
            "Bars 1 and 3: 5 taps you, tip on your butt, on the second beat.",
            "Bar 2: Tap 5, tip on butt, on the second beat.",
            "Bar 4: 5 taps you, butt on your tip, on the first beat; tap 5, tip on tip, on the second beat.",
        ]
    );
    let motion = motion_of(&dance, None).unwrap();
    let span = &motion.spans()[0];
    assert_eq!(met_line(&motion, span, (0.0, 4.0)), "odds on evens, tip on butt, on the second beat");
    assert_eq!(
        met_line(&motion, span, (12.0, 16.0)),
        "odds on evens, butt on tip, on the first beat; partners, tip on tip, on the second beat"
    );
    // The card tells this bar, or the next in which there is something.
    let said = |count: f64| tap_now(&motion, Dancer(0), count).unwrap();
    assert_eq!(said(0.5), "tap 2, tip on butt, on the second beat");
    assert!(
        now(&motion, Dancer(0), 4.0, None)
            .iter()
            .any(|(name, said)| *name == "Taps" && said.starts_with("2 taps you"))
    );
}

/// Beats as people say them: in a bar of three the counts 1, 3 and 5 are the beats.
#[test]
fn beats_are_said_as_people_say_them() {
    let own = |counts: &[f64]| Strike {
        again: counts[1..].to_vec(),
        ..Strike::new(counts[0], Striker::All, StrikeEnd::Both, Struck::Own)
    };
    let said = |strike: Strike, metre: Metre| {
        let mut dance = dance(1, Holding::Nothing, vec![strike]);
        dance.music.metre = metre;
        lines(&dance, 1).remove(0)
    };
    for (counts, metre, expected) in [
        (&[0.0, 2.0][..], Metre::FourFour, "on both beats"),
        (&[0.0, 2.0, 4.0], Metre::NineEight, "on all three beats"),
        (&[0.0, 1.0, 2.0, 3.0], Metre::SixEight, "on every count"),
        (&[4.0], Metre::NineEight, "on the third beat"),
        (&[0.0, 1.0], Metre::FourFour, "on the first beat and after it"),
        (&[0.0, 1.0, 2.0], Metre::FourFour, "on the first beat, after it and on the second beat"),
        (&[3.0], Metre::FourFour, "after the second beat"),
        (&[1.5], Metre::FourFour, "at count 2.5"),
    ] {
        assert_eq!(said(own(counts), metre), format!("Bar 1: Clap own hands {expected}."));
    }
}

#[test]
fn hands_ground_and_what_stays_are_told() {
    let stay = Strike { stay: true, ..Strike::new(0.0, Striker::All, StrikeEnd::Tip, Struck::Partner) };
    let dib = Strike::new(12.0, Striker::All, StrikeEnd::Butt, Struck::Ground);
    let sticks = dance(4, Holding::Sticks, vec![stay, dib]);
    assert_eq!(
        lines(&sticks, 3),
        [
            "Bar 1: Tap 4, tip on tip, on the first beat; sticks stay crossed.",
            "Bars 2 and 3: Sticks stay crossed.",
            "Bar 4: Dib the ground with the butt on the first beat.",
        ]
    );
    let knee = Strike {
        part: Some(StrikePart::RightKnee),
        ..Strike::new(0.0, Striker::All, StrikeEnd::Right, Struck::Own)
    };
    let behind = Strike {
        part: Some(StrikePart::Behind),
        ..Strike::new(2.0, Striker::All, StrikeEnd::Both, Struck::Own)
    };
    let right = Strike::new(4.0, Striker::All, StrikeEnd::Right, Struck::Partner);
    let both = Strike::new(6.0, Striker::Odds, StrikeEnd::Both, Struck::Partner);
    let left_on_right = Strike {
        their: Some(StrikeEnd::Right),
        ..Strike::new(8.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Left, Struck::Down)
    };
    // There is nobody above the top couple.
    let nobody = Strike::new(10.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Left, Struck::Up);
    let hands = dance(3, Holding::Nothing, vec![knee, behind, right, both, left_on_right, nobody]);
    assert_eq!(
        lines(&hands, 1),
        [
            "Bar 1: Right hand on right knee on the first beat; clap own hands behind on the second beat.",
            "Bar 2: Clap 2, right on right, on the first beat; both hands on the second beat.",
            "Bar 3: Clap 3, left on right, on the first beat.",
        ]
    );
    assert_eq!(lines(&hands, 3)[2], "Bar 3: 1 claps you, left on your right, on the first beat.");
    assert_eq!(lines(&dance(4, Holding::Sticks, Vec::new()), 1), [] as [String; 0]);
}

/// In the crib each number has its lines, those of whom the same is tapped told together, and where sticks are held the caution stands
/// once; a dance in which nothing meets has none.
#[test]
fn the_crib_has_them_and_the_caution_once() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("taps.dance.json");
    let crib = |dance: &Dance, more: &[&str]| {
        std::fs::write(&file, write(dance).unwrap()).unwrap();
        let ran = bellpad(["crib", text(&file)].into_iter().chain(more.iter().copied()));
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""));
        // Lines are as long as a page is wide.
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let caution = "Sticks: sound wood, no splits, agreed targets; stop if one breaks.";
    let tapping = dance(4, Holding::Sticks, vec![tip_on_butt(2.0, Striker::Odds)]);
    let sticks = crib(&tapping, &[]);
    assert_eq!(sticks.matches(caution).count(), 1, "{sticks}");
    for number in 1..=6 {
        let line = if number % 2 == 1 {
            format!("Bar 1: Tap {}, tip on butt, on the second beat.", number + 1)
        } else {
            format!("Bar 1: {} taps you, tip on your butt, on the second beat.", number - 1)
        };
        assert_eq!(sticks.matches(&line).count(), 1, "{number}: {sticks}");
        let own = crib(&tapping, &["--dancer", &number.to_string()]);
        assert_eq!((own.matches(&line).count(), own.matches(caution).count()), (1, 1), "{number}: {own}");
    }
    let hands = crib(
        &dance(4, Holding::Nothing, vec![Strike::new(2.0, Striker::All, StrikeEnd::Both, Struck::Own)]),
        &[],
    );
    assert!(hands.contains("Clap own hands") && !hands.contains("sound wood"));
    let none = crib(&dance(4, Holding::Sticks, Vec::new()), &[]);
    assert!(!none.contains("sound wood") && !none.contains("Tap "));
}

/// The times of a clause, counts of its bar from 0.
fn times(clause: &str, counts: u32) -> Vec<f64> {
    let all = |step: usize| (0..counts).step_by(step).map(f64::from).collect::<Vec<_>>();
    if clause.ends_with("on both beats") || clause.ends_with("on all three beats") {
        return all(2);
    }
    if clause.ends_with("on every count") {
        return all(1);
    }
    let beat = |word: &str| ["first", "second", "third"].iter().position(|known| *known == word);
    let mut found = Vec::new();
    let words: Vec<&str> = clause.split([' ', ',']).filter(|word| !word.is_empty()).collect();
    for (index, word) in words.iter().enumerate() {
        let next = |by: usize| words.get(index + by).copied().unwrap_or_default();
        match (*word, next(1), next(2), next(3)) {
            ("on", "the", which, "beat") => found.push(beat(which).unwrap() as f64 * 2.0),
            ("after", "the", which, "beat") => found.push(beat(which).unwrap() as f64 * 2.0 + 1.0),
            ("after", "it", ..) => found.push(found.last().unwrap() + 1.0),
            ("at", "count", which, _) => found.push(which.parse::<f64>().unwrap() - 1.0),
            _ => {}
        }
    }
    found
}

/// The bars before a line, from 0.
fn bars(heading: &str) -> Vec<u32> {
    let words: Vec<u32> = heading
        .split([' ', ','])
        .filter_map(|word| if word == "to" { Some(0) } else { word.parse().ok() })
        .collect();
    let mut found: Vec<u32> = Vec::new();
    let mut range = false;
    for word in words {
        if word == 0 {
            range = true;
        } else if range {
            let last = *found.last().unwrap();
            found.extend(last + 1..word);
            range = false;
        } else {
            found.push(word - 1);
        }
    }
    found
}

/// What one dancer has to do with a blow, in words that are not the program's: with whom, `ground` or `own`; and whether they strike.
fn role(blow: &Blow, dancer: Dancer) -> Option<(String, bool)> {
    match blow.on {
        BlowOn::Other(other) if blow.by.dancer == dancer => Some((other.dancer.to_string(), true)),
        BlowOn::Other(other) if other.dancer == dancer => Some((blow.by.dancer.to_string(), false)),
        BlowOn::Ground if blow.by.dancer == dancer => Some(("ground".to_owned(), true)),
        BlowOn::Own(_) if blow.by.dancer == dancer => Some(("own".to_owned(), true)),
        _ => None,
    }
}

/// Moment by moment, what a dancer does: thousandths of a count, with whom or what, and whether somebody taps them.
type Done = BTreeSet<(i64, String, bool)>;

/// What is told of a dancer, read back from the words alone.
fn read_back(motion: &Motion, dancer: Dancer) -> Done {
    let span = &motion.spans()[0];
    let mut done = Done::new();
    for told in taps_told(motion, SpanIndex(0), dancer) {
        let line = told.line();
        let (heading, said) = line.split_once(": ").unwrap();
        assert!(
            said.ends_with('.') && said.chars().next().unwrap().is_uppercase()
                || said.starts_with(char::is_numeric),
            "{line}"
        );
        let mut with = (String::new(), true);
        for clause in said.trim_end_matches('.').split("; ") {
            let clause = clause.to_lowercase();
            if clause.contains(" stay") {
                continue;
            }
            let words: Vec<&str> = clause.split([' ', ',']).filter(|word| !word.is_empty()).collect();
            if clause.contains("ground") {
                with = ("ground".to_owned(), true);
            } else if clause.contains("own hand") || clause.contains("knee") {
                with = ("own".to_owned(), true);
            } else if words[1] == "taps" || words[1] == "claps" {
                with = (words[0].to_owned(), false);
            } else if words[0] == "tap" || words[0] == "clap" {
                with = (words[1].to_owned(), true);
            }
            for bar in bars(heading) {
                let begin = span.bar_counts().begin_of(bar);
                for at in times(&clause, span.bar_counts().in_bar(bar)) {
                    done.insert((((begin + at) * 1e3).round() as i64, with.0.clone(), with.1));
                }
            }
        }
    }
    done
}

/// What a dancer does by the blows as they are danced; where both do the same, nobody is the one who strikes.
fn danced(motion: &Motion, dancer: Dancer) -> Done {
    let mut done = Done::new();
    for blow in motion.blows() {
        let Some((with, strikes)) = role(blow, dancer) else { continue };
        let alike = matches!(blow.on, BlowOn::Other(other) if other.end == blow.by.end);
        let both = matches!(blow.on, BlowOn::Other(other)
            if [blow.by.end, other.end].iter().all(|end| [StrikeEnd::Left, StrikeEnd::Right].contains(end)))
            && motion
                .blows()
                .iter()
                .filter(|other| {
                    other.count == blow.count && role(other, dancer).is_some_and(|role| role.0 == with)
                })
                .count()
                > 1;
        done.insert(((blow.count * 1e3).round() as i64, with, strikes || alike || both));
    }
    done
}

/// Every line is true of what is danced, and nothing that is danced is left out: over some hundred made-up patterns.
#[test]
fn what_is_told_is_what_is_danced() {
    let mut seed = 0x2545_f491_u64;
    let mut chance = |many: usize| {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        (seed % many as u64) as usize
    };
    let by = [
        Striker::Odds,
        Striker::Evens,
        Striker::All,
        Striker::Place(PlaceNumber(1)),
        Striker::Place(PlaceNumber(4)),
    ];
    let on = [
        Struck::Partner,
        Struck::Opposite,
        Struck::Up,
        Struck::Down,
        Struck::Ground,
        Struck::Own,
        Struck::Place(PlaceNumber(5)),
    ];
    let mut seen = 0;
    for case in 0..150 {
        let holding = [Holding::Sticks, Holding::Nothing][chance(2)];
        let metres = [Metre::FourFour, Metre::SixEight, Metre::NineEight];
        let metre = metres[chance(3)];
        let counts = f64::from(metre.counts()) * 4.0;
        let strikes: Vec<Strike> = (0..4)
            .map(|index| {
                // Apart from one another, so that each is read by itself.
                let at = (f64::from(index) + chance(counts as usize / 4) as f64 * 4.0).min(counts - 1.0);
                let end = StrikeEnd::ALL[chance(6)];
                let mut strike = Strike::new(at, by[chance(5)], end, on[chance(7)]);
                if chance(2) == 0 {
                    strike.their = Some(StrikeEnd::ALL[chance(6)])
                        .filter(|their| (*their == StrikeEnd::Both) == (end == StrikeEnd::Both));
                }
                strike.part = (chance(3) == 0).then(|| StrikePart::ALL[chance(7)]);
                strike.stay = chance(3) == 0;
                strike.hand = (chance(4) == 0).then_some(Foot::Left);
                strike
            })
            .collect();
        let mut dance = dance(4, holding, strikes);
        dance.music.metre = metre;
        let motion = motion_of(&dance, None).unwrap();
        for dancer in Dancer::all(6) {
            let (told, danced) = (read_back(&motion, dancer), danced(&motion, dancer));
            seen += danced.len();
            let told_said = taps_told(&motion, SpanIndex(0), dancer);
            assert_eq!(told, danced, "case {case}, {dancer}: {told_said:#?}");
        }
        // What is said of the whole set has each moment, and no other.
        let span = &motion.spans()[0];
        let moment = |count: f64| (count * 1e3).round() as i64;
        let said: BTreeSet<i64> =
            met_said(&motion, span, (0.0, counts)).iter().map(|met| moment(met.at)).collect();
        let blows = motion.blows().iter().filter(|blow| !matches!(blow.on, BlowOn::Nobody(_)));
        assert_eq!(said, blows.map(|blow| moment(blow.count)).collect(), "case {case}");
    }
    assert!(seen > 1_000, "{seen}");
}
