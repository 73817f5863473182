//! Reading a photograph: PNG, JPEG and WebP, turned as it was taken, and never more of it than there is room for.

use super::{jpeg::JpegLook, shrink::Shrinker};
use image::codecs::{jpeg::JpegDecoder, webp::WebPDecoder};
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, RgbaImage};
use sha2::{Digest, Sha256};
use std::io::Cursor;
use std::path::Path;

/// The most that a file of a photograph may have, bytes: 40 MB.
pub const MOST_PHOTO_BYTES: u64 = 40_000_000;
/// The most pixels that it may have.
pub const MOST_PHOTO_PIXELS: u64 = 50_000_000;
/// What reading one may take besides its file and what is kept of it, bytes: 250 MB.
const MOST_MEMORY: f64 = 250_000_000.0;

/// A photograph that has been read.
pub struct Photograph {
    /// How wide and how high it is, turned as it is looked at, pixels.
    pub size: [u32; 2],
    /// What is kept of it: red, green, blue and how much covers, a byte each, from the upper left.
    pub kept: RgbaImage,
    /// So many of its pixels, across as down, are one of those.
    many: u32,
}

/// A kind of file, by what is in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Png,
    Jpeg,
    WebP,
}

impl Kind {
    fn of(bytes: &[u8]) -> Option<Self> {
        let webp = bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP");
        if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            Some(Self::Png)
        } else if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
            Some(Self::Jpeg)
        } else {
            webp.then_some(Self::WebP)
        }
    }

    fn of_name(name: &str) -> Option<Self> {
        let ending = Path::new(name).extension()?.to_str()?.to_ascii_lowercase();
        match ending.as_str() {
            "png" => Some(Self::Png),
            "jpg" | "jpeg" => Some(Self::Jpeg),
            "webp" => Some(Self::WebP),
            _ => None,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Png => "PNG",
            Self::Jpeg => "JPEG",
            Self::WebP => "WebP",
        }
    }

    fn ending(self) -> &'static str {
        match self {
            Self::Png => ".png",
            Self::Jpeg => ".jpg",
            Self::WebP => ".webp",
        }
    }
}

/// Whether a file of this name is a photograph, by its ending.
#[must_use]
pub fn is_photograph_name(name: &str) -> bool {
    Kind::of_name(name).is_some()
}

