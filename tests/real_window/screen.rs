use bellpad::picture::Colour;
use std::fs;
use std::path::Path;

/// How far a channel may be off and still be the same colour.
const OFF: u8 = 4;

/// A picture of the screen, or one that the program wrote.
#[derive(Clone)]
pub struct Screen {
    width: usize,
    height: usize,
    /// Red, green, blue.
    pixels: Vec<[u8; 3]>,
}

impl Screen {
    /// Reads what Xvfb keeps of its screen: an X window dump, version 7 (XWDFile.h of the X Window System),
    /// whose header is of big-endian words, here with 32 bits a pixel.
    pub fn of_dump(path: &Path) -> Self {
        let bytes = fs::read(path).unwrap();
        let word = |index: usize| {
            let at = index * 4;
            u32::from_be_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]]) as usize
        };
        assert_eq!([word(1), word(11)], [7, 32], "a window dump of another kind");
        let (width, height, least_first, line, colours) =
            (word(4), word(5), word(7) == 0, word(12), word(19));
        let begin = word(0) + colours * 12;
        let mut pixels = Vec::with_capacity(width * height);
        for row in bytes[begin..].chunks(line).take(height) {
            pixels.extend(row.chunks_exact(4).take(width).map(|pixel| match *pixel {
                [blue, green, red, _] if least_first => [red, green, blue],
                [_, red, green, blue] => [red, green, blue],
                _ => unreachable!("four bytes a pixel"),
            }));
        }
        Self { width, height, pixels }
    }

    /// Reads a PNG.
    pub fn of_png(path: &Path) -> Self {
        let image = image::open(path).unwrap().to_rgb8();
        Self {
            width: image.width() as usize,
            height: image.height() as usize,
            pixels: image.pixels().map(|pixel| pixel.0).collect(),
        }
    }

    /// Writes a PNG.
    pub fn write(&self, path: &Path) {
        let bytes = self.pixels.iter().flatten().copied().collect();
        image::RgbImage::from_raw(self.width as u32, self.height as u32, bytes).unwrap().save(path).unwrap();
    }

    /// Pixels across and down.
    pub fn size(&self) -> [usize; 2] {
        [self.width, self.height]
    }

    /// The colour at a place; nothing outside.
    pub fn at(&self, [right, down]: [f32; 2]) -> Option<[u8; 3]> {
        let inside = right >= 0.0 && down >= 0.0 && (right as usize) < self.width;
        self.pixels.get(down as usize * self.width + right as usize).copied().filter(|_| inside)
    }

    /// Whether a colour is at a place.
    pub fn shows(&self, place: [f32; 2], Colour(red, green, blue, _): Colour) -> bool {
        self.at(place).is_some_and(|pixel| {
            pixel.into_iter().zip([red, green, blue]).all(|(is, wanted)| is.abs_diff(wanted) <= OFF)
        })
    }

    /// The share of a rectangle (left, top, right, bottom; pixels) that has a colour, 0 to 1.
    pub fn share(&self, [left, top, right, bottom]: [usize; 4], colour: Colour) -> f64 {
        let places = (top..bottom).flat_map(|down| (left..right).map(move |right| (right, down)));
        let (mut all, mut of_colour) = (0_u32, 0_u32);
        for (right, down) in places {
            all += 1;
            of_colour += u32::from(self.shows([right as f32, down as f32], colour));
        }
        f64::from(of_colour) / f64::from(all.max(1))
    }

    /// Whether more has changed than a blinking cursor.
    pub fn differs_from(&self, other: &Self) -> bool {
        self.pixels_off(other) > 400
    }

    /// Whether as much has changed as a letter has pixels.
    pub fn changed_from(&self, other: &Self) -> bool {
        self.pixels_off(other) > 60
    }

    fn pixels_off(&self, other: &Self) -> usize {
        assert_eq!(self.size(), other.size());
        self.pixels.iter().zip(&other.pixels).filter(|(one, other)| one != other).count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bellpad::picture::SLATE;

    /// A dump of two pixels in a row, by the layout that XWDFile.h gives.
    fn dump(least_first: bool, pixels: [[u8; 4]; 2]) -> Vec<u8> {
        let mut words = [0_u32; 25];
        // The header's size, the version, the picture's size, the order of bytes, bits a pixel, bytes a line, colours.
        for (index, word) in [(0, 100), (1, 7), (4, 2), (5, 1), (11, 32), (12, 8), (19, 1)] {
            words[index] = word;
        }
        words[7] = u32::from(!least_first);
        let mut bytes: Vec<u8> = words.iter().flat_map(|word| word.to_be_bytes()).collect();
        bytes.extend([0xAA; 12]);
        bytes.extend(pixels.concat());
        bytes
    }

    #[test]
    fn a_window_dump_is_read_in_both_orders_of_bytes() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("dump");
        let Colour(red, green, blue, _) = SLATE.odd;
        for (least_first, odd) in [(true, [blue, green, red, 0]), (false, [0, red, green, blue])] {
            fs::write(&path, dump(least_first, [odd, [9; 4]])).unwrap();
            let screen = Screen::of_dump(&path);
            assert_eq!(screen.size(), [2, 1]);
            assert!(screen.shows([0.9, 0.5], SLATE.odd) && !screen.shows([0.9, 0.5], SLATE.even));
            assert_eq!(screen.at([1.0, 0.0]), Some([9; 3]));
            assert_eq!([screen.at([2.0, 0.0]), screen.at([-0.1, 0.0]), screen.at([0.0, 1.0])], [None; 3]);
            assert_eq!(screen.share([0, 0, 2, 1], SLATE.odd), 0.5);
        }
    }
}
