//! Reading a photograph: PNG, JPEG and WebP, turned as it was taken, and never more of it than there is room for.

use image::codecs::{jpeg::JpegDecoder, png::PngDecoder, webp::WebPDecoder};
use image::{DynamicImage, GenericImageView, ImageDecoder, ImageError, Limits, Rgba, RgbaImage};
use sha2::{Digest, Sha256};
use std::io::Cursor;
use std::path::Path;

/// The most that a file of a photograph may have, bytes: 40 MB.
pub const MOST_PHOTO_BYTES: u64 = 40_000_000;
/// The most pixels that it may have.
pub const MOST_PHOTO_PIXELS: u64 = 50_000_000;
/// The most that is kept of it, pixels: some 4 mm each on a floor of ten metres.
const MOST_KEPT: f64 = 6_000_000.0;
/// What reading one may take, bytes.
const MOST_MEMORY: u64 = 400_000_000;

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
        match Kind::of_name(name) {
            Some(named) if named != kind => {
                return Err(format!(
                    "by its name it is {}, and what is in it is {}: give it the ending {}",
                    named.words(),
                    kind.words(),
                    kind.ending()
                ));
            }
            _ => {}
        }
        let broken = |error: ImageError| match error {
            ImageError::Limits(_) => "it takes more memory to read than there is room for".to_owned(),
            _ => "the picture is cut short or damaged".to_owned(),
        };
        let from = || Cursor::new(bytes);
        let animated = || {
            Err("it moves, and a photograph under the floor keeps still: save one picture of it".to_owned())
        };
        match kind {
            Kind::Png => {
                let decoder = PngDecoder::with_limits(from(), limits()).map_err(broken)?;
                if decoder.is_apng().map_err(broken)? {
                    return animated();
                }
                Self::decode(decoder, broken)
            }
            Kind::Jpeg => {
                if jpeg_inks(bytes) == Some(4) {
                    return Err("it is mixed for printing (CMYK): save it in red, green and blue".to_owned());
                }
                Self::decode(JpegDecoder::new(from()).map_err(broken)?, broken)
            }
            Kind::WebP => {
                let decoder = WebPDecoder::new(from()).map_err(broken)?;
                if decoder.has_animation() {
                    return animated();
                }
                Self::decode(decoder, broken)
            }
        }
    }

    fn decode(mut decoder: impl ImageDecoder, broken: fn(ImageError) -> String) -> Result<Self, String> {
        let (across, down) = decoder.dimensions();
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
        decoder.set_limits(limits()).map_err(broken)?;
        // What is said of its turn may be damaged where the picture is not.
        let turn = decoder.orientation().unwrap_or(image::metadata::Orientation::NoTransforms);
        let whole = DynamicImage::from_decoder(decoder).map_err(broken)?;
        // Smaller first, so that what is turned is little.
        let (kept, many) = shrunk(whole);
        let mut kept = DynamicImage::ImageRgba8(kept);
        kept.apply_orientation(turn);
        let kept = kept.into_rgba8();
        let is_sideways = (kept.width() > kept.height()) != (across > down) && across != down;
        let size = if is_sideways { [down, across] } else { [across, down] };
        Ok(Self { size, kept, many })
    }

    /// A photograph of pixels that are there already, such as those of the clipboard.
    #[must_use]
    pub fn of_pixels(pixels: RgbaImage) -> Self {
        let size = [pixels.width(), pixels.height()];
        let (kept, many) = shrunk(DynamicImage::ImageRgba8(pixels));
        Self { size, kept, many }
    }

    /// The file of what is kept of it, small enough to be kept inside a dance where that can be: a JPEG.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn as_small_file(&self, most: usize) -> Result<(Vec<u8>, [u32; 2]), String> {
        let mut picture = DynamicImage::ImageRgba8(self.kept.clone());
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

fn limits() -> Limits {
    let mut limits = Limits::default();
    (limits.max_image_width, limits.max_image_height) = (None, None);
    limits.max_alloc = Some(MOST_MEMORY);
    limits
}

/// As many pixels as are kept, and no more: each the mean of as many across as down, so that none is moved aside.
fn shrunk(whole: DynamicImage) -> (RgbaImage, u32) {
    let (across, down) = (whole.width(), whole.height());
    let many = (f64::from(across) * f64::from(down) / MOST_KEPT).sqrt().ceil().max(1.0) as u32;
    if many == 1 || across < many || down < many {
        return (whole.into_rgba8(), 1);
    }
    // The whole of it is never there twice.
    let kept = RgbaImage::from_fn(across / many, down / many, |x, y| {
        let mut sum = [0_u32; 4];
        for (right, below) in (0..many).flat_map(|right| (0..many).map(move |below| (right, below))) {
            let pixel = whole.get_pixel(x * many + right, y * many + below).0;
            sum.iter_mut().zip(pixel).for_each(|(sum, byte)| *sum += u32::from(byte));
        }
        Rgba(sum.map(|sum| (sum / (many * many)) as u8))
    });
    (kept, many)
}

/// How many inks a JPEG is mixed of, by its frame.
fn jpeg_inks(bytes: &[u8]) -> Option<u8> {
    let mut rest = bytes.get(2..)?;
    loop {
        let [0xff, kind, ..] = rest else { return None };
        if *kind == 0xff {
            rest = rest.get(1..)?;
            continue;
        }
        let [high, low] = *rest.get(2..4)? else { return None };
        let is_frame = matches!(kind, 0xc0..=0xcf) && !matches!(kind, 0xc4 | 0xc8 | 0xcc);
        if is_frame {
            return rest.get(9).copied();
        }
        rest = rest.get(2 + usize::from(u16::from_be_bytes([high, low]))..)?;
    }
}
