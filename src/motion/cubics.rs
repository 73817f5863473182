//! What a cubic does between two values.

/// A cubic between two values with given slopes, at `u` from 0 to 1.
#[must_use]
pub(super) fn hermite(from: f64, leave: f64, to: f64, arrive: f64, u: f64) -> f64 {
    let rise = to - from;
    let b = 3.0 * rise - 2.0 * leave - arrive;
    let c = leave + arrive - 2.0 * rise;
    from + u * (leave + u * (b + u * c))
}

/// How far a cubic is from its chord between two parameters at the most, from what goes with the square and with the
/// cube of the parameter. With v from the middle and h half the way between them, the difference is
/// (v² − h²)(cube v + k).
#[must_use]
pub(super) fn off_chord(square: f64, cube: f64, from: f64, to: f64) -> f64 {
    let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
    let k = square + 3.0 * cube * middle;
    let off = |v: f64| ((v * v - half * half) * (cube * v + k)).abs();
    // Where it goes neither up nor down; without loss where either is small.
    let root = k + (k * k + 3.0 * cube * cube * half * half).sqrt().copysign(k);
    let within = |v: f64| if v.abs() <= half { off(v) } else { 0.0 };
    if root == 0.0 { 0.0 } else { within(cube * half * half / root).max(within(-root / (3.0 * cube))) }
}

/// Where a t^2 + b t + c is nought, without loss where a is small; not a number where it is not.
pub(super) fn roots(a: f64, b: f64, c: f64) -> [f64; 2] {
    let q = -0.5 * (b + (b * b - 4.0 * a * c).sqrt().copysign(b));
    [q / a, c / q]
}

/// Gently from 0 to 1 as `u` does, level at both ends; beyond them it stays there.
#[must_use]
pub fn ease(u: f64) -> f64 {
    let u = u.clamp(0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}
