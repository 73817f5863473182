//! What can be done with a tap or a clap, or where there is none to put one in.

use super::context_menu::{capital, choice, item, keyed_item};
use super::fields::{NumberField, NumberKind};
use crate::dance::limits::HIGHEST_STRIKE;
use crate::dance::{Figure, Foot, Holding, PlaceNumber, Strike, StrikeEnd, StrikePart, Striker, Struck};
use crate::desk::{Ask, Desk, PlayAsk, StrikeAsk};
use crate::edits::{Follow, Later, StrikeAt, StrikeEdit};
use crate::motion::{Span, SpanIndex};
use crate::words::{strike_end_words, strike_part_words, strike_said, struck_words};
use egui::{ScrollArea, Ui};

/// A menu that is longer than this goes on by scrolling, points.
const LONGEST: f32 = 320.0;
/// Where two meet whose strike does not say how high, metres: before the chest (common practice, no source).
const CHEST: f64 = 1.2;

/// The place in which the chosen dancer dances a figure.
fn chosen_place(desk: &Desk, span: &Span) -> Option<PlaceNumber> {
    desk.chosen().map(|dancer| span.place(dancer))
}

/// Asks for a tap at a count of the dance, of the chosen dancer or of all odds.
pub fn ask_to_add(desk: &Desk, (_, span): (SpanIndex, &Span), count: f64, asks: &mut Vec<Ask>) {
    let (figure, at, place) = (span.figure, count - span.begin(), chosen_place(desk, span));
    asks.push(Ask::Strike(StrikeAsk::Add { figure, at, place }));
}

/// What would be put in at a count of the dance: `1 tip on partner; 5 tip on partner`.
pub fn would_be(desk: &Desk, span: &Span, count: f64) -> String {
    let strikes = desk.would_strike(span.figure, count - span.begin(), chosen_place(desk, span));
    strikes.iter().map(strike_said).collect::<Vec<_>>().join("; ")
}

/// What a new one is called in a dance.
fn noun(desk: &Desk) -> &'static str {
    if desk.dance().holding == Holding::Sticks { "tap" } else { "clap" }
}

/// What can be done where nothing is struck, at a count of the dance.
pub fn show_bare(ui: &mut Ui, desk: &Desk, of: (SpanIndex, &Span), count: f64, asks: &mut Vec<Ask>) {
    let span = of.1;
    let name = format!("A {} at {}", noun(desk), span.moment_said(count));
    let hint = format!(
        "{}: of the chosen dancer and who follows them; where nobody is chosen, of all odds",
        capital(&would_be(desk, span, count))
    );
    if item(ui, true, &name, &hint) {
        asks.push(Ask::Play(PlayAsk::Seek(count)));
        ask_to_add(desk, of, count, asks);
    }
    let Some(figure) = desk.dance().figures.get(span.figure) else { return };
    show_copy(ui, span, (figure, count), asks);
    show_write(ui, span.figure, asks);
}

/// To write all of a figure.
pub fn show_write(ui: &mut Ui, figure: usize, asks: &mut Vec<Ask>) {
    if item(ui, true, "Write them all…", "The taps and claps of the figure as words, a line for each bar") {
        asks.push(Ask::Strike(StrikeAsk::AskToWrite(figure)));
    }
}

/// To have another bar as the one at a count of the dance.
fn show_copy(ui: &mut Ui, span: &Span, (figure, count): (&Figure, f64), asks: &mut Vec<Ask>) {
    let bars = span.bar_counts();
    let bar_of = |local: f64| bars.at(local + 1e-6).0 + 1;
    let from = bar_of(count - span.begin());
    let is_struck = figure.strikes.iter().flat_map(Strike::counts).any(|local| bar_of(local) == from);
    ui.add_enabled_ui(is_struck, |ui| {
        ui.menu_button(format!("Copy bar {from} to"), |ui| {
            ScrollArea::vertical().max_height(LONGEST).show(ui, |ui| {
                for to in (1..=bars.bars()).filter(|to| *to != from) {
                    if item(ui, true, &format!("bar {to}"), "What is struck in it now goes") {
                        asks.push(Ask::Strike(StrikeAsk::CopyBar { figure: span.figure, from, to }));
                    }
                }
            });
        });
    });
}

