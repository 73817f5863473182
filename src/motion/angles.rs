/// An angle moved by whole turns to lie above -180 and up to 180 degrees.
#[must_use]
pub fn wrap_half(degrees: f64) -> f64 {
    let wrapped = degrees.rem_euclid(360.0);
    if wrapped > 180.0 { wrapped - 360.0 } else { wrapped }
}

/// An angle moved by whole turns to lie from 0 to below 360 degrees.
#[must_use]
pub fn wrap_whole(degrees: f64) -> f64 {
    let wrapped = degrees.rem_euclid(360.0);
    if wrapped < 360.0 { wrapped } else { 0.0 }
}
