use super::motion_of::motion_of;
use crate::dance::{Dance, Dancer, Figure, Foot, Landing, OwnStep, Set};
use crate::motion::limbs::{Gait, Limbs};
use crate::motion::{Clock, Motion, Weight, known_steps};

/// A step danced on the spot by one dancer, again and again, so that it is seen as it goes into itself.
#[derive(Clone, Debug)]
pub struct StepAlone {
    pub motion: Motion,
    pub clock: Clock,
    pub gait: Gait,
    /// How many counts the step has.
    pub counts: usize,
    /// The counts at which it begins, but for the first time and the last, and the foot that leads it where one does.
    begins: Vec<(f64, Option<Foot>)>,
}

/// A dance of one dancer as tall, to the music of another, with what it says of steps, and nothing danced yet.
#[must_use]
pub fn one_on_the_spot(dance: &Dance) -> Dance {
    let mut alone = Dance::new("", Set::longways(1, dance.set.across, dance.set.along));
    alone.music.speed = dance.music.speed;
    alone.music.metre = dance.music.metre;
    alone.steps.clone_from(&dance.steps);
    (alone.hops, alone.height) = (dance.hops, dance.height);
    alone
}

/// How often it is danced at the least: once before those that are seen, from both feet and the first one again, and once after them.
const TIMES: usize = 5;

impl StepAlone {
    /// A step to a dance's own music, begun by a foot: one of the dance's own, or a built-in one by its letters; nothing where there is no such
    /// step. One that does not change feet is always led by that foot.
    #[must_use]
    pub fn of(dance: &Dance, own: Option<&OwnStep>, short: &str, lead: Foot) -> Option<Self> {
        let mut alone = one_on_the_spot(dance);
        alone.steps = own.cloned().into_iter().collect();
        let known = known_steps(&alone.steps);
        let step = known.iter().find(|step| step.short == short)?;
        let counts = step.counts();
        let bar = alone.music.metre.counts() as usize;
        // As many whole bars as it fills.
        let bars = (1..=counts).find(|bars| (bars * bar).is_multiple_of(counts))?;
        let bars = bars * (TIMES * counts).div_ceil(bars * bar);
        let mut figure = Figure::drawn("step", "step", u32::try_from(bars).ok()?);
        let foot = if lead == Foot::Left { "left" } else { "right" };
        figure.phrase = format!("{foot}, {} {short}", bars * bar / counts);
        alone.figures.push(figure);
        let motion = motion_of(&alone, None).ok()?;
        let clock = Clock::of_dance(&alone, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let falls = motion.spans().first()?.falls(Dancer(0));
        let times = bars * bar / counts;
        let begins = (1..times.max(2) - 1).map(|time| {
            let at = time * counts;
            let leads = step.feet.iter().zip(falls.get(at..).unwrap_or_default());
            let lead = leads.filter_map(|(landing, fall)| match (landing, fall.weight) {
                (Landing::Lead, Weight::Left) | (Landing::Other, Weight::Right) => Some(Foot::Left),
                (Landing::Lead, Weight::Right) | (Landing::Other, Weight::Left) => Some(Foot::Right),
                _ => None,
            });
            (at as f64, { lead }.next())
        });
        let begins = begins.collect();
        Some(Self { motion, clock, gait, counts, begins })
    }

    /// The body at a count.
    #[must_use]
    pub fn limbs(&self, count: f64) -> Limbs {
        self.gait.limbs(&self.motion, &self.clock, count)
    }

    /// Where it begins with a foot, counts; where it does with none, or always with the other, the first time that is seen.
    #[must_use]
    pub fn begins(&self, lead: Foot) -> f64 {
        let first = self.begins.first().map_or(0.0, |(at, _)| *at);
        self.begins.iter().find(|(_, foot)| *foot == Some(lead)).map_or(first, |(at, _)| *at)
    }

    /// The foot that leads it where it begins.
    #[must_use]
    pub fn lead(&self, begins: f64) -> Option<Foot> {
        self.begins.iter().find(|(at, _)| *at == begins).and_then(|(_, foot)| *foot)
    }

    /// The count that is seen after so many seconds of the dance: it goes round where it comes to the same foot again.
    #[must_use]
    pub fn after(&self, seconds: f64) -> f64 {
        let begin = self.begins.first().map_or(0.0, |(at, _)| *at);
        let lead = self.lead(begin);
        let again = self.begins.iter().skip(1).find(|(_, foot)| *foot == lead);
        let end = again.map_or(begin + self.counts as f64, |(at, _)| *at);
        let (from, to) = (self.clock.seconds(begin), self.clock.seconds(end));
        self.clock.counts(from + seconds.rem_euclid((to - from).max(1e-3))).clamp(begin, end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Metre;

    /// Each known step, in each metre, goes round without a jump.
    #[test]
    fn every_step_goes_into_itself() {
        for metre in Metre::ALL {
            let mut dance = Dance::new("Test", Set::longways(2, 2.0, 2.0));
            dance.music.metre = metre;
            for step in known_steps(&[]) {
                let alone = StepAlone::of(&dance, None, &step.short, Foot::Right).unwrap();
                assert_eq!(alone.counts, step.counts());
                let begin = alone.after(0.0);
                let end = {
                    // Just before it goes round.
                    let mut last = begin;
                    let mut time = 0.0;
                    loop {
                        let count = alone.after(time);
                        if count < last {
                            break last;
                        }
                        (last, time) = (count, time + 0.005);
                    }
                };
                let at = |count: f64| alone.gait.limbs(&alone.motion, &alone.clock, count);
                let (first, last) = (at(begin), at(end));
                for side in 0..2 {
                    let apart = (first.feet[side] - last.feet[side]).length();
                    assert!(apart < 0.12, "{} {metre} {side}: {apart} m", step.short);
                    let apart = (first.hands[side] - last.hands[side]).length();
                    assert!(apart < 0.12, "{} {metre} {side}: {apart} m", step.short);
                }
                for lead in [Foot::Left, Foot::Right] {
                    let begins = alone.begins(lead);
                    assert!(begins >= alone.counts as f64 - 1e-9);
                    assert!(begins + alone.counts as f64 <= alone.motion.counts() + 1e-9);
                }
            }
        }
    }

    /// One that does not change feet is led by the foot that is asked for; of one that does, both feet are there.
    #[test]
    fn it_is_led_by_the_foot_that_is_asked_for() {
        let dance = Dance::new("Test", Set::longways(2, 2.0, 2.0));
        let feet = vec![Landing::Lead, Landing::Other, Landing::Lead, Landing::Other];
        let own = OwnStep { name: "own".to_owned(), short: "own".to_owned(), feet, ..OwnStep::default() };
        for lead in [Foot::Left, Foot::Right] {
            let alone = StepAlone::of(&dance, Some(&own), "own", lead).unwrap();
            assert_eq!(alone.lead(alone.begins(lead)), Some(lead));
            let alone = StepAlone::of(&dance, None, "ds", Foot::Left).unwrap();
            assert_eq!(alone.lead(alone.begins(lead)), Some(lead));
        }
        assert!(StepAlone::of(&dance, None, "own", Foot::Left).is_none());
    }
}
