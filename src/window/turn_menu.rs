//! What can be done with a turn, or where there is none to have one.

use super::context_menu::{capital, choice, choice_unless, item};
use super::fields::{NumberField, NumberKind};
use crate::dance::{Dancer, TurnOn};
use crate::desk::{Ask, Desk, DrawAsk, PlayAsk};
use crate::edits::{RingTurn, TurnEdit, can_turn_on, other_way_amount};
use crate::motion::{Span, SpanIndex};
use crate::words::{turn_words, turned_words};
use egui::Ui;

/// How far a turn goes: in words, and degrees.
const AMOUNTS: [(&str, f64); 4] =
    [("a quarter", 90.0), ("half about", 180.0), ("three quarters", 270.0), ("a whole turn", 360.0)];

/// The span at a count, and its place among them.
fn span_at(desk: &Desk, count: f64) -> Option<(SpanIndex, &Span)> {
    let index = desk.motion().span_at(count)?;
    Some((index, desk.motion().span(index)?))
}

/// Who does the same with those who are drawn: `; 2 and 5 follow`.
fn follow(mates: &[Dancer]) -> String {
    let mates: Vec<String> = mates.iter().map(ToString::to_string).collect();
    match mates.as_slice() {
        [] => String::new(),
        [one] => format!("; {one} follows"),
        [first @ .., last] => format!("; {} and {last} follow", first.join(", ")),
    }
}

/// What can be done with a turn of a dancer in the figure at the playhead, by its place among theirs; or with a count of the
/// dance at which they have none.
pub fn show(
    ui: &mut Ui,
    desk: &Desk,
    (dancer, turn): (Dancer, Option<usize>),
    count: f64,
    asks: &mut Vec<Ask>,
) {
    // Of the figure that was clicked: while it plays the playhead goes on to others.
    let Some((index, span)) = span_at(desk, count) else { return };
    let known = turn.filter(|index| span.track(dancer).is_some_and(|track| *index < track.turns().len()));
    if let Some(turn) = known {
        show_turn(ui, (index, span), (dancer, turn), desk, asks);
        return;
    }
    let who = who(desk, dancer);
    ui.strong(format!("A new turn of {who}"));
    ui.weak(format!("finished at bar {}, where you clicked{}", span.moment(count), follow(&desk.mates())));
    show_amounts(ui, &who, |degrees| {
        asks.extend([Ask::Play(PlayAsk::Seek(count)), Ask::Draw(DrawAsk::TurnBy { dancer, degrees })]);
    });
}

/// Whether others are picked with a dancer, who do the same.
fn has_others(desk: &Desk, dancer: Dancer) -> bool {
    desk.picked().len() > 1 && desk.picked().contains(&dancer)
}

/// A dancer with all who are picked with them: `3`, or `those picked`.
pub fn who(desk: &Desk, dancer: Dancer) -> String {
    if has_others(desk, dancer) { "those picked".to_owned() } else { dancer.to_string() }
}

/// What the ring about a dancer can do at the playhead: with the turn that is danced then, or where there is none. Of several
/// who are picked each is turned from what they do.
pub fn show_here(ui: &mut Ui, desk: &Desk, dancer: Dancer, asks: &mut Vec<Ask>) {
    let here = desk.span_here().and_then(|span| {
        let ring = RingTurn::at(span, dancer, desk.player().count - span.begin())?;
        Some((desk.span()?, span, ring)).filter(|_| !has_others(desk, dancer))
    });
    if let Some((index, span, ring)) = here {
        show_turn(ui, (index, span), (dancer, ring.turn), desk, asks);
    } else {
        show_amounts(ui, &who(desk, dancer), |degrees| {
            asks.push(Ask::Draw(DrawAsk::TurnBy { dancer, degrees }));
        });
    }
}

/// Left and right, by quarters.
fn show_amounts(ui: &mut Ui, who: &str, mut chosen: impl FnMut(f64)) {
    for (way, sign) in [("left", -1.0), ("right", 1.0)] {
        for (words, degrees) in AMOUNTS {
            let hint = format!("{who} turns {way} {degrees}°, ending at this count, as by the ring");
            if item(ui, true, &format!("{way}, {words}"), &hint) {
                chosen(sign * degrees);
            }
        }
        if sign < 0.0 {
            ui.separator();
        }
    }
}

