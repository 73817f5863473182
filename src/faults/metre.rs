//! What is said of metres and speeds that nothing comes of: of bars and counts that a figure has not, or of a strain whose metre
//! is not the one that the figure is danced in.

use super::{found::Found, look::Look, music::fault};
use crate::dance::{Metre, SpeedChange, shown_name};
use crate::motion::{Moment, SpanIndex};
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
        // What is come to little by little is there at the end.
        let is_beyond = |change: &&SpeedChange| change.count > counts - if change.ease { 0.0 } else { 1e-9 };
        if let Some(change) = figure.speeds.iter().find(is_beyond) {
            let text = format!(
                "{name} is said to go at {} from bar {} on, and it has {} bars",
                change.speed,
                Moment::at(span.bar_counts(), change.count),
                figure.bars
            );
            tell(change.count, counts, text);
        }
    }
}

/// The bars of the tune whose counts are others than those that are danced to them: each strain's first that is, once for a figure.
pub(super) fn find_in_tune(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let bars = look.motion.bar_counts();
    let Some(air) = look.air else { return };
    let mut seen = HashSet::new();
    for (index, span) in look.motion.indexed_spans() {
        let first =
            air.playings.partition_point(|playing| playing.first_bar + playing.bars <= span.first_bar);
        let here = air.playings.iter().skip(first);
        for playing in here.take_while(|playing| playing.first_bar < span.first_bar + span.bars) {
            let Some(strain) = air.tune.strains.get(playing.strain) else { continue };
            let other = strain.metres.iter().zip(0..playing.bars).find_map(|(written, bar)| {
                let at = playing.first_bar + bar;
                let metre = Metre::as_written(*written).filter(|metre| metre.counts() != bars.in_bar(at))?;
                (span.first_bar..span.first_bar + span.bars).contains(&at).then_some((bar, at, metre))
            });
            let Some((bar, at, metre)) = other.filter(|_| seen.insert((span.figure, playing.strain))) else {
                continue;
            };
            let own = at - span.first_bar;
            let text = format!(
                "bar {} of strain {} is in {metre} in the tune, and bar {} of {} is danced in {}: a right click on the bar gives it {metre}",
                bar + 1,
                shown_name(&strain.name),
                own + 1,
                look.figure(span).map_or_else(String::new, |figure| shown_name(&figure.name)),
                bars.metre(at),
            );
            let begin = bars.begin_of(at) - span.begin();
            let lasts = f64::from(bars.in_bar(at));
            found.push((
                index,
                fault(begin, lasts, (f64::from(bars.in_bar(at)), f64::from(metre.counts())), text),
            ));
        }
    }
}
