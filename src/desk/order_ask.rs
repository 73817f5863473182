use crate::dance::Ends;

/// Something asked for about the running order. Lines and figures are indices, from 0; a line is asked to be put in
/// after the one at the playhead where no line is named.
#[derive(Clone, Debug, PartialEq)]
pub enum OrderAsk {
    /// Put in a new figure to draw.
    NewFigure,
    /// Dance a figure of the dance, or dance it again: figure, and the line to put it in before.
    Dance(usize, Option<usize>),
    /// Call a figure something else.
    Rename(usize, String),
    /// Make the figure at a line one of its own.
    Duplicate(usize),
    /// Move a line to be another: from, to.
    Move(usize, usize),
    /// Delete a figure and all of its lines.
    Delete(usize),
    /// Dance a line to a strain, or to none.
    SetStrain(usize, String),
    /// Have something of its own called at a line.
    SetCall(usize, String),
    /// Make a drawn figure longer or shorter.
    SetBars(usize, u32),
    /// Say how a figure ends.
    SetEnds(usize, Ends),
    /// Write notes on a figure.
    SetNotes(usize, String),
    /// Show where to write something.
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
