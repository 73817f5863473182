//! What bare floor says to a pointer: whose spot is there, and whose hand; and where what the floor says stands.

use super::Floor;
use super::menus::Here;
use crate::dance::Dancer;
use crate::desk::Desk;
use crate::picture::{Frame, hand_near};
use crate::window::explain::explain_aside;
use crate::words::hands_words;
use egui::{Pos2, Rect, Response, pos2};

/// A hand with what it holds is so near its middle, metres.
const HAND: f64 = 0.13;
/// What a body with its hands out takes beside its middle, metres.
const ARMS: f64 = 0.65;

impl Floor {
    /// From the left end of all dancers to the right one, at the height of a place in the window: words about what is there
    /// stand beside that, over nobody.
    pub(super) fn beside_set(&self, frame: &Frame, at: Pos2) -> Rect {
        let across = self.poses.iter().map(|pose| frame.to_picture(pose.x, pose.y)[0]);
        let (left, right) = across.fold((at.x, at.x), |(left, right), x| (left.min(x), right.max(x)));
        let (arms, half) = (frame.length(ARMS), frame.length(ARMS).max(12.0));
        Rect::from_min_max(pos2(left - arms, at.y - half), pos2(right + arms, at.y + half))
    }

    /// Says whose hand or whose spot is under the pointer.
    pub(super) fn explain_floor(&self, desk: &Desk, frame: &Frame, response: &Response) {
        let Some(at) = response.hover_pos().filter(|_| response.hovered()) else { return };
        if desk.held().is_some() || desk.player().playing || egui::Popup::is_any_open(&response.ctx) {
            return;
        }
        let (x, y) = frame.to_floor(at.into());
        let said = self.hand_at(desk, frame, (x, y)).or_else(|| {
            let spot = Here::at(desk, (x, y)).spot?;
            let name = desk.dance().person(spot.get()).unwrap_or_default();
            let name = if name.is_empty() { String::new() } else { format!(" · {name}") };
            Some(format!("The spot of {spot}{name}\nRight click for more"))
        });
        if let Some(said) = said {
            explain_aside(response, self.beside_set(frame, at), &said);
        }
    }

    /// Whose hand is at a place, metres, and how high it is.
    fn hand_at(&self, desk: &Desk, frame: &Frame, place: (f64, f64)) -> Option<String> {
        let span = desk.span_here()?;
        let dancer = Dancer(hand_near(frame, &self.poses, place, HAND)?);
        let words = hands_words(span, dancer, desk.player().count - span.begin())?;
        Some(format!("{dancer}: {words}"))
    }
}
