//! The practice page in a real browser: Chromium without a screen, driven by the `DevTools` protocol over a pipe.
//!
//! These need Chromium, so they are left out of a plain `cargo test`; `.ci/run` runs them with
//! `cargo test --test real_page -- --ignored --test-threads=1`. Where it is missing they fail. `BELLPAD_BINARY` names
//! another program file than the one built with the tests; `BELLPAD_CHROMIUM` another browser than `chromium`;
//! `BELLPAD_SCREENSHOTS` a folder in which to keep what the browser showed.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod browser;
mod eye_level;
mod hostile;
#[allow(dead_code)]
#[path = "../common/hostile.rs"]
mod hostile_dances;
mod in_short;

use browser::Browser;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

fn bellpad(arguments: &[&str]) -> Vec<u8> {
    let program = std::env::var_os("BELLPAD_BINARY")
        .map_or_else(|| PathBuf::from(env!("CARGO_BIN_EXE_bellpad")), PathBuf::from);
    let ran = Command::new(program).args(arguments).output().unwrap();
    assert!(ran.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&ran.stderr));
    ran.stdout
}

fn sample(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances").join(format!("{name}.dance.json"));
    path.to_str().unwrap().to_owned()
}

/// A page of a sample dance in a browser of a size.
fn open(name: &str, size: [u32; 2]) -> Browser {
    let mut browser = Browser::start(size);
    let out = browser.folder().join("page.html");
    bellpad(&["page", &sample(name), "-o", out.to_str().unwrap()]);
    browser.open(&out);
    browser
}

/// Holds what the page shows at a moment beside what `bellpad pose` prints.
fn see_pose(browser: &mut Browser, name: &str, moment: &str, count: f64) {
    let printed: Value = serde_json::from_slice(&bellpad(&["pose", &sample(name), "--at", moment])).unwrap();
    let shown = browser.run(&format!("bellpad.seek({count}), bellpad.pose()"));
    assert!((shown["count"].as_f64().unwrap() - count).abs() < 1e-9, "{shown}");
    let dancers = printed["poses"][0]["dancers"].as_array().unwrap();
    assert_eq!(shown["dancers"].as_array().unwrap().len(), dancers.len());
    for (dancer, there) in dancers.iter().zip(shown["dancers"].as_array().unwrap()) {
        let number = |value: &Value, key: &str| value[key].as_f64().unwrap();
        let apart = |key: &str| number(dancer, key) - number(there, key);
        assert!(apart("x").hypot(apart("y")) <= 0.01, "{moment}: {dancer} and on the page {there}");
        let turned = apart("facing").rem_euclid(360.0);
        assert!(turned.min(360.0 - turned) <= 2.0, "{moment}: {dancer} and on the page {there}");
        // The higher hand; of each one `pose` has the place in space.
        let higher = number(there, "left_hand").max(number(there, "right_hand"));
        assert!((number(dancer, "hands") - higher).abs() < 0.01, "{dancer} {there}");
        for key in ["number", "weight", "step"] {
            assert_eq!(dancer[key], there[key], "{moment}: {key}");
        }
    }
}

#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_page_shows_what_pose_says() {
    for name in ["nine-geese-home", "low-water", "kettle-bridge", "thimble-row", "ferrymans-candle"] {
        let mut browser = open(name, [360, 740]);
        for (moment, count) in [
            ("1:1", 0.0),
            ("9:1", 32.0),
            ("10:2.5", 37.5),
            ("11:3", 42.0),
            ("12:4.75", 47.75),
            ("17:2.25", 65.25),
            ("19:3.6", 74.6),
            ("26:1.1", 100.1),
            ("28:4", 111.0),
            ("41:1", 160.0),
        ] {
            see_pose(&mut browser, name, moment, count);
        }
        browser.assert_quiet();
    }
}

