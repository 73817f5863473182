//! Headings: degrees clockwise from up.

use lyon::geom::Vector;

/// Moves an angle by whole turns to lie within half a turn of the one before it, and returns it.
pub(super) fn unwrap_near(angle: &mut f64, before: Option<f64>) -> f64 {
    if let Some(before) = before {
        *angle += ((before - *angle) / 360.0).round() * 360.0;
    }
    *angle
}

/// Degrees clockwise from up of a direction.
pub(super) fn heading(along: Vector<f64>) -> f64 {
    along.x.atan2(along.y).to_degrees()
}
