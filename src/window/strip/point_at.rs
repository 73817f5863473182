//! What the rows of the bars say to a pointer, and what they offer to a right click and to the menu key. Each row is one thing to
//! point at, whatever is under the pointer, so that hundreds of prints and notes cost no more than a few.

use super::axis::{BarAxis, quarter, to_quarter};
use super::menus::{show_bar, show_step};
use super::{layout::Rows, rows::hop_before, seek};
use crate::dance::{Air, Dancer};
use crate::desk::{Ask, Desk, PlayAsk};
use crate::motion::{Span, Track};
use crate::window::context_menu::{Opened, show_menu};
use crate::window::explain::explain;
use crate::window::{focus_ring::focus_ring, turn_menu};
use crate::words::{fall_words, hands_words, note_words, step_said, turn_words, upbeat_words};
use egui::{Id, Key, PointerButton, Rangef, Rect, Response, Role, Sense, Ui, WidgetInfo, pos2, vec2};

/// Where a menu of a row was asked for, counts from the start of the dance, and about which of its turns.
#[derive(Clone, Copy, Default)]
pub struct Asked {
    count: f64,
    turn: Option<usize>,
}

/// What a row says: of what, and the words.
type Said = Option<(Rect, String)>;

/// A row of the strip.
struct Row<'a> {
    name: &'static str,
    rect: Rect,
    /// Where all rows begin and end, points down.
    bars: Rangef,
    axis: BarAxis,
    desk: &'a Desk,
}

impl Row<'_> {
    /// Shows the row's own place, where a click goes to its count. Gives the count under the pointer.
    fn show(&self, ui: &Ui, asks: &mut Vec<Ask>) -> (Response, Option<f64>) {
        let response = ui.interact(self.rect, Id::unique(("row", self.name)), Sense::click());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, self.name));
        focus_ring(ui, &response, self.rect.expand2(vec2(3.0, 1.0)), self.desk);
        let pointer = response.interact_pointer_pos().or(response.hover_pos());
        let count = pointer.map(|at| self.axis.count(at.x).clamp(self.axis.from, self.axis.to));
        if response.has_focus() && ui.input(|input| input.key_pressed(Key::Space)) {
            // The focus is for the menu key; Space plays, as everywhere.
            asks.push(Ask::Play(PlayAsk::Toggle));
        }
        if let Some(count) = count.filter(|_| response.clicked_by(PointerButton::Primary)) {
            seek(self.desk, to_quarter(ui, count), asks);
        }
        (response, count)
    }

    /// The part of the bars between two counts, from the top of all rows to their foot: what is said of it stands over none.
    fn part(&self, from: f64, to: f64) -> Rect {
        let [left, right] =
            [from, to].map(|count| self.axis.place(count.clamp(self.axis.from, self.axis.to)));
        Rect::from_min_max(pos2(left, self.bars.min), pos2(right, self.bars.max))
    }
}

/// The chosen dancer, and their way through the figure at the playhead.
#[derive(Clone, Copy)]
pub struct Seen<'a> {
    pub dancer: Dancer,
    pub span: &'a Span,
    pub track: &'a Track,
}

/// Shows the rows to point at, under the marks that are things of their own.
pub fn show(
    ui: &Ui,
    (desk, seen): (&Desk, Option<Seen>),
    (axis, rows): (BarAxis, &Rows),
    asked: &mut Asked,
    asks: &mut Vec<Ask>,
) {
    let mut show = |name: &'static str,
                    rect: Rect,
                    says: &dyn Fn(&Row, f64) -> Said,
                    menu: &dyn Fn(&mut Ui, Asked, &mut Vec<Ask>)| {
        let row = Row { name, rect, bars: Rangef::new(rows.whole.top(), rows.faults.bottom()), axis, desk };
        let (response, count) = row.show(ui, asks);
        if response.secondary_clicked()
            && let Some(count) = count
        {
            let turn = seen.and_then(|seen| turn_at(seen, axis, count));
            *asked = Asked { count: quarter(count).min(axis.to - 1e-6).max(axis.from), turn };
        }
        let open = show_menu(&response, |ui, opened| {
            let about = match opened {
                Opened::Mouse => *asked,
                Opened::Key => {
                    let count = desk.player().count;
                    Asked { count, turn: seen.and_then(|seen| nearest_turn(seen, count)) }
                }
            };
            menu(ui, about, asks);
        });
        let still = desk.held().is_none() && !open && !desk.player().playing;
        if let Some((what, words)) = count.filter(|_| still).and_then(|count| says(&row, count)) {
            explain(&response, what, &words);
        }
    };
    let path = rows.path.unwrap_or(rows.bars);
    let bars = Rect::from_min_max(rows.bars.min, path.max);
    let bar_menu = |ui: &mut Ui, of: Asked, asks: &mut Vec<Ask>| show_bar(ui, desk, of.count, asks);
    let band_here = rows.feet.is_none();
    let says_bar = |row: &Row, count: f64| {
        let (what, words) = says_step(row, seen, count)?;
        Some((what, if band_here { with_slack(desk, seen, &words) } else { words }))
    };
    show("Bars of the figure", bars, &says_bar, &bar_menu);
    if let (Some(air), Some(tune)) = (desk.air(), rows.tune) {
        show("Notes of the tune", tune, &|row, count| says_note(row, air, count), &bar_menu);
    }
    let Some(seen) = seen else { return };
    let step_menu = |ui: &mut Ui, of: Asked, asks: &mut Vec<Ask>| {
        show_step(ui, desk, seen.dancer, of.count, asks);
    };
    if let Some(feet) = rows.feet {
        show("Feet", feet.shrink2(vec2(0.0, 3.0)), &|row, count| says_fall(row, seen, count), &step_menu);
    }
    if let Some(turns) = rows.turn {
        show("Turns", turns, &|row, count| says_turn(row, seen, count), &|ui, of, asks| {
            turn_menu::show(ui, desk, (seen.dancer, of.turn), of.count, asks);
        });
    }
    if let Some(hands) = rows.hands {
        show("Hands", hands, &|row, count| says_hands(row, seen, count), &step_menu);
    }
}

