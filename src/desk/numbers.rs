use crate::dance::Dancer;

/// Numbers in a list: `1, 2 and 5`.
pub(super) fn numbers(dancers: &[Dancer]) -> String {
    let names: Vec<String> = dancers.iter().map(ToString::to_string).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() && names.len() <= 4 => {
            format!("{} and {last}", rest.join(", "))
        }
        Some(_) if names.len() > 4 => format!("{} dancers", names.len()),
        _ => names.join(""),
    }
}

/// What is said of those who should follow somebody who was drawn, and do otherwise there.
pub(super) fn left_words(left: &[Dancer]) -> Option<String> {
    let who = numbers(left);
    match left {
        [] => None,
        [_] => Some(format!("{who} does otherwise there, and stays as before: only what is alike follows")),
        _ => Some(format!("{who} do otherwise there, and stay as before: only what is alike follows")),
    }
}
