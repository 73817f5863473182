//! The script of the page: the modules in `assets/practice/`, joined into one.
//!
//! They are modules so that each can be read, and checked by others, on its own. To join them takes little: each stands
//! after those it imports from, so the lines that import go and what is exported is simply declared, all in one function.
//! What a module may not do for that to be right is listed by `faults` in the tests below, which hold every module
//! against it.

/// A module's name and text.
type Module = (&'static str, &'static str);

macro_rules! modules {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../assets/practice/", $name, ".js")))),*]
    };
}

/// The modules, each after those it imports from.
const MODULES: &[Module] = modules![
    "parts", "dance", "decode", "bodies", "poses", "space", "state", "clock", "sound", "frame", "pen",
    "meets", "dancer", "eye", "draw", "words", "clauses", "strip", "screen", "play", "controls", "lists",
    "hands", "begin",
];

/// The script of the page.
pub(super) fn script() -> String {
    join(MODULES)
}

/// One script of the modules, without their comments of whole lines: the phone has no use for those.
fn join(modules: &[(&str, &str)]) -> String {
    let mut script = String::from("\"use strict\";\n(() => {\n");
    for (_, text) in modules {
        for line in code_lines(text).filter(|line| !line.starts_with(IMPORT)) {
            script.push_str(line.strip_prefix(EXPORT).unwrap_or(line));
            script.push('\n');
        }
    }
    script.push_str("})();");
    script
}

/// How a line that imports begins.
const IMPORT: &str = "import ";
/// How a declaration that is exported begins.
const EXPORT: &str = "export ";

/// The lines of a module that are neither empty nor comments.
fn code_lines(text: &str) -> impl Iterator<Item = &str> {
    let mut within = false;
    text.lines().filter(move |line| {
        let bare = line.trim();
        let begins = bare.starts_with("/*");
        let is_code = !(within || begins || bare.starts_with("//") || bare.is_empty());
        within = (within || begins) && !bare.ends_with("*/");
        is_code
    })
}

#[cfg(test)]
mod tests {
    use super::{EXPORT, IMPORT, MODULES, code_lines, join};
    use std::collections::BTreeMap;
    use std::path::Path;

    /// What a declaration begins with.
    const DECLARES: [&str; 6] = ["const ", "let ", "var ", "async function ", "function ", "class "];

    /// The name that a line declares, where it declares one.
    fn declared(line: &str) -> Option<&str> {
        let rest = DECLARES.iter().find_map(|begins| line.strip_prefix(begins))?;
        Some(rest.split(|letter: char| !is_of_name(letter)).next().unwrap_or_default())
    }

    fn is_of_name(letter: char) -> bool {
        letter.is_ascii_alphanumeric() || letter == '_' || letter == '$'
    }

    /// The names and the module of `import { one, other } from "./module.js";`, the one form that may be used.
    fn imported(line: &str) -> Option<(Vec<&str>, &str)> {
        let (names, from) = line.strip_prefix("import { ")?.split_once(" } from \"./")?;
        let names: Vec<&str> = names.split(", ").collect();
        let plain = names.iter().all(|name| !name.is_empty() && name.chars().all(is_of_name));
        plain.then_some((names, from.strip_suffix(".js\";")?))
    }

    /// Whether a line has a word in it.
    fn has_word(line: &str, word: &str) -> bool {
        line.split(|letter| !is_of_name(letter)).any(|found| found == word)
    }

    /// What is in modules that joining them would get wrong.
    fn faults(modules: &[(&str, &str)]) -> Vec<String> {
        let mut found = Vec::new();
        // The module that declares each name, and what each module before exports.
        let mut names: BTreeMap<&str, &str> = BTreeMap::new();
        let mut exports: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (module, text) in modules {
            let mut own = Vec::new();
            for line in text.lines().map(str::trim) {
                if line.starts_with("/*") && line.contains("*/") && !line.ends_with("*/") {
                    found.push(format!("{module}: a comment with code after it: {line}"));
                }
            }
            for line in code_lines(text) {
                let mut fault = |what: &str| found.push(format!("{module}: {what}: {line}"));
                if line.matches('`').count() % 2 > 0 {
                    fault("a text of more than one line");
                }
                if line.starts_with(IMPORT) {
                    match imported(line) {
                        None => fault("an import of an unknown form"),
                        Some((wanted, from)) => match exports.get(from) {
                            None => fault("an import from a module that does not stand before"),
                            Some(there) if wanted.iter().all(|name| there.contains(name)) => {}
                            Some(_) => fault("an import of what is not exported"),
                        },
                    }
                    continue;
                }
                let bare = line.strip_prefix(EXPORT).unwrap_or(line);
                if has_word(bare, "import") || has_word(bare, "export") {
                    fault("an import or export of an unknown form");
                }
                match declared(bare) {
                    None if bare.len() < line.len() => fault("an export of an unknown form"),
                    None => {}
                    Some("") => fault("a declaration of more than one name"),
                    Some(name) => {
                        if let Some(other) = names.insert(name, module) {
                            fault(&format!("a name that {other} has too"));
                        }
                        if bare.len() < line.len() {
                            own.push(name);
                        }
                    }
                }
            }
            exports.insert(module, own);
        }
        found
    }

