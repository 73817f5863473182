//! As many pixels of a photograph as are kept, made from its rows as they are read.

use image::RgbaImage;
use image::metadata::Orientation;

/// The most that is kept of a photograph, pixels: some 5 mm each on a floor of ten metres.
const MOST_KEPT: f64 = 3_200_000.0;

/// What takes the rows of a photograph and keeps the mean of as many pixels across as down, so that none is moved aside.
pub(super) struct Shrinker {
    /// So many pixels, across as down, are one.
    many: u32,
    /// What is left out at the left and the top, so that what does not divide is lost at the right and below once it is turned.
    skip: [u32; 2],
    /// How many are kept across and down.
    size: [u32; 2],
    sums: Vec<[u32; 4]>,
    row: u32,
    kept: Vec<u8>,
}

impl Shrinker {
    /// One for a picture of so many pixels as it is stored, which is turned afterwards.
    pub(super) fn new([across, down]: [u32; 2], turn: Orientation) -> Self {
        let many = (f64::from(across) * f64::from(down) / MOST_KEPT).sqrt().ceil().max(1.0) as u32;
        let many = if across < many || down < many { 1 } else { many };
        let (right_first, bottom_first) = match turn {
            Orientation::NoTransforms | Orientation::Rotate90FlipH => (false, false),
            Orientation::FlipHorizontal | Orientation::Rotate270 => (true, false),
            Orientation::FlipVertical | Orientation::Rotate90 => (false, true),
            Orientation::Rotate180 | Orientation::Rotate270FlipH => (true, true),
        };
        let skip = [if right_first { across % many } else { 0 }, if bottom_first { down % many } else { 0 }];
        let size = [across / many, down / many];
        let kept = Vec::with_capacity(size[0] as usize * size[1] as usize * 4);
        Self { many, skip, size, sums: vec![[0; 4]; size[0] as usize], row: 0, kept }
    }

    /// How many pixels, across as down, are one.
    pub(super) fn many(&self) -> u32 {
        self.many
    }

    /// Takes the next row, of so many bytes a pixel: grey, grey and cover, three colours, or those and cover.
    pub(super) fn take(&mut self, row: &[u8], channels: usize) {
        let number = self.row;
        self.row += 1;
        if number < self.skip[1] || number - self.skip[1] >= self.size[1] * self.many {
            return;
        }
        let row = row.get(self.skip[0] as usize * channels..).unwrap_or_default();
        for (sum, group) in self.sums.iter_mut().zip(row.chunks_exact(channels * self.many as usize)) {
            for pixel in group.chunks_exact(channels) {
                let four = match *pixel {
                    [grey] => [grey, grey, grey, 255],
                    [grey, cover] => [grey, grey, grey, cover],
                    [red, green, blue] => [red, green, blue, 255],
                    [red, green, blue, cover, ..] => [red, green, blue, cover],
                    [] => [0; 4],
                };
                sum.iter_mut().zip(four).for_each(|(sum, byte)| *sum += u32::from(byte));
            }
        }
        if (number - self.skip[1]) % self.many == self.many - 1 {
            let whole = self.many * self.many;
            for sum in &mut self.sums {
                self.kept.extend(std::mem::take(sum).map(|sum| (sum / whole) as u8));
            }
        }
    }

    /// What is kept; nothing when there were too few rows.
    pub(super) fn done(self) -> Option<RgbaImage> {
        RgbaImage::from_raw(self.size[0], self.size[1], self.kept)
    }
}