/// The keys and the buttons do what they say, and the words follow.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_is_practised_with_by_touch_and_by_keys() {
    let mut browser = open("nine-geese-home", [360, 740]);
    let count = |browser: &mut Browser| browser.run("bellpad.count()").as_f64().unwrap();
    browser.key("ArrowRight");
    browser.key("ArrowRight");
    assert_eq!(count(&mut browser), 2.0);
    browser.key("End");
    assert_eq!(count(&mut browser), 136.0 * 4.0);
    assert_eq!(browser.run("document.getElementById('moment').textContent"), json!("the end"));
    browser.key("ArrowLeft");
    assert_eq!(count(&mut browser), 136.0 * 4.0 - 1.0);
    browser.key("3");
    assert_eq!(
        browser.run("document.querySelector('#numbers [aria-pressed=true]').getAttribute('aria-label')"),
        json!("3, Wren Aldous")
    );
    // The hey begins at bar 41: figures by touch.
    browser.key("Home");
    for _ in 0..5 {
        browser.tap("#on-figure");
    }
    assert_eq!(count(&mut browser), 160.0);
    assert_eq!(browser.run("document.getElementById('figure').textContent"), json!("Hey"));
    let strip = browser.run("document.getElementById('strip').getAttribute('aria-label')");
    assert!(strip.as_str().unwrap().starts_with("Your feet this bar: double step, "), "{strip}");
    browser.keep("page-phone-hey");
    // A touch on a dancer chooses them: 2 stands at the top right when the music is at the top.
    let place = browser.run(
        "(() => { bellpad.seek(0); scrollTo(0, 0); const box = document.getElementById('picture').getBoundingClientRect(); \
         return [box.left + box.width * 0.77, box.top + box.height * 0.18]; })()",
    );
    browser.tap_at([place[0].as_f64().unwrap(), place[1].as_f64().unwrap()]);
    assert_eq!(
        browser.run("document.querySelector('#numbers [aria-pressed=true]').getAttribute('data-value')"),
        json!("2")
    );
    // Play, go round half a figure, and stop.
    browser.run("bellpad.seek(162), bellpad.loop('phrase'), bellpad.speed(120), 0");
    browser.tap("#play");
    let mut seen: Vec<f64> = Vec::new();
    let begun = Instant::now();
    while begun.elapsed() < Duration::from_secs(30) && !seen.windows(2).any(|pair| pair[1] < pair[0]) {
        seen.push(count(&mut browser));
        std::thread::sleep(Duration::from_millis(80));
    }
    assert!(seen.windows(2).any(|pair| pair[1] < pair[0]), "it comes round: {seen:?}");
    assert!(seen.iter().all(|at| (160.0..=176.0).contains(at)), "{seen:?}");
    assert!(seen.iter().filter(|at| at.fract() > 0.0).count() > 10, "it moves smoothly: {seen:?}");
    assert_eq!(browser.run("bellpad.playing()"), json!(true));
    browser.key(" ");
    assert_eq!(browser.run("bellpad.playing()"), json!(false));
    let stopped = count(&mut browser);
    std::thread::sleep(Duration::from_millis(300));
    assert_eq!(count(&mut browser), stopped, "it stays where it stopped");
    browser.assert_quiet();
}

/// At slow speed the clock of the page keeps [`Clock`](bellpad::motion::Clock)'s time: at 40 % of 100 strong beats a
/// minute a bar takes 3 s.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_slows_down() {
    let mut browser = open("nine-geese-home", [360, 740]);
    browser.tap("#count-in");
    browser.run("bellpad.seek(32), bellpad.speed(40), bellpad.play(), 0");
    let took = browser.run(
        "new Promise((done) => { let first; const look = () => { const at = bellpad.count(); \
         if (first === undefined && at > 32) first = performance.now(); \
         if (at >= 40) done((performance.now() - first) / 1000); else requestAnimationFrame(look); }; look(); })",
    );
    let took = took.as_f64().unwrap();
    assert!((5.7..=6.3).contains(&took), "two bars in {took} s");
    browser.assert_quiet();
}

/// Writes down what the browser's sound is told from now on.
fn listen(browser: &mut Browser) {
    browser.run(
        "window.heard = []; window.starts = OscillatorNode.prototype.start; \
         OscillatorNode.prototype.start = function (at) { heard.push([this.type, this.frequency.value, at]); \
         return starts.call(this, at); }; 0",
    );
}

/// What it was told of a kind of sound: when, and how high, hertz.
fn heard(browser: &mut Browser, kind: &str) -> Vec<(f64, f64)> {
    let heard = browser.run("heard");
    let list = heard.as_array().unwrap().iter().filter(|note| note[0] == kind);
    list.map(|note| (note[2].as_f64().unwrap(), note[1].as_f64().unwrap())).collect()
}

/// The click and the tune come when they should, as the browser's own sound is told: Nine Geese Home is in 6/8 at 100
/// strong beats a minute, so a bar takes 1.2 s, counts fall on quavers 1, 3, 4 and 6 [MB1, the 6-time step diagrams],
/// and the tune begins D|GAB d2B|c. A above middle C is 440 Hz (ISO 16:1975).
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_can_be_heard() {
    let mut browser = open("nine-geese-home", [360, 740]);
    listen(&mut browser);
    browser.tap("#play");
    browser.run(
        "new Promise((done) => { const look = () => (bellpad.count() > 4.2 ? done(0) : requestAnimationFrame(look)); look(); })",
    );
    browser.tap("#play");
    let (clicks, notes) = (heard(&mut browser, "square"), heard(&mut browser, "triangle"));
    // A bar counted in, then the dance.
    let start = clicks[4].0;
    for (click, after) in clicks.iter().zip([-1.2, -0.8, -0.6, -0.2, 0.0, 0.4, 0.6, 1.0, 1.2]) {
        assert!((click.0 - start - after).abs() < 0.01, "{clicks:?}");
    }
    let hertz = |semitones: i32| 440.0 * 2.0_f64.powf(f64::from(semitones) / 12.0);
    let tune = [(-0.2, -7), (0.0, -2), (0.2, 0), (0.4, 2), (0.6, 5), (1.0, 2), (1.2, 3)];
    assert!(notes.len() >= tune.len(), "{notes:?}");
    for (note, (after, semitones)) in notes.iter().zip(tune) {
        assert!((note.0 - start - after).abs() < 0.01, "{notes:?} from {start}");
        assert!((note.1 - hertz(semitones)).abs() < 0.01, "{notes:?}");
    }
    browser.assert_quiet();
}

