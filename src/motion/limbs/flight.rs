use super::sizes::GRAVITY;
use crate::dance::limits::HIGHEST_RISE;

/// The shortest time on the floor between landing and leaving it again, seconds: room to bend the knees and to spring [CALC].
const FLOOR: f64 = 0.15;
/// In whatever haste, so much of the time is spent on the floor.
const LEAST_FLOOR: f64 = 0.05;

/// A time in the air, between leaving the floor and landing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flight {
    /// When the floor is left and landed on, seconds from the start of the dance.
    pub begin: f64,
    pub end: f64,
    /// How high the body rises, metres.
    pub height: f64,
    /// How high the step asks for it, metres.
    pub asked: f64,
    /// Whether it is a jump, with counts in the air, and no hop.
    pub is_jump: bool,
}

impl Flight {
    /// A flight that lands at a time after the floor was landed on before, and is a jump if it has counts in the air, from the first to the
    /// last: all seconds from the start of the dance. `stays` is when the weight was last on the floor without a landing, or earlier.
    ///
    /// Where the music leaves more time than its height takes, a jump springs off so much after its count in the air: it is as high as its step
    /// says, and lands when it should. Over several counts in the air it is there from the first on.
    #[must_use]
    pub fn landing(end: f64, (floor, stays): (f64, f64), air: Option<[f64; 2]>, asked: f64) -> Self {
        let wanted = 2.0 * (2.0 * asked / GRAVITY).sqrt();
        let room = (end - (floor + FLOOR).max(stays)).max(0.0);
        let mut time = wanted.min(room);
        if let Some([air, last]) = air {
            // On its count in the air the body is there, however short the time on the floor.
            let there = end - air + 1e-3;
            let there = if last > air || asked <= 0.0 { there } else { there.min(wanted) };
            time = time.max(there).min((end - floor - LEAST_FLOOR).max(end - air));
        }
        // Nobody jumps higher than that: who is to be in the air for longer stands for the rest of it.
        let time = time.min((8.0 * HIGHEST_RISE / GRAVITY).sqrt());
        Self { begin: end - time, end, height: GRAVITY * time * time / 8.0, asked, is_jump: air.is_some() }
    }

    /// When the body is highest, seconds from the start of the dance.
    #[must_use]
    pub fn top(&self) -> f64 {
        f64::midpoint(self.begin, self.end)
    }

    /// How high the body has risen at a time, metres; 0 where it is not in the air.
    #[must_use]
    pub fn rise(&self, time: f64) -> f64 {
        let share = (time - self.begin) / (self.end - self.begin).max(1e-9);
        if (0.0..=1.0).contains(&share) { 4.0 * self.height * share * (1.0 - share) } else { 0.0 }
    }
}

/// How high a body has risen at a time, metres, of the flights of a dancer in order of time.
pub(super) fn rise(flights: &[Flight], time: f64) -> f64 {
    let next = flights.partition_point(|flight| flight.end < time);
    flights.get(next).map_or(0.0, |flight| flight.rise(time))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From together on 1 to down on 3 there are 0.6 s at 100 strong beats a minute, 0.5 at 120 and 0.46 at 130, of which 0.15 s are on the floor
    /// [CALC, g = 9.81 m/s^2]: 0.25, 0.15 and 0.12 m.
    #[test]
    fn where_the_tempo_leaves_less_time_height_gives_way() {
        for (speed, height) in [(60.0, 0.25), (80.0, 0.25), (100.0, 0.25), (120.0, 0.15), (130.0, 0.12)] {
            let count = 30.0 / speed;
            let flight = Flight::landing(2.0 * count, (0.0, 0.0), Some([count; 2]), 0.25);
            assert!((flight.height - height).abs() < 0.01, "{speed}: {flight:?}");
            let there = flight.begin <= count && flight.rise(count) > 0.0;
            assert!(there || speed < 66.0, "in the air on its count");
            let time = flight.end - flight.begin;
            assert!((flight.height - GRAVITY * time * time / 8.0).abs() < 1e-12);
        }
    }
}
