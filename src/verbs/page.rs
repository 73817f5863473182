//! `bellpad page`: a dance as one file that plays on a phone.

use super::{Outcome, Said, VerbError, handouts::named, opening::open_motion};
use crate::handout::page::page_with;
use crate::store;
use clap::Args;
use std::path::PathBuf;

/// Write a page to practise with.
#[derive(Debug, Args)]
pub struct PageOf {
    /// The dance file
    pub file: PathBuf,
    /// The page to write, .html
    #[arg(short, value_name = "OUT.html")]
    pub out: PathBuf,
    /// Without the names of people
    #[arg(long)]
    pub no_names: bool,
    /// Without what there is to watch for in each figure
    #[arg(long)]
    pub no_watch: bool,
}

/// Writes the page.
pub(super) fn run(asked: &PageOf) -> Said<Outcome> {
    let ending = asked.out.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
    if !["html", "htm"].contains(&ending.as_str()) {
        return Err(VerbError::Ending { path: asked.out.clone(), what: "a page", expected: ".html" });
    }
    let (dance, motion, _) = open_motion(&asked.file, None)?;
    let dance = named(dance, asked.no_names);
    let page = page_with(&dance, &motion, !asked.no_watch)
        .map_err(|source| VerbError::Page { path: asked.file.clone(), source })?;
    store::write_whole(&asked.out, page.as_bytes())?;
    Ok(Outcome::Fine)
}