/// What can be done with one of a line of the running order.
pub fn show(ui: &mut Ui, desk: &Desk, (index, at): (SpanIndex, StrikeAt), asks: &mut Vec<Ask>) {
    let Some(span) = desk.motion().span(index) else { return };
    let Some(figure) = desk.dance().figures.get(span.figure) else { return };
    let Some(strike) = figure.strikes.get(at.strike) else { return };
    let Some(local) = strike.counts().nth(at.which) else { return };
    let count = span.begin() + local;
    ui.weak(format!("{}, {}", span.moment_said(count), strike_said(strike)));
    if item(ui, true, "Go there", "") {
        asks.push(Ask::Play(PlayAsk::Seek(count)));
    }
    ui.separator();
    let mut edits = Vec::new();
    show_whom(ui, desk, strike, &mut edits);
    show_ends(ui, desk, strike, &mut edits);
    show_height(ui, desk, strike, &mut edits);
    let mut stay = strike.stay;
    let hint = "They stay crossed, or hand in hand, until the next of either, or to the end of the figure";
    let until = together_until(desk, index, at.strike, count);
    let name = if until > count {
        format!("Stay together, until {}", span.moment_said(until))
    } else {
        "Stay together".to_owned()
    };
    if ui.checkbox(&mut stay, name).on_hover_text(hint).changed() {
        edits.push(StrikeEdit::Stay(stay));
        ui.close();
    }
    ui.separator();
    show_follow(ui, span, (figure, at), chosen_place(desk, span), &mut edits);
    show_bars(ui, span, (strike, local), &mut edits);
    show_copy(ui, span, (figure, count), asks);
    show_write(ui, span.figure, asks);
    ui.separator();
    if keyed_item(ui, true, ("Take it away", "Delete", "")) {
        edits.push(StrikeEdit::Remove);
    }
    // Always there, so that what is above it stays where it is.
    if item(ui, !strike.again.is_empty(), "Take it away every time", "In every bar in which it is struck") {
        edits.push(StrikeEdit::RemoveAll);
    }
    let figure = span.figure;
    asks.extend(edits.into_iter().map(|edit| Ask::Strike(StrikeAsk::Change { figure, at, edit })));
}

/// On whom or what.
fn show_whom(ui: &mut Ui, desk: &Desk, strike: &Strike, edits: &mut Vec<StrikeEdit>) {
    let own = strike.part.unwrap_or(StrikePart::Hands);
    ui.menu_button(format!("Whom: {}", struck_words(strike.on)), |ui| {
        ScrollArea::vertical().max_height(LONGEST).show(ui, |ui| {
            for on in [Struck::Partner, Struck::Opposite, Struck::Up, Struck::Down] {
                if choice(ui, strike.on == on, &capital(&struck_words(on)), "") {
                    edits.push(StrikeEdit::On(on));
                }
            }
            ui.separator();
            let places = PlaceNumber::all(desk.motion().dancers());
            for place in places.filter(|place| strike.by != Striker::Place(*place)) {
                let on = Struck::Place(place);
                if choice(ui, strike.on == on, &place.to_string(), "Whoever dances in this place") {
                    edits.push(StrikeEdit::On(on));
                }
            }
            ui.separator();
            if choice(ui, strike.on == Struck::Ground, "The ground", "Dibbing") {
                edits.push(StrikeEdit::On(Struck::Ground));
            }
        });
    });
    ui.menu_button(
        if strike.on == Struck::Own {
            format!("Self: {}", strike_part_words(own))
        } else {
            "Self".to_owned()
        },
        |ui| {
            for part in StrikePart::ALL {
                let is_now = strike.on == Struck::Own && own == part;
                if choice(ui, is_now, &capital(strike_part_words(part)), "") {
                    edits.push(StrikeEdit::Part(part));
                }
            }
        },
    );
}

