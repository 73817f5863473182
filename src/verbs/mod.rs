//! The command line: the window, or a verb that does one thing and ends.
//!
//! Errors go to standard error as one line. Exit 0 is fine, 1 is faults found, 2 is could not be done.

mod check;
mod crib;
mod handouts;
mod moving;
mod numbered_pages;
mod page;
mod progress;
mod still;
mod unknown;

pub use check::Check;
pub use crib::Crib;
pub use handouts::{NotebookOf, PaperName, SheetOf};
pub use moving::Moving;
pub use page::Page;
pub use still::StillAt;
pub use unknown::{no_display, no_such_verb};

use crate::dance::{
    COUNTS_PER_BAR, Dance, Entry, Extra, LeadRule, Set, check_rules, did_you_mean, is_unseen, quoted, schema,
    shown_list, shown_name, shown_text,
};
use crate::edits::put_figure;
use crate::figures::{motion_of, motion_of_figure, named_figure};
use crate::motion::{Moment, Motion, wrap_whole};
use crate::store;
use clap::error::{ContextKind, ContextValue};
use clap::{ArgGroup, Args, Parser, Subcommand};
use serde_json::{Value, json};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

/// Every verb, for messages.
pub const VERBS: &str = "new, pose, check, still, sheet, crib, notebook, page, moving, schema";

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
    /// Draw the floor at a count, or at many
    Still(StillAt),
    /// Write out what each number does, in words
    Crib(Crib),
    /// Write a page that plays the dance on a phone
    Page(Page),
    /// Write a figure as a moving picture
    Moving(Moving),
    /// Draw a figure as a sheet of diagrams to hand out
    Sheet(SheetOf),
    /// Make a notebook of dances, as PDF
    Notebook(NotebookOf),
    /// Print the JSON Schema of the dance file
    Schema,
}

/// Write a new dance.
#[derive(Debug, Args)]
pub struct New {
    /// The file to write
    pub out: PathBuf,
    /// The title
    #[arg(long, default_value = "New dance")]
    pub title: String,
    /// How many dancers
    #[arg(long, default_value_t = 6, allow_negative_numbers = true)]
    pub dancers: u32,
    /// Metres between the files
    #[arg(long, default_value_t = Set::DEFAULT_ACROSS, allow_negative_numbers = true)]
    pub across: f64,
    /// Metres from rank to rank
    #[arg(long, default_value_t = Set::DEFAULT_ALONG, allow_negative_numbers = true)]
    pub along: f64,
    /// A figure by name, with choices: NAME[:key=value,...]; give it once for each figure
    #[arg(long = "figure", value_name = "NAME[:key=value,...]")]
    pub figures: Vec<String>,
}

/// Print poses.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("when").required(true).args(["at", "every"]))]
pub struct PoseAt {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name; bars are then its own
    #[arg(long)]
    pub figure: Option<String>,
    /// One moment, BAR:COUNT
    #[arg(long, value_name = "BAR:COUNT")]
    pub at: Option<Moment>,
    /// From the start to the end, once in so many counts
    #[arg(long, value_name = "COUNTS", allow_negative_numbers = true)]
    pub every: Option<f64>,
}

/// How a verb ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All is well.
    Fine,
    /// Faults were found.
    Faults,
    /// Something could not be done and has been said.
    Undone,
}

impl Outcome {
    /// The exit code.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Faults => 1,
            Self::Undone => 2,
        }
    }
}

/// One line about why something could not be done.
type Said<T> = Result<T, String>;

/// Does a verb.
///
/// # Errors
/// One line that says what could not be done and why.
pub fn run(verb: &Verb) -> Said<Outcome> {
    match verb {
        Verb::New(new) => make_new(new),
        Verb::Pose(pose) => print_poses(pose),
        Verb::Check(check) => check::run(check),
        Verb::Still(asked) => still::run(asked),
        Verb::Crib(crib) => crib::run(crib),
        Verb::Page(asked) => page::run(asked),
        Verb::Moving(asked) => moving::run(asked),
        Verb::Sheet(sheet) => handouts::write_sheet(sheet),
        Verb::Notebook(notebook) => handouts::write_notebook(notebook),
        Verb::Schema => {
            print(&format!("{:#}\n", schema()))?;
            Ok(Outcome::Fine)
        }
    }
}

