/// Counts in a bar: 1 2 3 4, two to each strong beat [MB1].
pub const COUNTS_PER_BAR: u32 = 4;