/// In other metres and at other speeds the click comes when the program's own clock has it, the bar that is counted in is of the metre
/// and the speed of where it begins, and a bar on is a bar on. The shape of the bars is that of a dibbing tune, five bars of 6/8 and
/// one of 9/8, twice [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907).
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_keeps_the_time_of_other_metres_and_speeds() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("dibbing.dance.json");
    let text = r#"{"bellpad": 1, "title": "Dibbing", "set": {"kind": "longways", "dancers": 6, "across": 2.4, "along": 1.8},
        "music": {"metre": "6/8", "speed": 100, "abc": "X:1\nM:6/8\nL:1/8\nK:G\nG3A3|B3c3|d3c3|B3A3|G3F3|[M:9/8]G3A3G3|[M:6/8]G3A3|B3c3|d3c3|B3A3|G3F3|[M:9/8]G3A3G3|]\n"},
        "figures": [{"id": "dib", "name": "Dib", "bars": 12, "phrase": "st", "metres": {"6": "9/8", "12": "9/8"}},
            {"id": "slow", "name": "Slow", "bars": 4, "phrase": "st", "speeds": [{"count": 0, "speed": 60}, {"count": 8, "speed": 90, "ease": true}]}],
        "order": [{"figure": "dib"}, {"figure": "slow"}]}"#;
    std::fs::write(&file, text).unwrap();
    let dance = bellpad::dance::read(text.as_bytes()).unwrap();
    let motion = bellpad::figures::motion_of(&dance, None).unwrap();
    let clock = bellpad::motion::Clock::of_dance(&dance, &motion);
    let mut browser = open_watched(file.to_str().unwrap(), [360, 740]);
    listen(&mut browser);
    // From 6:1, the bar of 9/8; from 12:4, within it; from the slow figure, which quickens.
    for (from, number) in [(20.0, 6), (49.0, 6), (52.0, 4), (57.0, 4)] {
        browser.run(&format!("heard.length = 0, bellpad.seek({from}), 0"));
        // A browser lets nothing sound that nobody has touched.
        browser.tap("#play");
        browser.run(&format!(
            "new Promise((done) => {{ const look = () => (bellpad.count() > {from} + 6.2 ? done(0) : requestAnimationFrame(look)); look(); }})"
        ));
        browser.tap("#play");
        let (clicks, notes) = (heard(&mut browser, "square"), heard(&mut browser, "triangle"));
        assert!(clicks.len() >= number + 6, "{from}: {clicks:?}");
        let start = clicks[number].0;
        let (bar, inside) = motion.bar_counts().at(from);
        let begin = motion.bar_counts().begin_of(bar);
        let whole = clock.seconds(begin + number as f64) - clock.seconds(begin);
        for (index, click) in clicks.iter().enumerate() {
            let count = from + index as f64 - number as f64;
            // What is counted in goes as the bar does in which it begins.
            let after = if index >= number {
                clock.seconds(count) - clock.seconds(from)
            } else {
                let place = (index as f64 + inside) % number as f64;
                let bars = if index as f64 + inside < number as f64 { -1.0 } else { 0.0 };
                clock.seconds(begin + place) - clock.seconds(from) + bars * whole
            };
            assert!((click.0 - start - after).abs() < 0.01, "{from}, click {index}: {after} in {clicks:?}");
            let strong = click.1 > 1_000.0;
            assert_eq!(strong, (count as i64).rem_euclid(2) == 0, "{from}, click {index}");
        }
        for note in &notes {
            let after = note.0 - start + clock.seconds(from);
            let count = clock.counts(after);
            let nearest = clock.seconds(count.round());
            assert!((after - nearest).abs() < 0.01, "{from}: a note at {count}");
        }
        // The tune has twelve bars, and is danced to a second time for the slow figure.
        assert!(notes.len() >= 3, "{from}: {notes:?}");
    }
    let count = |browser: &mut Browser| browser.run("bellpad.count()").as_f64().unwrap();
    for (from, on, back) in [(16.0, 20.0, 12.0), (20.0, 26.0, 16.0), (26.0, 30.0, 20.0), (24.0, 29.0, 19.0)] {
        for (way, there) in [("ArrowRight", on), ("ArrowLeft", back)] {
            browser.run(&format!("bellpad.seek({from}), 0"));
            browser.shift_key(way);
            assert_eq!(count(&mut browser), there, "{way} from {from}");
        }
    }
    browser.assert_quiet();
}

