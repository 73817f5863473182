//! Whatever the texts of a dance say, they are texts: in the page, in pictures and in PDF there is nothing that the same dance with
//! plain texts has not. The page in a real browser is in `real_page`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_for_each,
    clippy::assigning_clones,
    clippy::items_after_statements
)]

#[path = "common/hostile.rs"]
mod hostile;
#[path = "common/strict_pdf.rs"]
mod strict_pdf;

use bellpad::dance::{Dance, Dancer, read};
use bellpad::faults::Faults;
use bellpad::figures::motion_of;
use bellpad::handout::page::page;
use bellpad::handout::{
    Handout, Paper, SheetChoice, dancer_page, handout_to_pdf, notebook, page_to_svg, pocket_page, sheets,
    stepping, tapping, whole_sheet,
};
use bellpad::motion::Motion;
use bellpad::picture::{StillChoice, still, to_svg};
use hostile::{HELD, HOSTILE, TEXTS, dance_with, texts_of_schema};
use rayon::prelude::*;
use roxmltree::Document;
use serde_json::Value;
use std::collections::BTreeSet;

fn with(said: &str) -> (Dance, Motion) {
    let dance =
        read(dance_with(said).to_string().as_bytes()).unwrap_or_else(|error| panic!("{error}: {said:?}"));
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn handouts(dance: &Dance, motion: &Motion) -> Vec<(&'static str, Handout)> {
    let (paper, choice) = (Paper::default(), SheetChoice { abc: true, ..SheetChoice::default() });
    let on = &mut |_, _| true;
    vec![
        ("sheets", sheets(dance, motion, &choice, on)),
        ("whole sheet", whole_sheet(dance, motion, &choice)),
        ("a dancer's page", dancer_page(dance, motion, None, Dancer(0), &choice)),
        ("pocket page", pocket_page(dance, motion, Dancer(0), paper)),
        ("stepping", stepping(dance, motion, None, paper)),
        ("tapping", tapping(dance, motion, None, paper).unwrap()),
        ("notebook", notebook(&[(dance.clone(), motion.clone())], &choice, on)),
    ]
}

/// The keys under which a text is that of the first dance.
fn keys(value: &Value, under: &str, all: &mut BTreeSet<String>) {
    match value {
        Value::Object(object) => {
            object.iter().for_each(|(key, value)| keys(value, &format!("{under}.{key}"), all));
        }
        Value::Array(list) => list.iter().for_each(|value| keys(value, under, all)),
        Value::String(said) if said == HOSTILE[0] => {
            all.insert(under.to_owned());
        }
        _ => {}
    }
}

/// A text that a new version of the file has is missed here until it is known what may stand in it.
#[test]
fn every_text_of_the_file_is_filled() {
    let known: BTreeSet<&str> = TEXTS.into_iter().chain(HELD.map(|(key, _)| key)).collect();
    let of_schema = texts_of_schema();
    assert!(of_schema.len() > 20, "{of_schema:?}");
    for key in &of_schema {
        assert!(known.contains(key.as_str()), "what may stand in {key}?");
    }
    for key in known.iter().filter(|key| !key.contains("later")) {
        assert!(of_schema.iter().any(|known| known == key), "the schema has no {key}");
    }
    let mut filled = BTreeSet::new();
    keys(&dance_with(HOSTILE[0]), "", &mut filled);
    assert_eq!(filled, TEXTS.map(str::to_owned).into_iter().collect());
}

/// What elements and attributes an SVG has; no attribute leads anywhere or does anything.
fn made_of(svg: &str) -> BTreeSet<String> {
    let document = Document::parse(svg).unwrap_or_else(|error| panic!("{error}\n{svg}"));
    let mut all = BTreeSet::new();
    for node in document.descendants().filter(|node| !node.is_text() && !node.is_root()) {
        assert!(node.is_element(), "no remark, no instruction: {node:?}");
        let name = node.tag_name().name();
        assert_eq!(node.tag_name().namespace(), Some("http://www.w3.org/2000/svg"));
        all.insert(name.to_owned());
        for attribute in node.attributes() {
            all.insert(format!("{name} {}", attribute.name()));
            if attribute.name() != "aria-label" {
                let value = attribute.value().to_lowercase();
                assert!(!value.contains("javascript") && !value.contains("canary"), "{attribute:?}");
            }
        }
    }
    all
}

#[test]
fn pictures_have_no_element_and_no_attribute_from_a_text() {
    let pictures = |said: &str| {
        let (dance, motion) = with(said);
        let title = StillChoice {
            title: dance.title.clone(),
            figure: dance.figures[0].name.clone(),
            ..StillChoice::default()
        };
        let mut all = vec![to_svg(&still(&motion, 5.0, &title))];
        for (_, handout) in handouts(&dance, &motion) {
            all.extend(handout.pages.iter().map(page_to_svg));
        }
        all
    };
    // Plain letters, and some that the cut of the handouts lacks, which are drawn from another with a line round them.
    let said = ["Plain words", "Plain u\u{301}\u{489}"];
    let plain: BTreeSet<String> = said
        .into_iter()
        .flat_map(|said| pictures(said).iter().flat_map(|svg| made_of(svg)).collect::<Vec<_>>())
        .collect();
    assert!(plain.contains("path aria-label") || plain.contains("g aria-label"), "{plain:?}");
    HOSTILE.par_iter().for_each(|said| {
        for svg in pictures(said) {
            for part in made_of(&svg) {
                assert!(plain.contains(&part), "{part} from {said:?}");
            }
        }
    });
}

/// The page without its title and its data, and the data.
fn shell_and_data(page: &str) -> (String, String) {
    let (before, rest) = page.split_once("<title>").unwrap();
    let (title, rest) = rest.split_once("</title>").unwrap();
    assert!(!title.contains(['<', '>', '"']), "{title}");
    // It stands in the page again, over the dance.
    let title = title.strip_suffix(": practice").unwrap();
    let rest = &rest.replace(&format!("<h1>{title}</h1>"), "<h1></h1>");
    let (middle, rest) = rest.split_once(r#"<script type="application/json" id="dance">"#).unwrap();
    let (data, after) = rest.split_once("</script>").unwrap();
    assert!(!data.contains('<'), "no element begins in the data");
    (format!("{before}{middle}{after}"), data.to_owned())
}

#[test]
fn the_page_is_the_same_but_for_its_texts() {
    let shell_of = |said: &str| {
        let (dance, motion) = with(said);
        let (shell, data) = shell_and_data(&page(&dance, &motion).unwrap());
        let data: Value = serde_json::from_str(&data).unwrap();
        assert_eq!(data["title"], said, "what is given is what is there");
        assert_eq!(data["spans"][0]["name"], said);
        shell
    };
    let plain = shell_of("Plain words");
    for said in HOSTILE {
        assert!(shell_of(said) == plain, "{said:?}");
    }
}

/// Keys and names of PDF that do something, lead somewhere, or carry something (ISO 32000-1:2008, 12.6 and 7.11).
const DOING: [&str; 20] = [
    "JS",
    "JavaScript",
    "Launch",
    "URI",
    "SubmitForm",
    "ImportData",
    "GoToR",
    "GoToE",
    "OpenAction",
    "AA",
    "AcroForm",
    "EmbeddedFile",
    "EmbeddedFiles",
    "Filespec",
    "RichMedia",
    "Movie",
    "Sound",
    "Rendition",
    "Named",
    "XFA",
];

#[test]
fn pdf_is_read_strictly_and_does_nothing() {
    let names = |said: &str| {
        let (dance, motion) = with(said);
        let mut all = BTreeSet::new();
        for (kind, handout) in handouts(&dance, &motion) {
            let bytes = handout_to_pdf(&handout).unwrap_or_else(|error| panic!("{kind}: {error}: {said:?}"));
            let file = strict_pdf::read(&bytes);
            let mut names = Vec::new();
            file.trailer.names(&mut names);
            for (object, stream) in file.objects.values() {
                object.names(&mut names);
                if let Some(stream) = stream.as_ref().filter(|stream| stream.starts_with(b"<?xpacket")) {
                    let text = std::str::from_utf8(stream).unwrap();
                    let document =
                        Document::parse(text).unwrap_or_else(|error| panic!("{kind}: {error}\n{text}"));
                    names
                        .extend(document.descendants().map(|node| format!("xmp {}", node.tag_name().name())));
                }
            }
            assert!(
                names.iter().any(|name| name.starts_with("xmp ")),
                "{kind}: what is said of the file is read"
            );
            all.extend(names.into_iter().map(|name| format!("{kind}: {name}")));
        }
        all
    };
    let plain = names("Plain words");
    assert!(plain.len() > 100);
    for doing in DOING {
        assert!(!plain.iter().any(|name| name.ends_with(&format!(": {doing}"))), "{doing}");
    }
    HOSTILE.par_iter().for_each(|said| {
        for name in names(said).difference(&plain) {
            let (_, name) = name.split_once(": ").unwrap();
            assert!(!DOING.contains(&name), "{name} from {said:?}");
            assert!(!name.contains("canary") && !name.contains("alert"), "{name} from {said:?}");
        }
    });
}

/// What is told of faults and what is refused is on one line, with nothing in it that turns it round.
#[test]
fn what_is_told_is_one_line() {
    for said in HOSTILE {
        let (dance, motion) = with(said);
        for fault in Faults::of(&dance, &motion).iter() {
            assert!(!fault.text.contains(['\n', '\r', '\0', '\u{1b}']), "{:?}", fault.text);
        }
        let mut wrong = dance_with(said);
        wrong["order"][0]["figure"] = format!("{said} and more").into();
        let told = read(wrong.to_string().as_bytes()).unwrap_err().to_string();
        assert!(!told.contains(['\n', '\r', '\0', '\u{1b}', '\u{202e}']), "{told:?}");
    }
}
