/// The head of a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// Where it stands: steps above middle C; the lowest line of the stave is 2.
    pub step: i32,
    /// The accidental that is written before it: semitones up, 0 for a natural.
    pub accidental: Option<i32>,
    /// Whether a tie leads on to the next.
    pub is_tied: bool,
}
