use crate::dance::did_you_mean;
use std::path::Path;

/// More files than this are not looked through for a name.
const MOST: usize = 2_000;

/// What to say after an error about a file that is not there: the file beside it that may have been meant, as
/// ` (did you mean low-water.dance.json?)`, or nothing.
#[must_use]
pub fn meant_file(path: &Path) -> String {
    let (Some(name), false) = (path.file_name(), path.exists()) else { return String::new() };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten().take(MOST);
    let mut names: Vec<String> = entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
    // The order of a folder is its own.
    names.sort();
    did_you_mean(&name.to_string_lossy(), names.iter().map(String::as_str))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_beside_it_that_is_near_is_meant() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["low-water.dance.json", "kettle-bridge.dance.json", "notes.txt"] {
            std::fs::write(folder.path().join(name), "").unwrap();
        }
        let meant = |name: &str| meant_file(&folder.path().join(name));
        assert_eq!(meant("low-watr.dance.json"), " (did you mean low-water.dance.json?)");
        assert_eq!(meant("kettle-bridge"), " (did you mean kettle-bridge.dance.json?)");
        assert_eq!(meant("low-water.dance.json"), "", "it is there");
        assert_eq!(meant("galloping"), "");
        assert_eq!(meant("none/low-water.dance.json"), "");
        assert_eq!(meant_file(Path::new("")), "");
    }
}
