use crate::dance::Dancer;
use crate::words::phrases::list;

/// The numbers of some dancers, as they are said: `1, 3 and 5`.
pub(super) fn numbers(dancers: &[Dancer]) -> String {
    list(&dancers.iter().map(ToString::to_string).collect::<Vec<_>>())
}
