//! The list of the named figures: a new figure is one line more in [`all`].

use super::{FigureError, NamedFigure};
use crate::dance::did_you_mean;

/// Every named figure, in the order that the shelf shows them.
#[must_use]
pub fn all() -> [&'static NamedFigure; 16] {
    [
        &super::foot_up_and_down::FIGURE,
        &super::down_and_back::FIGURE,
        &super::into_line::FIGURE,
        &super::back_to_back::FIGURE,
        &super::back_to_back_backing::FIGURE,
        &super::cross_over::FIGURE,
        &super::cross_and_turn::FIGURE,
        &super::go_and_come::FIGURE,
        &super::whole_gip::FIGURE,
        &super::half_gip::FIGURE,
        &super::whole_rounds::FIGURE,
        &super::half_rounds::FIGURE,
        &super::half_hey::FIGURE,
        &super::hey::FIGURE,
        &super::corners::FIGURE,
        &super::solos::FIGURE,
    ]
}

/// The figure that may have been meant, after an error about a name that is none.
fn meant(name: &str) -> String {
    did_you_mean(name, all().map(|figure| figure.name))
}

/// The names of all named figures, with commas between.
#[must_use]
pub fn names() -> String {
    all().map(|figure| figure.name).join(", ")
}

/// The named figure with a name.
///
/// # Errors
/// When there is none; the error lists those that there are.
pub fn find(name: &str) -> Result<&'static NamedFigure, FigureError> {
    all()
        .into_iter()
        .find(|figure| figure.name.eq_ignore_ascii_case(name.trim()))
        .ok_or_else(|| FigureError::Unknown { name: name.to_owned(), meant: meant(name), known: names() })
}
