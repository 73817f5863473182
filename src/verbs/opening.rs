//! Opening the file that a verb is about, and finding the figure and the count that it asks for.

use super::Said;
use crate::dance::{Dance, DanceError, did_you_mean, quoted, shown_list};
use crate::figures::{motion_of, motion_of_figure};
use crate::motion::{Moment, Motion};
use crate::store;
use std::path::Path;

/// Opens a file and works out the whole dance, or one figure of it; gives the figure's name in that case.
pub(super) fn open_motion(path: &Path, figure: Option<&str>) -> Said<(Dance, Motion, Option<String>)> {
    let dance = store::open(path).map_err(|error| error.to_string())?;
    let named = |error: DanceError| format!("{}: {error}", path.display());
    match figure {
        None => {
            let motion = motion_of(&dance, None).map_err(named)?;
            Ok((dance, motion, None))
        }
        Some(wanted) => {
            let index = dance.find_figure(wanted).ok_or_else(|| no_figure(path, &dance, wanted))?;
            let motion = motion_of_figure(&dance, index).map_err(named)?;
            let name = dance.figures.get(index).map(|figure| figure.name.clone());
            Ok((dance, motion, name))
        }
    }
}

/// That a dance has no figure of a name, and which it has.
pub(super) fn no_figure(path: &Path, dance: &Dance, wanted: &str) -> String {
    let names = dance.figures.iter().flat_map(|figure| [figure.id.as_str(), figure.name.as_str()]);
    let meant = did_you_mean(wanted, names);
    format!(
        "{}: no figure is called {}{meant}; the figures are {}",
        path.display(),
        quoted(wanted),
        shown_list(dance.figures.iter().map(|figure| figure.id.as_str()))
    )
}

/// Counts from the start of a moment that must lie in a motion, or be its end.
pub(super) fn count_in(path: &Path, motion: &Motion, moment: Moment) -> Said<f64> {
    let counts = moment.counts(motion.bar_counts());
    if counts <= motion.counts() {
        return Ok(counts);
    }
    let bars = motion.bars();
    Err(format!(
        "{}: {moment} is after the end; there are {bars} bars, so the end is {}:1",
        path.display(),
        bars + 1
    ))
}
