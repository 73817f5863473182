//! What a mark on the floor or on the bars is, in a line or two: for whoever points at it.

use super::now::{facing_words, standing};
use crate::dance::{Dancer, Foot, TuneNote, TurnOn, shown_name};
use crate::motion::{Footfall, Moment, Motion, Span, Weight};

/// The step under way at a count of a figure.
#[derive(Clone, Debug, PartialEq)]
pub struct StepSaid {
    /// The count of the figure at which it begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// Its name, its counts and its feet.
    pub words: String,
}

/// The step that a dancer is on at a count of a figure: `double step, bar 1:1 to 2:1, 4 counts: right, left, right, hop on
/// the right`.
#[must_use]
pub fn step_said(motion: &Motion, span: &Span, dancer: Dancer, local: f64) -> Option<StepSaid> {
    let falls = span.falls(dancer);
    let at = (local.max(0.0) as usize).min(falls.len().checked_sub(1)?);
    let begin = (0..=at).rev().find(|at| falls.get(*at).is_some_and(|fall| fall.begins))?;
    let many = falls.iter().skip(begin + 1).take_while(|fall| !fall.begins).count() + 1;
    let name = motion.known().get(falls.get(begin)?.step).map_or("", |step| step.name.as_str());
    let feet: Vec<String> = falls.iter().skip(begin).take(many).map(foot_words).collect();
    let (begin, end) = (begin as f64, (begin + many) as f64);
    let counts = if many == 1 { "1 count".to_owned() } else { format!("{many} counts") };
    let (from, to) = (Moment::at(span.bar_counts(), begin), Moment::at(span.bar_counts(), end - 1.0));
    let words = format!("{name}, {counts}, bar {from} to {to}\n{}", feet.join(", "));
    Some(StepSaid { begin, end, words })
}

/// What lands on a count of a figure: `hop on the right foot, count 4 of the double step, bar 1:4`.
#[must_use]
pub fn fall_words(motion: &Motion, span: &Span, dancer: Dancer, local: f64) -> Option<String> {
    let falls = span.falls(dancer);
    let at = local.max(0.0) as usize;
    let fall = falls.get(at)?;
    let begin = (0..=at).rev().find(|at| falls.get(*at).is_some_and(|fall| fall.begins))?;
    let name = motion.known().get(fall.step).map_or("", |step| step.name.as_str());
    let what = match (fall.weight, fall.hop) {
        _ if fall.stays => "the weight stays where it is".to_owned(),
        (Weight::Air, _) => "in the air".to_owned(),
        (Weight::Both, true) => "hop on both feet".to_owned(),
        (Weight::Both, false) => "down on both feet".to_owned(),
        (Weight::Left, hop) => format!("{} on the left foot", if hop { "hop" } else { "step" }),
        (Weight::Right, hop) => format!("{} on the right foot", if hop { "hop" } else { "step" }),
    };
    let upbeat = if fall.upbeat && fall.hop { ", the hop on the upbeat" } else { "" };
    Some(format!(
        "{what}{upbeat}\ncount {} of the {name}, bar {}",
        at - begin + 1,
        Moment::at(span.bar_counts(), at as f64)
    ))
}

fn foot_words(fall: &Footfall) -> String {
    match (fall.weight, fall.hop) {
        _ if fall.stays => "stay".to_owned(),
        (Weight::Air, _) => "in the air".to_owned(),
        (Weight::Both, true) => "hop on both".to_owned(),
        (Weight::Both, false) => "both".to_owned(),
        (Weight::Left, hop) => if hop { "hop on the left" } else { "left" }.to_owned(),
        (Weight::Right, hop) => if hop { "hop on the right" } else { "right" }.to_owned(),
    }
}

/// How many bars, and by which numbers they go: every figure counts its own, here as on the clock.
#[must_use]
pub fn bars_said(bars: u32) -> String {
    if bars == 1 { how_many_bars(bars) } else { format!("{}, 1 to {bars}", how_many_bars(bars)) }
}

/// How many bars: `1 bar`, `8 bars`.
#[must_use]
pub fn how_many_bars(bars: u32) -> String {
    if bars == 1 { "1 bar".to_owned() } else { format!("{bars} bars") }
}

