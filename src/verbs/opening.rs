//! Opening the file that a verb is about, and finding the figure and the count that it asks for.

use super::{Said, VerbError};
use crate::dance::{Dance, DanceError};
use crate::figures::{motion_of, motion_of_figure};
use crate::motion::{Moment, Motion};
use crate::store;
use std::path::Path;

/// Opens a file and works out the whole dance, or one figure of it; gives the figure's name in that case.
pub(super) fn open_motion(path: &Path, figure: Option<&str>) -> Said<(Dance, Motion, Option<String>)> {
    let dance = store::open(path)?;
    let named = |source: DanceError| VerbError::Dance { path: path.to_owned(), source };
    match figure {
        None => {
            let motion = motion_of(&dance, None).map_err(named)?;
            Ok((dance, motion, None))
        }
        Some(wanted) => {
            let index =
                dance.find_figure(wanted).ok_or_else(|| VerbError::no_figure(path, &dance, wanted))?;
            let motion = motion_of_figure(&dance, index).map_err(named)?;
            let name = dance.figures.get(index).map(|figure| figure.name.clone());
            Ok((dance, motion, name))
        }
    }
}

/// Counts from the start of a moment that must lie in a motion, or be its end.
pub(super) fn count_in(path: &Path, motion: &Motion, moment: Moment) -> Said<f64> {
    let bars = motion.bar_counts();
    if !moment.is_in(bars) {
        let counts = bars.in_bar(moment.bar.saturating_sub(1));
        return Err(VerbError::NotInBar { path: path.to_owned(), moment, counts });
    }
    let counts = moment.counts(bars);
    if counts <= motion.counts() {
        return Ok(counts);
    }
    Err(VerbError::AfterTheEnd { path: path.to_owned(), moment, bars: motion.bars() })
}
