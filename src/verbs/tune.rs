//! `bellpad tune`: the tune as sound, or as notes.

use super::{Outcome, Said, VerbError, print_to_stderr};
use crate::figures::motion_of;
use crate::sound::{Levels, MusicOf, midi, wav};
use crate::store;
use clap::Args;
use std::path::PathBuf;

/// Write the tune.
#[derive(Debug, Args)]
pub struct TuneOf {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name, where it is first danced
    #[arg(long)]
    pub figure: Option<String>,
    /// The file to write, .wav or .mid
    #[arg(short, value_name = "OUT.wav|.mid")]
    pub out: PathBuf,
    /// How fast, in hundredths of the tune's own speed, at the same pitch
    #[arg(long, value_name = "PERCENT", default_value_t = 100.0, allow_negative_numbers = true)]
    pub speed: f64,
    /// With a click on each count, louder on the strong beats
    #[arg(long)]
    pub click: bool,
}

/// Writes the tune.
pub(super) fn run(asked: &TuneOf) -> Said<Outcome> {
    if !(10.0..=400.0).contains(&asked.speed) {
        return Err(VerbError::Number {
            option: "--speed",
            given: asked.speed,
            expected: "10 to 400, in hundredths of the tune's own speed",
        });
    }
    let ending = asked.out.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
    let write = match ending.as_str() {
        "wav" => wav,
        "mid" | "midi" => midi,
        _ => {
            let expected = ".wav or .mid";
            return Err(VerbError::Ending { path: asked.out.clone(), what: "a tune", expected });
        }
    };
    let dance = store::open(&asked.file)?;
    let path = || asked.file.clone();
    let motion = motion_of(&dance, None).map_err(|source| VerbError::Dance { path: path(), source })?;
    let music = match &asked.figure {
        None => MusicOf::whole(&dance, &motion),
        Some(wanted) => {
            let index =
                dance.find_figure(wanted).ok_or_else(|| VerbError::no_figure(&asked.file, &dance, wanted))?;
            MusicOf::figure(&dance, &motion, index)
                .ok_or_else(|| VerbError::NotDanced { path: path(), wanted: wanted.clone() })?
        }
    };
    if music.air.is_none() && !dance.music.abc.trim().is_empty() {
        print_to_stderr(&format!("{}: the tune cannot be read; see bellpad check", asked.file.display()));
    }
    let levels = if asked.click { Levels::default() } else { Levels::TUNE };
    let bytes = write(&music, levels, asked.speed / 100.0)
        .map_err(|source| VerbError::Sound { path: path(), source })?;
    store::write_whole(&asked.out, &bytes)?;
    Ok(Outcome::Fine)
}
