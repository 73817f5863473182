//! Handouts: a figure as a sheet of diagrams, a dancer's own crib, the notebook of a side, the practice page for a phone,
//! and a figure as a moving picture.
//!
//! What goes on paper are [`Page`]s of marks, laid out in points (1/72 inch) on a [`Paper`], and are drawn from that one
//! description as SVG, PNG and PDF. They can be printed in black and white: odds and evens differ in shape, and
//! their paths in their strokes.
//!
//! May use `picture`, `sound`, `versions`, `edits`, `faults`, `words`, `figures`, `motion` and `dance`. Begin with `sheet.rs`,
//! a figure on paper.
//!
//! ```
//! use bellpad::dance::{Dance, Entry, Set};
//! use bellpad::figures::{motion_of, named_figure};
//! use bellpad::handout::{SheetChoice, figure_sheet, handout_to_pdf};
//! use bellpad::motion::SpanIndex;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let mut dance = Dance::new("Small dance", Set::longways(6, 2.4, 1.8));
//! let figure = named_figure("half-hey", Default::default(), &dance.set)?;
//! dance.figures.push(figure);
//! let motion = motion_of(&dance, None)?;
//! let sheet = figure_sheet(&dance, &motion, SpanIndex(0), &SheetChoice::default());
//! assert!(handout_to_pdf(&sheet)?.starts_with(b"%PDF-"));
//! # Ok(())
//! # }
//! ```

mod caption;
mod choice;
mod clear_place;
mod dance_pages;
mod dancer_page;
mod diagram;
mod error;
mod flow;
mod grid;
mod leaf;
mod moments;
pub mod moving;
mod no_names;
mod notebook;
mod on_progress;
mod own_turns;
pub mod page;
mod paper;
mod path_line;
mod pdf;
mod pocket_page;
mod reading;
mod sheet;
mod small_diagram;
mod small_figure;
mod spoken;
mod stepping;
mod stepping_rows;
mod stepping_runs;
mod tags;
mod tap_marks;
mod tapping;
mod tapping_rows;
mod teach_marks;
mod told;
mod watching;
mod whole_sheet;

pub use caption::{Caption, caption};
pub use choice::{HandoutChoice, HandoutKind, Made, PaperFile, make_handout, moving_choice};
pub use dancer_page::dancer_page;
pub use diagram::{Shown, diagram_marks};
pub use error::HandoutError;
pub use leaf::{Bookmark, Handout, Link, Page, page_to_png, page_to_rgb, page_to_svg};
pub use moments::{MOST_DIAGRAMS, diagram_times, halves, moments};
pub use no_names::without_names;
pub use notebook::notebook;
pub use on_progress::OnProgress;
pub use own_turns::{LEAST_TURN, OwnTurn, own_turns, quarters};
pub use paper::{Paper, PaperSize, SMALLEST};
pub use path_line::{EVEN_DASH, path_line_marks};
pub use pdf::{PdfError, accessible_pdf, handout_to_pdf};
pub use pocket_page::pocket_page;
pub use reading::{Head, Part, Role, Starts};
pub use sheet::{SheetChoice, figure_sheet, first_span, sheets};
pub use stepping::stepping;
pub use tapping::tapping;
pub use whole_sheet::whole_sheet;
