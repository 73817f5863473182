use std::path::PathBuf;

/// Something asked for about another version. Differences are told by their place in the list, from 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CompareAsk {
    /// Compare with another version: asks for its file.
    Ask,
    /// Compare with this file.
    With(PathBuf),
    /// Compare no longer.
    Stop,
    /// Go to a difference and show it.
    GoTo(usize),
    /// Take a dancer's part from the other version.
    TakePart(usize),
    /// Take the whole figure of a difference from the other version.
    TakeFigure(usize),
    /// Take over the taps of a figure: the place of what differs in the whole, in its list.
    TakeTaps(usize),
}
