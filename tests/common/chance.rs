//! Numbers by chance, the same in each run, for the tests that do what nobody thought of.

/// Numbers by chance, the same in each run (G. Marsaglia, "Xorshift RNGs", 2003).
pub struct Chance(pub u64);

impl Chance {
    /// One of so many, from 0.
    pub fn below(&mut self, many: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as usize % many
    }
}
