use super::typed_field::{Typed, show_typed};
use super::wrong::Wrong;
use crate::dance::{BarCounts, SpeedChange};
use crate::words::{read_speeds, speeds_said};
use egui::{Id, Response, Ui};

/// What the field takes.
const TAKES: &str = "Strong beats a minute, such as 60, or 60, from bar 5 at 90, or 60, little by little to 90 at bar 7. Empty for the tune's own speed";

/// The speeds of a figure or a strain, to write as they are told; what they are changed to. `usual` is the speed in which it begins
/// otherwise, strong beats a minute; the width is in points.
pub fn show_speeds(
    ui: &mut Ui,
    place: (Id, f32),
    (speeds, bars): (&[SpeedChange], &BarCounts),
    usual: f64,
) -> (Response, Option<Vec<SpeedChange>>) {
    let said = speeds_said(speeds, bars).unwrap_or_default();
    let read = |text: &str| {
        read_speeds(text, bars, usual).map_err(|error| Wrong {
            said: error.said,
            place: Some(error.place),
            unfinished: error.unfinished,
        })
    };
    let typed = Typed {
        now: speeds.to_vec(),
        // Of a speed alone, without the word before it.
        written: said.strip_prefix("at ").unwrap_or(&said).to_owned(),
        hint: format!("as the tune, {usual}"),
        takes: TAKES,
        read: &read,
    };
    show_typed(ui, place, typed)
}
