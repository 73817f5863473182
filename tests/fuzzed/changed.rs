//! Changes to documents and to texts: what is there taken away, put in again, put in another order, of another type, beyond its
//! limits, deeper, longer, in another script.

use crate::any_text::{WORDS, text};
use crate::draws::Draws;
use serde_json::{Value, json};

/// Numbers at the ends of what there is, and at the ends of what a dance may say.
const NUMBERS: [f64; 24] = [
    0.0, -0.0, 1.0, -1.0, 0.5, 0.1, 1e-9, 1e-300, 1e300, -1e300, 1e9, 2.5, 4.0, 16.0, 100.0, 359.0, 360.0,
    400.0, 401.0, 1000.0, 2000.0, 2001.0, 12_000.0, 36_000.0,
];

/// Words that look like numbers, and words that files use, each where it is not expected.
const ODD: [&str; 22] = [
    "NaN",
    "Infinity",
    "-inf",
    "null",
    "true",
    "1e999",
    "0x10",
    "",
    " ",
    "hey",
    "arc",
    "smooth",
    "ring",
    "spots",
    "longways",
    "single-steps",
    "partner",
    "all",
    "anywhere",
    "9/8",
    "ds",
    "2 ds, 2 ss, ftj",
];

/// The pointers of every value in a document.
fn pointers(value: &Value, at: &str, all: &mut Vec<String>) {
    all.push(at.to_owned());
    let escaped = |key: &str| key.replace('~', "~0").replace('/', "~1");
    match value {
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                pointers(value, &format!("{at}/{index}"), all);
            }
        }
        Value::Object(object) => {
            for (key, value) in object {
                pointers(value, &format!("{at}/{}", escaped(key)), all);
            }
        }
        _ => {}
    }
}

fn deep(levels: usize) -> Value {
    (0..levels).fold(
        json!(1),
        |inner, level| {
            if level % 2 == 0 { json!([inner]) } else { json!({"a": inner}) }
        },
    )
}

fn any_value(draws: &mut Draws) -> Value {
    match draws.below(9) {
        0 => json!(null),
        1 => json!(draws.once_in(2)),
        2 => draws.one_of(&[json!([]), json!({}), json!([[]]), json!({"": {}})]),
        3 => json!(draws.one_of(&NUMBERS)),
        4 => json!(draws.one_of(&[u64::MAX, u64::from(u32::MAX), i64::MAX as u64, 3, 7])),
        5 => json!(draws.one_of(&ODD)),
        6 => json!(text(draws)),
        7 => {
            let levels = draws.one_of(&[2, 20, 100, 127, 140]);
            deep(levels)
        }
        _ => json!(draws.between(-50.0, 50.0)),
    }
}

/// One change to a document.
pub fn change(draws: &mut Draws, document: &mut Value) {
    let mut all = Vec::new();
    pointers(document, "", &mut all);
    let pointer = draws.one_of(&all);
    let Some((parent, key)) = pointer.rsplit_once('/') else { return };
    let key = key.replace("~1", "/").replace("~0", "~");
    let copied = document.pointer(&draws.one_of(&all)).cloned().unwrap_or_default();
    let value = any_value(draws);
    let how = draws.below(12);
    let (least, factor) = (draws.once_in(2), draws.one_of(&[0.0, -1.0, 0.5, 2.0, 10.0, 1e-3, 1e6]));
    let times = draws.one_of(&[1, 1, 2, 8, 50, 400, 2100]);
    let place = draws.below(usize::MAX >> 32);
    let new_key = draws.one_of(&WORDS);
    let Some(target) = document.pointer_mut(&pointer) else { return };
    match (how, &mut *target) {
        (0, slot) => *slot = value,
        (1, slot) => *slot = copied,
        (2, slot @ Value::Number(_)) => *slot = json!(slot.as_f64().unwrap_or_default() * factor),
        (3, Value::Array(list)) => list.reverse(),
        (4, Value::Array(list)) if !list.is_empty() => {
            let one = list[place % list.len()].clone();
            // As many as there may be, but not of what is large itself.
            let times = if one.to_string().len() < 300 { times } else { times.min(8) };
            let at = place % (list.len() + 1);
            list.splice(at..at, std::iter::repeat_n(one, times));
        }
        (5, Value::Array(list)) => list.truncate(list.len() / 2),
        (6, Value::String(said)) => *said = said.repeat(times.min(500)),
        (7, Value::String(said)) => {
            let end = said.char_indices().nth(said.chars().count() / 2).map_or(0, |(at, _)| at);
            said.insert_str(end, new_key);
        }
        (8, slot @ Value::Number(_)) => *slot = json!(if least { 0.1 } else { 400.0 }),
        _ => {
            let Some(parent) = document.pointer_mut(parent) else { return };
            match parent {
                Value::Array(list) => {
                    let Ok(index) = key.parse::<usize>() else { return };
                    match how {
                        9 => {
                            list.remove(index);
                        }
                        10 => {
                            let other = place % list.len();
                            list.swap(index, other);
                        }
                        _ => list.insert(index, value),
                    }
                }
                Value::Object(object) => match how {
                    9 => {
                        object.remove(&key);
                    }
                    10 => {
                        let moved = object.remove(&key).unwrap_or_default();
                        object.insert(new_key.to_owned(), moved);
                    }
                    _ => {
                        object.insert(new_key.to_owned(), value);
                    }
                },
                _ => {}
            }
        }
    }
}