/// Taps and claps come when the program's own clock has them, to a hundredth of a second, with the click or without; the switch for
/// them is there where something meets, and the bar's are told to the number that is chosen.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn taps_are_heard_seen_and_told() {
    for (name, from, kind) in [("kettle-bridge", 64.0, "sine"), ("thimble-row", 64.0, "noise")] {
        let mut browser = open(name, [360, 740]);
        listen(&mut browser);
        browser.run(
            "window.noises = AudioBufferSourceNode.prototype.start; \
             AudioBufferSourceNode.prototype.start = function (at) { heard.push(['noise', 0, at]); return noises.call(this, at); }; 0",
        );
        let dance = bellpad::dance::read(&std::fs::read(sample(name)).unwrap()).unwrap();
        let motion = bellpad::figures::motion_of(&dance, None).unwrap();
        let clock = bellpad::motion::Clock::of_dance(&dance, &motion);
        let mut counts: Vec<f64> =
            motion.blows().iter().map(|blow| blow.count).filter(|count| *count >= from).collect();
        counts.dedup();
        browser.run(&format!("bellpad.choose(1), bellpad.seek({from}), 0"));
        browser.tap("#count-in");
        browser.tap("#play");
        browser.run(&format!(
            "new Promise((done) => {{ const look = () => (bellpad.count() > {from} + 12 ? done(0) : requestAnimationFrame(look)); look(); }})"
        ));
        browser.tap("#play");
        let start = heard(&mut browser, "square")[0].0;
        let mut times: Vec<f64> = heard(&mut browser, kind).into_iter().map(|(at, _)| at).collect();
        times.dedup();
        assert!(times.len() >= 4, "{name}: {times:?}");
        for (at, count) in times.iter().zip(&counts) {
            let expected = clock.seconds(*count) - clock.seconds(from);
            assert!(
                (at - start - expected).abs() < 0.01,
                "{name}, count {count}: {} s, not {expected}",
                at - start
            );
        }
        // Seen and told on its count, and not where nothing meets.
        let ink = |browser: &mut Browser| {
            browser.run("document.getElementById('picture').toDataURL().length").as_u64().unwrap()
        };
        let meet = |browser: &mut Browser| browser.run("document.getElementById('meet').textContent");
        browser.run(&format!("bellpad.seek({}), 0", counts[0]));
        browser.keep(&format!("page-phone-{name}"));
        let said = meet(&mut browser);
        assert!(said.as_str().unwrap().contains("on the first beat"), "{said}");
        // In sight together with the floor and what plays it, on a phone.
        let low = "document.getElementById('meet').getBoundingClientRect().bottom";
        let low =
            browser.run(&format!("[{low}, document.getElementById('play').getBoundingClientRect().bottom]"));
        assert!(
            low[0].as_f64().unwrap() < low[1].as_f64().unwrap() && low[1].as_f64().unwrap() < 740.0,
            "{low}"
        );
        let marked = ink(&mut browser);
        browser.run(&format!("bellpad.seek({} - 0.5), 0", counts[0]));
        assert_ne!(ink(&mut browser), marked);
        browser.run(&format!("bellpad.seek({from}), 0"));
        assert_eq!(meet(&mut browser), json!(""));
        // Turned off, nothing of it is heard.
        browser.tap("#taps");
        browser.run(&format!("heard.length = 0, bellpad.seek({}), 0", counts[0] - 0.5));
        browser.tap("#play");
        browser.run(&format!(
            "new Promise((done) => {{ const look = () => (bellpad.count() > {} ? done(0) : requestAnimationFrame(look)); look(); }})",
            counts[0] + 1.0
        ));
        browser.tap("#play");
        assert!(heard(&mut browser, kind).is_empty() && !heard(&mut browser, "square").is_empty(), "{name}");
        browser.assert_quiet();
    }
    let mut browser = open("low-water", [360, 740]);
    assert_eq!(
        browser.run("[document.getElementById('taps').hidden, document.getElementById('meet').hidden]"),
        json!([true, true])
    );
}

