//! The few words that are read at arm's length, the digits, and what is wrong with the page for those who cannot see it.

use super::{Browser, bellpad, open, sample};
use bellpad::dance::{Dance, Dancer, read};
use bellpad::figures::motion_of;
use bellpad::motion::{Motion, SpanIndex};
use bellpad::words::{MOST_WORDS, clauses, gist};
use serde_json::{Value, json};

fn danced(name: &str) -> (Dance, Motion) {
    let dance = read(&std::fs::read(sample(name)).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn text_of(browser: &mut Browser, id: &str) -> String {
    let said = browser.run(&format!("document.getElementById('{id}').textContent"));
    said.as_str().unwrap().to_owned()
}

/// Every bar of every figure: the clauses that the program tells a dancer, this bar's and the next one's, and the figure in a line.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn this_bar_and_the_next_are_told_in_few_words() {
    for (name, number) in [("nine-geese-home", 3_u32), ("kettle-bridge", 8), ("ferrymans-candle", 1)] {
        let (dance, motion) = danced(name);
        let dancer = Dancer(number as usize - 1);
        let mut told: Vec<String> = Vec::new();
        for index in 0..motion.spans().len() {
            told.extend(clauses(&dance, &motion, SpanIndex(index), dancer).into_iter().map(|(_, text)| text));
        }
        assert_eq!(told.len(), motion.bars() as usize);
        let mut browser = open(name, [360, 740]);
        browser.run(&format!("bellpad.choose({number}), 0"));
        for (index, span) in motion.spans().iter().enumerate() {
            for bar in span.first_bar..span.first_bar + span.bars {
                let begin = motion.bar_counts().begin_of(bar);
                let shown = browser.run(&format!(
                    "bellpad.seek({begin} + 0.7), ['clause', 'next-clause', 'gist'].map((id) => document.getElementById(id).textContent)"
                ));
                let shown: Vec<String> = serde_json::from_value(shown).unwrap();
                assert!(shown[0].split_whitespace().count() <= MOST_WORDS, "{}", shown[0]);
                assert_eq!(shown[0].to_lowercase(), told[bar as usize].to_lowercase(), "{name}, bar {bar}");
                let next = told.get(bar as usize + 1).map_or("the end", String::as_str);
                let (lead, said) = shown[1].rsplit_once(": ").unwrap();
                assert_eq!(said.to_lowercase(), next.to_lowercase(), "{name}, bar {bar}");
                let last = bar + 1 == span.first_bar + span.bars;
                assert_eq!(lead == "Next", !last || bar + 1 == motion.bars(), "{}", shown[1]);
                assert_eq!(shown[2], gist(&dance, &motion, SpanIndex(index), Some(dancer)));
            }
        }
        // With nobody chosen, what everybody does.
        browser.run("bellpad.choose(0), bellpad.seek(33), 0");
        let side = text_of(&mut browser, "clause");
        assert!(side.contains(" foot") && (side.contains("Odds") || number == 1), "{name}: {side}");
        assert_eq!(text_of(&mut browser, "gist"), gist(&dance, &motion, SpanIndex(1), None));
        browser.assert_quiet();
    }
}

/// Where the parts of the stage are, and what of them is lost or covered: looked at in each of some moments while it plays.
const STAGE: &str = "(() => {
    const names = ['where', 'floor', 'clause', 'next-clause', 'meet', 'scrub', 'play'];
    const parts = names.map((id) => document.getElementById(id)).filter((part) => part.getClientRects().length > 0);
    const boxes = parts.map((part) => [part.id, part.getBoundingClientRect()]);
    const wrong = [];
    boxes.forEach(([id, box], index) => {
        if (box.top < 0 || box.left < 0 || box.bottom > innerHeight || box.right > innerWidth) wrong.push(`${id} is out of sight`);
        const before = boxes[index - 1];
        if (before && box.top < before[1].bottom - 0.5) wrong.push(`${id} is over ${before[0]}`);
    });
    for (const id of ['clause', 'next-clause', 'meet']) {
        const part = document.getElementById(id);
        if (part.scrollHeight > part.clientHeight + 1 || part.scrollWidth > part.clientWidth + 1) wrong.push(`${id} is cut off`);
        for (const words of part.children) {
            const box = words.getBoundingClientRect();
            const at = document.elementFromPoint(box.left + 4, box.top + box.height / 2);
            if (!part.contains(at)) wrong.push(`${id} is covered`);
        }
    }
    if (scrollY !== 0) wrong.push('it has scrolled');
    const [clause, next] = ['clause', 'next-clause'].map((id) => document.getElementById(id));
    const sizes = [clause, next, document.getElementById('now')].map((part) => parseFloat(getComputedStyle(part).fontSize));
    return [wrong, clause.textContent, sizes, document.getElementById('floor').clientHeight, document.getElementById('meet').textContent];
})()";

