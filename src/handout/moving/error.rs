use crate::picture::PictureError;
use std::path::PathBuf;
use thiserror::Error;

/// Why a moving picture cannot be made.
#[derive(Debug, Error)]
pub enum MovingError {
    /// A file name that says neither kind.
    #[error("{}: a moving picture is written as .png or .gif", .0.display())]
    Ending(PathBuf),
    /// A number that is not between its least and its most.
    #[error("--{name} {value}: expected {least} to {most} {unit}")]
    Range {
        /// The option of the command line, without its dashes.
        name: &'static str,
        /// What was asked for.
        value: u32,
        least: u32,
        most: u32,
        /// What it is counted in.
        unit: &'static str,
    },
    /// More than a chat takes.
    #[error(
        "{pictures} pictures of {size} by {size} pixels are too many; ask for a smaller --size, a lower --fps or a higher --speed"
    )]
    Large {
        pictures: u64,
        /// Pixels along each side.
        size: u32,
    },
    /// It was stopped before its end.
    #[error("the moving picture was stopped")]
    Stopped,
    /// Nobody moves.
    #[error("the figure has no bars, so nothing moves")]
    Empty,
    /// A picture could not be drawn.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// The animated PNG could not be written.
    #[error("the animated PNG could not be written: {0}")]
    Png(#[from] png::EncodingError),
    /// The GIF could not be written.
    #[error("the GIF could not be written: {0}")]
    Gif(#[from] gif::EncodingError),
}
