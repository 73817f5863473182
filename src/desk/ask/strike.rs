use crate::dance::{PlaceNumber, Strike};
use crate::edits::{StrikeAt, StrikeEdit};

/// Something asked for about the taps and claps of a figure, by its index, from 0. Counts are the figure's own, from 0, bars from 1.
#[derive(Clone, Debug, PartialEq)]
pub enum StrikeAsk {
    /// Have whoever dances in a place strike at a count, with their partner, and those who follow; or without a place all odds with theirs.
    Add { figure: usize, at: f64, place: Option<PlaceNumber> },
    /// Change one.
    Change { figure: usize, at: StrikeAt, edit: StrikeEdit },
    /// Have one sooner or later by counts.
    Nudge { figure: usize, at: StrikeAt, counts: f64 },
    /// Have a bar struck as another is.
    CopyBar { figure: usize, from: u32, to: u32 },
    /// Ask for all of a figure to be written.
    AskToWrite(usize),
    /// Have all of a figure as they are written.
    Write { figure: usize, strikes: Vec<Strike> },
    /// Be told why the bars have no row of taps: nothing is struck in the dance.
    SayNoRow,
}
