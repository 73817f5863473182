use serde::{Deserialize, Serialize};

/// Points in a millimetre.
pub(super) const PER_MM: f32 = 72.0 / 25.4;

/// The sizes that handouts can be laid out for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum PaperSize {
    /// 210 by 297 mm (ISO 216:2007).
    #[default]
    A4,
    /// 8.5 by 11 inches (from memory; ANSI/ASME Y14.1 calls it A).
    Letter,
}

/// A sheet of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Paper {
    pub size: PaperSize,
    /// Whether it lies on its long side.
    pub landscape: bool,
}

impl Paper {
    /// The margin that is left free on every side, millimetres.
    pub const MARGIN: f32 = 14.0;

    /// Across and down, millimetres.
    #[must_use]
    pub fn millimetres(self) -> [f32; 2] {
        let [short, long] = match self.size {
            PaperSize::A4 => [210.0, 297.0],
            PaperSize::Letter => [215.9, 279.4],
        };
        if self.landscape { [long, short] } else { [short, long] }
    }

    /// Across and down, points.
    #[must_use]
    pub fn points(self) -> [f32; 2] {
        self.millimetres().map(|length| length * PER_MM)
    }

    /// What is inside the margins: left, top, right, bottom, points.
    #[must_use]
    pub fn inside(self) -> [f32; 4] {
        let [across, down] = self.points();
        let margin = Self::MARGIN * PER_MM;
        [margin, margin, across - margin, down - margin]
    }
}

/// The smallest letters on paper, points.
pub const SMALLEST: f32 = 8.5;
