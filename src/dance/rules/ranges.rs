//! What any number, place or text has to keep to.

use crate::dance::limits::{FARTHEST, LONGEST_TEXT, MOST_BARS, MOST_CHANGES, SPEEDS};
use crate::dance::{DanceError, SpeedChange};

/// Nothing, or the first thing wrong with the path of its key.
pub(super) type Checked = Result<(), DanceError>;

pub(super) fn check_place(path: &str, x: f64, y: f64) -> Checked {
    check_range(&format!("{path}.x"), x, -FARTHEST, FARTHEST, "metres")?;
    check_range(&format!("{path}.y"), y, -FARTHEST, FARTHEST, "metres")
}

pub(super) fn check_range(path: &str, value: f64, least: f64, most: f64, unit: &str) -> Checked {
    if value.is_finite() && (least..=most).contains(&value) {
        return Ok(());
    }
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    // A number far out is written with its power of ten, not in hundreds of figures.
    let value = if value.abs() < 1e9 { value.to_string() } else { format!("{value:e}") };
    Err(DanceError::key(path, format!("{value} is out of range; expected {least} to {most}{unit}")))
}

pub(super) fn check_text(path: &str, text: &str) -> Checked {
    let length = text.chars().count();
    if length > LONGEST_TEXT {
        return Err(DanceError::key(path, format!("{length} characters; a name has at most {LONGEST_TEXT}")));
    }
    Ok(())
}

/// No figure is longer, counts.
const LAST: f64 = MOST_BARS as f64 * 6.0;

/// Speeds of the figure or the strain at `path`. What is after its end is for when it is longer.
pub(in crate::dance) fn check_speeds(path: &str, speeds: &[SpeedChange]) -> Checked {
    if speeds.len() > MOST_CHANGES {
        let text = format!("{} of them; there are at most {MOST_CHANGES} changes of speed", speeds.len());
        return Err(DanceError::key(format!("{path}.speeds"), text));
    }
    let mut before: Option<f64> = None;
    for (index, change) in speeds.iter().enumerate() {
        let path = format!("{path}.speeds[{index}]");
        check_range(&format!("{path}.speed"), change.speed, SPEEDS[0], SPEEDS[1], "strong beats a minute")?;
        check_range(&format!("{path}.count"), change.count, 0.0, LAST, "counts")?;
        if let Some(before) = before.filter(|before| change.count <= *before) {
            return Err(DanceError::key(
                format!("{path}.count"),
                format!("{} counts, and the one before it is at {before}; they go in order", change.count),
            ));
        }
        before = Some(change.count);
    }
    Ok(())
}
