/// A number to so many parts of one, with no negative nought.
#[must_use]
pub fn rounded(value: f64, parts: f64) -> f64 {
    let rounded = (value * parts).round() / parts;
    if rounded == 0.0 { 0.0 } else { rounded }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nought_is_never_negative() {
        for value in [-0.0, -0.0004, 0.0004] {
            assert!(rounded(value, 1000.0).is_sign_positive(), "{value}");
        }
        assert_eq!([-1.2346, 2.0005].map(|value| rounded(value, 1000.0)), [-1.235, 2.001]);
    }
}
