//! A run that writes numbered pages owns them: it writes over no file that it did not write, and takes its own pages of
//! an earlier run away when they are no longer part of the set.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use common::{assert_refused, bellpad, contents, done, sample, text};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

struct Desk {
    folder: TempDir,
    dance: String,
}

impl Desk {
    fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap(), dance: text(&sample("nine-geese-home")).to_owned() }
    }

    fn path(&self, name: &str) -> String {
        text(&self.folder.path().join(name)).to_owned()
    }

    fn read(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap()
    }

    fn names(&self) -> Vec<String> {
        contents(self.folder.path()).into_iter().map(|(name, _)| name).collect()
    }

    /// Sheets of the whole dance: many pages.
    fn sheets<'a>(&'a self, out: &'a str, more: &[&'a str]) -> Vec<&'a str> {
        [&["sheet", &self.dance, "-o", out], more].concat()
    }

    /// Stills of the hey, once in so many counts.
    fn stills<'a>(&'a self, out: &'a str, every: &'a str, more: &[&'a str]) -> Vec<&'a str> {
        let size = ["--figure", "hey", "--size", "32", "--every", every];
        [&["still", &self.dance, "-o", out], &size[..], more].concat()
    }

    #[track_caller]
    fn refuses(&self, arguments: &[&str], words: &[&str]) {
        let before = contents(self.folder.path());
        assert_refused(&bellpad(arguments), words);
        assert!(contents(self.folder.path()) == before, "nothing is written: {arguments:?}");
    }
}

#[test]
fn a_sheet_writes_over_no_page_that_is_not_its_own() {
    for ending in ["svg", "png"] {
        let desk = Desk::new();
        let out = desk.path(&format!("plan.{ending}"));
        let other = format!("plan-2.{ending}");
        fs::write(desk.path(&other), "an unrelated plan").unwrap();
        desk.refuses(&desk.sheets(&out, &[]), &[&other, "nothing was written", "--force"]);
        // The first is asked for by its name, but many pages are written on its account.
        fs::write(&out, "another").unwrap();
        desk.refuses(&desk.sheets(&out, &[]), &[&format!("plan.{ending} and 1 more"), "--force"]);
        // A folder and a link to somebody's file are in the way as well.
        #[cfg(unix)]
        {
            fs::write(desk.path("mine"), "mine").unwrap();
            fs::create_dir(desk.path(&format!("plan-3.{ending}"))).unwrap();
            std::os::unix::fs::symlink(desk.path("mine"), desk.path(&format!("plan-4.{ending}"))).unwrap();
            desk.refuses(&desk.sheets(&out, &[]), &["and 3 more"]);
            fs::remove_dir(desk.path(&format!("plan-3.{ending}"))).unwrap();
            fs::remove_file(desk.path(&format!("plan-4.{ending}"))).unwrap();
        }
        let forced = done(desk.sheets(&out, &["--force"]));
        assert!(forced.lines().count() > 2 && forced.contains(&other), "{forced}");
        assert_ne!(desk.read(&other), b"an unrelated plan");
        // From then on they are its own.
        assert_eq!(done(desk.sheets(&out, &[])), forced);
    }
}

/// A page that is alone and was asked for by name takes the place of what was there, as a still does.
#[test]
fn a_single_page_that_was_asked_for_takes_the_place_of_what_was_there() {
    let desk = Desk::new();
    for name in ["plan.svg", "plan.png", "plan.pdf"] {
        let out = desk.path(name);
        fs::write(&out, "another").unwrap();
        assert_eq!(done(["sheet", &desk.dance, "--figure", "hey", "-o", &out]), "");
        assert_ne!(desk.read(name), b"another");
    }
    let out = desk.path("all.pdf");
    fs::write(&out, "another").unwrap();
    assert_eq!(done(desk.sheets(&out, &[])), "", "all pages are one file");
}

