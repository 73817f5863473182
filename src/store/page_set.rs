use super::{StoreError, numbered, page_mark::PageMark, write_whole};
use std::ffi::OsStr;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// No page of this program's has as many bytes as this.
const LARGEST: u64 = 256 * 1024 * 1024;

/// The files of a run that writes numbered pages, and owns them.
///
/// Such a run takes the place of pages of its own from an earlier run, and takes those away that are no longer part of
/// the set. What it did not write, or what somebody has changed since, is in the way: see
/// [`in_the_way`](Self::in_the_way).
#[derive(Clone, Debug)]
pub struct PageSet {
    out: PathBuf,
    of: PagesOf,
    pages: Vec<PathBuf>,
    over: Over,
}

/// What a set may be written over, besides its own pages of an earlier run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Over {
    /// Nothing; but a file that was asked for by its name, and is the only page.
    #[default]
    Nothing,
    /// The file that was asked for, one page of many or not: somebody has been asked about it.
    Chosen,
    /// Whatever is there.
    Anything,
}

/// What the pages of a set are of, and how they are numbered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PagesOf {
    /// Sheets: the first page is the file that was asked for, the next has a 2.
    Sheet,
    /// Stills: each has a number, of as many digits as the last.
    Stills,
}

impl PagesOf {
    fn word(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Stills => "stills",
        }
    }

    /// The least number that a name has.
    fn first_numbered(self) -> usize {
        match self {
            Self::Sheet => 2,
            Self::Stills => 1,
        }
    }
}

impl PageSet {
    /// The set of so many pages for a file that was asked for.
    #[must_use]
    pub fn new(of: PagesOf, out: &Path, many: usize) -> Self {
        let pages = match of {
            PagesOf::Sheet => (1..=many)
                .map(|page| if page == 1 { out.to_owned() } else { numbered(out, page, 1) })
                .collect(),
            PagesOf::Stills => {
                let digits = many.to_string().len();
                (1..=many).map(|page| numbered(out, page, digits)).collect()
            }
        };
        Self { out: out.to_owned(), of, pages, over: Over::default() }
    }

    /// The same set that may be written over more than its own pages.
    #[must_use]
    pub fn over(self, over: Over) -> Self {
        Self { over, ..self }
    }

    /// The files, in order.
    #[must_use]
    pub fn pages(&self) -> &[PathBuf] {
        &self.pages
    }

    /// The files there already that are no pages of this set from an earlier run, in order: they are not to be written
    /// over unasked. A file that was asked for by its name and is the only one is not among them.
    #[must_use]
    pub fn in_the_way(&self) -> Vec<&Path> {
        let pages = self.pages.iter().enumerate();
        pages.filter(|(index, page)| self.is_taken(page, index + 1)).map(|(_, page)| page.as_path()).collect()
    }

    /// Whether there is something at a path that is not this page from an earlier run and may not be written over. What
    /// cannot be looked at is such a thing, and so is a link, wherever it leads: what it leads to is no page of this set.
    fn is_taken(&self, path: &Path, number: usize) -> bool {
        let asked_for = path == self.out && (self.over == Over::Chosen || self.pages.len() == 1);
        if asked_for || self.over == Over::Anything {
            return false;
        }
        match fs::symlink_metadata(path) {
            Ok(metadata) if metadata.is_file() => {
                read_page(path).map_or(true, |bytes| !self.mark(number).is_in(&bytes))
            }
            Ok(_) => true,
            Err(error) => error.kind() != io::ErrorKind::NotFound,
        }
    }

    /// Writes a page, by its place from 0, whole or not at all.
    ///
    /// # Errors
    /// When it cannot be written, or something has come [into the way](Self::in_the_way) since that was asked.
    pub fn write(&self, index: usize, bytes: Vec<u8>) -> Result<(), StoreError> {
        let Some(path) = self.pages.get(index) else { return Ok(()) };
        if self.is_taken(path, index + 1) {
            return Err(StoreError::InTheWay { path: path.clone() });
        }
        write_whole(path, &self.mark(index + 1).put_into(bytes))
    }

