//! What is said of metres and speeds that nothing comes of: of bars and counts that a figure has not, or of a strain whose metre
//! is not the one that the figure is danced in.

use super::{found::Found, look::Look, music::fault};
use crate::dance::{Metre, shown_name};
use crate::motion::SpanIndex;
use std::collections::HashSet;

pub(super) fn find(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let music = &look.dance.music;
    let entries = look.dance.order.iter().filter(|entry| look.dance.figure_index(&entry.figure).is_some());
    let strains = entries.map(|entry| {
        let name = entry.strain.trim();
        let of_name = |name: &str| music.strains.iter().find(|strain| strain.name.eq_ignore_ascii_case(name));
        Some(name).filter(|name| !name.is_empty()).and_then(of_name)
    });
    // A running order that is left out names no strains.
    let mut strains = strains.chain(std::iter::repeat(None));
    let mut seen = HashSet::new();
    for (index, span) in look.motion.indexed_spans() {
        let strain = strains.next().flatten();
        let Some(figure) = look.dance.figures.get(span.figure) else { continue };
        let name = shown_name(&figure.name);
        let mut tell = |value: f64, limit: f64, text: String| {
            found.push((index, fault(0.0, 0.0, (value, limit), text)));
        };
        let danced = look.dance.metre_of(figure);
        let asked = strain.map(|strain| strain.metre.unwrap_or(music.metre));
        if let Some((strain, asked)) =
            strain.zip(asked).filter(|(_, asked)| asked.counts() != danced.counts())
        {
            let text = format!(
                "{name} is danced in {danced}, as where it is danced first, and strain {} is in {asked}",
                shown_name(&strain.name)
            );
            tell(f64::from(danced.counts()), f64::from(asked.counts()), text);
        }
        // Once for a figure, however often it is danced.
        if !seen.insert(span.figure) {
            continue;
        }
        let beyond = |(bar, _): &(&u32, &Metre)| **bar > figure.bars;
        for (bar, metre) in figure.metres.iter().filter(beyond) {
            let text =
                format!("bar {bar} of {name} is said to be in {metre}, and it has {} bars", figure.bars);
            tell(f64::from(*bar), f64::from(figure.bars), text);
        }
        let counts = span.end() - span.begin();
        if let Some(change) = figure.speeds.iter().find(|change| change.count >= counts) {
            let text = format!(
                "{name} is said to go at {} from count {} on, and it has {counts} counts",
                change.speed, change.count
            );
            tell(change.count, counts, text);
        }
    }
}
