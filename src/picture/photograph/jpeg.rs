//! What the segments of a JPEG say, before anything of it is unpacked.

/// What is known of a JPEG by its segments.
#[derive(Default)]
pub(super) struct JpegLook {
    /// What its frame says, where it has one.
    pub(super) frame: Option<JpegFrame>,
    /// Whether it goes on to its end: what is cut short, or was never written to the last, does not.
    pub(super) is_whole: bool,
}

/// How the picture is written.
pub(super) struct JpegFrame {
    /// The number of its kind, 0 for the plainest.
    kind: u8,
    /// Bits a sample.
    bits: u8,
    /// How many inks it is mixed of.
    pub(super) inks: u8,
    /// Samples a pixel, of all inks.
    samples: f64,
}

impl JpegLook {
    /// Looks at the bytes of a file.
    pub(super) fn at(bytes: &[u8]) -> Self {
        let mut look = Self::default();
        look.go_through(bytes);
        look
    }

    /// Goes from segment to segment as far as there are any.
    fn go_through(&mut self, bytes: &[u8]) -> Option<()> {
        let mut at = 2;
        loop {
            // Between two segments is what is packed, in which this byte is always followed by nothing.
            at += bytes.get(at..)?.iter().position(|byte| *byte == 0xff)?;
            match *bytes.get(at + 1)? {
                0xff => at += 1,
                0x00 | 0x01 | 0xd0..=0xd8 => at += 2,
                0xd9 => {
                    self.is_whole = true;
                    return Some(());
                }
                kind => {
                    let [high, low] = *bytes.get(at + 2..at + 4)? else { return None };
                    let is_frame = matches!(kind, 0xc0..=0xcf) && !matches!(kind, 0xc4 | 0xc8 | 0xcc);
                    let end = at + 2 + usize::from(u16::from_be_bytes([high, low]));
                    if is_frame && self.frame.is_none() {
                        self.frame = JpegFrame::of(kind - 0xc0, bytes.get(at + 4..end)?);
                    }
                    at = end;
                }
            }
        }
    }
}

impl JpegFrame {
    fn of(kind: u8, segment: &[u8]) -> Option<Self> {
        let (bits, inks) = (*segment.first()?, *segment.get(5)?);
        // Three bytes an ink, of which the second says how often it is sampled across and down.
        let often = |ink: &[u8]| ink.get(1).map_or((1, 1), |both| (both >> 4, both & 15));
        let all: Vec<(u8, u8)> = segment.get(6..)?.chunks(3).take(usize::from(inks)).map(often).collect();
        let most = |of: fn(&(u8, u8)) -> u8| all.iter().map(of).max().unwrap_or(1).max(1);
        let whole = f64::from(most(|ink| ink.0)) * f64::from(most(|ink| ink.1));
        let samples = all.iter().map(|(across, down)| f64::from(*across) * f64::from(*down) / whole).sum();
        Some(Self { kind, bits, inks, samples })
    }

    /// Whether it is one of the kinds that are read: in one go or in several, eight bits a sample.
    pub(super) fn is_usual(&self) -> bool {
        self.kind <= 2 && self.bits == 8
    }

    /// What unpacking a pixel of it takes, bytes: what is shown, and where it comes in several goes all that is packed, too.
    pub(super) fn bytes_a_pixel(&self) -> f64 {
        let shown = if self.inks == 1 { 1.0 } else { 3.0 };
        if self.kind == 2 { shown + 2.0 * self.samples } else { shown }
    }
}
