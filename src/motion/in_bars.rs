use super::fill_phrase;
use super::phrase_in_bars::steps_in_other_bars;
use super::steps::Step;
use crate::dance::{BarCounts, Part};

/// When what falls on a count of some bars falls in others, as many: as far into its bar, but where the bar has a jump. There all that
/// is before the jump has the room that is more, and what goes with the jump goes with it still.
pub struct InBars<'a> {
    before: &'a BarCounts,
    after: &'a BarCounts,
    /// How many counts into each bar its jump begins, where it has one.
    jumps: Vec<Option<f64>>,
    /// Where each step begins, and where it does then.
    steps: Vec<(usize, usize)>,
}

impl<'a> InBars<'a> {
    /// For what is danced to a phrase in the bars before.
    #[must_use]
    pub fn danced_to(phrase: &str, known: &[Step], before: &'a BarCounts, after: &'a BarCounts) -> Self {
        let mut jumps = vec![None; before.bars() as usize];
        let filled = fill_phrase(phrase, known, before.counts() as usize);
        for (at, step) in filled.into_iter().flat_map(|filled| filled.steps) {
            let is_jump = known.get(step).is_some_and(Step::is_jump);
            let (bar, inside) = before.at(at as f64);
            if let Some(jump) = jumps.get_mut(bar as usize).filter(|_| is_jump) {
                jump.get_or_insert(inside);
            }
        }
        Self { before, after, jumps, steps: steps_in_other_bars(phrase, known, before, after) }
    }

    /// The count in the bars after.
    #[must_use]
    pub fn at(&self, count: f64) -> f64 {
        let (bar, inside) = self.before.at(count);
        let [old, new] = [self.before, self.after].map(|bars| f64::from(bars.in_bar(bar)));
        let (begin, more) = (self.after.begin_of(bar), new - old);
        match self.jumps.get(bar as usize).copied().flatten() {
            // Where bars get shorter there is room for it only if it comes late enough.
            Some(jump) if more != 0.0 && jump + more >= 0.0 => {
                begin + if inside > jump { inside + more } else { share(inside, jump) * (jump + more) }
            }
            _ => begin + inside * new / old,
        }
    }

    /// Has a part's ways, turns and leads fall so; not its steps.
    pub fn have_part(&self, part: &mut Part) {
        for leg in &mut part.legs {
            (leg.begin, leg.end) = (self.at(leg.begin), self.at(leg.end));
            for at in leg.through.iter_mut().filter_map(|point| point.at.as_mut()) {
                *at = self.at(*at);
            }
        }
        for turn in &mut part.turns {
            (turn.begin, turn.end) = (self.at(turn.begin), self.at(turn.end));
        }
        for lead in &mut part.leads {
            lead.at = self.lead_at(lead.at);
        }
    }

    /// The count in the bars after of a foot that was chosen: that of the step on which it lies. Steps do not go by shares of a bar.
    fn lead_at(&self, count: f64) -> f64 {
        let of_step = self.steps.iter().find(|(at, _)| (count - *at as f64).abs() < 0.5);
        of_step.map_or_else(|| self.at(count), |(at, there)| count - *at as f64 + *there as f64)
    }
}

/// How much of a length something is; none of one that is nothing.
fn share(part: f64, length: f64) -> f64 {
    if length > 0.0 { part / length } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::super::{TRAVELLING_PHRASE, USUAL_PHRASE, in_other_bars, known_steps};
    use super::*;
    use crate::dance::{Extra, Foot, Lead, Metre, PlaceNumber};

    #[test]
    fn what_goes_with_a_jump_goes_with_it_still() {
        let (before, known) = (BarCounts::usual(8), known_steps(&[]));
        let after = BarCounts::of(8, Metre::NineEight);
        // The jump on the half-bar of bar 4 leaves the ground on its count 3, and on count 5 of six.
        let travelling = InBars::danced_to(TRAVELLING_PHRASE, &known, &before, &after);
        for (count, there) in
            [(4.0, 6.0), (6.0, 9.0), (12.0, 18.0), (13.0, 20.0), (14.0, 22.0), (15.0, 23.0), (16.0, 24.0)]
        {
            assert_eq!(travelling.at(count), there, "{count}");
        }
        // Feet together is a bar of its own, which the step that is more comes before.
        let usual = InBars::danced_to(USUAL_PHRASE, &known, &before, &after);
        for (count, there) in [(12.0, 18.0), (13.0, 21.0), (14.0, 22.0), (16.0, 24.0)] {
            assert_eq!(usual.at(count), there, "{count}");
        }
        // Where nothing can be read, by the share of the bar.
        assert_eq!(InBars::danced_to("2 zz", &known, &after, &before).at(9.0), 6.0);
    }

    /// A foot is chosen for a step, and stays with it.
    #[test]
    fn a_foot_that_was_chosen_goes_with_its_step() {
        let (before, known) = (BarCounts::usual(8), known_steps(&[]));
        let after = BarCounts::of(8, Metre::NineEight);
        for (phrase, leads) in [
            // The step that a bar has more comes after the others, but before a jump.
            ("4 ss, 2 ds", &[(0.0, 0.0), (2.0, 2.0), (4.0, 6.0), (6.0, 8.0), (8.0, 12.0), (12.0, 18.0)][..]),
            ("ss, hj, ds", &[(0.0, 0.0), (2.0, 4.0), (4.0, 6.0)]),
            ("2 ss", &[(2.25, 2.25), (30.0, 44.0)]),
        ] {
            for (at, there) in leads {
                let lead = |at| Lead { at, foot: Foot::Left, extra: Extra::new() };
                let mut part = Part { leads: vec![lead(*at)], ..Part::still(PlaceNumber::from_index(0)) };
                InBars::danced_to(phrase, &known, &before, &after).have_part(&mut part);
                assert_eq!(part.leads[0].at, *there, "{phrase}: {at}");
                let danced = in_other_bars(phrase, &known, &before, &after);
                InBars::danced_to(&danced, &known, &after, &before).have_part(&mut part);
                assert_eq!(part.leads[0].at, *at, "{danced}: back to {at}");
            }
        }
    }

    #[test]
    fn there_and_back_is_where_it_was() {
        let (before, known) = (BarCounts::usual(8), known_steps(&[]));
        let mut mixed = BarCounts::of(5, Metre::SixEight);
        mixed.add(Metre::ThreeFour, 3);
        for after in [BarCounts::of(8, Metre::NineEight), mixed] {
            for phrase in [TRAVELLING_PHRASE, USUAL_PHRASE, "2 st, sj, st, 4 ds", "2 zz"] {
                let there = InBars::danced_to(phrase, &known, &before, &after);
                let danced = in_other_bars(phrase, &known, &before, &after);
                let back = InBars::danced_to(&danced, &known, &after, &before);
                for count in (0..=128).map(|quarter| f64::from(quarter) / 4.0) {
                    let off = (back.at(there.at(count)) - count).abs();
                    assert!(off < 1e-9, "{phrase}: {count} comes back {off} off");
                }
                assert_eq!(in_other_bars(&danced, &known, &after, &before), phrase, "{danced}");
            }
        }
    }
}
