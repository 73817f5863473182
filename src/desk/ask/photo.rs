use crate::dance::Strength;
use std::path::PathBuf;
use std::sync::Arc;

/// Something asked for about photographs under the floor. They and their marks are indices, from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum PhotoAsk {
    /// Lay one under the floor: asks which file.
    AskFile,
    /// Lay this file under the floor.
    Lay(PathBuf),
    /// Lay what was copied elsewhere under the floor.
    Paste(Pasted),
    /// Show its marks, and where on the floor they belong.
    Show(usize),
    /// Move a mark on the picture: pixels from its left and its upper edge.
    MarkAt { photo: usize, mark: usize, across: f64, down: f64 },
    /// Say where on the floor a mark belongs, metres; it catches on a spot within `reach` metres.
    PlaceAt { photo: usize, mark: usize, x: f64, y: f64, reach: f64 },
    /// Have so many marks.
    Marks(usize, usize),
    /// Set it, so that its marks keep still, or set it free again.
    Lock(usize, bool),
    /// How strong it is.
    Strength(usize, Strength),
    /// Have those that lie here fainter, stronger or hidden, in turn.
    NextStrength,
    /// Have it lie under the figure at the playhead alone, or under the whole dance.
    OneFigure(usize, bool),
    /// Keep it inside the dance, or by the path of its file.
    KeepInside(usize, bool),
    /// Take it away.
    TakeAway(usize),
}

/// A picture that was copied elsewhere: how wide and high it is, and red, green, blue and cover of each pixel.
#[derive(Clone, PartialEq, Eq)]
pub struct Pasted {
    /// Pixels across and down.
    pub size: [u32; 2],
    /// Four bytes a pixel, from the upper left.
    pub rgba: Arc<Vec<u8>>,
}

impl std::fmt::Debug for Pasted {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(to, "Pasted({} by {})", self.size[0], self.size[1])
    }
}
