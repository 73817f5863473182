//! The dancer at eye level, as a real browser shows it.

use super::{Browser, bellpad, open, sample};
use serde_json::{Value, json};

/// How far a place of the page is from one that `pose` prints, metres.
fn apart(printed: &Value, shown: &Value) -> f64 {
    let off = |key: &str| printed[key].as_f64().unwrap() - shown[key].as_f64().unwrap();
    off("x").hypot(off("y")).hypot(off("z"))
}

/// On whole counts the page's feet, hands, shoulders and hips are within a centimetre of what `bellpad pose` prints, each dancer's.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn bodies_are_where_pose_has_them() {
    for name in ["nine-geese-home", "low-water", "kettle-bridge", "thimble-row", "ferrymans-candle"] {
        let mut browser = open(name, [360, 740]);
        let printed: Value =
            serde_json::from_slice(&bellpad(&["pose", &sample(name), "--every", "1"])).unwrap();
        let poses = printed["poses"].as_array().unwrap();
        let mut most = 0.0_f64;
        // Every seventh count comes to every count of a bar.
        for (count, pose) in poses.iter().enumerate().step_by(7) {
            let shown = browser.run(&format!("bellpad.seek({count}), bellpad.bodies()"));
            for (dancer, there) in pose["dancers"].as_array().unwrap().iter().zip(shown.as_array().unwrap()) {
                for (part, group) in
                    [("foot", "feet"), ("hand", "hands"), ("shoulder", "shoulders"), ("hip", "hips")]
                {
                    for side in ["left", "right"] {
                        let off = apart(&dancer[format!("{side}_{part}")], &there[group][side]);
                        assert!(off <= 0.01, "{name}, count {count}, {side} {part}: {off} m");
                        most = most.max(off);
                    }
                }
            }
        }
        // What is kept is rounded, so no difference at all would mean that nothing was compared.
        assert!(most > 1e-4, "{name}: {most}");
        browser.assert_quiet();
    }
}

/// What the picture is called for those who cannot see it, and which button of the switch is pressed.
fn seen(browser: &mut Browser) -> (String, String) {
    let label = browser.run("document.getElementById('picture').getAttribute('aria-label')");
    let pressed =
        browser.run("document.querySelector('#seen [aria-pressed=true]').getAttribute('data-value')");
    (label.as_str().unwrap().to_owned(), pressed.as_str().unwrap().to_owned())
}

/// The switch by touch and by key, with somebody chosen and with nobody; it stays while the page is open.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_dancer_is_seen_at_eye_level() {
    for (look, scheme) in [("slate", "dark"), ("paper", "light")] {
        let mut browser = Browser::start([360, 740]);
        let out = browser.folder().join("page.html");
        bellpad(&["page", &sample("nine-geese-home"), "-o", out.to_str().unwrap()]);
        browser.prefer("prefers-color-scheme", scheme);
        browser.open(&out);
        browser.run("bellpad.seek(43), 0");
        assert_eq!(seen(&mut browser).1, "above");
        // With nobody chosen it is number 1.
        browser.tap("#seen [data-value=front]");
        let (label, pressed) = seen(&mut browser);
        assert!(label.starts_with("Number 1 at eye level, facing you: "), "{label}");
        assert_eq!(pressed, "front");
        assert_eq!(browser.run("document.querySelector('#view button').disabled"), json!(true));
        browser.key("4");
        let (label, _) = seen(&mut browser);
        assert!(label.starts_with("Number 4 at eye level, facing you: "), "{label}");
        assert!(label.contains("hand"), "{label}");
        let front = browser.run("document.getElementById('picture').toDataURL()");
        browser.run("scrollTo(0, 0), 0");
        browser.keep(&format!("page-eye-front-{look}"));
        browser.key("e");
        assert_eq!(seen(&mut browser).1, "behind");
        let behind = browser.run("document.getElementById('picture').toDataURL()");
        assert_ne!(front, behind);
        browser.keep(&format!("page-eye-behind-{look}"));
        browser.key("e");
        assert_eq!(seen(&mut browser).1, "side");
        browser.keep(&format!("page-eye-side-{look}"));
        // Another moment, another dancer, playing and stopping: it stays.
        browser.run("bellpad.seek(12), bellpad.choose(2), bellpad.play(), bellpad.pause(), 0");
        assert_eq!(seen(&mut browser).1, "side");
        let wide = browser.run("[document.documentElement.scrollWidth, innerWidth]");
        assert!(wide[0].as_u64() <= wide[1].as_u64(), "{wide}");
        browser.key("e");
        let (label, pressed) = seen(&mut browser);
        assert!(label.starts_with("The set from above: ") && pressed == "above", "{label}");
        assert_eq!(browser.run("document.querySelector('#view button').disabled"), json!(false));
        browser.assert_quiet();
    }
}