/// Nothing is wider than a small phone, and everything to press is 44 px or more (WCAG 2.2, success criterion 2.5.5,
/// Target Size (Enhanced): 44 by 44 CSS pixels), named for those who cannot see it.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_fits_a_phone_and_can_be_pressed() {
    for (look, scheme) in [("slate", "dark"), ("paper", "light")] {
        let mut browser = Browser::start([360, 740]);
        let out = browser.folder().join("page.html");
        bellpad(&["page", &sample("nine-geese-home"), "-o", out.to_str().unwrap()]);
        browser.prefer("prefers-color-scheme", scheme);
        browser.open(&out);
        assert_eq!(browser.run("document.documentElement.dataset.look"), json!(look));
        browser.run("bellpad.choose(3), bellpad.seek(169.3), 0");
        browser.keep(&format!("page-phone-{look}"));
        browser.run("document.querySelectorAll('details').forEach((part) => { part.open = true; }), 0");
        let wide = browser.run("[document.documentElement.scrollWidth, innerWidth]");
        assert!(wide[0].as_u64() <= wide[1].as_u64() && wide[1] == 360, "{wide}");
        let over = browser.run(
            "[...document.querySelectorAll('body *')].filter((part) => !part.closest('.unseen')) \
             .filter((part) => part.getBoundingClientRect().right > innerWidth + 0.5).map((part) => part.outerHTML.slice(0, 80))",
        );
        assert_eq!(over, json!([]));
        let small = browser.run(
            "[...document.querySelectorAll('button, summary, input')].map((part) => [part, part.getBoundingClientRect()]) \
             .filter(([, box]) => box.width > 0 && (box.width < 44 || box.height < 44)).map(([part]) => part.outerHTML.slice(0, 80))",
        );
        assert_eq!(small, json!([]));
        let nameless = browser.run(
            "[...document.querySelectorAll('button, input, canvas')].filter((part) => !(part.getAttribute('aria-label') \
             || part.textContent.trim() || (part.labels && part.labels.length && part.labels[0].textContent.trim()))) \
             .map((part) => part.outerHTML.slice(0, 80))",
        );
        assert_eq!(nameless, json!([]));
        browser.assert_quiet();
    }
}

/// Every text on the page has a contrast of 4.5:1 with what it stands on, in both looks (WCAG 2.2, success criterion
/// 1.4.3), as the browser itself works out its colours.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn all_of_it_can_be_read() {
    for scheme in ["dark", "light"] {
        let mut browser = Browser::start([360, 740]);
        let out = browser.folder().join("page.html");
        bellpad(&["page", &sample("nine-geese-home"), "-o", out.to_str().unwrap()]);
        browser.prefer("prefers-color-scheme", scheme);
        browser.open(&out);
        browser.run(
            "bellpad.choose(3), bellpad.seek(169.3), \
             document.querySelectorAll('details').forEach((part) => { part.open = true; }), 0",
        );
        let read = browser.run(
            "(() => {
                const parts = (colour) => (colour.match(/[0-9.]+/g) || []).map(Number);
                const light = ([red, green, blue]) => [red, green, blue].map((value) => value / 255)
                    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4))
                    .reduce((sum, value, index) => sum + value * [0.2126, 0.7152, 0.0722][index], 0);
                const ground = (part) => {
                    for (let at = part; at; at = at.parentElement) {
                        const [red, green, blue, opacity = 1] = parts(getComputedStyle(at).backgroundColor);
                        if (opacity === 1 && red !== undefined) return [red, green, blue];
                    }
                    return [255, 255, 255];
                };
                const poor = [];
                let seen = 0;
                const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
                while (walk.nextNode()) {
                    const part = walk.currentNode.parentElement;
                    const words = walk.currentNode.textContent.trim();
                    const box = part.getBoundingClientRect();
                    if (!words || part.closest('script, style, .unseen') || box.width === 0) continue;
                    const [one, other] = [light(parts(getComputedStyle(part).color)), light(ground(part))];
                    const found = (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
                    seen += 1;
                    if (found < 4.5) poor.push([words.slice(0, 30), found]);
                }
                return [seen, poor];
            })()",
        );
        assert_eq!(read[1], json!([]), "{scheme}");
        assert!(read[0].as_u64().unwrap() > 40, "{read}");
        browser.assert_quiet();
    }
}

/// Those who asked for less motion get the dance count by count, and it never begins by itself.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn less_motion_is_kept_to() {
    let mut browser = Browser::start([1280, 800]);
    let out = browser.folder().join("page.html");
    bellpad(&["page", &sample("nine-geese-home"), "-o", out.to_str().unwrap()]);
    browser.prefer("prefers-reduced-motion", "reduce");
    browser.open(&out);
    assert_eq!(browser.run("bellpad.playing()"), json!(false));
    assert_eq!(
        browser.run("document.getElementById('by-counts').getAttribute('aria-pressed')"),
        json!("true")
    );
    browser.run("bellpad.choose(4), bellpad.seek(169), 0");
    browser.keep("page-desk");
    // Played, it shows no more pictures than there are counts, though the moment goes on.
    browser.run("document.getElementById('count-in').click()");
    browser.key(" ");
    let seen = browser.run(
        "new Promise((done) => { const seen = new Set(); let moments = 0; const look = () => { seen.add(document.getElementById('picture').toDataURL()); moments += 1; \
         if (bellpad.count() < 175) requestAnimationFrame(look); else done([seen.size, moments]); }; look(); })",
    );
    let (pictures, moments) = (seen[0].as_u64().unwrap(), seen[1].as_u64().unwrap());
    assert!((3..=7).contains(&pictures) && moments > pictures + 3, "{seen}");
    browser.assert_quiet();
}

