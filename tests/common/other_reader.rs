//! The tune as Debian's abcmidi has it: a reader of ABC that is no part of the program.

use bellpad::dance::PlayedTune;
use midly::{MidiMessage, Smf, Timing, TrackEventKind};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// A note: when it begins and how long it lasts, ticks, and its key, 60 for middle C.
pub type Told = (u32, u32, u8);

/// Ticks of a crotchet in what the other reader writes.
pub const CROTCHET: u64 = 480;

/// A tune as it is given to the other reader, with the notes alone: it swings what `R:` calls a hornpipe, cuts short what has a dot of
/// staccato, and plays trills and rolls (ABC 2.1, 4.14) as so many short notes, none of which is a matter of reading.
pub fn without_manners(abc: &str) -> String {
    let line = |line: &str| {
        let is_field = line.as_bytes().get(1) == Some(&b':') && !line.starts_with(['|', ':']);
        if is_field || line.starts_with('%') { line.to_owned() } else { without_decorations(line) }
    };
    let kept = abc.lines().filter(|line| !line.starts_with("R:"));
    // It strikes the notes of a chord one after the other unless it is told not to.
    kept.map(|text| line(text) + "\n").collect::<String>().replacen('\n', "\n%%MIDI chordattack 0\n", 1)
}

/// A tune with the start of each repeat written out. By the standard (ABC 2.1, 4.8) a repeat that is not begun by a sign of its own
/// begins at the latest double bar line or end of a repeat; the other reader looks for the latter alone, and in a tune of parts
/// (3.1.9) for neither. Nor does it know `||:` and `:]`.
pub fn with_repeats_begun(abc: &str) -> String {
    let (mut made, mut is_open, mut is_first) = (String::new(), false, true);
    // Where what may begin a repeat stands in what is made, and how long it is.
    let mut begin: Option<(usize, usize)> = None;
    for line in abc.split_inclusive('\n') {
        let is_field = line.as_bytes().get(1) == Some(&b':') && !line.starts_with(['|', ':']);
        if is_field || line.starts_with('%') {
            made.push_str(line);
            is_first |= line.starts_with('P');
            continue;
        }
        // The notes of a tune, or of a part.
        if std::mem::take(&mut is_first) {
            (begin, is_open) = (Some((made.len(), 0)), false);
        }
        let mut rest = line;
        while let Some(letter) = rest.chars().next() {
            let long = match letter {
                '"' => rest[1..].find('"').map_or(1, |end| end + 2),
                '%' => rest.len(),
                '[' if rest.starts_with("[|]") => 3,
                '[' if !rest.starts_with("[|")
                    && rest[1..].starts_with(|letter: char| letter.is_ascii_alphabetic()) =>
                {
                    rest.find(']').map_or(1, |end| end + 1)
                }
                '|' | ':' | '[' => {
                    let bar = rest.find(|letter| !matches!(letter, '|' | ':' | ']')).unwrap_or(rest.len());
                    if rest.starts_with("[|") { 2 } else { bar.max(1) }
                }
                letter => letter.len_utf8(),
            };
            let (bar, after) = rest.split_at(long);
            rest = after;
            let is_bar = bar != "[|]"
                && bar.trim_matches(['[', '|', ':', ']']).is_empty()
                && bar.len() + usize::from(bar == "|") > 1;
            if !is_bar {
                made.push_str(bar);
                continue;
            }
            let (ends, starts) = (bar.starts_with(':'), bar.ends_with(':'));
            if ends {
                if let Some((at, long)) = begin.take().filter(|_| !is_open) {
                    let sign = if made[at..at + long].starts_with(':') { "::" } else { "|:" };
                    made.replace_range(at..at + long, sign);
                }
                is_open = false;
            }
            is_open |= starts;
            if bar.len() > 1 && !starts && !is_open {
                begin = Some((made.len(), bar.len()));
            }
            made.push_str(match bar {
                "||:" => "|:",
                ":]" => ":|",
                other => other,
            });
        }
    }
    made
}

