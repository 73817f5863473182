use super::{Picture, to_svg};
use png::{PixelDimensions, Unit};
use resvg::{tiny_skia, usvg};
use thiserror::Error;

/// Why a picture could not be made into pixels.
#[derive(Debug, Error)]
pub enum PictureError {
    /// The picture's SVG could not be read back.
    #[error("the picture could not be drawn: {0}")]
    Drawing(#[from] usvg::Error),
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
    svg_to_rgb(&to_svg(picture), (picture.width, picture.height))
}

/// A picture as the bytes of a PNG file, sRGB, with its title as text.
///
/// # Errors
/// When the picture has no pixels or more than fit in memory.
pub fn to_png(picture: &Picture) -> Result<Vec<u8>, PictureError> {
    let size = (picture.width, picture.height);
    svg_to_png(&to_svg(picture), size, (&picture.title, &picture.words), None)
}

/// SVG text of a picture with an opaque ground as pixels, so many across and down.
///
/// # Errors
/// When the picture has no pixels or more than fit in memory.
pub fn svg_to_rgb(svg: &str, (width, height): (u32, u32)) -> Result<Vec<u8>, PictureError> {
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default())?;
    let mut pixels = tiny_skia::Pixmap::new(width, height).ok_or(PictureError::Size(width, height))?;
    let (across, down) = (tree.size().width(), tree.size().height());
    let fit = tiny_skia::Transform::from_scale(width as f32 / across, height as f32 / down);
    resvg::render(&tree, fit, &mut pixels.as_mut());
    // The ground is opaque, so every pixel is and the colours need no dividing by their opacity.
    let mut rgb = vec![0; pixels.data().len() / 4 * 3];
    let (from, to) = (pixels.data().as_chunks::<4>().0, rgb.as_chunks_mut::<3>().0);
    for ([red, green, blue, _], pixel) in from.iter().zip(to) {
        *pixel = [*red, *green, *blue];
    }
    Ok(rgb)
}

/// SVG text of a picture with an opaque ground as the bytes of a PNG file of so many pixels, sRGB, with a title and a
/// description as text and, where it is for paper, the number of pixels in a metre of it.
///
/// # Errors
/// When the picture has no pixels or more than fit in memory.
pub fn svg_to_png(
    svg: &str,
    (width, height): (u32, u32),
    (title, words): (&str, &str),
    per_metre: Option<u32>,
) -> Result<Vec<u8>, PictureError> {
    let rgb = svg_to_rgb(svg, (width, height))?;
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
    writer.write_image_data(&rgb)?;
    writer.finish()?;
    Ok(bytes)
}
