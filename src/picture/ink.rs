/// Red, green, blue and opacity, each 0 to 255, sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8, pub u8);

impl Colour {
    /// An opaque colour from 0xRRGGBB.
    #[must_use]
    pub const fn hex(rgb: u32) -> Self {
        Self((rgb >> 16) as u8, (rgb >> 8) as u8, rgb as u8, 255)
    }

    /// The same colour with an opacity from 0 to 255.
    #[must_use]
    pub const fn faded(self, opacity: u8) -> Self {
        Self(self.0, self.1, self.2, opacity)
    }
}

/// The colours that pictures and window are drawn in.
///
/// Odds and evens are from the palette of M. Okabe and K. Ito, "Color Universal Design" (2008), which stays
/// apart for colour-blind eyes; they differ in shape as well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ink {
    /// Slate or paper: what everything is drawn on.
    pub floor: Colour,
    /// The panels round it.
    pub panel: Colour,
    /// The bar across the top.
    pub bar: Colour,
    /// Something raised from its panel.
    pub raised: Colour,
    /// Something chosen.
    pub chosen: Colour,
    /// Words and chalk.
    pub words: Colour,
    /// Quieter words.
    pub quiet: Colour,
    /// Lines that only part things.
    pub faint: Colour,
    /// Odd numbers.
    pub odd: Colour,
    /// Even numbers.
    pub even: Colour,
    /// The outline of bodies, heads and what is written on them.
    pub outline: Colour,
    /// The number on a head.
    pub number: Colour,
    /// Handkerchiefs.
    pub linen: Colour,
    /// A fault that must be mended.
    pub fault: Colour,
    /// What is well, and the loop.
    pub well: Colour,
}

/// Chalk on slate.
pub const SLATE: Ink = Ink {
    floor: Colour::hex(0x24_3331),
    panel: Colour::hex(0x1B_2625),
    bar: Colour::hex(0x16_2020),
    raised: Colour::hex(0x24_3331),
    chosen: Colour::hex(0x2E_413E),
    words: Colour::hex(0xE9_E4D6),
    quiet: Colour::hex(0x9D_ABA3),
    faint: Colour::hex(0x3A_4B48),
    odd: Colour::hex(0xE6_9F00),
    even: Colour::hex(0x56_B4E9),
    outline: Colour::hex(0x14_201F),
    number: Colour::hex(0xFF_FFFF),
    linen: Colour::hex(0xFF_FFFF),
    fault: Colour::hex(0xFF_7F50),
    well: Colour::hex(0x2F_B89A),
};

/// Ink on paper.
pub const PAPER: Ink = Ink {
    floor: Colour::hex(0xFF_FFFF),
    panel: Colour::hex(0xF6_F3EA),
    bar: Colour::hex(0xEC_E7DA),
    raised: Colour::hex(0xFF_FFFF),
    chosen: Colour::hex(0xE9_E3D4),
    words: Colour::hex(0x0C_0C0C),
    quiet: Colour::hex(0x38_3D3A),
    faint: Colour::hex(0xC9_C5B9),
    odd: Colour::hex(0xD5_5E00),
    even: Colour::hex(0x00_72B2),
    outline: Colour::hex(0x11_1111),
    number: Colour::hex(0xFF_FFFF),
    linen: Colour::hex(0xFF_FFFF),
    fault: Colour::hex(0xB8_3A0B),
    well: Colour::hex(0x00_6B50),
};

/// The contrast of two opaque colours, 1 to 21, as WCAG 2.2 defines it.
#[must_use]
pub fn contrast(one: Colour, other: Colour) -> f64 {
    let channel = |value: u8| {
        let value = f64::from(value) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    let light =
        |colour: Colour| 0.2126 * channel(colour.0) + 0.7152 * channel(colour.1) + 0.0722 * channel(colour.2);
    let (one, other) = (light(one), light(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2 (W3C, 2023), success criteria 1.4.3 (text 4.5:1) and 1.4.11 (marks 3:1). The two fixed values
    /// are the definition's own ends: black on white is 21:1, a colour on itself 1:1.
    #[test]
    fn both_inks_can_be_read() {
        assert!((contrast(Colour::hex(0), Colour::hex(0xFF_FFFF)) - 21.0).abs() < 1e-9);
        assert!((contrast(Colour::hex(0x55_5555), Colour::hex(0x55_5555)) - 1.0).abs() < 1e-9);
        for ink in [SLATE, PAPER] {
            for ground in [ink.floor, ink.panel, ink.bar, ink.raised, ink.chosen] {
                for words in [ink.words, ink.quiet] {
                    assert!(contrast(words, ground) >= 4.5, "{words:?} on {ground:?}");
                }
                for mark in [ink.odd, ink.even] {
                    assert!(contrast(mark, ground) >= 3.0, "{mark:?} on {ground:?}");
                }
            }
            for ground in [ink.floor, ink.panel] {
                for words in [ink.fault, ink.well] {
                    assert!(contrast(words, ground) >= 4.5, "{words:?} on {ground:?}");
                }
            }
            assert!(contrast(ink.number, ink.outline) >= 4.5);
            assert!(contrast(ink.odd, ink.outline) >= 3.0 && contrast(ink.even, ink.outline) >= 3.0);
        }
    }
}
