//! `bellpad check`: the faults of one file or of thousands, on every core, told in the order the files were given.

use super::{
    Outcome, Said, VerbError, opening::open_motion, print_to_stderr, printing::print,
    progress::SharedProgress,
};
use crate::dance::{BarCounts, FaultKind};
use crate::faults::{Faults, SPACE_CAUTION, space_needed};
use crate::motion::Moment;
use crate::store::units_of_untold;
use clap::Args;
use rayon::prelude::*;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Look for faults.
#[derive(Debug, Args)]
pub struct Check {
    /// The dance files
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// Print a JSON list
    #[arg(long)]
    pub json: bool,
}

/// What was found in one file.
enum CheckedFile {
    /// Its faults, the floor that it needs, and its bars.
    Faults(Faults, String, BarCounts),
    /// It could not be opened or worked out.
    Unread(VerbError),
}

/// Checks the files.
pub(super) fn run(asked: &Check) -> Said<Outcome> {
    let mut told = Report::default();
    for (path, checked) in asked.files.iter().zip(check_all(&asked.files, !asked.json)) {
        told.take(path, checked, asked.files.len() > 1);
    }
    if told.unread.len() == asked.files.len() {
        // An empty list would say that the files are clear.
    } else if asked.json {
        let text = serde_json::to_string_pretty(&told.list).unwrap_or_default();
        print(&(text + "\n"))?;
    } else {
        if asked.files.len() > 1 {
            told.lines += &told.summary(asked.files.len());
        }
        told.lines += &format!("{SPACE_CAUTION}\n");
        print(&told.lines)?;
    }
    for error in &told.unread {
        print_to_stderr(&error.to_string());
    }
    Ok(match (told.unread.is_empty(), told.faulty) {
        (false, _) => Outcome::Undone,
        (true, 0) => Outcome::Fine,
        (true, _) => Outcome::Faults,
    })
}

/// Checks files on every core; gives what was found in the order of the files.
fn check_all(files: &[PathBuf], space: bool) -> Vec<CheckedFile> {
    let progress = SharedProgress::of("file");
    let check = |path: &PathBuf| {
        let checked = check_one(path, space);
        progress.one_more(files.len());
        checked
    };
    files.par_iter().map(check).collect()
}

/// Checks one file; the space that it needs is worked out where it is wanted.
fn check_one(path: &Path, space: bool) -> CheckedFile {
    match open_motion(path, None) {
        Ok((dance, motion, _)) => {
            let space = if space { space_needed(&dance, &motion).words() } else { String::new() };
            CheckedFile::Faults(Faults::of(&dance, &motion), space, motion.bar_counts().clone())
        }
        Err(error) => CheckedFile::Unread(error),
    }
}

/// What has been found so far.
#[derive(Default)]
struct Report {
    list: Vec<Value>,
    lines: String,
    unread: Vec<VerbError>,
    /// Files with faults that are not meant.
    faulty: usize,
    /// How many faults of each kind.
    kinds: BTreeMap<&'static str, usize>,
}

impl Report {
    fn take(&mut self, path: &Path, checked: CheckedFile, many: bool) {
        let (faults, space, bars) = match checked {
            CheckedFile::Faults(faults, space, bars) => (faults, space, bars),
            CheckedFile::Unread(error) => {
                self.unread.push(error);
                return;
            }
        };
        let mut tell = |kind: FaultKind, many: usize| *self.kinds.entry(kind.name()).or_insert(0) += many;
        for fault in faults.iter() {
            self.list.push(value(fault, many.then_some(path)));
            let moment = Moment::at(&bars, fault.counts());
            let place = format!("{}: {} at {moment}", path.display(), fault.kind.name());
            match &fault.allowed {
                Some(reason) => self.lines += &format!("{place}: meant ({reason}): {}\n", fault.text),
                None => {
                    if !fault.kind.is_caution() {
                        tell(fault.kind, 1);
                    }
                    self.lines += &format!("{place}: {}\n", fault.text);
                }
            }
        }
        for more in faults.more() {
            self.list.push(value(more, many.then_some(path)));
            self.lines += &format!("{}: {}: {}\n", path.display(), more.kind.name(), more.words());
            if more.more > more.meant {
                tell(more.kind, more.more - more.meant);
            }
        }
        if faults.many() == 0 {
            self.lines += &format!("{}: clear\n", path.display());
        } else {
            self.faulty += 1;
        }
        if !space.is_empty() {
            self.lines += &format!("{}: {space}\n", path.display());
        }
    }

    fn summary(&self, files: usize) -> String {
        let clear = files - self.faulty - self.unread.len();
        let mut summary = format!("{files} files: {clear} clear, {} with faults", self.faulty);
        if !self.kinds.is_empty() {
            let kinds: Vec<String> = self.kinds.iter().map(|(kind, many)| format!("{many} {kind}")).collect();
            summary += &format!(" ({})", kinds.join(", "));
        }
        if !self.unread.is_empty() {
            summary += &format!(", {} could not be read", self.unread.len());
        }
        summary + "\n"
    }
}

/// What is said of a fault, or of those that are left out, with its file where there are more files than one.
fn value(said: &impl Serialize, path: Option<&Path>) -> Value {
    let mut value = serde_json::to_value(said).unwrap_or_default();
    if let (Some(path), Some(object)) = (path, value.as_object_mut()) {
        object.insert("file".to_owned(), Value::from(path.display().to_string()));
        // JSON holds nothing but text, and a name need not be that.
        if let Some(units) = units_of_untold(path) {
            object.insert("file_bytes".to_owned(), Value::from(units));
        }
    }
    value
}
