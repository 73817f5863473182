//! A stream of numbers from which anything at all is made: the same stream makes the same thing, and a stream that is shorter or
//! has smaller numbers makes a simpler one, so that what fails can be made small.

use proptest::prelude::*;

/// Numbers that are drawn one after the other; noughts where there are no more.
pub struct Draws {
    numbers: Vec<u32>,
    at: usize,
    /// Where more come from, and how many there are in all.
    more: (u64, usize),
}

impl Draws {
    /// These numbers.
    pub fn of(numbers: Vec<u32>) -> Self {
        Self { numbers, at: 0, more: (0, 0) }
    }

    /// So many numbers by chance, the same for the same seed (G. Marsaglia, "Xorshift RNGs", 2003).
    pub fn seeded(seed: u64, many: usize) -> Self {
        let state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x2545_F491_4F6C_DD1D;
        Self { numbers: Vec::new(), at: 0, more: (state, many) }
    }

    fn next(&mut self) -> u32 {
        self.at += 1;
        let (state, many) = &mut self.more;
        if self.at <= *many {
            *state ^= *state << 13;
            *state ^= *state >> 7;
            *state ^= *state << 17;
            return (*state >> 32) as u32;
        }
        self.numbers.get(self.at - 1).copied().unwrap_or_default()
    }

    /// One of so many, from 0.
    pub fn below(&mut self, many: usize) -> usize {
        ((u64::from(self.next()) * many as u64) >> 32) as usize
    }

    /// A whole number from one to another, both included.
    pub fn whole(&mut self, least: u32, most: u32) -> u32 {
        least + self.below((most - least + 1) as usize) as u32
    }

    /// Whether something is so that is so once in so many times.
    pub fn once_in(&mut self, many: usize) -> bool {
        self.below(many) + 1 == many
    }

    /// A number of tenths, hundredths or fractions without end, between two.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let share = f64::from(self.next()) / f64::from(u32::MAX);
        let value = least + (most - least) * share;
        match self.below(3) {
            0 => (value * 10.0).round() / 10.0,
            1 => (value * 100.0).round() / 100.0,
            _ => value,
        }
        .clamp(least, most)
    }

    /// One of a list.
    pub fn one_of<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())].clone()
    }

    /// Something, once in so many times.
    pub fn maybe<T>(&mut self, many: usize, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.once_in(many).then(|| make(self))
    }

    /// So many of something, from some to some.
    pub fn many<T>(&mut self, least: u32, most: u32, mut make: impl FnMut(&mut Self) -> T) -> Vec<T> {
        (0..self.whole(least, most)).map(|_| make(self)).collect()
    }
}

/// Streams of at most so many numbers.
pub fn draws(most: usize) -> impl Strategy<Value = Vec<u32>> {
    prop::collection::vec(any::<u32>(), most / 2..most)
}
