/// Where a note is among those of a tuplet, such as three in the time of two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TupletPlace {
    /// The number over it.
    pub number: u64,
    /// Whether it is the first of it, and the last.
    pub is_first: bool,
    /// Whether it is the last.
    pub is_last: bool,
}
