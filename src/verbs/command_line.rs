use super::{
    Check, Crib, Moving, New, NotebookOf, OnDesktop, Outcome, PageOf, PoseAt, Said, SheetOf, SteppingOf,
    StillAt, TappingOf, TuneOf, WatchFor, check, crib, desktop, handouts, moving, new, page, pose,
    printing::print, still, tapping, tune, watch,
};
use crate::dance::schema;
use clap::{Parser, Subcommand};
use std::path::PathBuf;

/// Every verb, for messages.
pub const VERBS: &str = "new, pose, check, watch, still, sheet, crib, notebook, stepping, tapping, page, moving, tune, schema, desktop";

/// Draw, scrub, check and hand out the figures of a morris side.
#[derive(Debug, Parser)]
#[command(name = "bellpad", version, args_conflicts_with_subcommands = true)]
pub struct CommandLine {
    /// The dance file to open in the window
    pub file: Option<PathBuf>,
    /// What to do instead of opening the window
    #[command(subcommand)]
    pub verb: Option<Verb>,
}

/// What the command line can do without the window.
#[derive(Debug, Subcommand)]
pub enum Verb {
    /// Write a new dance of named figures
    New(New),
    /// Print where everyone is, as JSON
    Pose(PoseAt),
    /// Look for faults
    Check(Check),
    /// Tell where each figure goes wrong first
    Watch(WatchFor),
    /// Draw the floor at a count, or at many
    Still(StillAt),
    /// Write out what each number does, in words
    Crib(Crib),
    /// Write a page that plays the dance on a phone
    Page(PageOf),
    /// Write a figure as a moving picture
    Moving(Moving),
    /// Draw a figure as a sheet of diagrams to hand out
    Sheet(SheetOf),
    /// Make a notebook of dances, as PDF
    Notebook(NotebookOf),
    /// Draw each step that a dance uses, count by count, at eye level, as PDF, SVG or PNG
    Stepping(SteppingOf),
    /// Draw the tapping of each figure as a table of beats, as PDF, SVG or PNG
    Tapping(TappingOf),
    /// Write the tune as sound, or as notes
    Tune(TuneOf),
    /// Print the JSON Schema of the dance file
    Schema,
    /// Put the program into the menu of your desktop, or take it out again
    Desktop(OnDesktop),
}

/// Does a verb.
///
/// # Errors
/// When it could not be done.
pub fn run(verb: &Verb) -> Said<Outcome> {
    match verb {
        Verb::New(new) => new::make_new(new),
        Verb::Pose(pose) => pose::print_poses(pose),
        Verb::Check(check) => check::run(check),
        Verb::Watch(asked) => watch::run(asked),
        Verb::Still(asked) => still::run(asked),
        Verb::Crib(crib) => crib::run(crib),
        Verb::Page(asked) => page::run(asked),
        Verb::Moving(asked) => moving::run(asked),
        Verb::Sheet(sheet) => handouts::write_sheet(sheet),
        Verb::Stepping(stepping) => handouts::write_stepping(stepping),
        Verb::Tapping(asked) => tapping::run(asked),
        Verb::Notebook(notebook) => handouts::write_notebook(notebook),
        Verb::Tune(asked) => tune::run(asked),
        Verb::Desktop(asked) => desktop::run(asked),
        Verb::Schema => {
            print(&format!("{:#}\n", schema()))?;
            Ok(Outcome::Fine)
        }
    }
}
