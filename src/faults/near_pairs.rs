//! Which pairs of dancers can come near each other at all in a count.

/// A disc that holds the middle of a dancer's body for a whole count.
pub(super) struct Ball {
    pub dancer: usize,
    pub x: f64,
    pub y: f64,
    pub radius: f64,
}

/// The pairs (the lower index first) whose discs come nearer than a distance. They are sorted along the longer way of
/// the floor, so that only neighbours are looked at.
pub(super) fn near_pairs(balls: &mut [Ball], distance: f64, mut near: impl FnMut(usize, usize)) {
    let range = |place: fn(&Ball) -> f64| {
        let (low, high) = balls
            .iter()
            .map(place)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        high - low
    };
    let along: fn(&Ball) -> f64 =
        if range(|ball| ball.y) >= range(|ball| ball.x) { |ball| ball.y } else { |ball| ball.x };
    if balls.len() > 12 {
        balls.sort_by(|one, other| along(one).total_cmp(&along(other)));
    }
    let sorted = balls.len() > 12;
    let widest = balls.iter().map(|ball| ball.radius).fold(0.0, f64::max);
    for (index, one) in balls.iter().enumerate() {
        for other in balls.iter().skip(index + 1) {
            if sorted && along(other) - along(one) > one.radius + widest + distance {
                break;
            }
            let room = one.radius + other.radius + distance;
            let (x, y) = (other.x - one.x, other.y - one.y);
            if x * x + y * y < room * room {
                near(one.dancer.min(other.dancer), one.dancer.max(other.dancer));
            }
        }
    }
}