/// With which end, in which hand, and what answers.
fn show_ends(ui: &mut Ui, desk: &Desk, strike: &Strike, edits: &mut Vec<StrikeEdit>) {
    let sticks = desk.dance().holding == Holding::Sticks;
    let ends = || StrikeEnd::ALL.into_iter().filter(move |end| sticks || !end.is_of_stick());
    ui.menu_button(format!("With: {}", strike_end_words(strike.end)), |ui| {
        for end in ends() {
            if choice(ui, strike.end == end, &capital(strike_end_words(end)), "") {
                edits.push(StrikeEdit::With(end));
            }
        }
        if strike.end.is_of_stick() {
            ui.separator();
            edits.extend(stick_hand_choice(ui, strike.hand, StrikeEdit::Hand));
        }
    });
    let their = strike.their.map_or("the same", strike_end_words);
    ui.add_enabled_ui(strike.on.is_somebody(), |ui| {
        ui.menu_button(format!("They answer with: {their}"), |ui| {
            if choice(ui, strike.their.is_none(), "The same", "") {
                edits.push(StrikeEdit::Their(None));
            }
            for end in ends() {
                if choice(ui, strike.their == Some(end), &capital(strike_end_words(end)), "") {
                    edits.push(StrikeEdit::Their(Some(end)));
                }
            }
            if strike.is_on_a_stick() {
                ui.separator();
                edits.extend(stick_hand_choice(ui, strike.their_hand, StrikeEdit::TheirHand));
            }
        });
    });
}

/// Which of two sticks is chosen, as the edit that it is: by a hand, or by none for the dancer's own stick.
fn stick_hand_choice(
    ui: &mut Ui,
    now: Option<Foot>,
    edit: fn(Option<Foot>) -> StrikeEdit,
) -> Option<StrikeEdit> {
    let mut chosen = None;
    for (hand, name) in [
        (None, "Of their own stick"),
        (Some(Foot::Right), "Of the right stick"),
        (Some(Foot::Left), "Of the left stick"),
    ] {
        if choice(ui, now == hand, name, "Where a stick is held in each hand") {
            chosen = Some(edit(hand));
        }
    }
    chosen
}

/// How high they meet; a knee is where it is.
fn show_height(ui: &mut Ui, desk: &Desk, strike: &Strike, edits: &mut Vec<StrikeEdit>) {
    if !strike.takes_height() {
        ui.add_enabled(false, egui::Button::new("How high: where the knee is"));
        return;
    }
    let now = strike.height.map_or_else(|| "as usual".to_owned(), |height| format!("{height} m"));
    ui.menu_button(format!("How high: {now}"), |ui| {
        if choice(
            ui,
            strike.height.is_none(),
            "As usual",
            "Before the chest, or where the ground or the part is",
        ) {
            edits.push(StrikeEdit::Height(None));
        }
        ui.horizontal(|ui| {
            let label = ui.label("Over the floor");
            let kind = NumberKind { least: 0.0, most: HIGHEST_STRIKE, places: 2, unit: "m" };
            let field = NumberField::new(strike.height.unwrap_or(CHEST), kind, 0.01).among_items();
            let answer = field.hint("How high over the floor they meet").refused(desk.notice()).show(ui);
            answer.response.labelled_by(label.id);
            if let Some(height) = answer.changed {
                edits.push(StrikeEdit::Height(Some(height)));
            }
        });
    });
}

/// The odds, or the evens where a strike is theirs or of one of them.
fn side_of(by: Striker) -> &'static str {
    let even = match by {
        Striker::Place(place) => Striker::Evens.has(place),
        by => by == Striker::Evens,
    };
    if even { "evens" } else { "odds" }
}

