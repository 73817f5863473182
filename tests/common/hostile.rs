//! Dances whose texts are what no text should be: markup, scripts, ends of scripts, marks that turn the writing round, control codes.

use serde_json::{Value, json};

/// What is put into every text. What runs sets `canary`.
pub const HOSTILE: [&str; 18] = [
    "<script>window.canary=1</script>",
    "</script><script>window.canary=1</script>",
    "\"><img src=x onerror=\"window.canary=1\">",
    "' onload='window.canary=1' x='",
    "<svg/onload=window.canary=1>",
    "]]><b>bold</b><![CDATA[",
    "--><!-- <!DOCTYPE x [<!ENTITY a \"b\">]> &a;",
    "javascript:window.canary=1",
    "&lt;script&gt;window.canary=1&lt;/script&gt; &#x3C;b&#x3E; &amp;amp; &nosuch;",
    "</title></style></textarea><script>window.canary=1</script>",
    "{{script}} {{dance}} {{title}} ${window.canary=1} `${window.canary=1}`",
    ") /S /JavaScript /JS (app.alert\\(1\\)) >> endobj 99 0 obj << /OpenAction [",
    "(((\\\\) \\) >> stream endstream endobj xref trailer startxref %%EOF",
    "\u{202e}gnp.exe\u{202c} \u{2066}x\u{2069} \u{200f}a\u{200b}b",
    "a\u{0}b\u{7}c\u{1b}[31md\u{8}e\u{7f}f\u{85}g\u{9f}h",
    "\u{301}\u{301}\u{489} e\u{301}\u{327}\u{36f}",
    "two\r\nlines\u{2028}and\u{2029}more\ttab",
    "\u{fffe}\u{ffff}\u{feff}\u{fdd0}\u{10ffff}\u{e000}𝕏",
];

/// Texts that may be anything, by the keys they lie under.
pub const TEXTS: [&str; 20] = [
    ".author",
    ".figures.allow.reason",
    ".figures.id",
    ".figures.name",
    ".figures.notes",
    ".music.played",
    ".music.strains.name",
    ".notes",
    ".order.call",
    ".order.figure",
    ".order.strain",
    ".people.name",
    ".side",
    ".steps.name",
    ".title",
    ".tradition",
    ".underlay.figure",
    ".underlay.path",
    ".later",
    ".figures.later",
];

/// Texts that have to be something, and what they have to be.
pub const HELD: [(&str, &str); 8] = [
    (".figures.named.figure", "a named figure"),
    (".figures.parts.phrase", "steps that are known"),
    (".figures.parts.turns.on", "the letters of a step"),
    (".figures.phrase", "steps that are known"),
    (".music.abc", "a tune, whose title, chords and words may be anything: they are"),
    (".steps.short", "letters and figures"),
    (".underlay.fingerprint", "digits"),
    (".underlay.inside", "base64"),
];

/// Every text that the schema of the file has, by the keys it lies under.
pub fn texts_of_schema() -> Vec<String> {
    fn walk(schema: &Value, whole: &Value, under: &str, all: &mut Vec<String>) {
        if let Some(name) = schema["$ref"].as_str() {
            walk(&whole["$defs"][name.rsplit('/').next().unwrap()], whole, under, all);
        }
        for inner in ["anyOf", "oneOf", "allOf", "prefixItems"]
            .iter()
            .filter_map(|key| schema[*key].as_array())
            .flatten()
        {
            walk(inner, whole, under, all);
        }
        if schema["items"].is_object() {
            walk(&schema["items"], whole, under, all);
        }
        let is_text = |kind: &Value| {
            kind == "string" || kind.as_array().is_some_and(|all| all.contains(&json!("string")))
        };
        if is_text(&schema["type"]) && schema.get("enum").is_none() && schema.get("const").is_none() {
            all.push(under.to_owned());
        }
        for (key, inner) in schema["properties"].as_object().into_iter().flatten() {
            walk(inner, whole, &format!("{under}.{key}"), all);
        }
    }
    let schema = bellpad::dance::schema();
    let mut all = Vec::new();
    walk(&schema, &schema, "", &mut all);
    all.sort();
    all.dedup();
    all
}

/// A small dance that has every text, each of them this one.
pub fn dance_with(said: &str) -> Value {
    let one_line: String =
        said.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    let chord = one_line.replace(['"', '%', '\\'], " ");
    let abc = format!(
        "X:1\nT:{one_line}\nC:{one_line}\nM:4/4\nL:1/8\nK:G\nP:A\n\"{chord}\"G4B4|\"_{chord}\"d4B4|\nw:{one_line}\nN:{one_line}\n"
    );
    let mut dance = json!({
        "bellpad": 2, "title": "", "side": "", "tradition": "", "author": "", "notes": "", "later": "",
        "holding": "sticks",
        "set": {"kind": "longways", "dancers": 4, "across": 1.2, "along": 1.8},
        "floor": {"across": 2.0, "along": 2.0},
        "music": {"metre": "4/4", "speed": 100.0, "abc": abc, "strains": [{"name": "", "bars": 2}], "played": [""]},
        "steps": [{"name": "", "short": "q", "feet": ["lead", "other", "lead", "air"]}],
        "figures": [
            {"id": "", "name": "", "bars": 2, "phrase": "2 q", "notes": "", "later": "",
             "parts": [{"place": 1, "phrase": "2 q", "legs": [{"begin": 0.0, "end": 4.0, "to": {"x": 0.3, "y": 0.5}}],
                        "turns": [{"begin": 4.0, "end": 6.0, "way": "left", "by": 360.0, "on": "q"}]}],
             "strikes": [{"at": 1.0, "by": "odds", "with": "tip", "on": "partner"}],
             "allow": [{"kind": "clash", "reason": ""}, {"kind": "not-home", "reason": ""}]},
            {"id": "other", "name": "", "bars": 8, "named": {"figure": "cross-over"}}
        ],
        "order": [{"figure": "", "strain": "", "call": ""}, {"figure": "other", "call": ""}],
        "people": [{"number": 1, "name": ""}, {"number": 2, "name": ""}],
        "underlay": [{"path": "", "figure": ""}]
    });
    fill(&mut dance, "", said);
    // A figure may be named anything, and each its own.
    dance["figures"][1]["id"] = json!("other");
    dance["order"][1]["figure"] = json!("other");
    dance
}

fn fill(value: &mut Value, under: &str, said: &str) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                fill(value, &format!("{under}.{key}"), said);
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|value| fill(value, under, said)),
        Value::String(text) if TEXTS.contains(&under) => said.clone_into(text),
        _ => {}
    }
}
