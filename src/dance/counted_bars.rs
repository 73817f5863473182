use super::length::Length;

/// Bars counted, and a part of a bar left over, with its line.
#[derive(Clone, Copy, Default)]
pub(super) struct CountedBars {
    pub whole: u32,
    pub part: Option<(Length, usize)>,
    /// How much longer than they should be, in bars, those are together that do not add up; below nought shorter.
    pub over: f64,
}

impl CountedBars {
    /// Adds a bar or a part of one; what is told of it: the line, and what is wrong.
    pub fn add(&mut self, line: usize, length: Length, full: Length) -> Option<(usize, String)> {
        let number = self.whole + 1;
        let Some((part, begun)) = self.part else {
            if length > full {
                self.stands(length, full);
                return Some((line, format!("bar {number} of this strain is too long")));
            }
            self.begin(line, length, full);
            return None;
        };
        match part.plus(length) {
            Some(sum) if sum <= full => {
                self.begin(begun, sum, full);
                None
            }
            _ => {
                // What came before is no part of this bar.
                self.stands(part, full);
                if length > full {
                    self.stands(length, full);
                } else {
                    self.begin(line, length, full);
                }
                Some((begun, format!("bar {number} of this strain is too short")))
            }
        }
    }

    /// Counts what is no longer than a bar, from which more may make a whole one.
    pub fn begin(&mut self, line: usize, length: Length, full: Length) {
        self.part = (length < full).then_some((length, line));
        self.whole += u32::from(self.part.is_none());
    }

    /// Counts what is not as long as a bar as one.
    pub fn stands(&mut self, length: Length, full: Length) {
        self.part = None;
        self.whole += 1;
        self.over += length.share_of(full) - 1.0;
    }

    /// Bars from the start to what comes next, as they are played.
    pub fn played(self, full: Length) -> f64 {
        let part = self.part.map_or(0.0, |(part, _)| part.share_of(full));
        f64::from(self.whole) + self.over + part
    }

    /// The bars, the last one whether or not it is full.
    pub fn total(self) -> u32 {
        self.whole + u32::from(self.part.is_some())
    }
}
