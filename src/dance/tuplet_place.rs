/// A place in a tuplet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TupletPlace {
    /// The number over it.
    pub number: u64,
    /// Whether it is the first of it, and the last.
    pub is_first: bool,
    /// Whether it is the last.
    pub is_last: bool,
}
