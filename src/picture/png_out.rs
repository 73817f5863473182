use super::pixels::Pixels;
use super::{Colour, Mark, Picture};
use png::{PixelDimensions, Unit};
use thiserror::Error;

/// Why a picture could not be made into pixels.
#[derive(Debug, Error)]
pub enum PictureError {
    /// A file name that says neither PNG nor SVG.
    #[error("{}: a picture is written as .png or .svg", .0.display())]
    Ending(std::path::PathBuf),
    /// No pixels, or more than memory holds.
    #[error("a picture of {0} by {1} pixels cannot be made")]
    Size(u32, u32),
    /// The PNG could not be written.
    #[error("the PNG could not be written: {0}")]
    Writing(#[from] png::EncodingError),
}

/// A picture as pixels, row by row from the top: red, green and blue of each.
///
/// # Errors
/// When the picture has no pixels or more than fit in memory.
pub fn to_rgb(picture: &Picture) -> Result<Vec<u8>, PictureError> {
    let (width, height) = (picture.width, picture.height);
    marks_to_rgb([width as f32, height as f32], (width, height), picture.ground, &picture.marks)
}

/// A picture as the bytes of a PNG file, sRGB, with its title as text.
///
/// # Errors
/// When the picture has no pixels or more than fit in memory.
pub fn to_png(picture: &Picture) -> Result<Vec<u8>, PictureError> {
    let rgb = to_rgb(picture)?;
    rgb_to_png(&rgb, (picture.width, picture.height), (&picture.title, &picture.words), None)
}

/// Marks as pixels: the width and height that they are laid out in, how many pixels across and down, and the opaque
/// colour that lies under them.
///
/// # Errors
/// When there are no pixels, or more than fit in memory.
pub fn marks_to_rgb(
    laid_out: [f32; 2],
    (width, height): (u32, u32),
    ground: Colour,
    marks: &[Mark],
) -> Result<Vec<u8>, PictureError> {
    let size = PictureError::Size(width, height);
    let (Ok(across @ 1..), Ok(down @ 1..)) = (u16::try_from(width), u16::try_from(height)) else {
        return Err(size);
    };
    let mut pixels = Pixels::new((across, down), laid_out, ground);
    for mark in marks {
        pixels.draw(mark);
    }
    let drawn = pixels.rgba();
    // The ground is opaque, so every pixel is and the colours need no dividing by their opacity.
    let mut rgb = vec![0; drawn.data().len() * 3];
    for (from, to) in drawn.data().iter().zip(rgb.as_chunks_mut::<3>().0) {
        *to = [from.r, from.g, from.b];
    }
    Ok(rgb)
}

/// Pixels, red, green and blue of each, as the bytes of a PNG file of so many across and down, sRGB, with a title and
/// a description as text and, where it is for paper, the number of pixels in a metre of it.
///
/// # Errors
/// When they cannot be written.
pub fn rgb_to_png(
    rgb: &[u8],
    (width, height): (u32, u32),
    (title, words): (&str, &str),
    per_metre: Option<u32>,
) -> Result<Vec<u8>, PictureError> {
    let mut bytes = Vec::with_capacity(rgb.len() / 8);
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fastest);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.add_itxt_chunk("Title".to_owned(), title.to_owned())?;
    encoder.add_itxt_chunk("Description".to_owned(), words.to_owned())?;
    encoder.set_pixel_dims(per_metre.map(|each| PixelDimensions {
        xppu: each,
        yppu: each,
        unit: Unit::Meter,
    }));
    let mut writer = encoder.write_header()?;
    writer.write_image_data(rgb)?;
    writer.finish()?;
    Ok(bytes)
}
