use super::{PdfError, moving::MovingError, page::PageError};
use crate::dance::DanceError;
use crate::picture::PictureError;
use thiserror::Error;

/// Why a handout cannot be made.
#[derive(Debug, Error)]
pub enum HandoutError {
    /// A page of a dancer's own, and nobody chosen.
    #[error("Choose a dancer first, for a page of their own.")]
    Nobody,
    /// Sticks and hands meet nowhere in a figure or the dance, and a page of what meets is asked for.
    #[error("No sticks or hands meet in {}, so there is no tapping to hand out.", .0.as_deref().unwrap_or("it"))]
    NothingMeets(Option<String>),
    /// Nothing is danced.
    #[error("The dance has no figures to hand out yet.")]
    NoFigures,
    /// A figure cannot be worked out by itself.
    #[error(transparent)]
    Dance(#[from] DanceError),
    /// The PDF cannot be made.
    #[error(transparent)]
    Pdf(#[from] PdfError),
    /// A page cannot be drawn.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// The practice page cannot be made.
    #[error(transparent)]
    Page(#[from] PageError),
    /// The moving picture cannot be made.
    #[error(transparent)]
    Moving(#[from] MovingError),
}
