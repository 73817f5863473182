use super::palette::Palette;

/// The part of a picture that is not as it was, as places in the palette, with [`Palette::CLEAR`] where it is.
pub(crate) struct Changed {
    pub left: u32,
    pub top: u32,
    pub width: u32,
    pub height: u32,
    pub pixels: Vec<u8>,
}

impl Changed {
    pub fn of(before: Option<&[u8]>, now: &[u8], size: u32) -> Self {
        let side = size as usize;
        let Some(before) = before else {
            return Self { left: 0, top: 0, width: size, height: size, pixels: now.to_vec() };
        };
        let (mut left, mut right, mut top, mut bottom) = (side, 0, side, 0);
        for (row, (old, new)) in before.chunks(side).zip(now.chunks(side)).enumerate() {
            let differs = |(old, new): (&u8, &u8)| old != new;
            if let Some(first) = old.iter().zip(new).position(differs) {
                let last = old.iter().zip(new).rposition(differs).unwrap_or(first);
                (left, right) = (left.min(first), right.max(last + 1));
                (top, bottom) = (top.min(row), row + 1);
            }
        }
        if right <= left {
            // Nothing moves; a picture has at least one pixel.
            return Self { left: 0, top: 0, width: 1, height: 1, pixels: vec![Palette::CLEAR] };
        }
        let mut pixels = Vec::with_capacity((right - left) * (bottom - top));
        for (old, new) in before.chunks(side).zip(now.chunks(side)).take(bottom).skip(top) {
            let row = old.iter().zip(new).take(right).skip(left);
            pixels.extend(row.map(|(old, new)| if old == new { Palette::CLEAR } else { *new }));
        }
        Self {
            left: left as u32,
            top: top as u32,
            width: (right - left) as u32,
            height: (bottom - top) as u32,
            pixels,
        }
    }
}
