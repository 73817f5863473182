//! Tunes pasted from anywhere: mail, web pages, files of other systems and books of tunes are cleaned, and what was cleaned is said.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{CleanedTunes, Tune};

/// A short tune of ours, and another.
const REEDS: &str =
    "X:1\nT:The Reeds\nM:6/8\nL:1/8\nQ:3/8=104\nK:G\nD|:\"G\"GAB d2B|\"C\"cBA G2A|1 B2A A2D:|2 A2G G3|]\n";
const FERRY: &str = "X:2\nT:Ferry Stairs\nM:4/4\nL:1/8\nK:D\n|:d2f2 a2f2|e2A2 e4:|\n";

/// Ways in which a text is spoiled on its way, and what is said of the cleaning.
fn spoiled() -> Vec<Way> {
    vec![
        ("as it is", |text| text.to_owned(), ""),
        ("a mark at its start", |text| format!("\u{feff}{text}"), "mark at the start"),
        ("line ends of Windows", |text| text.replace('\n', "\r\n"), "line ends"),
        ("line ends of old Macs", |text| text.replace('\n', "\r"), "line ends"),
        ("line separators", |text| text.replace('\n', "\u{2028}"), "line ends"),
        ("indented", |text| each_line(text, |line| format!("    {line}")), "spaces"),
        ("indented by tabs", |text| each_line(text, |line| format!("\t{line}")), "spaces"),
        ("quoted in a mail", |text| each_line(text, |line| format!("> {line}")), "quoted mail"),
        ("quoted twice", |text| each_line(text, |line| format!("> > {line}")), "quoted mail"),
        ("quoted without a space", |text| each_line(text, |line| format!(">{line}")), "quoted mail"),
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

type Way = (&'static str, fn(&str) -> String, &'static str);

fn each_line(text: &str, line: impl Fn(&str) -> String) -> String {
    text.lines().map(|text| line(text) + "\n").collect()
}

/// More ways, each alone.
fn spoiled_otherwise() -> Vec<Way> {
    vec![
        (
            "bytes of a mark that were no letters",
            |text| format!("\u{fffd}\u{fffd}{text}"),
            "mark at the start",
        ),
        (
            "two bytes a letter",
            |text| text.chars().flat_map(|letter| [letter, '\0']).collect(),
            "cannot be seen",
        ),
        ("paragraph separators", |text| text.replace('\n', "\u{2029}"), "line ends"),
        ("next lines", |text| text.replace('\n', "\u{85}"), "line ends"),
        ("vertical tabs", |text| text.replace('\n', "\u{b}"), "line ends"),
        ("a new page before it", |text| format!("\u{c}{text}"), "line ends"),
        ("mixed line ends", |text| text.replacen('\n', "\r\n", 2).replacen("\nK", "\rK", 1), "line ends"),
        ("quoted as >>", |text| each_line(text, |line| format!(">> {line}")), "quoted mail"),
        ("quoted three times", |text| each_line(text, |line| format!(">>> {line}")), "quoted mail"),
        ("quoted and indented", |text| each_line(text, |line| format!("  >  {line}")), "quoted mail"),
        (
            "an answer over quoted mail",
            |text| format!("Thanks!\nOn Monday she wrote:\n{}", each_line(text, |line| format!("> {line}"))),
            "quoted mail",
        ),
        ("words before it", |text| format!("Here is the tune:\n\n{text}"), "words before"),
        ("words after it", |text| format!("{text}\nSee you on Tuesday.\n"), ""),
        ("signed", |text| format!("{text}-- \nThe squire\nQuillow Ferry Morris\n"), ""),
        ("without a number", |text| text.replace("X:1\n", ""), ""),
        (
            "blanks after the colons",
            |text| text.replace("X:", "X: ").replace("T:", "T: ").replace("M:", "M:  "),
            "",
        ),
        ("blanks after the lines", |text| each_line(text, |line| format!("{line}   ")), ""),
        ("tabs between the notes", |text| text.replace(' ', "\t"), ""),
        ("no end of its last line", |text| text.trim_end().to_owned(), ""),
        ("empty lines before it", |text| format!("\n\n\n{text}"), ""),
        ("empty lines between all lines", |text| text.replace('\n', "\n\n"), "empty lines"),
        ("a comment on each line", |text| each_line(text, |line| format!("{line} % here")), ""),
        ("a head of a file", |text| format!("%abc-2.1\n%%pagewidth 21cm\n\n{text}"), ""),
        ("fenced", |text| format!("```\n{text}```\n"), "fences"),
        ("fenced by name", |text| format!("```abc\n{text}```\n"), "fences"),
        ("fenced by tildes", |text| format!("~~~\n{text}~~~\n"), "fences"),
        (
            "angle quotes",
            |text| text.replace("\"G\"", "\u{ab}G\u{bb}").replace("\"C\"", "\u{ab}C\u{bb}"),
            "curly",
        ),
        ("low quotes", |text| text.replace("\"G\"", "\u{201e}G\u{201c}"), "curly"),
        ("double primes", |text| text.replace('"', "\u{2033}"), "curly"),
        ("bars of box drawing", |text| text.replace('|', "\u{2502}"), "curly"),
        ("broken bars", |text| text.replace('|', "\u{a6}"), "curly"),
        ("signs of division", |text| text.replace('|', "\u{2223}"), "curly"),
        ("signs of fractions", |text| text.replace("3/8", "3\u{2044}8"), "curly"),
        ("wide colons", |text| text.replace(':', "\u{ff1a}"), "wide letters"),
        ("wide bars", |text| text.replace('|', "\u{ff5c}"), "wide letters"),
        (
            "wide letters",
            |text| {
                text.chars()
                    .map(|letter| {
                        let wide = matches!(letter, '!'..='~')
                            .then(|| char::from_u32(u32::from(letter) + 0xfee0).unwrap());
                        wide.unwrap_or(letter)
                    })
                    .collect()
            },
            "wide letters",
        ),
        ("wide spaces", |text| text.replace(' ', "\u{3000}"), "odd spaces"),
        ("spaces that do not break", |text| text.replace(' ', "\u{a0}"), "odd spaces"),
        ("narrow spaces", |text| text.replace(' ', "\u{202f}"), "odd spaces"),
        ("thin spaces", |text| text.replace(' ', "\u{2009}"), "odd spaces"),
        (
            "indented by odd spaces",
            |text| each_line(text, |line| format!("\u{a0}\u{a0}{line}")),
            "odd spaces",
        ),
        ("soft hyphens", |text| text.replace("d2B", "d\u{ad}2B"), "cannot be seen"),
        ("spaces of no width", |text| text.replace("d2B", "d\u{200b}2B"), "cannot be seen"),
        ("joiners", |text| text.replace("|1", "|\u{200d}1"), "cannot be seen"),
        ("word joiners", |text| text.replace(":|", ":\u{2060}|"), "cannot be seen"),
        ("marks in the middle", |text| text.replace("K:G", "\u{feff}K:G"), "cannot be seen"),
        (
            "marks of the way of writing",
            |text| each_line(text, |line| format!("\u{200e}{line}\u{202c}")),
            "cannot be seen",
        ),
        ("web page names", |text| text.replace('"', "&ldquo;"), "web page"),
        ("web page numbers in sixteens", |text| text.replace('"', "&#x22;"), "web page"),
        ("web page bars", |text| text.replace('|', "&#124;"), "web page"),
        ("web page spaces", |text| text.replace(' ', "&nbsp;"), "web page"),
        ("web page soft hyphens", |text| text.replace("d2B", "d&shy;2B"), "web page"),
        ("within <pre>", |text| format!("<pre>\n{text}</pre>\n"), "web page"),
        (
            "within <pre> and <code>",
            |text| format!("<pre class=\"abc\"><code>{text}</code></pre>"),
            "web page",
        ),
        ("paragraphs", |text| each_line(text, |line| format!("<p>{line}</p>")), "web page"),
        (
            "paragraphs on one line",
            |text| format!("<p>{}</p>", text.trim_end().replace('\n', "</p><p>")),
            "web page",
        ),
        ("large tags", |text| text.replace('\n', "<BR>"), "web page"),
        ("tags that close themselves", |text| text.replace('\n', "<br />"), "web page"),
        ("bold fields", |text| text.replace("T:", "<b>T:</b>").replace("K:", "<b>K:</b>"), "web page"),
        (
            "spans",
            |text| each_line(text, |line| format!("<span style=\"color: red\">{line}</span>")),
            "web page",
        ),
        ("mail that may not send every sign", |text| text.replace('\n', "=20\n"), "mail sends"),
        (
            "mail that broke its lines",
            |text| text.replace("M:6/8", "%%leftmargin=3D1cm\nM:6/8").replace("d2B|", "d=\n2B|"),
            "mail sends",
        ),
        (
            "text that begins nowhere",
            |text| text.replace("K:G\n", "%%begintext\nof ours\n%%endtext\n%%begintext\n%%endtext\nK:G\n"),
            "%%begintext",
        ),
    ]
}

#[test]
fn each_of_sixty_ways_and_more_is_cleaned_and_said() {
    let expected = Tune::read(REEDS).unwrap();
    let ways: Vec<Way> = spoiled().into_iter().chain(spoiled_otherwise()).collect();
    assert!(ways.len() >= 60, "{}", ways.len());
    let mut wrong = Vec::new();
    for (index, (way, spoil, said)) in ways.iter().enumerate() {
        let text = spoil(REEDS);
        let is_new = ways.iter().take(index).all(|(_, other, _)| other(REEDS) != text);
        let cleaned = CleanedTunes::of(&text);
        let told = if said.is_empty() {
            cleaned.said.is_empty()
        } else {
            cleaned.said.iter().any(|words| words.contains(said))
        };
        let again = cleaned.tunes.first().map(|tune| CleanedTunes::of(tune).tunes == cleaned.tunes);
        let read = cleaned.tunes.first().map(|tune| Tune::read(tune));
        let alike = read.as_ref().is_some_and(|read| {
            read.as_ref().is_ok_and(|tune| {
                tune.strains == expected.strains && tune.speed == expected.speed && tune.told.is_empty()
            })
        });
        if !(is_new && told && alike && cleaned.tunes.len() == 1 && again == Some(true)) {
            wrong.push(format!("{way}: new {is_new}, {cleaned:?}, {read:?}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A tune without a key is in C, and that is said; `<` and `>` of a tune are no tags.
#[test]
fn a_tune_without_a_key_is_in_c() {
    let cleaned = CleanedTunes::of(&REEDS.replace("K:G\n", ""));
    assert_eq!(cleaned.said, ["no key, so K:C was put before the notes"]);
    let expected = Tune::read(&REEDS.replace("K:G", "K:C")).unwrap();
    assert_eq!(Tune::read(&cleaned.tunes[0]).unwrap().strains, expected.strains);
    let broken = "X:1\nM:4/4\nK:G\nA<b>a<b A<a>a <c>d|&a|\n".to_owned();
    assert_eq!(CleanedTunes::of(&broken).tunes, [broken]);
}

/// Each way alone, and each pair of them one after the other.
#[test]
fn what_is_pasted_reads_as_what_was_copied() {
    let expected = Tune::read(REEDS).unwrap();
    let (mut forms, mut silent) = (0, Vec::new());
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
        for (second, other, said_then) in spoiled() {
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
            // Of a second that leaves no trace of the first, and of one that finds nothing to change, nothing is to be said.
            let said = if both == other(REEDS) { "" } else { said };
            let said_then = if both == text { "" } else { said_then };
            let unsaid: Vec<&str> = [said, said_then]
                .into_iter()
                .filter(|said| !cleaned.said.iter().any(|words| words.contains(said)) && !said.is_empty())
                .collect();
            if !unsaid.is_empty() {
                silent.push(format!("{first}, then {second}: {unsaid:?}, but {:?}", cleaned.said));
            }
            forms += 1;
        }
    }
    assert!(forms >= 60, "{forms}");
    assert!(silent.is_empty(), "not said: {silent:#?}");
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

/// HTML 5, 13.5 (named character references): letters with marks in a title that a web page had.
#[test]
fn letters_with_marks_are_read_as_web_pages_write_them() {
    let text =
        "X:1\nT:L'&eacute;tude &Uuml;ber &ccedil;a &amp; fa&ntilde;a &nosuch; &e\nM:6/8\nK:G\nG6|A6|\n";
    let cleaned = CleanedTunes::of(text);
    assert!(cleaned.tunes[0].contains("T:L'étude Über ça & faña &nosuch; &e\n"), "{}", cleaned.tunes[0]);
}