    #[test]
    fn the_modules_of_the_page_can_be_joined() {
        assert_eq!(faults(MODULES), Vec::<String>::new());
        let script = join(MODULES);
        assert!(!has_word(&script, "import") && !has_word(&script, "export"));
        assert!(!script.contains("</script") && !script.contains("<!--"));
        assert!(script.starts_with("\"use strict\";\n(() => {\n") && script.ends_with("\n})();"));
    }

    /// A module that is in the folder and not in the list would be checked and not be on the page.
    #[test]
    fn every_module_of_the_folder_is_joined() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/practice");
        let mut there: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .filter_map(|entry| Some(entry.unwrap().file_name().to_str()?.strip_suffix(".js")?.to_owned()))
            .filter(|name| name != "eslint.config")
            .collect();
        there.sort();
        let mut joined: Vec<&str> = MODULES.iter().map(|(name, _)| *name).collect();
        joined.sort_unstable();
        assert_eq!(there, joined);
    }

    #[test]
    fn modules_are_joined_without_imports_and_comments() {
        let one = "// What it is for.\n\n/** A number. */\nexport const two = 2;\n/**\n * Twice.\n */\nexport function twice(value) {\n  // Two of it.\n  return value * two;\n}\n";
        let other =
            "// The rest.\nimport { twice, two } from \"./one.js\";\n\nlet done = twice(two); // four\n";
        assert_eq!(faults(&[("one", one), ("other", other)]), Vec::<String>::new());
        assert_eq!(
            join(&[("one", one), ("other", other)]),
            "\"use strict\";\n(() => {\nconst two = 2;\nfunction twice(value) {\n  return value * two;\n}\n\
             let done = twice(two); // four\n})();"
        );
    }

    #[test]
    fn what_cannot_be_joined_is_found() {
        let base = "export const one = 1;\nexport function step() {}\nexport async function wait() {}\nlet own = 2;\n";
        for (text, what) in [
            ("import one from \"./base.js\";", "an import of an unknown form"),
            ("import * as base from \"./base.js\";", "an import of an unknown form"),
            ("import { one as first } from \"./base.js\";", "an import of an unknown form"),
            ("import {\n  one,\n} from \"./base.js\";", "an import of an unknown form"),
            ("import \"./base.js\";", "an import of an unknown form"),
            ("import { one } from './base.js';", "an import of an unknown form"),
            ("import { one } from \"./later.js\";", "an import from a module that does not stand before"),
            ("import { one } from \"./next.js\";", "an import from a module that does not stand before"),
            ("import { own } from \"./base.js\";", "an import of what is not exported"),
            ("const later = () => import(\"./base.js\");", "an import or export of an unknown form"),
            ("const at = import.meta;", "an import or export of an unknown form"),
            ("export default 3;", "an export of an unknown form"),
            ("const a = 1;\nexport { a };", "an export of an unknown form"),
            ("export * from \"./base.js\";", "an export of an unknown form"),
            ("const [a, b] = [1, 2];", "a declaration of more than one name"),
            ("export const { a } = base;", "a declaration of more than one name"),
            ("const own = 3;", "a name that base has too"),
            ("export function step(by) {}", "a name that base has too"),
            ("class wait {}", "a name that base has too"),
            ("const text = `a\n// b`;", "a text of more than one line"),
            ("/** @type {number} */ const a = 1;", "a comment with code after it"),
        ] {
            let found = faults(&[("base", base), ("next", text), ("later", "export const one = 3;")]);
            assert!(found.iter().any(|found| found.contains(what)), "{text}: {found:?}");
        }
        // What a function calls its own is nobody else's.
        let inner = "function walk() {\n  const own = 1;\n  const [a, b] = [own, 2];\n  return a + b;\n}\n";
        assert_eq!(faults(&[("base", base), ("next", inner)]), Vec::<String>::new());
    }
}
