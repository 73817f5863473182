use crate::dance::Dancer;
use crate::motion::{Span, Weight};

/// A moment by which a dancer is to be somewhere, told from another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// That moment itself.
    Now,
    /// The end of the bar.
    Bar,
    /// The last step before the next jump.
    Jump,
    /// The end of the half.
    Half,
    /// The end of the figure.
    Figure,
}

impl By {
    /// All of them, in order of time.
    pub const ALL: [Self; 5] = [Self::Now, Self::Bar, Self::Jump, Self::Half, Self::Figure];

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Now => "this count",
            Self::Bar => "the end of this bar",
            Self::Jump => "the last step before the jump",
            Self::Half => "the end of this half",
            Self::Figure => "the end of the figure",
        }
    }

    /// The count of the figure, for a dancer at another count of it. Nothing where no jump comes.
    #[must_use]
    pub fn count(self, span: &Span, dancer: Dancer, local: f64) -> Option<f64> {
        let (bars, counts) = (span.bar_counts(), span.end() - span.begin());
        Some(match self {
            Self::Now => local,
            Self::Bar => bars.begin_of(bars.at(local + 1e-6).0 + 1).min(counts),
            Self::Jump => {
                let falls = span.falls(dancer);
                let from = (local - 1e-6).ceil().max(0.0) as usize;
                let air = (from..falls.len())
                    .find(|at| falls.get(*at).is_some_and(|fall| fall.weight == Weight::Air))?;
                // The step with the jump begins where the one before it is over; they are there by then.
                let begins = (0..=air).rev().find(|at| falls.get(*at).is_some_and(|fall| fall.begins))?;
                (begins as f64 >= local).then_some(begins as f64)?
            }
            Self::Half if local < counts / 2.0 - 1e-6 => counts / 2.0,
            Self::Half | Self::Figure => counts,
        })
    }

    /// Those that are moments of their own from a count of a figure on, with their counts: no two the same.
    #[must_use]
    pub fn choices(span: &Span, dancer: Dancer, local: f64) -> Vec<(Self, f64)> {
        let mut choices: Vec<(Self, f64)> = Vec::new();
        for by in Self::ALL {
            if let Some(count) = by.count(span, dancer, local)
                && !choices.iter().any(|(_, known)| (known - count).abs() < 1e-6)
            {
                choices.push((by, count));
            }
        }
        choices
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Figure, Set};
    use crate::figures::motion_of;

    /// The everyday phrase of four bars, `2 ds, 2 ss, ftj` (common practice, no source), twice: the jump is the fourth bar
    /// of each half.
    #[test]
    fn moments_of_a_figure_of_two_halves() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        dance.figures.push(Figure::drawn("draw", "Draw", 8));
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        let at = |local: f64| By::ALL.map(|by| by.count(span, Dancer(0), local));
        assert_eq!(at(5.5), [Some(5.5), Some(8.0), Some(12.0), Some(16.0), Some(32.0)]);
        assert_eq!(at(16.0), [Some(16.0), Some(20.0), Some(28.0), Some(32.0), Some(32.0)]);
        // In the jump itself there is no step before it any more.
        assert_eq!(at(13.0)[2], None);
        assert_eq!(at(30.0), [Some(30.0), Some(32.0), None, Some(32.0), Some(32.0)]);
        let choices = By::choices(span, Dancer(0), 30.0);
        assert_eq!(choices, [(By::Now, 30.0), (By::Bar, 32.0)]);
    }
}
