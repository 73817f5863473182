//! Tunes pasted from anywhere: mail, web pages, files of other systems and books of tunes are cleaned, and what was cleaned is said.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{CleanedTunes, Tune};

/// A short tune of ours, and another.
const REEDS: &str =
    "X:1\nT:The Reeds\nM:6/8\nL:1/8\nQ:3/8=104\nK:G\nD|:\"G\"GAB d2B|\"C\"cBA G2A|1 B2A A2D:|2 A2G G3|]\n";
const FERRY: &str = "X:2\nT:Ferry Stairs\nM:4/4\nL:1/8\nK:D\n|:d2f2 a2f2|e2A2 e4:|\n";

/// Ways in which a text is spoiled on its way, and what is said of the cleaning.
fn spoiled() -> Vec<(&'static str, fn(&str) -> String, &'static str)> {
    vec![
        ("as it is", |text| text.to_owned(), ""),
        ("a mark at its start", |text| format!("\u{feff}{text}"), "mark at the start"),
        ("line ends of Windows", |text| text.replace('\n', "\r\n"), "line ends"),
        ("line ends of old Macs", |text| text.replace('\n', "\r"), "line ends"),
        ("line separators", |text| text.replace('\n', "\u{2028}"), "line ends"),
        ("indented", |text| text.lines().map(|line| format!("    {line}\n")).collect(), "spaces"),
        ("indented by tabs", |text| text.lines().map(|line| format!("\t{line}\n")).collect(), "spaces"),
        ("quoted in a mail", |text| text.lines().map(|line| format!("> {line}\n")).collect(), "quoted mail"),
        ("quoted twice", |text| text.lines().map(|line| format!("> > {line}\n")).collect(), "quoted mail"),
        (
            "quoted without a space",
            |text| text.lines().map(|line| format!(">{line}\n")).collect(),
            "quoted mail",
        ),
        (
            "curly quotes",
            |text| text.replace("\"G\"", "\u{201c}G\u{201d}").replace("\"C\"", "\u{201c}C\u{201d}"),
            "curly",
        ),
        ("web page signs", |text| text.replace('"', "&quot;"), "web page"),
        ("web page numbers", |text| text.replace('"', "&#34;"), "web page"),
        ("broken lines of a web page", |text| text.replace('\n', "<br>\n"), "web page"),
        (
            "a block of text",
            |text| text.replace("K:G\n", "%%begintext\nTune: of ours\nabc def\n%%endtext\nK:G\n"),
            "%%begintext",
        ),
    ]
}

/// Each way alone, and each pair of them one after the other.
#[test]
fn what_is_pasted_reads_as_what_was_copied() {
    let expected = Tune::read(REEDS).unwrap();
    let mut forms = 0;
    for (first, one, said) in spoiled() {
        let text = one(REEDS);
        let cleaned = CleanedTunes::of(&text);
        assert_eq!(cleaned.tunes.len(), 1, "{first}");
        assert_eq!(Tune::read(&cleaned.tunes[0]).unwrap(), expected, "{first}: {:?}", cleaned.tunes[0]);
        if said.is_empty() {
            assert!(cleaned.said.is_empty() && cleaned.tunes[0] == REEDS, "{:?}", cleaned.said);
        } else {
            assert!(cleaned.said.iter().any(|words| words.contains(said)), "{first}: {:?}", cleaned.said);
        }
        forms += 1;
        for (second, other, _) in spoiled() {
            let both = other(&text);
            // A mail quotes what is already marked and indented; a mark is at the very start or it is none.
            if second == first
                || (first.contains("mark") && second != "as it is" && !second.contains("line ends"))
            {
                continue;
            }
            let cleaned = CleanedTunes::of(&both);
            assert_eq!(cleaned.tunes.len(), 1, "{first}, then {second}");
            assert_eq!(
                Tune::read(&cleaned.tunes[0]).as_ref(),
                Ok(&expected),
                "{first}, then {second}: {:?}",
                cleaned.tunes[0]
            );
            forms += 1;
        }
    }
    assert!(forms >= 60, "{forms}");
}

#[test]
fn a_page_of_several_tunes_is_parted() {
    let page = format!("Two of our tunes, as we play them:\n\n{REEDS}\nand the other\n\n{FERRY}");
    let cleaned = CleanedTunes::of(&page);
    assert_eq!(cleaned.tunes.len(), 2);
    assert_eq!(cleaned.said, ["words before the first tune"]);
    assert_eq!(Tune::read(&cleaned.tunes[0]).unwrap(), Tune::read(REEDS).unwrap());
    assert_eq!(Tune::read(&cleaned.tunes[1]).unwrap(), Tune::read(FERRY).unwrap());
    // Without a number it is one tune from its first field on.
    let bare = REEDS.replace("X:1\n", "");
    assert_eq!(CleanedTunes::of(&bare).tunes, [bare]);
}

#[test]
fn what_is_no_tune_gives_none() {
    for text in ["", "\n\n", "Dear all,\npractice is at eight.\n", "> \n> \n", "\u{feff}"] {
        assert!(CleanedTunes::of(text).tunes.is_empty(), "{text:?}");
    }
}

/// How fast a tune goes by its own words, in strong beats a minute (ABC standard 2.1, 3.1.8): a dotted crotchet is a strong beat
/// of 6/8 and 9/8, a minim of 4/4, a crotchet of 2/4 and 3/4.
#[test]
fn the_speed_of_a_tune_is_told_in_strong_beats() {
    for (metre, tempo, expected) in [
        ("6/8", "3/8=104", 104.0),
        ("6/8", "1/8=300", 100.0),
        ("9/8", "3/8=90", 90.0),
        ("4/4", "1/4=200", 100.0),
        ("2/2", "1/2=96", 96.0),
        ("C|", "1/2=96", 96.0),
        ("2/4", "1/4=104", 104.0),
        ("3/4", "1/4=120", 120.0),
        ("3/2", "1/2=80", 80.0),
    ] {
        let abc = format!("X:1\nM:{metre}\nL:1/8\nQ:{tempo}\nK:G\nG8|G8|\n");
        let speed = Tune::read(&abc).unwrap().speed.unwrap();
        assert!((speed - expected).abs() < 1e-9, "{metre} {tempo}: {speed}");
    }
    for silent in ["Q:\"Slow\"\n", ""] {
        let abc = format!("X:1\nM:4/4\n{silent}K:G\nG8|\n");
        assert_eq!(Tune::read(&abc).unwrap().speed, None);
    }
}
