use lyon::geom::{Point, Vector};

/// Unit-speed tangents at each point, from the chords on both sides.
pub(super) fn tangents(points: &[Point<f64>]) -> Vec<Vector<f64>> {
    let chords: Vec<(Vector<f64>, f64)> = points
        .windows(2)
        .filter_map(|pair| match pair {
            [from, to] => {
                let along = *to - *from;
                Some((along / along.length(), along.length()))
            }
            _ => None,
        })
        .collect();
    let mut tangents = vec![Vector::zero(); points.len()];
    for (index, pair) in chords.windows(2).enumerate() {
        if let ([(before, d0), (after, d1)], Some(tangent)) = (pair, tangents.get_mut(index + 1)) {
            *tangent = (*before * *d1 + *after * *d0) / (d0 + d1);
        }
    }
    let last = points.len() - 1;
    if let (Some((first_chord, _)), Some(second)) = (chords.first(), tangents.get(1).copied()) {
        let ended = (*first_chord * 3.0 - second) / 2.0;
        if let Some(tangent) = tangents.first_mut() {
            *tangent = ended;
        }
    }
    if let (Some((last_chord, _)), Some(second)) =
        (chords.last(), tangents.get(last.wrapping_sub(1)).copied())
    {
        let ended = (*last_chord * 3.0 - second) / 2.0;
        if let Some(tangent) = tangents.last_mut() {
            *tangent = ended;
        }
    }
    tangents
}
