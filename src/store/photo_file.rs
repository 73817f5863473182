//! Files of photographs: read no farther than a photograph goes, and told by a path from the folder of their dance.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

/// The bytes of a file, though never more than one above the most that are wanted.
///
/// # Errors
/// When it cannot be read, or is no file.
pub fn read_at_most(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    // A pipe would be waited for.
    if !std::fs::metadata(path)?.is_file() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "this is no file"));
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// A file as it is told from a folder, with `/` between; its whole path where no way leads there, nothing where it is not text.
#[must_use]
pub fn path_from(folder: Option<&Path>, file: &Path) -> Option<String> {
    let whole = |path: &Path| std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let file = whole(file);
    let all = file.to_str()?.to_owned();
    let Some(folder) = folder else { return Some(all) };
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let folder = whole(folder);
    let (folder, file) = (plain(&folder), plain(&file));
    let (from, to): (Vec<Component>, Vec<Component>) =
        (folder.components().collect(), file.components().collect());
    let same = from.iter().zip(&to).take_while(|(one, other)| one == other).count();
    // Beyond the root there is no way, and a way almost from there is no shorter than the whole path.
    let up = from.len() - same;
    if same < 2 && up > 0 {
        return Some(all);
    }
    let mut steps: Vec<&str> = vec![".."; up];
    for step in to.iter().skip(same) {
        steps.push(step.as_os_str().to_str()?);
    }
    Some(steps.join("/"))
}

/// A path without the steps that go nowhere or back, as it is told to whoever looks for the file.
#[must_use]
pub fn plain_path(path: &Path) -> PathBuf {
    plain(&std::path::absolute(path).unwrap_or_else(|_| path.to_owned()))
}

fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for step in path.components() {
        match step {
            Component::CurDir => {}
            Component::ParentDir => {
                plain.pop();
            }
            other => plain.push(other),
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_file_is_told_from_its_dance() {
        let told = |folder: &str, file: &str| path_from(Some(Path::new(folder)), Path::new(file)).unwrap();
        assert_eq!(told("/home/us/dances", "/home/us/dances/balcony.jpg"), "balcony.jpg");
        assert_eq!(told("/home/us/dances", "/home/us/dances/old/../new/a.png"), "new/a.png");
        assert_eq!(told("/home/us/dances", "/home/us/pictures/a.png"), "../pictures/a.png");
        assert_eq!(told("/home/us", "/media/card/a.png"), "/media/card/a.png");
        assert_eq!(path_from(None, Path::new("/media/a.png")).unwrap(), "/media/a.png");
    }
}