/// SHA-256 of the bytes of a file, as 64 hexadecimal digits.
#[must_use]
pub fn fingerprint_of(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    let digit = |value: u8| DIGITS.get(usize::from(value)).map_or('0', |digit| char::from(*digit));
    Sha256::digest(bytes).iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

impl Photograph {
    /// Reads the bytes of the file of this name.
    ///
    /// # Errors
    /// One line on why it is not taken, without its name.
    pub fn read(name: &str, bytes: &[u8]) -> Result<Self, String> {
        if bytes.len() as u64 > MOST_PHOTO_BYTES {
            return Err(too_many_bytes());
        }
        let Some(kind) = Kind::of(bytes) else {
            return Err("this is no photograph: a PNG, JPEG or WebP picture is needed".to_owned());
        };
        // What is kept inside a dance, or was copied, has no name to go by.
        let named = Kind::of_name(name);
        if !name.is_empty() && named != Some(kind) {
            let said = named.map_or_else(
                || "its name has no ending of a picture, and what is in it is".to_owned(),
                |named| format!("by its name it is {}, and what is in it is", named.words()),
            );
            return Err(format!("{said} {}: give it the ending {}", kind.words(), kind.ending()));
        }
        match kind {
            Kind::Png => read_png(bytes),
            Kind::Jpeg => read_jpeg(bytes),
            Kind::WebP => read_webp(bytes),
        }
    }

    /// What the rows of a picture come to, turned as it is looked at.
    fn of_rows(rows: Shrinker, [across, down]: [u32; 2], turn: Orientation) -> Option<Self> {
        let many = rows.many();
        let mut kept = DynamicImage::ImageRgba8(rows.done()?);
        kept.apply_orientation(turn);
        let is_sideways = matches!(
            turn,
            Orientation::Rotate90
                | Orientation::Rotate270
                | Orientation::Rotate90FlipH
                | Orientation::Rotate270FlipH
        );
        let size = if is_sideways { [down, across] } else { [across, down] };
        Some(Self { size, kept: kept.into_rgba8(), many })
    }

    /// A photograph of pixels that are there already, such as those of the clipboard.
    #[must_use]
    pub fn of_pixels(pixels: RgbaImage) -> Self {
        let size = [pixels.width(), pixels.height()];
        let mut rows = Shrinker::new(size, Orientation::NoTransforms);
        pixels.chunks_exact(size[0].max(1) as usize * 4).for_each(|row| rows.take(row, 4));
        let many = rows.many();
        Self { size, kept: rows.done().unwrap_or(pixels), many }
    }

    /// The file of what is kept of it, small enough to be kept inside a dance where that can be: a JPEG.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn as_small_file(&self, most: usize) -> Result<(Vec<u8>, [u32; 2]), String> {
        // A JPEG has no cover: what nothing covers is paper.
        let mut paper = self.kept.clone();
        for pixel in paper.pixels_mut() {
            let [red, green, blue, cover] = pixel.0.map(u32::from);
            let over = |ink: u32| ((ink * cover + 255 * (255 - cover)) / 255) as u8;
            pixel.0 = [over(red), over(green), over(blue), 255];
        }
        let mut picture = DynamicImage::ImageRgba8(paper);
        loop {
            for quality in [90, 75, 60] {
                let mut bytes = Vec::new();
                let to = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, quality);
                DynamicImage::ImageRgb8(picture.to_rgb8())
                    .write_with_encoder(to)
                    .map_err(|error| error.to_string())?;
                if bytes.len() <= most {
                    return Ok((bytes, [picture.width(), picture.height()]));
                }
            }
            if picture.width().min(picture.height()) < 64 {
                return Err("it cannot be made small enough to be kept inside the dance".to_owned());
            }
            picture = picture.thumbnail(picture.width() * 3 / 4, picture.height() * 3 / 4);
        }
    }

    /// How much of a pixel that is kept one of the whole picture is, across as down.
    #[must_use]
    pub fn kept_share(&self) -> f64 {
        1.0 / f64::from(self.many)
    }
}

/// Why a file with too many bytes is not read.
#[must_use]
pub(super) fn too_many_bytes() -> String {
    format!("it is larger than {} MB: make it smaller", MOST_PHOTO_BYTES / 1_000_000)
}

fn damaged() -> String {
    "the picture is cut short or damaged".to_owned()
}

fn too_large_to_read() -> String {
    "reading it takes more memory than there is room for: save it with fewer pixels".to_owned()
}

fn moves() -> String {
    "it moves, and a photograph under the floor keeps still: save one picture of it".to_owned()
}

/// Whether a picture of so many pixels can be read, at so many bytes a pixel besides what is kept.
fn look_at_size([across, down]: [u32; 2], bytes_a_pixel: f64) -> Result<(), String> {
    let pixels = u64::from(across) * u64::from(down);
    if pixels > MOST_PHOTO_PIXELS {
        let most = MOST_PHOTO_PIXELS / 1_000_000;
        return Err(format!(
            "it has {across} by {down} pixels, and at most {most} million are read: make it smaller"
        ));
    }
    if across < 8 || down < 8 {
        return Err(format!("it has {across} by {down} pixels, too few to see anything by"));
    }
    if pixels as f64 * bytes_a_pixel > MOST_MEMORY {
        return Err(too_large_to_read());
    }
    Ok(())
}

