//! What there is to watch for in a kind of dancing, under its words.

use super::whole_page::Pool;
use crate::dance::{Dance, Dancer};
use crate::faults::{MOST_WATCHED, ToWatch, watch_dance};
use crate::handout::watching::side_lines;
use crate::motion::Motion;
use serde_json::{Value, json};
use std::sync::Arc;

/// What to watch for, a list for each line of the running order; none where it is not wanted or the set is too large for it.
pub(super) fn lists(dance: &Dance, motion: &Motion, wanted: bool) -> Vec<Arc<ToWatch>> {
    let lists =
        (wanted && motion.dancers() <= MOST_WATCHED).then(|| watch_dance(dance, motion, &mut || true));
    lists.flatten().unwrap_or_default()
}

/// The sentences of a list, by indices of `texts`: `side`, everybody's; and `own`, for each dancer theirs, if there is one.
pub(super) fn to_watch(texts: &mut Pool, list: Option<&Arc<ToWatch>>, dancers: usize) -> Value {
    let Some(list) = list else { return json!({"side": [], "own": vec![[0_usize; 0]; dancers]}) };
    let side: Vec<usize> = side_lines(list).into_iter().map(|text| texts.index(text)).collect();
    let own: Vec<Vec<usize>> = Dancer::all(dancers)
        .map(|dancer| list.line_for(dancer).map(|text| texts.index(text.to_owned())).into_iter().collect())
        .collect();
    json!({"side": side, "own": own})
}
