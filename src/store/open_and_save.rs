use super::{StoreError, open_with_stamp, write_whole};
use crate::dance::{self, Dance};
use std::path::Path;

/// Opens a dance file.
///
/// # Errors
/// When it cannot be read or is not a dance; the error says which file, where in it and why.
pub fn open(path: &Path) -> Result<Dance, StoreError> {
    open_with_stamp(path).map(|(dance, _)| dance)
}

/// Saves a dance to a file, without a backup and whatever is there.
///
/// # Errors
/// When it cannot be written or could not be opened again; what was there before is then still there.
pub fn save(path: &Path, dance: &Dance) -> Result<(), StoreError> {
    write_whole(path, text_of(path, dance)?.as_bytes())
}

/// The text of a dance for a file, which can be opened again.
pub(super) fn text_of(path: &Path, dance: &Dance) -> Result<String, StoreError> {
    let written = dance::write(dance).and_then(|text| dance::read(text.as_bytes()).map(|_| text));
    written.map_err(|source| StoreError::WouldNotOpen { path: path.to_owned(), source })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Set;
    use std::fs;

    #[test]
    fn a_save_is_whole_and_keeps_links_and_permissions() {
        let folder = tempfile::tempdir().unwrap();
        let real = folder.path().join("real.dance.json");
        let dance = Dance::new("One", Set::longways(2, 2.4, 1.8));
        save(&real, &dance).unwrap();
        assert_eq!(open(&real).unwrap(), dance);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let link = folder.path().join("link.dance.json");
            std::os::unix::fs::symlink(&real, &link).unwrap();
            fs::set_permissions(&real, fs::Permissions::from_mode(0o600)).unwrap();
            let other = Dance::new("Two", Set::longways(4, 2.4, 1.8));
            save(&link, &other).unwrap();
            assert!(fs::symlink_metadata(&link).unwrap().file_type().is_symlink());
            assert_eq!(open(&real).unwrap(), other);
            assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o600);
        }
        let left: Vec<_> = fs::read_dir(folder.path())
            .unwrap()
            .filter_map(|entry| entry.unwrap().file_name().into_string().ok())
            .filter(|name| name.contains(".part"))
            .collect();
        assert!(left.is_empty(), "{left:?}");
    }

    #[test]
    fn a_folder_that_is_not_there_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("none").join("x.dance.json");
        let said = save(&path, &Dance::new("One", Set::longways(2, 2.4, 1.8))).unwrap_err().to_string();
        assert!(
            said.contains("no such file or folder")
                && said.contains("make the folder first")
                && said.contains("x.dance.json"),
            "{said}"
        );
        let said = open(&path).unwrap_err().to_string();
        assert!(said.contains("cannot be opened"), "{said}");
        let said =
            save(folder.path(), &Dance::new("One", Set::longways(2, 2.4, 1.8))).unwrap_err().to_string();
        assert!(said.contains("it is a folder"), "{said}");
    }
}
