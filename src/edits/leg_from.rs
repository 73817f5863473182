use super::redraw::TIME_STEP;
use crate::dance::BarCounts;

/// Where a leg begins that a drag makes anew.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LegFrom {
    /// A bar before, or as long before as so far a way needs, but not before they last stood.
    #[default]
    Usual,
    /// Where they last stood: the end of the leg before, or the start of the figure.
    LastStood,
    /// The start of the bar that it ends in, or at whose end it ends.
    BarStart,
}

impl LegFrom {
    /// Every choice.
    pub const ALL: [Self; 3] = [Self::Usual, Self::LastStood, Self::BarStart];

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Usual => "as usual",
            Self::LastStood => "where they last stood",
            Self::BarStart => "this bar's start",
        }
    }

    /// The same in as few letters as stand on a button.
    #[must_use]
    pub fn in_short(self) -> &'static str {
        match self {
            Self::Usual => "as usual",
            Self::LastStood => "last stood",
            Self::BarStart => "bar's start",
        }
    }

    /// What it does, in a sentence.
    #[must_use]
    pub fn help(self) -> &'static str {
        match self {
            Self::Usual => "A new path takes a bar, or as long as so far a way needs",
            Self::LastStood => {
                "A new path sets out at once: when the path before ends, or when the figure begins"
            }
            Self::BarStart => "A new path sets out at the start of the bar that it ends in",
        }
    }

    /// The count of the figure at which a leg begins that ends at `local`; the one before ends at `before`, and so far a
    /// way usually takes `usual` counts.
    pub(super) fn begin(self, bars: &BarCounts, before: f64, local: f64, usual: f64) -> f64 {
        match self {
            Self::Usual => before.max(local - usual),
            Self::LastStood => before,
            Self::BarStart => {
                before.max(bars.begin_of(bars.begun_before(local - TIME_STEP).saturating_sub(1)))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{drag_dancer, go_by};
    use super::*;
    use crate::dance::{Dance, Dancer, Figure, Leg, Part, Set};
    use crate::figures::motion_of;

    #[test]
    fn a_new_leg_begins_where_it_is_told_to() {
        let bars = BarCounts::usual(8);
        for (from, counts) in [
            (LegFrom::Usual, [(11.0, 7.0), (16.0, 12.0)]),
            (LegFrom::LastStood, [(11.0, 2.0), (16.0, 2.0)]),
            (LegFrom::BarStart, [(11.0, 8.0), (16.0, 12.0)]),
        ] {
            for (local, begin) in counts {
                assert_eq!(from.begin(&bars, 2.0, local, 4.0), begin, "{from:?} to {local}");
                // It never begins before the leg before has ended.
                assert_eq!(from.begin(&bars, 10.0, 11.0, 4.0), 10.0);
            }
        }
    }

    #[test]
    fn a_leg_to_the_end_of_a_figure_begins_where_they_last_stood() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("draw", "Draw", 8);
        let mut part = Part::still(1);
        part.legs.push(Leg::straight(0.0, 3.0, -0.6, 0.4));
        figure.parts.push(part);
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        let home = go_by(&dance, span, Dancer(0), 32.0, (-1.2, 0.0), LegFrom::LastStood).unwrap();
        let legs = &home.figures[0].parts[0].legs;
        assert_eq!((legs.len(), legs[1].begin, legs[1].end), (2, 3.0, 32.0));
        // A drag at a later count takes a bar, as before.
        let dragged = drag_dancer(&dance, &motion, Dancer(0), 16.0, -1.2, 0.0).unwrap();
        let legs = &dragged.figures[0].parts[0].legs;
        assert_eq!((legs[1].begin, legs[1].end), (12.0, 16.0));
    }
}
