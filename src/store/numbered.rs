use std::path::{Path, PathBuf};

/// A path with a number, of so many digits at least, before its ending: `sheet.png` as `sheet-2.png`.
#[must_use]
pub fn numbered(path: &Path, number: usize, digits: usize) -> PathBuf {
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!("-{number:0digits$}"));
    if let Some(ending) = path.extension() {
        name.push(".");
        name.push(ending);
    }
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_number_stands_before_the_ending() {
        assert_eq!(numbered(Path::new("a/sheet.png"), 2, 1), Path::new("a/sheet-2.png"));
        assert_eq!(numbered(Path::new("sheet"), 12, 1), Path::new("sheet-12"));
        assert_eq!(numbered(Path::new("six.of.us.svg"), 1, 3), Path::new("six.of.us-001.svg"));
    }
}
