//! A dance whose texts are markup, scripts and what turns the writing round: the page shows them as they are, and runs none of it.

use super::bellpad;
use super::browser::Browser;
use super::hostile_dances::{HOSTILE, dance_with};
use serde_json::{Value, json};

/// Set before the page's own script: what is asked of the person, or opened, is written down, and not done.
const WATCH: &str = "window.done = []; \
     for (const name of ['alert', 'confirm', 'prompt', 'open', 'print']) window[name] = () => { done.push(name); }; \
     addEventListener('securitypolicyviolation', (event) => done.push(event.violatedDirective)); \
     addEventListener('error', (event) => done.push(String(event.message)));";

/// Every element of the page with its attributes' names, but what is in the lists and words of the dance.
const ELEMENTS: &str = "[...new Set([...document.querySelectorAll('*')].flatMap((element) => \
     [element.localName, ...[...element.attributes].map((attribute) => `${element.localName} ${attribute.name}`)]))].sort()";

fn opened(said: &str) -> Browser {
    let mut browser = Browser::start([360, 740]);
    let (file, out) = (browser.folder().join("hostile.dance.json"), browser.folder().join("page.html"));
    std::fs::write(&file, dance_with(said).to_string()).unwrap();
    bellpad(&["page", file.to_str().unwrap(), "-o", out.to_str().unwrap()]);
    browser.run_first(WATCH);
    browser.open(&out);
    browser
}

/// Goes through all of it: every dancer, every figure, everything that folds open, and plays a little.
fn go_through(browser: &mut Browser) -> Value {
    browser.run(
        "(async () => { const all = new Set(); const look = () => all.add(document.getElementById('figure').textContent); \
         for (const details of document.querySelectorAll('details')) details.open = true; \
         for (const number of [1, 2, 3, 4]) { bellpad.choose(number); for (const count of [0, 1, 5, 9, 12, 23.9]) { bellpad.seek(count); look(); } } \
         for (const button of document.querySelectorAll('#figures button')) { button.click(); look(); } \
         bellpad.seek(0); await new Promise((done) => setTimeout(done, 200)); return [...all]; })()",
    )
}

#[test]
#[ignore = "needs Chromium; .ci/run installs it"]
fn texts_of_every_kind_are_shown_and_do_nothing() {
    let mut plain = opened("Plain words");
    go_through(&mut plain);
    let of_plain = plain.run(ELEMENTS);
    assert!(of_plain.as_array().unwrap().len() > 30, "{of_plain}");
    for said in HOSTILE {
        let mut browser = opened(said);
        let shown = go_through(&mut browser);
        // What a browser shows of a text has the text's own letters, but where the page writes out what nobody can see.
        assert_eq!(shown.as_array().unwrap().len(), 1, "{said:?}: {shown}");
        assert_eq!(shown[0], json!(said), "what is given is what is shown");
        assert_eq!(browser.run("typeof window.canary"), json!("undefined"), "{said:?}");
        assert_eq!(browser.run("done"), json!([]), "{said:?}");
        assert_eq!(browser.run(ELEMENTS), of_plain, "{said:?}");
        let title = browser.run("document.title");
        let letters = |said: &str| said.chars().filter(|letter| letter.is_alphanumeric()).collect::<String>();
        // The title is the dance's, and that this is its practice page.
        let whole = letters(title.as_str().unwrap());
        assert_eq!(whole.strip_suffix("practice"), Some(&*letters(said)), "the title");
        browser.assert_quiet();
    }
}