/// Who follows, in words; `by` is who strikes first.
fn follow_words(follow: Follow, by: Striker) -> String {
    let sides = |later: &str| {
        let first = side_of(by);
        let second = if first == "odds" { "evens" } else { "odds" };
        format!("{first}, then {second} {later} later")
    };
    match follow {
        Follow::Nobody => "nobody".to_owned(),
        Follow::Everyone => "everyone the same".to_owned(),
        Follow::Odds => "all odds".to_owned(),
        Follow::Evens => "all evens".to_owned(),
        Follow::InTurn(Later::Bar) => sides("a bar"),
        Follow::InTurn(Later::Half) => sides("half a bar"),
    }
}

/// Who does the same.
fn show_follow(
    ui: &mut Ui,
    span: &Span,
    (figure, at): (&Figure, StrikeAt),
    place: Option<PlaceNumber>,
    edits: &mut Vec<StrikeEdit>,
) {
    let Some(strike) = figure.strikes.get(at.strike) else { return };
    let bars = span.bar_counts();
    let now = Follow::of(&figure.strikes, at.strike, bars);
    let in_turn = Follow::in_turn(&figure.strikes, at.strike, bars);
    let first = in_turn.map_or(strike.by, |(first, _)| first);
    let said = match (now, in_turn) {
        (Some(now), _) => follow_words(now, first),
        (None, Some((_, counts))) => {
            let second = if side_of(first) == "odds" { "evens" } else { "odds" };
            format!("{}, then {second} {} counts later", side_of(first), (counts * 100.0).round() / 100.0)
        }
        (None, None) => String::new(),
    };
    ui.menu_button(format!("Who follows: {said}"), |ui| {
        // With those whom they strike, all odds are everyone.
        let offered = |follow: &Follow| {
            *follow != Follow::Everyone || !strike.on.is_somebody() || now == Some(Follow::Everyone)
        };
        for follow in Follow::ALL.into_iter().filter(offered) {
            let hint = match follow {
                Follow::Nobody => "Only this dancer, with the one they strike",
                Follow::Everyone => "Each of them, on the ground or themselves",
                Follow::Odds => "Each of the odds; where it is on somebody, they answer",
                Follow::Evens => "Each of the evens; where it is on somebody, they answer",
                Follow::InTurn(Later::Bar) => "The others do the same at this place of the next bar",
                Follow::InTurn(Later::Half) => "The others do the same half a bar later",
            };
            let is_now = now == Some(follow);
            if choice(ui, is_now, &capital(&follow_words(follow, first)), hint) && !is_now {
                edits.push(StrikeEdit::Follow(follow, place));
            }
        }
    });
}

/// Until when those of a tap stay together, counts from the start of the dance.
fn together_until(desk: &Desk, index: SpanIndex, strike: usize, count: f64) -> f64 {
    let blows = desk.motion().blows_between(count, count + 2e-6);
    let here = blows.iter().filter(|blow| blow.span == index && blow.strike == strike);
    here.map(|blow| blow.until).fold(count, f64::max)
}

/// In which bars it is struck, at the same place of each.
fn show_bars(ui: &mut Ui, span: &Span, (strike, local): (&Strike, f64), edits: &mut Vec<StrikeEdit>) {
    let bars = span.bar_counts();
    let (_, inside) = bars.at(local + 1e-9);
    let here = strike.counts().map(|count| bars.at(count + 1e-9));
    let now: Vec<u32> =
        here.filter(|(_, other)| (other - inside).abs() < 1e-6).map(|(bar, _)| bar + 1).collect();
    ui.menu_button("Again in bars", |ui| {
        ScrollArea::vertical().max_height(LONGEST).show(ui, |ui| {
            for bar in 1..=bars.bars() {
                let mut is_in = now.contains(&bar);
                if ui.checkbox(&mut is_in, format!("bar {bar}")).changed() {
                    let mut wanted = now.clone();
                    wanted.retain(|known| *known != bar);
                    wanted.extend(is_in.then_some(bar));
                    edits.push(StrikeEdit::InBars(wanted));
                }
            }
        });
    });
}
