//! An input that fails made as small as it goes, so that it still fails.

use crate::worker::{Inputs, Order, run_with};
use serde_json::Value;
use std::fs;
use std::time::{Duration, Instant};

/// No more time is spent on one.
const LONGEST: Duration = Duration::from_secs(90);

/// Where it failed, without its numbers where it took too long.
pub fn place_of(why: &str) -> String {
    let first = why.lines().next().unwrap_or_default();
    if why.contains("panicked at") {
        first.to_owned()
    } else {
        first.chars().filter(|letter| !letter.is_ascii_digit()).collect()
    }
}

/// The smallest that was found.
pub fn smaller(target: &str, input: &str, limit: &str, place: &str) -> String {
    let begun = Instant::now();
    let folder = tempfile::tempdir().unwrap();
    let mut fails = |input: &str| {
        if begun.elapsed() > LONGEST {
            return false;
        }
        let path = folder.path().join("input");
        fs::write(&path, input).unwrap();
        let order = Order { target, folder: folder.path(), inputs: Inputs::File(&path), until: LONGEST };
        run_with(&order, limit).failed.iter().any(|(_, why)| place_of(why) == place)
    };
    match serde_json::from_str::<Value>(input) {
        Ok(document) => smaller_document(document, &mut fails).to_string(),
        Err(_) => smaller_text(input, &mut fails),
    }
}

fn smaller_text(input: &str, fails: &mut dyn FnMut(&str) -> bool) -> String {
    let mut letters: Vec<char> = input.chars().collect();
    let mut chunk = letters.len() / 2;
    while chunk > 0 {
        let mut at = 0;
        while at < letters.len() {
            let mut without = letters.clone();
            without.drain(at..(at + chunk).min(letters.len()));
            if fails(&without.iter().collect::<String>()) {
                letters = without;
            } else {
                at += chunk;
            }
        }
        chunk /= 2;
    }
    letters.into_iter().collect()
}

fn smaller_document(mut document: Value, fails: &mut dyn FnMut(&str) -> bool) -> Value {
    let mut todo = vec![String::new()];
    while let Some(pointer) = todo.pop() {
        let keys: Vec<String> = match document.pointer(&pointer) {
            Some(Value::Object(object)) => object.keys().cloned().collect(),
            Some(Value::Array(list)) => {
                let (mut chunk, mut length) = (list.len() / 2, list.len());
                // A list by halves, then one by one.
                while chunk > 0 {
                    let mut at = 0;
                    while at < length {
                        let mut without = document.clone();
                        let Some(Value::Array(list)) = without.pointer_mut(&pointer) else { break };
                        list.drain(at..(at + chunk).min(length));
                        let left = list.len();
                        if fails(&without.to_string()) {
                            (document, length) = (without, left);
                        } else {
                            at += chunk;
                        }
                    }
                    chunk /= 2;
                }
                (0..length).map(|index| index.to_string()).collect()
            }
            _ => continue,
        };
        for key in keys {
            let at = format!("{pointer}/{}", key.replace('~', "~0").replace('/', "~1"));
            let mut without = document.clone();
            if let Some(Value::Object(object)) = without.pointer_mut(&pointer) {
                object.remove(&key);
                if fails(&without.to_string()) {
                    document = without;
                    continue;
                }
            }
            todo.push(at);
        }
    }
    document
}