fn make_new(new: &New) -> Said<Outcome> {
    let mut dance = Dance::new(&new.title, Set::longways(new.dancers, new.across, new.along));
    // The set is checked before any figure is worked out for it.
    check_rules(&dance).map_err(|error| error.to_string())?;
    for figure in &new.figures {
        let (name, choices) = figure.split_once(':').unwrap_or((figure, ""));
        let asked = &shown_name(figure);
        let mut with = read_choices(asked, choices)?;
        // The stepping belongs to the figure, not to what it is named for; commas part choices, so its steps are
        // joined by +.
        let phrase = match with.shift_remove("phrase") {
            None => String::new(),
            Some(Value::String(phrase)) => phrase.replace('+', ", "),
            Some(other) => {
                return Err(format!(
                    "--figure {asked}: phrase is {}; write steps, such as 2 ds+2 ss+ftj",
                    shown_text(&other.to_string())
                ));
            }
        };
        let lead = match with.shift_remove("lead") {
            None => None,
            Some(word) => {
                Some(LeadRule::ALL.into_iter().find(|rule| word.as_str() == Some(rule.key())).ok_or_else(
                    || {
                        let known = LeadRule::ALL.map(LeadRule::key);
                        let meant = did_you_mean(word.as_str().unwrap_or_default(), known);
                        let (word, known) = (shown_text(&word.to_string()), known.join(", "));
                        format!("--figure {asked}: lead is {word}{meant}; expected one of {known}")
                    },
                )?)
            }
        };
        let mut figure =
            named_figure(name, with, &dance.set).map_err(|error| format!("--figure {asked}: {error}"))?;
        (figure.phrase, figure.lead) = (phrase, lead);
        let id = put_figure(&mut dance, figure);
        dance.order.push(Entry::of(&id));
    }
    check_rules(&dance).map_err(|error| error.to_string())?;
    motion_of(&dance, None).map_err(|error| error.to_string())?;
    let old = store::keep_old(&new.out).map_err(|error| error.to_string())?;
    store::save(&new.out, &dance).map_err(|error| error.to_string())?;
    if let Some(old) = old {
        say(&format!("the file that was there is kept as {}", old.display()));
    }
    Ok(Outcome::Fine)
}

fn read_choices(asked: &str, choices: &str) -> Said<Extra> {
    let mut with = Extra::new();
    for choice in choices.split(',').map(str::trim).filter(|choice| !choice.is_empty()) {
        let (key, value) = choice.split_once('=').ok_or_else(|| {
            format!("--figure {asked}: {} is not a choice; write key=value", quoted(choice))
        })?;
        let value = value.trim();
        let value = value
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
            .map_or_else(|| Value::from(value), Value::from);
        if with.insert(key.trim().to_owned(), value).is_some() {
            return Err(format!("--figure {asked}: {} is given twice", quoted(key.trim())));
        }
    }
    Ok(with)
}

