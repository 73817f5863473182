use crate::dance::Turn;

/// Degrees clockwise that a turn goes through when it begins in a facing.
#[must_use]
pub fn amount(turn: &Turn, facing: f64) -> f64 {
    let sign = turn.way.sign();
    let by = match (turn.by, turn.face) {
        (Some(by), Some(face)) => {
            // The whole turns that bring it nearest to what was chosen. Nearest to less than half a turn may be a little
            // the other way: the direction is never left unmet. Half-way between two it is the lesser, or there would
            // be a spin that nobody asked for; but that never turns it the other way.
            let round = (face - facing) * sign;
            let turns = (by - round) / 360.0 + 0.5;
            let greater = round + 360.0 * (turns + 1e-9).floor();
            let lesser = greater - 360.0;
            if turns - (turns + 1e-9).floor() < 1e-9 && lesser > -1e-6 { lesser.max(0.0) } else { greater }
        }
        (Some(by), None) => by,
        (None, Some(face)) => {
            let round = ((face - facing) * sign).rem_euclid(360.0);
            let round = if (1e-6..=360.0 - 1e-6).contains(&round) { round } else { 0.0 };
            round + 360.0 * f64::from(turn.spins)
        }
        (None, None) => 0.0,
    };
    sign * by
}
