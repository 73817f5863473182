//! Which of the taps along the bars is to have the focus, by what somebody did in the frame before.

use super::layout::{NoTapsRow, no_taps_row};
use crate::desk::{Ask, Desk, KeepAsk, StrikeAsk};
use crate::edits::StrikeAt;
use egui::{Context, Event, Id, Key, Modifiers, Response, Ui};

/// The name of the bare row.
pub const ROW: (&str, &str) = ("row", "Taps");
/// Nearer than this the playhead is on a tap, counts.
const ON: f64 = 1e-6;

/// One that is to have the focus, once what was asked for is done.
#[derive(Clone, Copy, Debug)]
pub struct Wish {
    /// Which strike of the figure; nothing for any, the latest in the file first.
    pub strike: Option<usize>,
    /// Where it is about, counts from the start of the dance.
    pub count: f64,
}

/// What is to have the focus.
pub enum Goal {
    /// The bare row.
    Row,
    /// One of the taps.
    Tap(StrikeAt),
}

fn wish_id() -> Id {
    Id::unique("wished tap")
}

fn row_id() -> Id {
    Id::unique("wished row of taps")
}

/// Asks for the focus in the next frame.
pub fn wish(ctx: &Context, wish: Wish) {
    // Once what is asked for in this frame is done.
    ctx.data_mut(|data| data.insert_temp(wish_id(), (wish, false)));
    ctx.request_repaint();
}

/// Asks for the row, from anywhere: the tap at the playhead, or the row itself. Where it was put away it comes back; where there can be
/// none that is said.
pub fn go_to_row(ctx: &Context, desk: &Desk, asks: &mut Vec<Ask>) {
    match no_taps_row(desk) {
        Some(NoTapsRow::NoTaps) => {
            asks.push(Ask::Strike(StrikeAsk::SayNoRow));
            return;
        }
        Some(NoTapsRow::PutAway) => {
            let mut arrangement = desk.settings().arrangement;
            arrangement.hidden.taps = false;
            asks.push(Ask::Keep(KeepAsk::Arrange(arrangement)));
        }
        None => {}
    }
    ctx.data_mut(|data| data.insert_temp(row_id(), true));
    ctx.request_repaint();
}

/// Whether the bare row has the focus.
pub fn row_has_focus(ctx: &Context) -> bool {
    ctx.memory(|memory| memory.focused() == Some(Id::unique(ROW)))
}

/// What is to have the focus of those with their counts, from what was asked for.
/// From a tap, where it is `on_tap`, the way is to the row.
pub fn wished(ctx: &Context, taps: &[(StrikeAt, f64)], playhead: f64, on_tap: bool) -> Option<Goal> {
    if ctx.data_mut(|data| data.remove_temp::<bool>(row_id())).is_some() {
        let here = taps.iter().find(|(_, count)| (count - playhead).abs() < ON).map(|(at, _)| *at);
        return Some(here.filter(|_| !on_tap).map_or(Goal::Row, Goal::Tap));
    }
    let (wish, late) = ctx.data(|data| data.get_temp::<(Wish, bool)>(wish_id()))?;
    if !late {
        // What was asked for in this frame is done after it.
        ctx.data_mut(|data| data.insert_temp(wish_id(), (wish, true)));
        return None;
    }
    ctx.data_mut(|data| data.remove::<(Wish, bool)>(wish_id()));
    let of = taps.iter().filter(|(at, _)| wish.strike.is_none_or(|strike| at.strike == strike));
    let far = |count: f64| ((count - wish.count).abs() * 1e6).round();
    let nearest = of
        .min_by(|(one, at), (two, other)| far(*at).total_cmp(&far(*other)).then(two.strike.cmp(&one.strike)));
    Some(nearest.map_or(Goal::Row, |(at, _)| Goal::Tap(*at)))
}

/// Gives one the focus whose menu is shut again, unless something else has it: Delete then takes it away, as the menu says.
pub fn back_from_menu(response: &Response, open: bool) {
    let had = response.id.with("had a menu");
    let ctx = &response.ctx;
    if open {
        ctx.data_mut(|data| data.insert_temp(had, true));
    } else if ctx.data_mut(|data| data.remove_temp::<bool>(had)).is_some()
        && ctx.memory(egui::Memory::focused).is_none()
    {
        response.request_focus();
    }
}

/// Opens the menu of the one with an id, as the menu key does; in the next frame, since whatever is clicked in this one has its menu shut.
pub fn open_menu(ui: &Ui, id: Id, opens: bool) {
    let asked = id.with("menu");
    if opens {
        ui.data_mut(|data| data.insert_temp(asked, true));
        ui.ctx().request_repaint();
    } else if ui.memory(|memory| memory.has_focus(id))
        && ui.data_mut(|data| data.remove_temp::<bool>(asked)).is_some()
    {
        ui.input_mut(|input| {
            input.events.push(Event::Key {
                key: Key::Menu,
                physical_key: None,
                pressed: true,
                repeat: false,
                modifiers: Modifiers::NONE,
            });
        });
    }
}