/// A hop alone is drawn at its top: higher than the same count is while it plays. In play the body goes up and down.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn it_hops_and_plays_at_eye_level() {
    let mut browser = open("nine-geese-home", [360, 740]);
    browser.run("['count-in', 'click', 'tune'].forEach((id) => document.getElementById(id).click()), bellpad.seek(40), bellpad.see('front'), 0");
    let seen = browser.run(
        "new Promise((done) => { const seen = new Set(); bellpad.play(); \
         const look = () => { seen.add(document.getElementById('picture').toDataURL().length); \
         if (bellpad.count() < 48) requestAnimationFrame(look); else done(seen.size); }; look(); })",
    );
    assert!(seen.as_u64().unwrap() > 10, "{seen} pictures");
    browser.run("bellpad.pause(), 0");
    // The feet of each moment of four bars: they leave the floor, and never go under it.
    let heights = browser.run(
        "(() => { const all = []; for (let count = 40; count < 56; count += 0.05) { bellpad.seek(count); \
         for (const body of bellpad.bodies()) all.push([Math.min(body.feet.left.z, body.feet.right.z), body.carries]); } return all; })()",
    );
    let heights = heights.as_array().unwrap();
    let low = heights.iter().map(|at| at[0].as_f64().unwrap());
    assert!(low.clone().fold(1.0, f64::min) > -0.005, "nobody goes through the floor");
    assert!(low.fold(0.0, f64::max) > 0.05, "they leave the floor");
    // Nothing carries the weight in the jump: of four bars that of one.
    let flies = heights.iter().filter(|at| at[1] == json!([false, false])).count();
    assert!(flies > 20 && flies * 4 < heights.len(), "{flies} of {}", heights.len());
    browser.assert_quiet();
}

/// With nobody chosen the feet at eye level are those of who is looked at, and go on with the dance; from above nobody's are left standing.
#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn the_feet_go_on_with_nobody_chosen() {
    let mut browser = open("nine-geese-home", [360, 740]);
    let feet = |browser: &mut Browser, count: u32| {
        browser.run(&format!("bellpad.seek({count}), 0"));
        let strip = browser.run(
            "(() => { const strip = document.getElementById('strip'); \
             return [strip.offsetHeight, strip.getAttribute('aria-label'), \
             [...strip.children].findIndex((cell) => cell.classList.contains('now'))]; })()",
        );
        (strip[0].as_u64().unwrap(), strip[1].as_str().unwrap_or_default().to_owned(), strip[2].clone())
    };
    browser.run("bellpad.choose(1), 0");
    browser.tap("#seen [data-value=side]");
    let (_, of_one, _) = feet(&mut browser, 19);
    browser.run("bellpad.choose(0), 0");
    let (high, said, now) = feet(&mut browser, 24);
    assert!(high > 60 && said.starts_with("The feet of 1 this bar: "), "{high} {said}");
    assert_ne!(said, of_one);
    assert_eq!(now, json!(1), "the first count of the bar");
    browser.tap("#seen [data-value=above]");
    assert_eq!(feet(&mut browser, 24).0, 0);
    browser.assert_quiet();
}
