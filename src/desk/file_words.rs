use std::path::Path;

/// The name of a file, in one line.
#[must_use]
pub fn file_words(path: &Path) -> String {
    let name = path.file_name().map_or_else(|| path.to_string_lossy(), |name| name.to_string_lossy());
    name.chars().map(|letter| if letter.is_control() { '\u{fffd}' } else { letter }).collect()
}