/// How many different colours the picture of the page has, since a set of six has more than a floor and its lines, and
/// the colour of the floor in its corner.
const COLOURS: &str = "(() => { const picture = document.getElementById('picture'); \
     if (!picture.width || !picture.height) return [0, []]; \
     const bytes = picture.getContext('2d').getImageData(0, 0, picture.width, picture.height).data; \
     const seen = new Set(); \
     for (let at = 0; at < bytes.length; at += 4) seen.add(bytes[at] << 16 | bytes[at + 1] << 8 | bytes[at + 2]); \
     return [seen.size, [...bytes.slice(0, 4)]]; })()";

/// A practice page in a frame of another page.
fn open_in_frame(style: &str) -> Browser {
    let mut browser = Browser::start([1000, 800]);
    bellpad(&[
        "page",
        &sample("nine-geese-home"),
        "-o",
        browser.folder().join("page.html").to_str().unwrap(),
    ]);
    let outer = browser.folder().join("outer.html");
    let text = format!(
        "<!doctype html><meta charset=utf-8><title>outer</title><body style='margin:0'>\
         <iframe id=frame src=page.html style='border:0;{style}'></iframe>"
    );
    std::fs::write(&outer, text).unwrap();
    browser.go_to(&outer);
    browser
}

/// Gives the frame another style, and waits until that has been drawn.
fn dress_frame(browser: &mut Browser, style: &str) {
    browser.run(&format!(
        "new Promise((done) => {{ document.getElementById('frame').style.cssText = 'border:0;{style}'; \
         requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 10))); }})"
    ));
}

/// A page that is loaded where there is no room for it, or where it is not shown, is whole once there is.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn a_page_that_is_loaded_at_no_size_is_drawn_once_it_has_one() {
    for style in [
        "width:0;height:0",
        "width:0;height:600px",
        "width:400px;height:0",
        "width:20px;height:20px",
        "display:none",
        "width:400px;height:600px;visibility:hidden",
    ] {
        let mut browser = open_in_frame(style);
        assert_eq!(browser.run_in_frame("typeof window.bellpad"), json!("object"), "{style}");
        assert_eq!(browser.run_in_frame("bellpad.pose().dancers.length"), json!(6), "{style}");
        // Its buttons and keys work before it can be seen.
        browser.run_in_frame("bellpad.choose(3), bellpad.seek(42), 0");
        dress_frame(&mut browser, "width:420px;height:760px");
        let seen = browser.run_in_frame(COLOURS);
        assert!(seen[0].as_u64() > Some(20), "{style}: {seen}");
        assert_ne!(seen[1], json!([0, 0, 0, 255]), "{style}: the floor has its own colour");
        assert_eq!(browser.run_in_frame("bellpad.count()"), json!(42));
        browser.keep(&format!("page-from-{}", style.replace([':', ';'], "-")));
        browser.assert_content();
    }
}

/// Sizes that come one after another while it plays, many of them next to nothing, never stop it.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_plays_on_through_any_sizes() {
    let mut browser = open_in_frame("width:400px;height:600px");
    // Without sound, which a browser only lets begin with a touch.
    browser
        .run_in_frame("['count-in', 'click', 'tune'].forEach((id) => document.getElementById(id).click())");
    browser.run_in_frame("bellpad.loop('figure'), bellpad.choose(2), 0");
    browser.run_in_frame("bellpad.play(), 0");
    // A row of numbers that looks random and is the same every time (D. E. Knuth's multiplier of 64 bits).
    let mut seed: u64 = 1907;
    let mut below = |most: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % most
    };
    for turn in 0..120 {
        let most = [12, 60, 900][below(3) as usize];
        let (wide, high) = (below(most), below(most));
        browser.run_in_frame(&format!("bellpad.view('{}'), 0", ["own", "music"][below(2) as usize]));
        dress_frame(&mut browser, &format!("width:{wide}px;height:{high}px"));
        assert_eq!(browser.run_in_frame("bellpad.playing()"), json!(true), "turn {turn}: {wide} by {high}");
    }
    dress_frame(&mut browser, "width:420px;height:760px");
    let before = browser.run_in_frame("bellpad.count()").as_f64().unwrap();
    let moved = browser.run_in_frame(
        "new Promise((done) => { const from = bellpad.count(); let left = 200; const look = () => \
         (bellpad.count() !== from || --left < 0 ? done(bellpad.count()) : setTimeout(look, 25)); look(); })",
    );
    assert_ne!(moved.as_f64().unwrap(), before, "it still plays");
    assert!(browser.run_in_frame(COLOURS)[0].as_u64() > Some(20));
    browser.assert_content();
}

