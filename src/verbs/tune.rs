//! `bellpad tune`: the tune of a dance, or one in ABC notation, as sound or as notes.

use super::{Outcome, Said, VerbError, print_to_stderr};
use crate::dance::{CleanedTunes, PlayedTune, shown_name};
use crate::figures::motion_of;
use crate::sound::{Levels, MusicOf, SoundError, TuneAlone, midi, wav};
use crate::store;
use clap::Args;
use std::path::PathBuf;

/// Write the tune.
#[derive(Debug, Args)]
pub struct TuneOf {
    /// The dance file, or a tune in ABC notation, .abc, which is played through as it is written
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
    /// Without the taps and claps of sticks and hands that meet
    #[arg(long)]
    pub no_taps: bool,
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
    let is_sound = match ending.as_str() {
        "wav" => true,
        "mid" | "midi" => false,
        _ => {
            let expected = ".wav or .mid";
            return Err(VerbError::Ending { path: asked.out.clone(), what: "a tune", expected });
        }
    };
    let all = Levels::default();
    let click = if asked.click { all.click } else { 0.0 };
    let levels = Levels { click, taps: if asked.no_taps { 0.0 } else { all.taps }, ..all };
    let speed = asked.speed / 100.0;
    let is_abc = asked.file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("abc"));
    let written =
        if is_abc { alone(asked, is_sound, levels, speed)? } else { danced(asked, is_sound, levels, speed)? };
    let path = asked.file.clone();
    let bytes = written.map_err(|source| VerbError::Sound { path, source })?;
    store::write_whole(&asked.out, &bytes)?;
    Ok(Outcome::Fine)
}

/// The bytes of what is asked for.
type Written = Result<Vec<u8>, SoundError>;

/// The first tune of a file in ABC notation, played through as it is written.
fn alone(asked: &TuneOf, is_sound: bool, levels: Levels, speed: f64) -> Said<Written> {
    let path = || asked.file.clone();
    if let Some(wanted) = &asked.figure {
        return Err(VerbError::TuneHasNoFigures { path: path(), wanted: wanted.clone() });
    }
    let tunes = CleanedTunes::of(&store::tune_text(&asked.file)?).tunes;
    let first = tunes.first().ok_or_else(|| VerbError::NoTune { path: path() })?;
    let tune = PlayedTune::read(first).map_err(|source| VerbError::Tune { path: path(), source })?;
    let title = title(first);
    if tunes.len() > 1 {
        let said =
            format!("there are {} tunes in it; the first, {}, is written", tunes.len(), shown_name(title));
        print_to_stderr(&format!("{}: {said}", asked.file.display()));
    }
    for remark in &tune.told {
        print_to_stderr(&format!("{}: {}: {remark}", asked.file.display(), shown_name(title)));
    }
    let alone = TuneAlone::of(&tune, title);
    Ok(if is_sound { alone.wav(levels, speed) } else { alone.midi(levels, speed) })
}

/// The first title of a tune, or else the number that it has.
fn title(abc: &str) -> &str {
    let field = |name: &str| abc.lines().find_map(|line| line.strip_prefix(name)).map(str::trim);
    field("T:").or_else(|| field("X:")).unwrap_or_default()
}

/// The tune as a dance plays it, or as one figure of it does.
fn danced(asked: &TuneOf, is_sound: bool, levels: Levels, speed: f64) -> Said<Written> {
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
    Ok(if is_sound { wav(&music, levels, speed) } else { midi(&music, levels, speed) })
}
