use crate::dance::{BarCounts, SpeedChange};
use crate::motion::Moment;

/// The speeds that the music has of its own in a figure or a strain with these bars: `at 60, from bar 5 little by little to 90 at bar
/// 7`. Nothing where it has none.
#[must_use]
pub fn speeds_said(changes: &[SpeedChange], bars: &BarCounts) -> Option<String> {
    let at = |count: f64| {
        let moment = Moment::at(bars, count);
        if (moment.count - 1.0).abs() < 1e-6 {
            format!("bar {}", moment.bar)
        } else {
            format!("bar {moment}")
        }
    };
    let said = changes.iter().enumerate().map(|(index, change)| {
        let speed = (change.speed * 10.0).round() / 10.0;
        let before =
            index.checked_sub(1).and_then(|before| changes.get(before)).map_or(0.0, |before| before.count);
        match change {
            SpeedChange { ease: true, count, .. } if *count > before => {
                let from = if before > 0.0 { format!("from {} ", at(before)) } else { String::new() };
                format!("{from}little by little to {speed} at {}", at(*count))
            }
            SpeedChange { count, .. } if *count > 0.0 => format!("from {} at {speed}", at(*count)),
            SpeedChange { .. } => format!("at {speed}"),
        }
    });
    (!changes.is_empty()).then(|| said.collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speeds_are_told_by_bars() {
        let bars = BarCounts::usual(8);
        let said = |changes: &[SpeedChange]| speeds_said(changes, &bars);
        assert_eq!(said(&[]), None);
        assert_eq!(said(&[SpeedChange::at(0.0, 60.0)]).unwrap(), "at 60");
        assert_eq!(
            said(&[SpeedChange::at(0.0, 60.0), SpeedChange::at(16.0, 92.5)]).unwrap(),
            "at 60, from bar 5 at 92.5"
        );
        assert_eq!(
            said(&[SpeedChange::at(14.0, 50.0).eased()]).unwrap(),
            "little by little to 50 at bar 4:3"
        );
        assert_eq!(
            said(&[SpeedChange::at(16.0, 60.0), SpeedChange::at(24.0, 90.0).eased()]).unwrap(),
            "from bar 5 at 60, from bar 5 little by little to 90 at bar 7"
        );
    }
}
