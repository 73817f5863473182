//! How fast a tune goes by its own words: the field `Q:` (ABC standard 2.1, 3.1.8).

/// So many of a length a minute.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tempo {
    /// The length, parts of a whole note.
    pub length: f64,
    /// How many of them a minute has.
    pub a_minute: f64,
}

impl Tempo {
    /// Reads the value of the field; `unit` is the tune's unit of length, parts of a whole note, for the forms of earlier
    /// standards (10.1). Nothing where it says no speed: `Q:"Allegro"` says none.
    pub(super) fn read(value: &str, unit: f64) -> Option<Self> {
        // Words in quotes may stand before and after.
        let plain: String = value.split('"').step_by(2).collect::<Vec<_>>().join(" ");
        let plain = plain.trim();
        let Some((lengths, number)) = plain.split_once('=') else {
            return Self::of(unit, plain);
        };
        let lengths = lengths.trim();
        if let Some(many) = lengths.strip_prefix(['C', 'c']) {
            let many = if many.is_empty() { 1.0 } else { many.trim().parse().ok()? };
            return Self::of(unit * many, number);
        }
        // Several lengths together are the beat.
        let length = lengths.split_whitespace().try_fold(0.0, |sum, length| {
            let (top, bottom) = length.split_once('/')?;
            let (top, bottom): (f64, f64) = (top.trim().parse().ok()?, bottom.trim().parse().ok()?);
            Some(sum + top / bottom)
        })?;
        Self::of(length, number)
    }

    fn of(length: f64, number: &str) -> Option<Self> {
        let a_minute: f64 = number.trim().parse().ok()?;
        let fits = |value: f64| value.is_finite() && value > 0.0;
        (fits(length) && fits(a_minute)).then_some(Self { length, a_minute })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of the standard, 3.1.8 and 10.1.
    #[test]
    fn every_way_of_writing_it_is_read() {
        let read = |value: &str| Tempo::read(value, 0.125).map(|tempo| (tempo.length, tempo.a_minute));
        for (value, expected) in [
            ("1/4=120", Some((0.25, 120.0))),
            ("3/8=50", Some((0.375, 50.0))),
            ("1/4 3/8 1/4 3/8=40", Some((1.25, 40.0))),
            ("\"Allegro\" 1/4=120", Some((0.25, 120.0))),
            ("3/8=50 \"Slowly\"", Some((0.375, 50.0))),
            ("\"Andante\"", None),
            ("120", Some((0.125, 120.0))),
            ("C=120", Some((0.125, 120.0))),
            ("C3=120", Some((0.375, 120.0))),
            ("1/4=0", None),
            ("1/4=quick", None),
            ("1/0=100", None),
            ("", None),
        ] {
            assert_eq!(read(value), expected, "{value}");
        }
    }
}