/// The picture follows its own size where that changes and the window's does not.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_picture_follows_its_own_size() {
    let mut browser = open("nine-geese-home", [360, 740]);
    let sharp = |browser: &mut Browser| {
        browser.run(
            "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => { \
             const picture = document.getElementById('picture'); \
             done([picture.width / picture.clientWidth, picture.height / picture.clientHeight]); })))",
        )
    };
    assert_eq!(sharp(&mut browser), json!([2, 2]));
    browser.run("document.getElementById('floor').style.width = '150px', 0");
    assert_eq!(sharp(&mut browser), json!([2, 2]));
    browser.assert_quiet();
}

/// Counts what a page asks the browser to do later (`asked`), and keeps its sounds (`sounds`) and what it reads as JSON
/// (`read`). `frame` asks for a frame without being counted.
const WATCH: &str = "(() => { \
     window.asked = {requestAnimationFrame: 0, setTimeout: 0, setInterval: 0, requestIdleCallback: 0, queueMicrotask: 0}; \
     window.ran = 0; window.sounds = []; window.read = []; window.frame = window.requestAnimationFrame.bind(window); \
     for (const name of Object.keys(asked)) { const real = window[name].bind(window); \
     window[name] = (act, ...rest) => { asked[name] += 1; return real((...given) => { ran += 1; return act(...given); }, ...rest); }; } \
     const Sound = window.AudioContext; \
     window.AudioContext = function () { const made = new Sound(); sounds.push(made); return made; }; \
     const parse = JSON.parse.bind(JSON); \
     JSON.parse = (text) => { const made = parse(text); read.push(made); return made; }; })()";

/// A page of a dance file, watched from its very start.
fn open_watched(file: &str, size: [u32; 2]) -> Browser {
    let mut browser = Browser::start(size);
    let out = browser.folder().join("page.html");
    bellpad(&["page", file, "-o", out.to_str().unwrap()]);
    browser.run_first(WATCH);
    browser.open(&out);
    browser
}

/// Waits until something is so, at most for 20 s.
#[track_caller]
fn wait_until(browser: &mut Browser, what: &str) {
    let begun = Instant::now();
    while browser.run(what) != json!(true) {
        assert!(begun.elapsed() < Duration::from_secs(20), "{what}");
        std::thread::sleep(Duration::from_millis(20));
    }
}

/// What a page has asked for that is still to come, or has run: all of it.
const WORK: &str = "[...Object.values(asked), ran]";

/// A page that does not play asks the browser for no frame, no timer and no sound, before it played and after.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn nothing_runs_while_it_does_not_play() {
    let mut browser = open_watched(&sample("nine-geese-home"), [360, 740]);
    let nothing = json!([0, 0, 0, 0, 0, 0]);
    browser.run("bellpad.choose(3), bellpad.seek(42.5), bellpad.step(1), bellpad.view('own'), bellpad.loop('figure'), 0");
    std::thread::sleep(Duration::from_millis(400));
    assert_eq!(browser.run(WORK), nothing, "it has never played");
    assert_eq!(browser.run("sounds.length"), json!(0));
    for turn in 0..2 {
        browser.tap("#play");
        wait_until(&mut browser, "document.getElementById('lead-in').hidden && bellpad.count() > 43.5");
        let work = browser.run(WORK);
        assert!(work[0].as_u64() > Some(10) && work[5].as_u64() > Some(10), "the counter counts: {work}");
        assert_eq!(browser.run("sounds.map((sound) => sound.state)"), json!(["running"]), "turn {turn}");
        browser.tap("#play");
        assert_eq!(browser.run("bellpad.playing()"), json!(false));
        wait_until(&mut browser, "sounds.every((sound) => sound.state === 'suspended')");
        let stopped = browser.run(WORK);
        std::thread::sleep(Duration::from_millis(600));
        assert_eq!(browser.run(WORK), stopped, "turn {turn}: it has stopped");
        browser.run("bellpad.seek(42.5), 0");
        assert_eq!(browser.run(WORK), stopped, "turn {turn}: going to a moment needs nothing");
    }
    // Stopped while its sound still wakes, it does not begin after all.
    let stopped = browser.run("bellpad.play(), bellpad.pause(), asked.requestAnimationFrame");
    std::thread::sleep(Duration::from_millis(600));
    assert_eq!(browser.run("asked.requestAnimationFrame"), stopped);
    browser.assert_quiet();
}

