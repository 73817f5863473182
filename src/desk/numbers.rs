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