/// A line of notes without decorations; what is in quotes or a field in brackets stays.
fn without_decorations(line: &str) -> String {
    let mut made = String::new();
    let mut rest = line;
    while let Some(letter) = rest.chars().next() {
        let after = &rest[letter.len_utf8()..];
        let is_name = |name: &str| name.chars().all(|letter| letter.is_ascii_alphabetic());
        let is_field = |inside: &str| {
            inside.starts_with(|letter: char| letter.is_ascii_alphabetic()) && inside[1..].starts_with(':')
        };
        let whole = match letter {
            '"' => after.find('"').map_or(0, |end| end + 1),
            '[' if is_field(after) => after.find(']').map_or(0, |end| end + 1),
            '!' => {
                after.split_once('!').filter(|(name, _)| is_name(name)).map_or(0, |(name, _)| name.len() + 1)
            }
            '%' => break,
            _ => 0,
        };
        let is_decoration = match letter {
            '.' | '~' | 'H'..='W' | 'h'..='w' => true,
            '!' => whole > 0,
            _ => false,
        };
        if !is_decoration {
            made.push(letter);
            made.push_str(&after[..whole]);
        }
        rest = &after[whole..];
    }
    made
}

/// What the other reader makes of a tune; `folder` is where it writes. Nothing where it writes nothing.
pub fn as_the_other_reads(abc: &str, folder: &Path) -> Option<Vec<Told>> {
    let (written, made) = (folder.join("tune.abc"), folder.join("tune.mid"));
    fs::write(&written, without_manners(abc)).unwrap();
    let mut command = Command::new("abc2midi");
    command.arg(&written).arg("-o").arg(&made).args(["-NGRA", "-NFER", "-NGUI", "-silent"]);
    let ran = command.stdout(Stdio::null()).stderr(Stdio::null()).status();
    ran.unwrap_or_else(|error| panic!("abc2midi: {error}"));
    let bytes = fs::read(&made).ok()?;
    fs::remove_file(&made).unwrap();
    // What is laid over a bar (7.4) is on a track of its own there.
    notes_of(&bytes, abc.contains(" & "))
}

/// The notes of the first track that has some, or of all of them.
fn notes_of(bytes: &[u8], all_tracks: bool) -> Option<Vec<Told>> {
    let smf = Smf::parse(bytes).ok()?;
    assert_eq!(smf.header.timing, Timing::Metrical((CROTCHET as u16).into()));
    let mut notes = Vec::new();
    for track in &smf.tracks {
        let (mut at, mut down) = (0_u32, Vec::new());
        for event in track {
            at += event.delta.as_int();
            let TrackEventKind::Midi { message, .. } = event.kind else { continue };
            match message {
                MidiMessage::NoteOn { key, vel } if vel > 0 => down.push((at, key.as_int())),
                MidiMessage::NoteOn { key, .. } | MidiMessage::NoteOff { key, .. } => {
                    if let Some(place) = down.iter().position(|(_, other)| *other == key.as_int()) {
                        let (begin, key) = down.remove(place);
                        notes.push((begin, at - begin, key));
                    }
                }
                _ => {}
            }
        }
        if !notes.is_empty() && !all_tracks {
            break;
        }
    }
    (!notes.is_empty()).then(|| in_order(notes))
}

/// What this program makes of a tune, in the same ticks.
pub fn as_we_read(tune: &PlayedTune) -> Vec<Told> {
    let ticks = |wholes: bellpad::dance::Length| (wholes.wholes() * 4.0 * CROTCHET as f64).round() as u32;
    let told = |note: &bellpad::dance::PlayedNote| (ticks(note.begin), ticks(note.length), note.key);
    in_order(tune.notes.iter().map(told).collect())
}

fn in_order(mut notes: Vec<Told>) -> Vec<Told> {
    notes.sort_by_key(|(begin, length, key)| (*begin, *key, *length));
    notes
}

/// The first note that two readers have otherwise, in words; onset and length may be two ticks off, as rounding has it.
pub fn difference(own: &[Told], other: &[Told]) -> Option<String> {
    let near = |one: u32, two: u32| one.abs_diff(two) <= 2;
    for (index, (one, two)) in own.iter().zip(other).enumerate() {
        let what = match () {
            () if !near(one.0, two.0) => "onset",
            () if one.2 != two.2 => "key",
            () if !near(one.1, two.1) => "length",
            () => continue,
        };
        return Some(format!("{what} of note {index}: {one:?} here, {two:?} there"));
    }
    let (one, two) = (own.len(), other.len());
    (one != two).then(|| format!("many: {one} notes here, {two} there"))
}
