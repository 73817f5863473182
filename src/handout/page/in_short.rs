//! What is shown large while the dance plays: a clause a bar, and the gist of each figure.

use super::whole_page::Pool;
use crate::dance::{Dance, Dancer};
use crate::motion::{Motion, SpanIndex};
use crate::words::phrases::gist::heading;
use crate::words::{Alike, clauses, gist, side_clauses};
use serde_json::{Value, json};

/// What everybody does in a bar has so many lines of so many letters on a phone.
const LINES: usize = 4;
const LETTERS: usize = 34;
/// What stands there then.
const OWN_PARTS: &str = "each has a part: choose a number";

/// A kind of dancing in short, by indices of `texts`: `clauses`, each dancer's bar by bar; `side`, bar by bar those of everybody, each
/// with who dances so before it; `gists`, each dancer's; and `sideGist`.
pub(super) fn in_short(texts: &mut Pool, dance: &Dance, motion: &Motion, index: SpanIndex) -> Value {
    let (mut own, mut gists) = (Vec::new(), Vec::new());
    for dancer in Dancer::all(motion.dancers()) {
        let told = clauses(dance, motion, index, dancer);
        own.push(told.into_iter().map(|(_, text)| texts.index(text)).collect::<Vec<_>>());
        gists.push(texts.index(gist(dance, motion, index, Some(dancer))));
    }
    let groups = side_clauses(dance, motion, index);
    let bars = motion.span(index).map_or(0, |span| span.bars as usize);
    let side: Vec<Vec<usize>> = (0..bars)
        .map(|bar| {
            side_bar(&groups, bar, motion.dancers()).into_iter().map(|text| texts.index(text)).collect()
        })
        .collect();
    json!({"clauses": own, "side": side, "gists": gists, "sideGist": texts.index(gist(dance, motion, index, None))})
}

/// A bar of everybody: those of whom the same is said in it together.
fn side_bar(groups: &[Alike<Vec<(u32, String)>>], bar: usize, dancers: usize) -> Vec<String> {
    let mut found: Vec<Alike<&str>> = Vec::new();
    for group in groups {
        let Some((_, told)) = group.told.get(bar) else { continue };
        match found.iter_mut().find(|known| known.told == told) {
            Some(known) => known.who.extend(group.who.iter().copied()),
            None => found.push(Alike { told, who: group.who.clone() }),
        }
    }
    match found.as_slice() {
        // Whatever the images, nothing in it has a side or a number.
        [all] if plain(all.told) => vec![all.told.to_owned()],
        found => {
            let said = found.iter().map(|group| format!("{}: {}", heading(group, dancers), group.told));
            let said: Vec<String> = said.collect();
            let lines: usize = said.iter().map(|line| line.chars().count().div_ceil(LETTERS)).sum();
            if lines > LINES { vec![OWN_PARTS.to_owned()] } else { said }
        }
    }
}

/// Whether nothing is said that a mirror or half a turn would change.
fn plain(text: &str) -> bool {
    !text.split([' ', ',']).any(|word| {
        matches!(word, "left" | "right" | "up" | "down" | "clockwise" | "anticlockwise")
            || word.contains(|letter: char| letter.is_ascii_digit())
    })
}