    /// Takes away the pages of an earlier run that are not part of this set, and gives what they were, in order. It is
    /// called when all of this set is written.
    ///
    /// # Errors
    /// When one cannot be taken away.
    pub fn take_old_away(&self) -> Result<Vec<PathBuf>, StoreError> {
        let mut old = self.old_pages();
        old.sort();
        for (_, path) in &old {
            fs::remove_file(path).map_err(|source| StoreError::OldPage { path: path.clone(), source })?;
        }
        Ok(old.into_iter().map(|(_, path)| path).collect())
    }

    /// Pages of an earlier run that are not part of this set, and their numbers.
    fn old_pages(&self) -> Vec<(usize, PathBuf)> {
        // Pages that are the same but for the folder they are named in are told apart by their names alone.
        let now: std::collections::BTreeSet<&OsStr> =
            self.pages.iter().filter_map(|page| page.file_name()).collect();
        let folder = super::whole::folder_of(&self.out);
        let entries = fs::read_dir(folder).into_iter().flatten().flatten();
        entries
            .filter_map(|entry| {
                let name = entry.file_name();
                let number = self.number_in(&name).filter(|_| !now.contains(name.as_os_str()))?;
                // A link is somebody's own.
                let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
                let path = self.out.with_file_name(&name);
                let is_own = is_file && self.mark(number).is_in(&read_page(&path).ok()?);
                is_own.then_some((number, path))
            })
            .collect()
    }

    /// The number in a name such as `plan-12.svg`, where the set is `plan.svg`.
    fn number_in(&self, name: &OsStr) -> Option<usize> {
        let stem = self.out.file_stem().unwrap_or_default().as_encoded_bytes();
        let mut rest = name.as_encoded_bytes().strip_prefix(stem)?.strip_prefix(b"-")?;
        if let Some(ending) = self.out.extension() {
            rest = rest.strip_suffix(ending.as_encoded_bytes())?.strip_suffix(b".")?;
        }
        let digits = std::str::from_utf8(rest).ok()?;
        let number = digits.bytes().all(|digit| digit.is_ascii_digit()).then(|| digits.parse().ok())?;
        number.filter(|number| *number >= self.of.first_numbered())
    }

    fn mark(&self, number: usize) -> PageMark<'_> {
        PageMark { of: self.of.word(), set: &self.out, number }
    }
}

