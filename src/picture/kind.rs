use super::{Picture, PictureError, to_png, to_svg};
use std::path::Path;

/// The kinds of file that a picture is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// Pixels.
    Png,
    /// Outlines.
    Svg,
}

impl PictureKind {
    /// The kind that the ending of a file's name says, in any case.
    ///
    /// # Errors
    /// When it is neither.
    pub fn of(path: &Path) -> Result<Self, PictureError> {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        match ending.as_str() {
            "png" => Ok(Self::Png),
            "svg" => Ok(Self::Svg),
            _ => Err(PictureError::Ending(path.to_owned())),
        }
    }

    /// A picture as the bytes of such a file.
    ///
    /// # Errors
    /// When it has no pixels or more than fit in memory.
    pub fn bytes(self, picture: &Picture) -> Result<Vec<u8>, PictureError> {
        match self {
            Self::Png => to_png(picture),
            Self::Svg => Ok(to_svg(picture).into_bytes()),
        }
    }
}