fn says_step(row: &Row, seen: Option<Seen>, count: f64) -> Said {
    let span = row.desk.span_here()?;
    let dancer = seen.map_or(Dancer(0), |seen| seen.dancer);
    let step = step_said(row.desk.motion(), span, dancer, count - span.begin())?;
    let what = row.part(span.begin() + step.begin, span.begin() + step.end);
    Some((what, format!("{dancer}: {}", step.words)))
}

fn says_fall(row: &Row, seen: Seen, count: f64) -> Said {
    let (begin, span) = (seen.span.begin(), seen.span);
    let local = (count - begin).max(0.0).floor();
    let words = fall_words(row.desk.motion(), span, seen.dancer, local)?;
    // The print of the hop on the upbeat before the figure stands at the left of its first count.
    let upbeat = hop_before(row.desk, seen.dancer, seen.track).filter(|_| local == 0.0);
    let words = upbeat.map_or(words.clone(), |foot| format!("{words}\nbefore it: {}", upbeat_words(foot)));
    let words = with_slack(row.desk, Some(seen), &words);
    Some((row.part(begin + local, begin + local + 1.0), words))
}

/// Words of a row with a line on how late and how early the dancer may be in this figure, once that is known.
fn with_slack(desk: &Desk, seen: Option<Seen>, words: &str) -> String {
    let slack = seen.and_then(|Seen { dancer, .. }| Some((dancer, desk.to_watch()?.band_words(dancer)?)));
    slack.map_or(words.to_owned(), |(dancer, slack)| format!("{words}\n{dancer} {slack}"))
}

fn says_turn(row: &Row, seen: Seen, count: f64) -> Said {
    let index = turn_at(seen, row.axis, count)?;
    let turn = seen.track.turns().get(index)?;
    let what = row.part(seen.span.begin() + turn.begin, seen.span.begin() + turn.end);
    Some((what, format!("{} {}", seen.dancer, turn_words(seen.span, seen.dancer, index)?)))
}

fn says_hands(row: &Row, seen: Seen, count: f64) -> Said {
    let begin = seen.span.begin();
    let local = ((count - begin).max(0.0) * 2.0).round() / 2.0;
    let words = hands_words(seen.span, seen.dancer, local)?;
    Some((row.part(begin + local - 0.25, begin + local + 0.25), words))
}

fn says_note(row: &Row, air: &Air, count: f64) -> Said {
    let clock = row.desk.clock();
    let (beats, each) = air.tune.metre;
    let whole_notes = beats as f64 / each.max(1) as f64;
    let notes = air.notes(clock.bars_of_counts(row.axis.from), clock.bars_of_counts(row.axis.to));
    let mut timed = notes.map(|sounded| {
        let [from, to] = [sounded.begin, sounded.end].map(|bars| clock.counts_of_bars(bars));
        (from, to, sounded.note)
    });
    let (begin, end, note) = timed.find(|(from, to, _)| *from <= count && count < *to)?;
    Some((row.part(begin, end), note_words(note, whole_notes)))
}

/// The turn of a dancer under a count: one that is danced then, or close by.
fn turn_at(seen: Seen, axis: BarAxis, count: f64) -> Option<usize> {
    // So near its arrow is what is meant, points.
    let near = f64::from(8.0 / axis.count_width().max(0.1));
    nearest_turn(seen, count).filter(|index| {
        seen.track.turns().get(*index).is_some_and(|turn| away(turn, count - seen.span.begin()) <= near)
    })
}

/// The turn that is danced at a count or nearest to it; those that go nowhere are not drawn.
fn nearest_turn(seen: Seen, count: f64) -> Option<usize> {
    let local = count - seen.span.begin();
    let turns = seen.track.turns().iter().zip(seen.track.amounts()).enumerate();
    turns
        .filter(|(_, (_, amount))| amount.abs() >= 0.5)
        .min_by(|(_, (one, _)), (_, (other, _))| away(one, local).total_cmp(&away(other, local)))
        .map(|(index, _)| index)
}

/// Counts from a moment to a turn; none while it is danced.
fn away(turn: &crate::dance::Turn, local: f64) -> f64 {
    (turn.begin - local).max(local - turn.end).max(0.0)
}