/// The bytes of a page; what is no file, such as a pipe, is not read.
fn read_page(path: &Path) -> io::Result<Vec<u8>> {
    let metadata = fs::metadata(path)?;
    if !metadata.is_file() || metadata.len() > LARGEST {
        return Err(io::ErrorKind::InvalidData.into());
    }
    let mut bytes = Vec::with_capacity(metadata.len() as usize);
    fs::File::open(path)?.take(LARGEST).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &[u8] = b"<svg xmlns=\"http://www.w3.org/2000/svg\"></svg>\n";

    fn write(set: &PageSet) {
        for index in 0..set.pages().len() {
            set.write(index, PAGE.to_vec()).unwrap();
        }
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<_> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn pages_of_its_own_are_replaced_and_those_no_longer_part_taken_away() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("plan.svg");
        let long = PageSet::new(PagesOf::Sheet, &out, 11);
        assert!(long.in_the_way().is_empty());
        write(&long);
        // Of another set, of another kind, drawn on, and without any mark.
        write(&PageSet::new(PagesOf::Sheet, &folder.path().join("plan-5.svg"), 1));
        write(&PageSet::new(PagesOf::Stills, &out, 4).over(Over::Anything));
        fs::write(folder.path().join("plan-7.svg"), [PAGE, b"<!-- mine -->"].concat()).unwrap();
        fs::write(folder.path().join("plan-12.svg"), PAGE).unwrap();
        let short = PageSet::new(PagesOf::Sheet, &out, 2);
        let taken: Vec<_> =
            short.in_the_way().iter().map(|path| path.file_name().unwrap().to_owned()).collect();
        assert_eq!(taken, ["plan-2.svg"], "a still is no sheet");
        write(&short.clone().over(Over::Anything));
        assert!(short.in_the_way().is_empty());
        let gone = short.take_old_away().unwrap();
        let gone: Vec<_> = gone.iter().map(|path| path.file_name().unwrap().to_string_lossy()).collect();
        assert_eq!(gone, ["plan-6.svg", "plan-8.svg", "plan-9.svg", "plan-10.svg", "plan-11.svg"]);
        let left = [
            "plan-1.svg",
            "plan-12.svg",
            "plan-2.svg",
            "plan-3.svg",
            "plan-4.svg",
            "plan-5.svg",
            "plan-7.svg",
        ];
        assert_eq!(names(folder.path())[..7], left);
        assert!(short.take_old_away().unwrap().is_empty());
    }

    /// A longer run writes its numbers with more digits.
    #[test]
    fn stills_of_more_digits_are_of_the_same_set() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("pic.svg");
        write(&PageSet::new(PagesOf::Stills, &out, 100));
        let short = PageSet::new(PagesOf::Stills, &out, 9);
        assert!(short.in_the_way().is_empty());
        write(&short);
        assert_eq!(short.take_old_away().unwrap().len(), 100);
        assert_eq!(names(folder.path()), (1..=9).map(|page| format!("pic-{page}.svg")).collect::<Vec<_>>());
    }

    /// A link is somebody's own, wherever it leads: nothing is written through it.
    #[test]
    #[cfg(unix)]
    fn any_link_is_in_the_way() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let (out, elsewhere) = (folder.path().join("plan.svg"), folder.path().join("elsewhere"));
        fs::create_dir(&elsewhere).unwrap();
        write(&PageSet::new(PagesOf::Sheet, &elsewhere.join("plan.svg"), 2));
        symlink("elsewhere/plan-2.svg", folder.path().join("plan-2.svg")).unwrap();
        symlink("nowhere.svg", folder.path().join("plan-3.svg")).unwrap();
        let set = PageSet::new(PagesOf::Sheet, &out, 3);
        let taken: Vec<_> =
            set.in_the_way().iter().map(|path| path.file_name().unwrap().to_owned()).collect();
        assert_eq!(taken, ["plan-2.svg", "plan-3.svg"]);
        for index in [1, 2] {
            let error = set.write(index, PAGE.to_vec()).unwrap_err();
            assert!(error.to_string().contains("is in the way"), "{error}");
        }
        assert!(!folder.path().join("nowhere.svg").exists());
    }

    /// What comes into the way while the pages are drawn is left alone too.
    #[test]
    fn what_has_come_into_the_way_since_is_not_written_over() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("plan.svg");
        let set = PageSet::new(PagesOf::Sheet, &out, 3);
        assert!(set.in_the_way().is_empty());
        set.write(0, PAGE.to_vec()).unwrap();
        fs::write(folder.path().join("plan-2.svg"), "mine").unwrap();
        let error = set.write(1, PAGE.to_vec()).unwrap_err().to_string();
        assert!(error.contains("plan-2.svg: is in the way"), "{error}");
        assert_eq!(fs::read(folder.path().join("plan-2.svg")).unwrap(), b"mine");
        set.write(2, PAGE.to_vec()).unwrap();
        // Its own pages are written over as often as it likes, and all where that was asked for.
        set.write(0, PAGE.to_vec()).unwrap();
        let forced = set.over(Over::Anything);
        assert!(forced.in_the_way().is_empty());
        forced.write(1, PAGE.to_vec()).unwrap();
        // The file that was chosen in the window has been asked about there.
        fs::write(&out, "mine").unwrap();
        let chosen = PageSet::new(PagesOf::Sheet, &out, 2).over(Over::Chosen);
        assert!(chosen.in_the_way().is_empty());
        chosen.write(0, PAGE.to_vec()).unwrap();
        fs::write(folder.path().join("plan-2.svg"), "mine").unwrap();
        assert_eq!(chosen.in_the_way().len(), 1);
        chosen.write(1, PAGE.to_vec()).unwrap_err();
    }

    #[test]
    fn a_single_file_that_was_asked_for_is_nobody_elses() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("plan.svg");
        fs::write(&out, "mine").unwrap();
        assert!(PageSet::new(PagesOf::Sheet, &out, 1).in_the_way().is_empty());
        assert_eq!(PageSet::new(PagesOf::Sheet, &out, 2).in_the_way(), [out.as_path()]);
        fs::create_dir(folder.path().join("plan-2.svg")).unwrap();
        assert_eq!(PageSet::new(PagesOf::Sheet, &out, 2).in_the_way().len(), 2);
    }
}
