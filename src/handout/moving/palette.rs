use std::collections::HashMap;

/// The colours of a moving picture: at most 255, and one more that leaves a pixel as it was.
#[derive(Default)]
pub(super) struct Palette {
    seen: HashMap<[u8; 3], u64>,
    colours: Vec<[u8; 3]>,
    nearest: HashMap<[u8; 3], u8>,
}

impl Palette {
    /// The place of the colour that leaves a pixel as it was.
    pub(super) const CLEAR: u8 = 255;

    /// Counts the colours of a picture.
    pub(super) fn look_at(&mut self, rgb: &[u8]) {
        // Most pixels are as the one before them.
        for run in rgb.as_chunks::<3>().0.chunk_by(|one, next| one == next) {
            if let Some(pixel) = run.first() {
                *self.seen.entry(*pixel).or_insert(0) += run.len() as u64;
            }
        }
    }

    /// The colours that are used most, each away from those used more, the first times that it is asked for.
    fn settle(&mut self) {
        if !self.colours.is_empty() {
            return;
        }
        let mut seen: Vec<([u8; 3], u64)> = std::mem::take(&mut self.seen).into_iter().collect();
        seen.sort_by(|one, other| other.1.cmp(&one.1).then(one.0.cmp(&other.0)));
        // Where there are more colours than room, those that the eye takes for one of the others go first.
        for apart in [900, 500, 250, 100, 30, 0] {
            for (colour, _) in &seen {
                if self.colours.len() >= usize::from(Self::CLEAR) {
                    return;
                }
                if self.colours.iter().all(|other| distance(*colour, *other) > apart) {
                    self.colours.push(*colour);
                }
            }
        }
        if self.colours.is_empty() {
            self.colours.push([0; 3]);
        }
    }

    /// The pixels of a picture as places in the palette.
    pub(super) fn find_all(&mut self, rgb: &[u8]) -> Vec<u8> {
        self.settle();
        let (colours, nearest) = (&self.colours, &mut self.nearest);
        let pixels = rgb.as_chunks::<3>().0;
        let mut places = Vec::with_capacity(pixels.len());
        for run in pixels.chunk_by(|one, next| one == next) {
            let Some(pixel) = run.first() else { continue };
            let place = *nearest.entry(*pixel).or_insert_with(|| {
                let place = (0..colours.len()).min_by_key(|&place| {
                    colours.get(place).map_or(u32::MAX, |colour| distance(*pixel, *colour))
                });
                place.unwrap_or(0) as u8
            });
            places.resize(places.len() + run.len(), place);
        }
        places
    }

    /// Red, green and blue of each of 256 places.
    pub(super) fn bytes(&self) -> Vec<u8> {
        let mut bytes: Vec<u8> = self.colours.iter().flatten().copied().collect();
        bytes.resize(256 * 3, 0);
        bytes
    }
}

/// How unlike two colours are; green weighs most, as it does to the eye.
fn distance(one: [u8; 3], other: [u8; 3]) -> u32 {
    [2, 4, 1]
        .into_iter()
        .zip(one)
        .zip(other)
        .map(|((weight, one), other)| weight * u32::from(one.abs_diff(other)).pow(2))
        .sum()
}
