//! What any number, place or text has to keep to.

use crate::dance::DanceError;
use crate::dance::limits::{FARTHEST, LONGEST_TEXT};

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