/// A PNG, row by row; one that is written in several goes is there as a whole first.
fn read_png(bytes: &[u8]) -> Result<Photograph, String> {
    let broken = |error: png::DecodingError| match error {
        png::DecodingError::LimitsExceeded => too_large_to_read(),
        _ => damaged(),
    };
    let limits = png::Limits { bytes: MOST_MEMORY as usize };
    let mut decoder = png::Decoder::new_with_limits(Cursor::new(bytes), limits);
    decoder.set_transformations(png::Transformations::normalize_to_color8());
    let head = decoder.read_header_info().map_err(broken)?;
    let size = [head.width, head.height];
    look_at_size(size, if head.interlaced { 4.0 } else { 0.0 })?;
    let mut reader = decoder.read_info().map_err(broken)?;
    let info = reader.info();
    if info.is_animated() {
        return Err(moves());
    }
    // What is said of its turn may be damaged where the picture is not.
    let turn = info.exif_metadata.as_deref().and_then(Orientation::from_exif_chunk);
    let (turn, interlaced) = (turn.unwrap_or(Orientation::NoTransforms), info.interlaced);
    let channels = reader.output_color_type().0.samples();
    let mut rows = Shrinker::new(size, turn);
    if interlaced {
        let mut whole = vec![0; reader.output_buffer_size().ok_or_else(too_large_to_read)?];
        reader.next_frame(&mut whole).map_err(broken)?;
        whole.chunks_exact(size[0] as usize * channels).for_each(|row| rows.take(row, channels));
    } else {
        while let Some(row) = reader.next_row().map_err(broken)? {
            rows.take(row.data(), channels);
        }
    }
    reader.finish().map_err(broken)?;
    Photograph::of_rows(rows, size, turn).ok_or_else(damaged)
}

fn read_jpeg(bytes: &[u8]) -> Result<Photograph, String> {
    let look = JpegLook::at(bytes);
    let frame = look.frame.ok_or_else(damaged)?;
    if frame.inks == 4 {
        return Err("it is mixed for printing (CMYK): save it in red, green and blue".to_owned());
    }
    if !frame.is_usual() {
        return Err("it is a JPEG of a kind that is seldom met: save it as an ordinary one".to_owned());
    }
    let decoder = JpegDecoder::new(Cursor::new(bytes)).map_err(|_| damaged())?;
    look_at_size(decoder.dimensions().into(), frame.bytes_a_pixel())?;
    // What is unpacked of one that is cut short is grey from there on, and no fault to whoever unpacks it.
    if !look.is_whole {
        return Err(damaged());
    }
    unpack(decoder)
}

fn read_webp(bytes: &[u8]) -> Result<Photograph, String> {
    let decoder = WebPDecoder::new(Cursor::new(bytes)).map_err(|_| damaged())?;
    if decoder.has_animation() {
        return Err(moves());
    }
    let has_cover = decoder.color_type().has_alpha();
    let is_plain = bytes.get(12..16) == Some(b"VP8 ");
    let bytes_a_pixel = match (is_plain, has_cover) {
        (true, _) => 5.0,
        (false, false) => 7.0,
        (false, true) => 10.0,
    };
    look_at_size(decoder.dimensions().into(), bytes_a_pixel)?;
    unpack(decoder)
}

/// A picture that is unpacked as a whole, and is there only until what is kept of it is.
fn unpack(mut decoder: impl ImageDecoder) -> Result<Photograph, String> {
    let size = <[u32; 2]>::from(decoder.dimensions());
    let turn = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let colours = decoder.color_type();
    let channels = usize::from(colours.channel_count());
    if colours.bytes_per_pixel() != colours.channel_count() {
        return Err(damaged());
    }
    let mut whole = vec![0; usize::try_from(decoder.total_bytes()).map_err(|_| too_large_to_read())?];
    decoder.read_image(&mut whole).map_err(|_| damaged())?;
    let mut rows = Shrinker::new(size, turn);
    whole.chunks_exact(size[0] as usize * channels).for_each(|row| rows.take(row, channels));
    drop(whole);
    Photograph::of_rows(rows, size, turn).ok_or_else(damaged)
}
