use super::{Dance, DanceError, InFile, VERSION, check_rules, limits, shown_text};
use serde::{Deserialize, Deserializer};

/// Reads a dance from the bytes of its file.
///
/// # Errors
/// Says where (line and column, or the path of the key), what is wrong and what was expected.
pub fn read(bytes: &[u8]) -> Result<Dance, DanceError> {
    if bytes.len() as u64 > limits::MOST_BYTES {
        return Err(DanceError::whole(format!(
            "the file is larger than {} MiB, the most a dance file may be",
            limits::MOST_BYTES / 1024 / 1024
        )));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let before = std::str::from_utf8(before).unwrap_or_default().trim_start_matches('\u{feff}');
        let line = before.split('\n').count();
        let column = 1 + before.rsplit('\n').next().unwrap_or_default().chars().count();
        DanceError { place: InFile::Line { line, column }, message: "the text is not UTF-8".to_owned() }
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(DanceError::whole("the file is empty; a dance file holds a JSON object"));
    }
    check_version(text)?;
    let mut reader = serde_json::Deserializer::from_str(text);
    let mut dance: Dance = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let path = error.path().to_string();
        let inner = error.into_inner();
        let (line, column) = place_in(text, &inner);
        let place = if path == "." {
            InFile::Line { line, column }
        } else {
            InFile::Key { path: shown_text(&path), line: (inner.line() > 0).then_some(line) }
        };
        DanceError { place, message: plain(&inner) }
    })?;
    check_rules(&dance)?;
    // An older file says nothing that this version means otherwise; it is written as this version at the next save.
    dance.version = VERSION;
    Ok(dance)
}

/// The text of a dance's file: indented JSON with a stable order of keys and a newline at the end.
///
/// # Errors
/// When something in it cannot be written as JSON.
pub fn write(dance: &Dance) -> Result<String, DanceError> {
    let mut text = serde_json::to_string_pretty(dance)
        .map_err(|error| DanceError::whole(format!("it cannot be written as JSON: {error}")))?;
    text.push('\n');
    Ok(text)
}

/// Looks at the version before anything else, so that a newer file is not reported as a broken one.
fn check_version(text: &str) -> Result<(), DanceError> {
    #[derive(Deserialize)]
    struct Peek {
        bellpad: Option<serde_json::Value>,
    }
    let not_json = |error: serde_json::Error| DanceError {
        place: {
            let (line, column) = place_in(text, &error);
            InFile::Line { line, column }
        },
        message: match error.classify() {
            serde_json::error::Category::Data => plain(&error),
            serde_json::error::Category::Eof => "the JSON stops before it is complete".to_owned(),
            _ => format!("not JSON: {}", plain(&error)),
        },
    };
    // Serde would take a list for the values of an object in order.
    let kind = match text.trim_start().chars().next() {
        Some('{') => None,
        Some('[') => Some("a list"),
        Some('"') => Some("text"),
        Some('-' | '0'..='9') => Some("a number"),
        _ => Some("one word"),
    };
    if let Some(kind) = kind {
        serde_json::from_str::<serde::de::IgnoredAny>(text).map_err(not_json)?;
        return Err(DanceError::whole(format!("a dance file holds a JSON object, and this holds {kind}")));
    }
    let peek: Peek = serde_json::from_str(text).map_err(not_json)?;
    let Some(version) = peek.bellpad else {
        return Err(DanceError::whole(
            "this is JSON but not a dance file: the key bellpad, which gives the version, is missing",
        ));
    };
    match whole_number(&version) {
        Some(version) if version > u64::from(VERSION) => Err(DanceError::key(
            "bellpad",
            format!(
                "the file is version {version} and this program reads up to version {VERSION}; use a newer Bellpad"
            ),
        )),
        Some(version) if version >= 1 => Ok(()),
        _ => Err(DanceError::key(
            "bellpad",
            format!("{} is not a version; expected 1 or {VERSION}", shown_text(&version.to_string())),
        )),
    }
}

/// A whole number from 0, also one that is written with nothing but noughts after the point.
fn whole_number(value: &serde_json::Value) -> Option<u64> {
    let written = || value.as_f64().filter(|number| number.fract() == 0.0 && (0.0..1e15).contains(number));
    value.as_u64().or_else(|| written().map(|number| number as u64))
}

/// Reads the version of a file, however it is written: that it is one this program reads has been looked at.
pub(super) fn read_version<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
    let value = serde_json::Value::deserialize(from)?;
    whole_number(&value)
        .and_then(|version| u32::try_from(version).ok())
        .ok_or_else(|| serde::de::Error::custom("not a version"))
}

/// The line and the column (in letters) of a JSON error, both from 1. Where the reader stands at the beginning of a line it has
/// seen nothing of yet, that is column 1; where the text stops, it is the last letter there, whatever empty lines
/// come after it.
fn place_in(text: &str, error: &serde_json::Error) -> (usize, usize) {
    let written = text.trim_end();
    let lines = written.split('\n').count();
    if error.is_eof() || error.line() > lines {
        let last = written.rsplit('\n').next().unwrap_or_default();
        return (lines, last.chars().count().max(1));
    }
    // The reader counts bytes: it stands at the end of the letter that it has just seen, or within it.
    let line = text.split('\n').nth(error.line().saturating_sub(1)).unwrap_or_default();
    let letters = line.char_indices().take_while(|(at, _)| *at < error.column()).count();
    (error.line().max(1), letters.max(1))
}

/// A JSON error in words of this trade, on one line, without the line and column that `serde_json` puts at its
/// end.
fn plain(error: &serde_json::Error) -> String {
    let text = error.to_string();
    let text = text.rsplit_once(" at line ").map_or(text.as_str(), |(before, _)| before);
    let (found, wanted) = match text.rsplit_once(", expected ") {
        Some((found, wanted)) => (found, Some(wanted)),
        None => (text, None),
    };
    let found = match found.strip_prefix("invalid type: ") {
        Some("sequence") => "wrong type: a list".to_owned(),
        Some("map") => "wrong type: an object".to_owned(),
        Some(rest) => format!("wrong type: {rest}"),
        None => {
            found.replacen("unknown variant", "unknown word", 1).replacen("missing field", "missing key", 1)
        }
    };
    let found = shown_text(&seen(&found));
    match wanted {
        None => found,
        Some("u32") => format!("{found}, expected a whole number from 0"),
        Some("f64") => format!("{found}, expected a number"),
        Some("a sequence") => format!("{found}, expected a list"),
        Some("a map") => format!("{found}, expected an object"),
        Some(wanted) if wanted.starts_with("struct ") => format!("{found}, expected an object"),
        Some(wanted) => format!("{found}, expected {wanted}"),
    }
}

/// What `serde_json` says of a text that it found where it wanted something else, without the escapes of the language
/// this is written in.
fn seen(found: &str) -> String {
    let Some((kind, text)) = found.split_once('"').filter(|(kind, _)| kind.ends_with("string ")) else {
        return found.to_owned();
    };
    let mut seen = format!("{}text \"", kind.strip_suffix("string ").unwrap_or(kind));
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        if letter != '\\' {
            seen.push(letter);
            continue;
        }
        match letters.next() {
            Some('n' | 'r' | 't') => seen.push(' '),
            Some('u') => {
                let (number, rest) = letters.as_str().split_once('}').unwrap_or_default();
                letters = rest.chars();
                let number = u32::from_str_radix(number.trim_start_matches('{'), 16).ok();
                seen.push(number.and_then(char::from_u32).unwrap_or(char::REPLACEMENT_CHARACTER));
            }
            other => seen.extend(other),
        }
    }
    seen
}
