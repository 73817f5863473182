use crate::motion::cubics::hermite;
use std::f64::consts::TAU;

/// How fast each part of going round begins and ends, circles over that part: of how many seconds and circles each is, in order of time.
///
/// From part to part that go the same way round it goes on, so that circles one after the other are even; elsewhere it comes to rest.
pub(super) fn speeds(parts: &[(f64, f64)]) -> Vec<[f64; 2]> {
    let rate = |index: usize| parts.get(index).map_or(0.0, |(seconds, circles)| circles / seconds.max(1e-9));
    let between = |before: f64, after: f64| {
        // The mean that is never more than twice the slower one: nothing goes back on its way.
        if before * after > 0.0 { 2.0 * before * after / (before + after) } else { 0.0 }
    };
    let at = |index: usize| index.checked_sub(1).map_or(0.0, |before| between(rate(before), rate(index)));
    let of = |(index, (seconds, _)): (usize, &(f64, f64))| [at(index) * seconds, at(index + 1) * seconds];
    parts.iter().enumerate().map(of).collect()
}

/// How far round it is, the sine and the cosine, at a share of a part: from so far round, shares of a circle, by so many circles.
pub(super) fn round_at((round, circles): (f64, f64), [begins, ends]: [f64; 2], share: f64) -> (f64, f64) {
    (TAU * hermite(round, begins, round + circles, ends, share)).sin_cos()
}

/// How far round it is after a part, a share of a circle; nothing where it does not go round, since it comes back then.
pub(super) fn comes_round((round, circles): (f64, f64)) -> f64 {
    if circles == 0.0 { 0.0 } else { (round + circles).rem_euclid(1.0) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_that_go_on_are_even_and_others_rest() {
        // Three parts of one circle in half a second each, one that does not go round, and two of which one goes back.
        let parts = [(0.5, 1.0), (0.5, 1.0), (0.5, 1.0), (0.5, 0.0), (0.5, 1.0), (0.5, -1.0)];
        let speeds = speeds(&parts);
        assert_eq!(speeds, [[0.0, 1.0], [1.0, 1.0], [1.0, 0.0], [0.0; 2], [0.0; 2], [0.0; 2]]);
        let (sin, cos) = round_at((0.25, 1.0), [1.0, 1.0], 0.5);
        assert!((sin - (TAU * 0.75).sin()).abs() < 1e-9 && (cos - (TAU * 0.75).cos()).abs() < 1e-9);
    }
}