/// Opens a file and works out the whole dance, or one figure of it; gives the figure's name in that case.
fn open_motion(path: &Path, figure: Option<&str>) -> Said<(Dance, Motion, Option<String>)> {
    let dance = store::open(path).map_err(|error| error.to_string())?;
    let named = |error: crate::dance::DanceError| format!("{}: {error}", path.display());
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
fn no_figure(path: &Path, dance: &Dance, wanted: &str) -> String {
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
fn count_in(path: &Path, motion: &Motion, moment: Moment) -> Said<f64> {
    let counts = moment.counts();
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

fn print_poses(asked: &PoseAt) -> Said<Outcome> {
    let (_, motion, _) = open_motion(&asked.file, asked.figure.as_deref())?;
    let counts: Box<dyn Iterator<Item = f64>> = match (asked.at, asked.every) {
        (Some(moment), _) => Box::new(std::iter::once(count_in(&asked.file, &motion, moment)?)),
        (None, Some(every)) if every.is_finite() && every >= 0.001 => {
            let end = motion.counts();
            // A step that would print as the end is left to the end itself.
            let steps = ((end - 0.5e-6) / every).ceil().max(0.0) as u64;
            Box::new((0..steps).map(move |step| step as f64 * every).chain(std::iter::once(end)))
        }
        (None, every) => {
            let every = every.unwrap_or_default();
            return Err(format!("--every {every}: expected a number of counts, at least 0.001"));
        }
    };
    let mut out = BufWriter::new(io::stdout().lock());
    finished(write_poses(&mut out, &motion, counts).and_then(|()| out.flush()))?;
    Ok(Outcome::Fine)
}

fn write_poses(out: &mut impl Write, motion: &Motion, counts: impl Iterator<Item = f64>) -> io::Result<()> {
    write!(out, "{{\"bars\": {}, \"counts_per_bar\": {COUNTS_PER_BAR},\n \"poses\": [", motion.bars())?;
    let mut poses = Vec::new();
    for (index, count) in counts.enumerate() {
        // The moment is rounded first, so that it never reads as count 5 of a bar, and a count that is whole but for
        // what a computer loses on the way has the foot that lands on it.
        let count = rounded(count, 1e6).min(motion.counts());
        motion.pose_all(count, &mut poses);
        let moment = Moment::at(count);
        let dancers: Vec<Value> = poses
            .iter()
            .map(|pose| {
                let [left, right] = pose.each_hand;
                json!({
                    "number": pose.number,
                    "x": rounded(pose.x, 1e6),
                    "y": rounded(pose.y, 1e6),
                    "facing": wrap_whole(rounded(pose.facing, 1e4)),
                    "weight": pose.weight.word(),
                    "step": motion.known().get(pose.step).map_or("", |step| step.short.as_str()),
                    "hands": rounded(pose.hands, 1e4),
                    "left_hand": rounded(left, 1e4),
                    "right_hand": rounded(right, 1e4),
                })
            })
            .collect();
        let comma = if index == 0 { "\n" } else { ",\n" };
        let pose = json!({"bar": moment.bar, "count": rounded(moment.count, 1e6), "dancers": dancers});
        write!(out, "{comma}  {pose}")?;
    }
    out.write_all(b"\n ]}\n")
}

/// A number to so many parts of one, with no negative nought.
fn rounded(value: f64, parts: f64) -> f64 {
    let value = (value * parts).round() / parts;
    if value == 0.0 { 0.0 } else { value }
}

/// Says something on standard error, on one line whatever a file or its name holds.
pub fn say(said: &str) {
    let mut line = String::with_capacity(said.len());
    for letter in said.chars() {
        match letter {
            letter if letter.is_control() => line.push(' '),
            // The name of a file can hold what would turn the rest of the line round.
            letter if is_unseen(letter) => line.push_str(&format!("(U+{:04X})", u32::from(letter))),
            letter => line.push(letter),
        }
    }
    let _ = writeln!(io::stderr(), "bellpad: {line}");
}

fn print(text: &str) -> Said<()> {
    let mut out = io::stdout().lock();
    finished(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Prints a path as it is, so that a script gets the file whatever its name is made of.
fn print_path(path: &Path) -> Said<()> {
    #[cfg(unix)]
    let name = std::os::unix::ffi::OsStrExt::as_bytes(path.as_os_str());
    #[cfg(not(unix))]
    let name = path.to_string_lossy();
    #[cfg(not(unix))]
    let name = name.as_bytes();
    let mut out = io::stdout().lock();
    finished(out.write_all(name).and_then(|()| out.write_all(b"\n")).and_then(|()| out.flush()))
}

/// A reader that has seen enough and closed the pipe is no failure.
fn finished(written: io::Result<()>) -> Said<()> {
    match written {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            Err(format!("standard output: cannot be written: {error}"))
        }
        _ => Ok(()),
    }
}

/// What clap says of a command line it cannot read, as one line that repeats no more of it than can be read.
#[must_use]
pub fn one_line(mut error: clap::Error) -> String {
    let kinds = [ContextKind::InvalidArg, ContextKind::InvalidValue, ContextKind::InvalidSubcommand];
    for kind in kinds {
        if let Some(ContextValue::String(value)) = error.get(kind) {
            let short = shown_name(value);
            error.insert(kind, ContextValue::String(short));
        }
    }
    let text = error.to_string();
    let text = text.split("\n\nUsage").next().unwrap_or(&text);
    let text = text.split("\n\nFor more").next().unwrap_or(text);
    // A tip repeats what was given once more.
    text.trim_start_matches("error: ").split_whitespace().map(shown_name).collect::<Vec<_>>().join(" ")
}