/// However quickly it is stopped and played again, it plays once: one picture for each frame of the browser.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_plays_once_however_often_it_is_begun() {
    let mut browser = open_watched(&sample("nine-geese-home"), [360, 740]);
    browser.tap("#play");
    wait_until(&mut browser, "bellpad.count() > 0.5");
    browser.run("for (let turn = 0; turn < 5; turn++) { bellpad.pause(); bellpad.play(); }");
    wait_until(&mut browser, "document.getElementById('lead-in').hidden && bellpad.count() > 1.5");
    let seen = browser.run(
        "new Promise((done) => { const from = asked.requestAnimationFrame; let frames = 0; \
         const look = () => (++frames <= 20 ? frame(look) : done([frames, asked.requestAnimationFrame - from])); frame(look); })",
    );
    let (frames, pictures) = (seen[0].as_u64().unwrap(), seen[1].as_u64().unwrap());
    assert!((frames - 3..=frames + 2).contains(&pictures), "{seen}");
    assert_eq!(browser.run("sounds.map((sound) => sound.state)"), json!(["running"]));
    browser.assert_quiet();
}

/// A dance of many figures is no slower to look into: the figure of a moment is found by halves, counted in how many
/// starts of figures are read.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_figure_of_a_moment_is_found_by_halves() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("long.dance.json");
    let mut long: Value = serde_json::from_slice(&std::fs::read(sample("nine-geese-home")).unwrap()).unwrap();
    let order = long["order"].as_array().unwrap().clone();
    long["order"] = json!(order.iter().cycle().take(order.len() * 12).collect::<Vec<_>>());
    std::fs::write(&file, long.to_string()).unwrap();
    let mut browser = open_watched(file.to_str().unwrap(), [360, 740]);
    let figures = browser.run("read[0].spans.length").as_u64().unwrap();
    assert_eq!(figures, order.len() as u64 * 12);
    // At its start, within it and just before its end, every figure is the one that is shown.
    let wrong = browser.run(
        "(() => { const items = [...document.querySelectorAll('#figures button')]; const wrong = []; \
         read[0].spans.forEach((span, index) => { for (const count of [span.bar * 4, span.bar * 4 + 5.3, (span.bar + span.bars) * 4 - 0.001]) { \
         bellpad.seek(count); if (items.findIndex((item) => item.getAttribute('aria-current') === 'true') !== index) wrong.push([index, count]); } }); \
         return wrong; })()",
    );
    assert_eq!(wrong, json!([]));
    let reads = browser.run(
        "(() => { let reads = 0; for (const span of read[0].spans) { const begin = span.begin; \
         Object.defineProperty(span, 'begin', { get: () => { reads += 1; return begin; } }); } \
         const before = reads; bellpad.pose(); return reads - before; })()",
    );
    // Twice for each of six dancers, where they are and how they stand; each as often as the figures can be halved, and
    // twice for where in the figure it is.
    let halvings = u64::from(figures.next_power_of_two().trailing_zeros());
    let reads = reads.as_u64().unwrap();
    assert!((12..=12 * (halvings + 2)).contains(&reads), "{reads} of {figures} figures");
    browser.assert_quiet();
}

/// Bodies are drawn with the sizes that come with the dance: another size, another picture, for every one of them.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn bodies_have_the_sizes_that_come_with_the_dance() {
    let mut browser = open_watched(&sample("nine-geese-home"), [1280, 800]);
    let told = browser.run(
        "(() => { const [dance] = read; bellpad.choose(3); bellpad.seek(169.3); \
         const seen = () => { bellpad.seek(169.3); return document.getElementById('picture').toDataURL(); }; \
         const deaf = []; let sizes = 0; const held = dance.holding; \
         for (const holding of ['handkerchiefs', 'sticks', 'nothing']) { dance.holding = holding; const before = seen(); \
         for (const of of ['body', 'spot']) for (const [name, size] of Object.entries(dance[of])) { \
         dance[of][name] = Array.isArray(size) ? size.map((part) => part * 1.5) : size * 1.5; \
         sizes += 1; if (seen() === before) deaf.push(`${holding} ${name}`); dance[of][name] = size; } } \
         dance.holding = held; return [deaf, sizes]; })()",
    );
    // A number has one, two or three figures, and hands hold one thing, so some sizes are not seen in each.
    let deaf: Vec<&str> = told[0].as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect();
    let only_with = |name: &str| match name {
        "kerchief" | "kerchiefRise" => "handkerchiefs",
        "stickOver" | "stickFront" | "stickButt" | "stickEdge" | "stickWood" => "sticks",
        "handRadius" => "sticks nothing",
        _ => "handkerchiefs sticks nothing",
    };
    for deaf in &deaf {
        let (holding, name) = deaf.split_once(' ').unwrap();
        assert!(!only_with(name).contains(holding), "{deaf} comes with the dance and is not drawn with");
    }
    assert!(told[1].as_u64().unwrap() >= 3 * 29, "{told}");
    browser.assert_quiet();
}