/// A change to a dance that makes it as large as a file may say, in one way.
pub fn enlarge(draws: &mut Draws, document: &mut Value) {
    match draws.below(7) {
        0 => document["set"]["dancers"] = json!(draws.one_of(&[12, 24, 100, 400])),
        1 => {
            let figures = document["figures"].as_array().map_or(0, Vec::len);
            if figures > 0 {
                let index = draws.below(figures);
                document["figures"][index]["bars"] = json!(draws.one_of(&[100, 1000, 2000]));
            }
        }
        2 => {
            let along = draws.one_of(&[0.1, 0.3, 1000.0]);
            (document["set"]["across"], document["set"]["along"]) = (json!(along), json!(along));
        }
        3 => document["music"]["speed"] = json!(draws.one_of(&[10, 400])),
        4 => {
            if let Some(order) = document["order"].as_array_mut().filter(|order| !order.is_empty()) {
                let line = order[draws.below(order.len())].clone();
                let times = draws.one_of(&[10, 100, 250, 2000]);
                order.extend(std::iter::repeat_n(line, times));
            }
        }
        5 => {
            let dancers = draws.one_of(&[3, 25, 150, 400]);
            let spot = |index: u32, by: f64| json!({"x": (f64::from(index) * by).sin(), "y": (f64::from(index) * by).cos()});
            let by = draws.one_of(&[0.0, 0.01, 2.4]);
            let spots: Vec<Value> = (0..dancers).map(|index| spot(index, by)).collect();
            document["set"] = json!({"kind": "spots", "dancers": dancers, "spots": spots});
        }
        _ => {
            let pointer = draws.one_of(&["/set/radius", "/limits/apart", "/limits/breadth", "/limits/step"]);
            let [_, room, key] = pointer.split('/').collect::<Vec<_>>()[..] else { return };
            document[room][key] = json!(draws.one_of(&[0.05, 0.1, 5.0, 10.0, 1000.0]));
        }
    }
}

/// A slip in a text: at some place something is put in, taken out, doubled or swapped.
pub fn slip(draws: &mut Draws, said: &mut Vec<char>, bits: &[&str]) {
    let at = draws.below(said.len() + 1);
    let many = draws.one_of(&[1, 1, 2, 5, 12, 40]).min(said.len() - at);
    match draws.below(6) {
        0 | 1 => {
            let bit = draws.one_of(bits);
            said.splice(at..at, bit.chars());
        }
        2 => {
            said.drain(at..at + many);
        }
        3 => {
            let times = draws.one_of(&[1, 1, 2, 30, 1000]);
            let part = said[at..at + many].repeat(times);
            said.splice(at..at, part);
        }
        4 => {
            let odd = draws.one_of(&WORDS);
            said.splice(at..at, odd.chars());
        }
        _ => {
            let other = draws.below(said.len() + 1);
            if at < said.len() && other < said.len() {
                said.swap(at, other);
            }
        }
    }
}