/// On a phone and on a desk the clauses, the line of the taps and what plays it are in sight together while it plays, and nothing lies
/// over anything else: with a number chosen, with none, and in every bar of the dances with the longest words.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_clauses_are_in_sight_while_it_plays() {
    for size in [[360, 740], [1200, 800]] {
        for name in ["kettle-bridge", "nine-geese-home"] {
            let (_, motion) = danced(name);
            let mut browser = open(name, size);
            browser.run(
                "['count-in', 'click', 'tune', 'taps'].forEach((id) => document.getElementById(id).click())",
            );
            for chosen in [1, 4, 0] {
                browser.run(&format!("bellpad.choose({chosen}), scrollTo(0, 0), bellpad.play(), 0"));
                let mut tapped = false;
                for bar in 0..motion.bars() {
                    let begin = motion.bar_counts().begin_of(bar);
                    let seen = browser.run(&format!("bellpad.seek({begin} + 0.2), {STAGE}"));
                    let what = format!("{size:?}, {name}, {chosen}, bar {}: {seen}", bar + 1);
                    assert_eq!(seen[0], json!([]), "{what}");
                    assert!(!seen[1].as_str().unwrap().is_empty(), "{what}");
                    let size_of = |index: usize| seen[2][index].as_f64().unwrap();
                    let times = if chosen == 0 { 1.04 } else { 1.3 };
                    assert!(size_of(0) > size_of(2) * times && size_of(0) > size_of(1), "{what}");
                    assert!(seen[3].as_f64().unwrap() >= 240.0, "{what}");
                    tapped |= !seen[4].as_str().unwrap().is_empty();
                }
                assert_eq!(browser.run("bellpad.playing()"), json!(true));
                assert_eq!(tapped, name == "kettle-bridge" && chosen > 0);
                if name == "kettle-bridge" {
                    browser.run("bellpad.pause(), bellpad.seek(70.2), 0");
                    browser.keep(&format!("page-words-{}-{chosen}", size[0]));
                }
            }
            browser.run("bellpad.pause(), 0");
            browser.assert_quiet();
        }
    }
}

/// The dancer who is chosen, as the buttons have it.
fn chosen(browser: &mut Browser) -> Value {
    browser.run("document.querySelector('#numbers [aria-pressed=true]').dataset.value")
}

/// Digits choose up to the twelfth: 1 chooses the first at once, and with a digit within a second the tenth and those after.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn digits_choose_to_twelve() {
    let folder = tempfile::tempdir().unwrap();
    let stand = |dancers: u32| {
        let file = folder.path().join(format!("{dancers}.dance.json"));
        let text = json!({"bellpad": 1, "title": "Many", "set": {"kind": "longways", "dancers": dancers, "across": 2.4, "along": 1.8},
            "music": {"metre": "4/4", "speed": 100},
            "figures": [{"id": "stand", "name": "Stand", "bars": 4}], "order": [{"figure": "stand"}]});
        std::fs::write(&file, text.to_string()).unwrap();
        file
    };
    let page = |dancers: u32| {
        let mut browser = Browser::start([360, 740]);
        let out = browser.folder().join("page.html");
        bellpad(&["page", stand(dancers).to_str().unwrap(), "-o", out.to_str().unwrap()]);
        browser.open(&out);
        browser
    };
    let mut browser = page(12);
    for (keys, number) in [
        ("10", "10"),
        ("11", "11"),
        ("12", "12"),
        ("13", "3"),
        ("9", "9"),
        ("21", "1"),
        ("110", "0"),
        ("112", "2"),
        ("0", "0"),
        ("12", "12"),
    ] {
        for key in keys.chars() {
            browser.key(&key.to_string());
        }
        assert_eq!(chosen(&mut browser), json!(number), "{keys}");
        // No digit goes with those of the next row.
        browser.key("v");
    }
    browser.key("1");
    assert_eq!(chosen(&mut browser), json!("1"), "at once");
    std::thread::sleep(std::time::Duration::from_millis(1_100));
    browser.key("2");
    assert_eq!(chosen(&mut browser), json!("2"), "a second later it is a digit of its own");
    browser.assert_quiet();
    // Of ten there is no twelfth, and of six no tenth.
    for (dancers, keys, number) in [(10, "10", "10"), (10, "12", "2"), (6, "10", "0"), (6, "12", "2")] {
        let mut browser = page(dancers);
        for key in keys.chars() {
            browser.key(&key.to_string());
        }
        assert_eq!(chosen(&mut browser), json!(number), "{keys} of {dancers}");
    }
}

/// axe-core, as `npm ci` in `assets/practice` installs it, finds nothing wrong: in both looks, at both sizes, with a number and without,
/// from above and at eye level, everything unfolded.
#[test]
#[ignore = "needs Chromium and axe-core; .ci/run installs them"]
fn axe_finds_nothing_wrong() {
    let axe = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("assets/practice/node_modules/axe-core/axe.min.js");
    let axe = std::fs::read_to_string(axe).expect("axe-core, which npm ci in assets/practice installs");
    for (size, scheme) in
        [([360, 740], "dark"), ([360, 740], "light"), ([1200, 800], "dark"), ([1200, 800], "light")]
    {
        for name in ["kettle-bridge", "nine-geese-home"] {
            let mut browser = Browser::start(size);
            let out = browser.folder().join("page.html");
            bellpad(&["page", &sample(name), "-o", out.to_str().unwrap()]);
            browser.prefer("prefers-color-scheme", scheme);
            browser.open(&out);
            browser.run(&format!("{axe}; 0"));
            browser
                .run("document.querySelectorAll('details').forEach((part) => { part.open = true; }), scrollTo(0, 0), 0");
            for (number, seen) in [(0, "above"), (1, "above"), (4, "side")] {
                let found = browser.run(&format!(
                    "bellpad.choose({number}), bellpad.see('{seen}'), bellpad.seek(70), axe.run().then(({{ violations, passes }}) => \
                     [passes.length, violations.map(({{ id, nodes }}) => [id, nodes.map(({{ html }}) => html.slice(0, 120))])])"
                ));
                assert_eq!(found[1], json!([]), "{size:?}, {scheme}, {name}, {number}, {seen}");
                assert!(found[0].as_u64().unwrap() > 25, "{found}");
            }
            // It does find what is wrong.
            let found = browser.run(
                "document.getElementById('tune').setAttribute('aria-label', ''), document.getElementById('tune').textContent = '', \
                 axe.run().then(({ violations }) => violations.map(({ id }) => id))",
            );
            assert_eq!(found, json!(["button-name"]), "{size:?}, {scheme}");
        }
    }
}
