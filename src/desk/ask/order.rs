use crate::dance::{Ends, LeadRule, Number, Set};

/// Something asked for about what is danced. Lines of the running order and figures are indices, from 0; a line is put in
/// after the one at the playhead where no line is named.
#[derive(Clone, Debug, PartialEq)]
pub enum OrderAsk {
    /// Put in a named figure: its name, and the line to put it in before.
    PutIn(&'static str, Option<usize>),
    /// Take a line out.
    TakeOut(usize),
    /// Put in a new figure to draw.
    NewFigure,
    /// Dance a figure of the dance, or dance it again, put in before a line.
    Dance { figure: usize, before: Option<usize> },
    /// Call a figure something else.
    Rename(usize, String),
    /// Make the figure at a line one of its own.
    Duplicate(usize),
    /// Move a line to be another.
    Move { from: usize, to: usize },
    /// Delete a figure and all of its lines.
    Delete(usize),
    /// Dance a line to a strain, or to none.
    SetStrain(usize, String),
    /// Have something of its own called at a line.
    SetCall(usize, String),
    /// Have a line called so many bars before its figure begins, or when calls usually come.
    SetCallBefore(usize, Option<f64>),
    /// Make a drawn figure longer or shorter.
    SetBars(usize, u32),
    /// Say how a figure ends.
    SetEnds(usize, Ends),
    /// Write notes on a figure.
    SetNotes(usize, String),
    /// Change a choice of a named figure: figure, key, value.
    SetChoice(usize, &'static str, serde_json::Value),
    /// Give a figure a rule for its leads, or take it away.
    SetLead(usize, Option<LeadRule>),
    /// Give a figure its stepping; empty for what it has of itself.
    SetPhrase(usize, String),
    /// Dance it with another set.
    ChangeSet(Box<Set>),
    /// Say whether the side hops on the upbeat.
    SetHops(bool),
    /// Give a number's dancer a name.
    NamePerson(Number, String),
    /// Ask for something to be written.
    Write(About),
}

/// What is written about a line or a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// The call of a line.
    Call(usize),
    /// The bars of a figure.
    Bars(usize),
    /// The notes of a figure.
    Notes(usize),
}
