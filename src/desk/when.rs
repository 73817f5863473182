use chrono::{DateTime, Local, TimeDelta, TimeZone};
use std::fmt::Display;
use std::time::SystemTime;

/// A time as it is said here and now: `today at 14:05:09`.
#[must_use]
pub fn when_words(when: SystemTime) -> String {
    words(&DateTime::<Local>::from(when), &Local::now())
}

fn words<Z: TimeZone>(when: &DateTime<Z>, now: &DateTime<Z>) -> String
where
    Z::Offset: Display,
{
    let days = now.date_naive().signed_duration_since(when.date_naive());
    let day = match days {
        days if days == TimeDelta::zero() => "today".to_owned(),
        days if days == TimeDelta::days(1) => "yesterday".to_owned(),
        _ => when.format("%-d %B %Y").to_string(),
    };
    format!("{day} at {}", when.format("%H:%M:%S"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::Utc;

    #[test]
    fn days_are_named_as_people_name_them() {
        let now = Utc.with_ymd_and_hms(2024, 3, 1, 9, 30, 0).unwrap();
        let said =
            |day: u32, month: u32| words(&Utc.with_ymd_and_hms(2024, month, day, 23, 5, 9).unwrap(), &now);
        assert_eq!(said(1, 3), "today at 23:05:09");
        assert_eq!(said(29, 2), "yesterday at 23:05:09");
        assert_eq!(said(28, 2), "28 February 2024 at 23:05:09");
        // A clock that was put back.
        assert_eq!(said(2, 3), "2 March 2024 at 23:05:09");
    }
}