#[test]
fn pages_of_an_earlier_and_longer_run_are_taken_away() {
    let desk = Desk::new();
    let out = desk.path("plan.svg");
    let all = done(desk.sheets(&out, &[])).lines().count();
    assert!(all > 3);
    // Of other sets, and what somebody made of a page.
    done(["sheet", &desk.dance, "--figure", "hey", "-o", &desk.path("plan-9-2.svg")]);
    done(["still", &desk.dance, "--at", "1:1", "--size", "32", "-o", &desk.path("plan-77.svg")]);
    fs::write(desk.path("plan-78.svg"), "mine").unwrap();
    let drawn_on = String::from_utf8(desk.read("plan-3.svg"))
        .unwrap()
        .replace("</svg>", "<rect width=\"9\" height=\"9\"/></svg>");
    fs::write(desk.path("plan-3.svg"), &drawn_on).unwrap();
    let ran = bellpad(["sheet", &desk.dance, "--figure", "hey", "-o", &out]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert_eq!(ran.err.lines().count(), 1);
    assert!(ran.err.contains("plan-2.svg") && ran.err.contains(&format!("plan-{all}.svg")), "{ran:?}");
    assert_eq!(desk.names(), ["plan-3.svg", "plan-77.svg", "plan-78.svg", "plan-9-2.svg", "plan.svg"]);
    // What was drawn on is the user's, and is not written over.
    desk.refuses(&desk.sheets(&out, &[]), &["plan-3.svg", "--force"]);
    assert_eq!(desk.read("plan-3.svg"), drawn_on.as_bytes());
}

/// A link is somebody's own: one to a page of this program's in another folder, which would be written over there, and one
/// to a file that is not there yet, which would be made.
#[test]
#[cfg(unix)]
fn nothing_is_written_through_a_link() {
    use std::os::unix::fs::symlink;
    for ending in ["png", "svg"] {
        let desk = Desk::new();
        fs::create_dir(desk.path("sub")).unwrap();
        done(desk.stills(&desk.path(&format!("sub/pic.{ending}")), "8", &[]));
        let (out, link) = (desk.path(&format!("pic.{ending}")), desk.path(&format!("pic-2.{ending}")));
        for target in [format!("sub/pic-2.{ending}"), format!("nowhere.{ending}")] {
            symlink(&target, &link).unwrap();
            let before = contents(Path::new(&desk.path("sub")));
            let ran = bellpad(desk.stills(&out, "8", &[]));
            assert_refused(&ran, &[&format!("pic-2.{ending}"), "is in the way", "--force"]);
            assert!(contents(Path::new(&desk.path("sub"))) == before, "nothing is written elsewhere");
            assert!(!Path::new(&desk.path(&format!("pic-1.{ending}"))).exists(), "nor here");
            assert!(!Path::new(&desk.path(&format!("nowhere.{ending}"))).exists(), "nothing is made");
            fs::remove_file(&link).unwrap();
        }
        // A folder may be a link: what was asked for is there.
        symlink("sub", desk.path("linked")).unwrap();
        done(desk.stills(&desk.path(&format!("linked/pic.{ending}")), "8", &[]));
    }
}

#[test]
fn stills_own_their_numbers_alike() {
    let desk = Desk::new();
    let out = desk.path("pic.png");
    fs::write(desk.path("pic-3.png"), "an unrelated picture").unwrap();
    desk.refuses(&desk.stills(&out, "4", &[]), &["pic-3.png", "nothing was written", "--force"]);
    // A still that was asked for by its own name is not one of a row.
    done(["still", &desk.dance, "--at", "1:1", "--size", "32", "-o", &desk.path("pic-3.png")]);
    desk.refuses(&desk.stills(&out, "4", &[]), &["pic-3.png"]);
    fs::remove_file(desk.path("pic-3.png")).unwrap();
    // Seventeen of two digits; then nine of one.
    assert_eq!(done(desk.stills(&out, "2", &[])), "");
    assert_eq!(desk.names().len(), 17);
    assert!(desk.names().contains(&"pic-03.png".to_owned()));
    fs::write(&out, "not one of them, whatever it is").unwrap();
    let ran = bellpad(desk.stills(&out, "4", &[]));
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert!(ran.err.contains("17 pages"), "{ran:?}");
    let mut left: Vec<String> = (1..=9).map(|number| format!("pic-{number}.png")).collect();
    left.push("pic.png".to_owned());
    assert_eq!(desk.names(), left);
    // The same again, and as SVG, which are other files.
    assert_eq!(done(desk.stills(&out, "4", &[])), "");
    assert_eq!(done(desk.stills(&desk.path("pic.svg"), "8", &[])), "");
    assert_eq!(desk.names().len(), 10 + 5);
    // Forced, it writes over what is not its own, and takes away nothing that is not.
    fs::write(desk.path("pic-2.png"), "mine").unwrap();
    fs::write(desk.path("pic-7.png"), "mine too").unwrap();
    let ran = bellpad(desk.stills(&out, "8", &["--force"]));
    assert_eq!(ran.code, Some(0), "{ran:?}");
    assert_ne!(desk.read("pic-2.png"), b"mine");
    assert_eq!(desk.read("pic-7.png"), b"mine too");
    assert!(
        !desk.names().contains(&"pic-6.png".to_owned()) && desk.names().contains(&"pic-5.png".to_owned())
    );
}

/// The same run writes the same files, byte for byte, wherever it is.
#[test]
fn marked_pages_are_the_same_every_time() {
    let (one, other) = (Desk::new(), Desk::new());
    for name in ["plan.svg", "plan.png"] {
        done(one.sheets(&one.path(name), &[]));
        done(other.sheets(&other.path(name), &[]));
        done(other.sheets(&other.path(name), &[]));
    }
    assert!(contents(one.folder.path()) == contents(other.folder.path()));
}

/// A name of blanks, hyphens and letters of all kinds is known again.
#[test]
fn odd_names_are_known_again() {
    let desk = Desk::new();
    for name in ["a -- b.svg", "鵝.png", "%41.svg", "plan-2.svg"] {
        let out = desk.path(name);
        let all = done(desk.sheets(&out, &[]));
        assert_eq!(done(desk.sheets(&out, &[])), all, "{name}");
        assert!(all.lines().all(|page| Path::new(page).is_file()), "{name}");
        let ran = bellpad(["sheet", &desk.dance, "--figure", "hey", "-o", &out]);
        assert_eq!(ran.code, Some(0), "{ran:?}");
        assert_eq!(all.lines().filter(|page| Path::new(page).exists()).collect::<Vec<_>>(), [out]);
        fs::remove_file(desk.path(name)).unwrap();
    }
}
