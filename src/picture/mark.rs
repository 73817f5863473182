use super::Colour;

/// A line's colour and width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    pub colour: Colour,
    /// Pixels.
    pub width: f32,
}

/// Which part of its words lies at their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The left end, half-way up.
    Left,
    /// Half-way along and half-way up.
    Middle,
    /// The right end, half-way up.
    Right,
}

impl Anchor {
    /// The left end of words of a width that are anchored at an x.
    #[must_use]
    pub fn left_end(self, x: f32, width: f32) -> f32 {
        match self {
            Self::Left => x,
            Self::Middle => x - width / 2.0,
            Self::Right => x - width,
        }
    }
}

/// One thing to draw. All lengths are pixels, x to the right and y down; turns are degrees clockwise.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// An ellipse; a circle when both radii are the same.
    Oval {
        /// Its middle.
        at: [f32; 2],
        /// Half its width and half its height before it is turned.
        radii: [f32; 2],
        /// Degrees clockwise.
        turn: f32,
        fill: Option<Colour>,
        stroke: Option<Stroke>,
    },
    /// A rectangle with round corners.
    Block {
        /// Its middle.
        at: [f32; 2],
        /// Half its width and half its height before it is turned.
        radii: [f32; 2],
        /// The radius of its corners.
        corner: f32,
        /// Degrees clockwise.
        turn: f32,
        fill: Option<Colour>,
        stroke: Option<Stroke>,
    },
    /// A convex area.
    Area {
        /// Its corners.
        points: Vec<[f32; 2]>,
        fill: Option<Colour>,
        stroke: Option<Stroke>,
    },
    /// An area of any shape: what its outlines hold, where those that turn the other way are holes.
    Outline {
        /// The corners of each outline, closed.
        loops: Vec<Vec<[f32; 2]>>,
        fill: Colour,
    },
    /// A line through points.
    Line {
        points: Vec<[f32; 2]>,
        /// Colour and width.
        stroke: Stroke,
        /// Lengths of dash and gap; nothing for an unbroken line.
        dash: Option<[f32; 2]>,
    },
    /// Words on one line.
    Words {
        /// Where they are anchored.
        at: [f32; 2],
        /// The height of the font.
        size: f32,
        /// Which part of them is there.
        anchor: Anchor,
        text: String,
        colour: Colour,
        /// Whether they are heavy.
        heavy: bool,
    },
}

impl Mark {
    /// The same so many times as large, and then moved.
    #[must_use]
    pub fn placed(mut self, scale: f32, [dx, dy]: [f32; 2]) -> Self {
        let go = |at: &mut [f32; 2]| *at = [at[0] * scale + dx, at[1] * scale + dy];
        let grow = |stroke: &mut Option<Stroke>| {
            if let Some(stroke) = stroke {
                stroke.width *= scale;
            }
        };
        match &mut self {
            Self::Oval { at, radii, stroke, .. } => {
                go(at);
                *radii = radii.map(|radius| radius * scale);
                grow(stroke);
            }
            Self::Block { at, radii, corner, stroke, .. } => {
                go(at);
                *radii = radii.map(|radius| radius * scale);
                *corner *= scale;
                grow(stroke);
            }
            Self::Area { points, stroke, .. } => {
                points.iter_mut().for_each(go);
                grow(stroke);
            }
            Self::Outline { loops, .. } => loops.iter_mut().flatten().for_each(go),
            Self::Line { points, stroke, dash } => {
                points.iter_mut().for_each(go);
                stroke.width *= scale;
                *dash = dash.map(|dash| dash.map(|length| length * scale));
            }
            Self::Words { at, size, .. } => {
                go(at);
                *size *= scale;
            }
        }
        self
    }
}

/// A whole picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// What lies under everything.
    pub ground: Colour,
    /// The marks, from the bottom up.
    pub marks: Vec<Mark>,
    /// A title for those who cannot see it, and for the file.
    pub title: String,
    /// What it shows, in words.
    pub words: String,
}