/// The way that somebody turns and how far, degrees, clockwise positive: `left 270°`; beyond a whole turn `right once round
/// and 11°`, since nobody turns 371 degrees.
#[must_use]
pub fn turned_words(amount: f64) -> String {
    let (way, far) = (if amount < 0.0 { "left" } else { "right" }, amount.abs().round());
    if far <= 360.0 {
        return format!("{way} {far:.0}°");
    }
    let round = match (far / 360.0) as u32 {
        1 => "once round".to_owned(),
        2 => "twice round".to_owned(),
        many => format!("{many} times round"),
    };
    match far % 360.0 {
        rest if rest < 0.5 => format!("{way} {round}"),
        rest => format!("{way} {round} and {rest:.0}°"),
    }
}

/// A turn of a dancer in a figure, by its place among theirs: `turns left 270°, bar 3:1 to 3:4, then facing down`, and on
/// which steps.
#[must_use]
pub fn turn_words(span: &Span, dancer: Dancer, index: usize) -> Option<String> {
    let track = span.track(dancer)?;
    let (turn, amount) = (track.turns().get(index)?, track.amounts().get(index)?);
    let turned = turned_words(*amount);
    let (from, to) = (Moment::at(span.bar_counts(), turn.begin), Moment::at(span.bar_counts(), turn.end));
    let faces = facing_words(track.stand(turn.begin).2 + amount);
    let on = match &turn.on {
        Some(TurnOn::Start) => "\non the first count of the step".to_owned(),
        Some(TurnOn::Hop) => "\non the hop".to_owned(),
        Some(TurnOn::SingleSteps) => "\non the single steps".to_owned(),
        Some(TurnOn::Step(short)) => format!("\non the step {}", shown_name(short)),
        None => String::new(),
    };
    Some(format!("turns {turned}, bar {from} to {to}, then facing {faces}{on}"))
}

/// How high a dancer's hands are at a count of a figure.
#[must_use]
pub fn hands_words(span: &Span, dancer: Dancer, local: f64) -> Option<String> {
    let [left, right] = span.track(dancer)?.footing().each_hand(local);
    let (one, other) = (height_words(left), height_words(right));
    let how = if one == other {
        format!("both hands {one}")
    } else {
        format!("left hand {one}, right hand {other}")
    };
    Some(format!("{how}\nbar {}", Moment::at(span.bar_counts(), local)))
}

/// Heights as somebody would show them, from down beside the body (0) to high over the head (1); chosen for this program.
fn height_words(height: f64) -> &'static str {
    match height {
        down if down < 0.05 => "down",
        low if low < 0.2 => "low, a little out",
        waist if waist < 0.4 => "at the waist",
        chest if chest < 0.6 => "chest high",
        shoulder if shoulder < 0.8 => "at the shoulder",
        _ => "high",
    }
}

/// A note of the tune: `F sharp, a quaver`. `whole_notes` is what a bar holds.
#[must_use]
pub fn note_words(note: &TuneNote, whole_notes: f64) -> String {
    // Semitones above C of C, D, E and so on.
    const NATURAL: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];
    const LETTERS: [&str; 7] = ["C", "D", "E", "F", "G", "A", "B"];
    let which = note.step.rem_euclid(7) as usize;
    let natural = 60 + 12 * note.step.div_euclid(7) + NATURAL.get(which).copied().unwrap_or(0);
    let letter = LETTERS.get(which).copied().unwrap_or("C");
    let sign = match i32::from(note.key) - natural {
        -2 => " double flat",
        -1 => " flat",
        1 => " sharp",
        2 => " double sharp",
        _ => "",
    };
    format!("{letter}{sign}, {}", length_words(note.length * whole_notes))
}

/// The length of a note, whole notes, as British musicians call it.
fn length_words(whole: f64) -> String {
    const NAMES: [(f64, &str); 6] = [
        (1.0, "a semibreve"),
        (0.5, "a minim"),
        (0.25, "a crotchet"),
        (0.125, "a quaver"),
        (0.0625, "a semiquaver"),
        (0.03125, "a demisemiquaver"),
    ];
    for (length, name) in NAMES {
        if (whole - length).abs() < 1e-6 {
            return name.to_owned();
        }
        if (whole - 1.5 * length).abs() < 1e-6 {
            return name.replace("a ", "a dotted ");
        }
    }
    let quavers = (whole * 800.0).round() / 100.0;
    format!("as long as {quavers} quavers")
}

