//! Eight unknowns from eight or more equations, as near as all of them can be met together.

/// Equations that are added one by one; what they say is kept as a triangle, by rotations, which lose no figures to squaring.
pub(super) struct LeastSquares {
    rows: [[f64; 9]; 8],
}

impl LeastSquares {
    pub(super) fn new() -> Self {
        Self { rows: [[0.0; 9]; 8] }
    }

    /// Adds an equation: eight factors, and what they come to.
    pub(super) fn add(&mut self, mut row: [f64; 9]) {
        for (column, pivot) in self.rows.iter_mut().enumerate() {
            let (Some(&above), Some(&below)) = (pivot.get(column), row.get(column)) else { return };
            let length = above.hypot(below);
            if length == 0.0 {
                continue;
            }
            let (cos, sin) = (above / length, below / length);
            for (one, other) in pivot.iter_mut().zip(row.iter_mut()).skip(column) {
                (*one, *other) = (cos * *one + sin * *other, cos * *other - sin * *one);
            }
        }
    }

    /// The unknowns; nothing where the equations leave one of them open.
    pub(super) fn solve(&self) -> Option<[f64; 8]> {
        let greatest = self.rows.iter().flatten().fold(0.0_f64, |most, value| most.max(value.abs()));
        let mut found = [0.0; 8];
        for (column, row) in self.rows.iter().enumerate().rev() {
            let known: f64 =
                row.iter().zip(&found).skip(column + 1).map(|(factor, value)| factor * value).sum();
            let own = *row.get(column)?;
            if own.abs() <= 1e-10 * greatest {
                return None;
            }
            *found.get_mut(column)? = (row[8] - known) / own;
        }
        found.iter().all(|value| value.is_finite()).then_some(found)
    }

    /// How far a sum of the unknowns by these factors goes when each equation is off by one, by chance; nothing where the
    /// equations leave it open.
    pub(super) fn give(&self, factors: [f64; 8]) -> Option<f64> {
        let mut found = [0.0; 8];
        for (column, factor) in factors.into_iter().enumerate() {
            let known: f64 = self
                .rows
                .iter()
                .zip(&found)
                .take(column)
                .filter_map(|(row, value)| Some(row.get(column)? * value))
                .sum();
            let own = *self.rows.get(column)?.get(column)?;
            *found.get_mut(column)? = (factor - known) / own;
        }
        let give = found.iter().map(|value| value * value).sum::<f64>().sqrt();
        give.is_finite().then_some(give)
    }
}
