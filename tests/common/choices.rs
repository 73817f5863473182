//! Every choice of a named figure at both its ends.

use bellpad::dance::{Figure, Set};
use bellpad::figures::{Kind, NamedFigure, named_figure};
use serde_json::{Map, Value, json};

/// A side's choices for a figure: the usual ones, and each choice at every word or both ends of its numbers, the others
/// being as usual.
pub fn chosen(figure: &NamedFigure) -> Vec<Map<String, Value>> {
    let mut all = vec![Map::new()];
    for choice in figure.choices {
        let values: Vec<Value> = match choice.kind {
            Kind::Number { least, most, .. } => vec![json!(least), json!(most)],
            Kind::Dancer { .. } => vec![json!(0), json!(1), json!(400)],
            Kind::Word(words) => words.iter().skip(1).map(|word| json!(word)).collect(),
        };
        all.extend(values.into_iter().map(|value| Map::from_iter([(choice.key.to_owned(), value)])));
    }
    all
}

/// The figure as a side has chosen it; nothing where the set cannot dance it so.
pub fn figure_of(figure: &NamedFigure, with: &Map<String, Value>, set: &Set) -> Option<Figure> {
    named_figure(figure.name, with.clone(), set).ok()
}