/// The steps that a dancer has in a figure, each once: its letters, and what a turn on it is called. Those that `single steps` names
/// are not among them, nor is standing.
fn steps_here(desk: &Desk, span: &Span, dancer: Dancer) -> Vec<(String, String)> {
    let known = desk.motion().known();
    let mut steps: Vec<(String, String)> = Vec::new();
    for fall in span.falls(dancer) {
        let Some(step) = known.get(fall.step).filter(|step| !step.is_single_step() && !step.is_stand())
        else {
            continue;
        };
        if steps.iter().all(|(short, _)| *short != step.short) {
            steps.push((step.short.clone(), format!("On the {}", step.name)));
        }
    }
    steps
}

fn show_turn(
    ui: &mut Ui,
    (index, span): (SpanIndex, &Span),
    (dancer, turn): (Dancer, usize),
    desk: &Desk,
    asks: &mut Vec<Ask>,
) {
    let Some(track) = span.track(dancer) else { return };
    let (Some(danced), Some(amount)) = (track.turns().get(turn), track.amounts().get(turn).copied()) else {
        return;
    };
    let said = turn_words(span, dancer, turn).unwrap_or_default();
    // A turn is changed of its dancer alone, whoever else is picked.
    ui.weak(format!("{dancer} {said}{}", follow(&desk.mates_in(span, &[dancer]))));
    if item(ui, true, "Go there", "") {
        asks.push(Ask::Play(PlayAsk::Seek(span.begin() + danced.begin)));
    }
    ui.separator();
    let change = |edit: TurnEdit, asks: &mut Vec<Ask>| {
        asks.push(Ask::Draw(DrawAsk::ChangeTurn { span: index, dancer, turn, edit }));
    };
    // What comes of it is said beforehand: another way with the same finish is another amount.
    let other = other_way_amount(span, dancer, turn).unwrap_or(-amount);
    let name = format!("The other way: {}", turned_words(other));
    let hint = "They still finish facing the same way, so that what comes after is as it was. To finish otherwise, choose \
                how far as well";
    if item(ui, true, &name, hint) {
        change(TurnEdit::OtherWay, asks);
    }
    for (words, degrees) in AMOUNTS {
        let is_now = (amount.abs() - degrees).abs() < 0.5;
        if choice(ui, is_now, &capital(words), "So far, the way that it goes") {
            // A choice is a step of its own, unlike degrees that are typed letter by letter.
            asks.push(Ask::Draw(DrawAsk::PartSteps));
            change(TurnEdit::By(degrees), asks);
            asks.push(Ask::Draw(DrawAsk::PartSteps));
        }
    }
    ui.horizontal(|ui| {
        let label = ui.label("By degrees");
        let kind = NumberKind { least: 1.0, most: 36_000.0, places: 1, unit: "°" };
        let degrees = kind.rounded(amount.abs());
        let answer = NumberField::new(degrees, kind, 1.0)
            .hint("How far, the way that it goes")
            .among_items()
            .refused(desk.notice())
            .show(ui);
        answer.response.labelled_by(label.id);
        if let Some(degrees) = answer.changed {
            change(TurnEdit::By(degrees), asks);
        }
    });
    ui.separator();
    let steps = steps_here(desk, span, dancer);
    let named = steps.iter().map(|(short, name)| {
        (
            name.as_str(),
            Some(TurnOn::Step(short.clone())),
            "All the counts of that step: the one here, or else the next",
        )
    });
    let on = [
        ("On the single steps", Some(TurnOn::SingleSteps), "Finished before the jump"),
        ("On the hop", Some(TurnOn::Hop), "The hop nearest to where it is, between the turns beside it"),
        ("On the first count", Some(TurnOn::Start), "The first count of a step"),
    ];
    let own = ("At its own counts", None, "Whatever the stepping is");
    for (name, on, hint) in on.into_iter().chain(named).chain([own]) {
        let is_now = danced.on == on;
        // What cannot be done is grey, and says why.
        let against = on.as_ref().filter(|_| !is_now).and_then(|on| {
            let can = can_turn_on(desk.motion(), span, (dancer, turn), on);
            can.err().map(|error| error.to_string())
        });
        if choice_unless(ui, is_now, against.as_deref(), (name, hint)) && !is_now {
            change(TurnEdit::On(on), asks);
        }
    }
    ui.separator();
    if item(ui, true, "Take it away", "They stay as they face before it") {
        change(TurnEdit::Remove, asks);
    }
}