/// Who dances a number, where that is in the set, and whose place they are in: a name may be empty.
#[must_use]
pub fn dancer_words(motion: &Motion, dancer: Dancer, name: &str, count: f64) -> String {
    let mut lines = vec![if name.is_empty() { dancer.to_string() } else { format!("{dancer} · {name}") }];
    let stands = standing(motion.ground(), dancer);
    if !stands.is_empty() {
        lines.push(stands);
    }
    let span = motion.span_under(count);
    if let Some(place) = span.map(|span| span.place(dancer)).filter(|place| *place != dancer.home()) {
        lines.push(format!("dances from {place}'s place here"));
    }
    lines.join("\n")
}

/// The foot of the hop on the upbeat before a figure.
#[must_use]
pub fn upbeat_words(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "hop on the left foot, on the upbeat before the figure",
        Foot::Right => "hop on the right foot, on the upbeat before the figure",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Figure, Part, Set, Tune, Turn, Way};
    use crate::figures::motion_of;

    #[test]
    fn steps_feet_hands_and_turns_say_what_they_are() {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let mut figure = Figure::drawn("turn", "Turn", 8);
        let mut part = Part::still(1);
        part.turns.push(
            Turn { by: Some(270.0), ..Turn::to_face(8.0, 11.0, Way::Left, 180.0) }.on(TurnOn::SingleSteps),
        );
        figure.parts.push(part);
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        let (span, one) = (&motion.spans()[0], Dancer(0));
        // The everyday phrase, beginning on the right foot where nothing is said: 2 ds, 2 ss, ftj (common practice).
        let step = step_said(&motion, span, one, 2.5).unwrap();
        assert_eq!((step.begin, step.end), (0.0, 4.0));
        assert_eq!(step.words, "double step, 4 counts, bar 1:1 to 1:4\nright, left, right, hop on the right");
        let single = step_said(&motion, span, one, 10.0).unwrap();
        assert_eq!(single.words, "single step, 2 counts, bar 3:3 to 3:4\nleft, hop on the left");
        assert!(step_said(&motion, span, one, 12.0).unwrap().words.contains("both, in the air, both"));
        assert_eq!(
            fall_words(&motion, span, one, 3.9).unwrap(),
            "hop on the right foot\ncount 4 of the double step, bar 1:4"
        );
        assert!(fall_words(&motion, span, one, 13.0).unwrap().starts_with("in the air"));
        assert!(fall_words(&motion, span, one, 15.0).unwrap().contains("the hop on the upbeat"));
        assert_eq!(fall_words(&motion, span, one, 32.0), None);
        assert_eq!(
            turn_words(span, one, 0).unwrap(),
            "turns left 270°, bar 3:1 to 3:4, then facing down\non the single steps"
        );
        assert_eq!(turn_words(span, one, 1), None);
        assert!(hands_words(span, one, 13.0).unwrap().starts_with("both hands high\nbar"));
    }

    #[test]
    fn notes_have_their_names_and_lengths() {
        let tune = Tune::read("X:1\nM:6/8\nL:1/8\nK:D\nF2G A3|=f3 _B,2z|]\n").unwrap();
        let said: Vec<String> =
            tune.strains[0].notes.iter().map(|note| note_words(note, 6.0 / 8.0)).collect();
        assert_eq!(
            said,
            [
                "F sharp, a crotchet",
                "G, a quaver",
                "A, a dotted crotchet",
                "F, a dotted crotchet",
                "B flat, a crotchet"
            ]
        );
    }

    #[test]
    fn a_number_says_who_it_is() {
        let dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let motion = motion_of(&dance, None).unwrap();
        assert_eq!(dancer_words(&motion, Dancer(2), "Wren", 0.0), "3 · Wren\nmiddle, left file · partner 4");
        assert_eq!(dancer_words(&motion, Dancer(2), "", 0.0).lines().next(), Some("3"));
    }
}
