//! What kind of a step one is, read from what it says of itself: a side's copy of a step is the kind that its model is.

use super::Step;
use crate::dance::{FreePlace, Landing};

/// A hop as high as this, metres, makes a caper of a single step; that of the half caper is 0.08 (common practice, no source).
const CAPERS: f64 = 0.06;

impl Step {
    /// Whether it is a single step: a step and a hop on the one foot, the other neither crossed nor circling, nor so high a hop as in a
    /// caper. Turns are danced on them, and a bar of three beats has one more.
    #[must_use]
    pub fn is_single_step(&self) -> bool {
        let low = self.rise.iter().all(|rise| *rise < CAPERS);
        low && self.is_plain()
            && matches!(
                self.feet.as_slice(),
                [Landing::Lead, Landing::Lead] | [Landing::Other, Landing::Other]
            )
    }

    /// Whether it is a double step: three steps and a hop, the free foot neither crossed nor circling.
    #[must_use]
    pub fn is_double_step(&self) -> bool {
        use Landing::{Lead, Other};
        self.is_plain() && self.feet == [Lead, Other, Lead, Lead]
    }

    /// Whether it is a jump: off the ground and down on both feet, with no step of one foot in it. A caper lands on one.
    #[must_use]
    pub fn is_jump(&self) -> bool {
        let up = self.feet.iter().position(|landing| *landing == Landing::Air);
        let down = self.feet.iter().rposition(|landing| *landing == Landing::Both);
        !self.steps() && up.zip(down).is_some_and(|(up, down)| up < down)
    }

    /// Whether it is standing while others dance, with the jump before one's own turn or without: half a bar or more on both feet with the
    /// hands down, and no step of one foot in it.
    #[must_use]
    pub fn is_wait(&self) -> bool {
        let hands = [&self.left_hand, &self.right_hand];
        let down = hands.iter().all(|heights| heights.iter().take(2).all(|height| *height == 0.0));
        !self.steps() && down && self.feet.get(..2).is_some_and(|feet| feet == [Landing::Both; 2])
    }

    /// Whether it is standing and nothing else: on both feet throughout, with the hands down.
    #[must_use]
    pub fn is_stand(&self) -> bool {
        let still = |values: &[f64]| values.iter().all(|value| *value == 0.0);
        let on_both = self.feet.iter().all(|landing| matches!(landing, Landing::Both | Landing::Stay));
        let hands = [&self.left_hand, &self.right_hand, &self.circles];
        self.is_wait() && on_both && still(&self.rise) && hands.into_iter().all(|values| still(values))
    }

    /// Whether the free foot is neither crossed nor circling on any count.
    fn is_plain(&self) -> bool {
        self.free.iter().all(|free| {
            free.circles == 0.0 && !matches!(free.at, FreePlace::CrossedBefore | FreePlace::CrossedBehind)
        })
    }

    /// Whether one foot lands in it.
    fn steps(&self) -> bool {
        self.feet.iter().any(|landing| matches!(landing, Landing::Lead | Landing::Other))
    }
}

#[cfg(test)]
mod tests {
    use super::super::built_in;
    use super::*;

    fn those(kind: impl Fn(&Step) -> bool) -> Vec<String> {
        built_in().into_iter().filter(kind).map(|step| step.short).collect()
    }

    /// The built-in steps are of the kinds that they are called by, whatever their letters are.
    #[test]
    fn the_kind_of_a_step_is_read_from_what_it_does() {
        assert_eq!(those(Step::is_single_step), ["ss"]);
        assert_eq!(those(Step::is_double_step), ["ds"]);
        assert_eq!(those(Step::is_jump), ["ftj", "hj", "sj"]);
        assert_eq!(those(Step::is_wait), ["st", "sb", "sj"]);
        assert_eq!(those(Step::is_stand), ["st", "sb"]);
    }

    /// A side's jump that lands on 4 is no waiting, and standing with a hand up is something to tell of.
    #[test]
    fn a_jump_that_lands_late_is_a_jump() {
        let mut jump = built_in().into_iter().find(|step| step.short == "ftj").unwrap();
        jump.feet = vec![Landing::Both, Landing::Both, Landing::Air, Landing::Both];
        assert!(jump.is_jump() && !jump.is_wait() && !jump.is_stand());
        let mut stand = built_in().into_iter().find(|step| step.short == "st").unwrap();
        stand.right_hand[3] = 1.0;
        assert!(stand.is_wait() && !stand.is_stand());
    }
}
