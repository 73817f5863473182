//! When the foreman calls each figure.

use crate::dance::{BarCounts, Dance, Entry};
use crate::motion::{Motion, SpanIndex};

/// What the foreman calls for a line of the running order, and when.
#[derive(Clone, Debug, PartialEq)]
pub struct Call {
    /// The line, or where a dance has no running order the figure, from 0.
    pub line: SpanIndex,
    /// What is called: what the line says, or the name of its figure.
    pub text: String,
    /// The count from the start of the dance; below 0 where it comes before the dancing.
    pub count: f64,
}

/// The calls of a motion of the whole dance, in the order of its lines.
#[must_use]
pub fn calls(dance: &Dance, motion: &Motion) -> Vec<Call> {
    let spans = motion.indexed_spans();
    spans
        .filter_map(|(line, span)| {
            let figure = dance.figures.get(span.figure)?;
            let entry = dance.order.get(line.index());
            let own = entry.map(|entry| entry.call.trim()).filter(|call| !call.is_empty());
            let before = entry.map_or(Entry::CALL_BEFORE, Entry::called_before);
            Some(Call {
                line,
                text: own.unwrap_or(&figure.name).to_owned(),
                count: bars_before(motion.bar_counts(), span.first_bar, before),
            })
        })
        .collect()
}

/// The count, from the start, so many bars before a bar begins (from 0); before the start bars are as the first one.
fn bars_before(counts: &BarCounts, bar: u32, bars: f64) -> f64 {
    let whole = bars.ceil();
    let rest = whole - bars;
    let begin = f64::from(bar) - whole;
    let from = begin.max(0.0) as u32;
    let early = begin.min(0.0) * f64::from(counts.in_bar(0));
    counts.begin_of(from) + early + rest * f64::from(counts.in_bar(from))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Music, Set};
    use crate::figures::motion_of;
    use crate::motion::Clock;

    fn called(before: &[(&str, Option<f64>)]) -> Vec<Call> {
        let mut dance = Dance::new("Calls", Set::longways(4, 2.4, 1.8));
        dance.figures = vec![Figure::drawn("over", "Over", 8)];
        let line = |(call, before): &(&str, Option<f64>)| Entry {
            call: (*call).to_owned(),
            call_before: *before,
            ..Entry::of("over")
        };
        dance.order = before.iter().map(line).collect();
        calls(&dance, &motion_of(&dance, None).unwrap())
    }

    /// Common practice, no source: the call comes in the last bars of the figure before; two of them where a line says
    /// nothing, here.
    #[test]
    fn a_call_comes_before_its_figure() {
        let lines = [
            ("", None),
            (" Over again ", Some(1.0)),
            ("Last!", Some(0.5)),
            ("", Some(0.0)),
            ("", Some(1.25)),
        ];
        let found: Vec<(String, f64)> =
            called(&lines).into_iter().map(|call| (call.text, call.count)).collect();
        let wanted = [("Over", -8.0), ("Over again", 28.0), ("Last!", 62.0), ("Over", 96.0), ("Over", 123.0)];
        assert_eq!(found, wanted.map(|(text, count)| (text.to_owned(), count)));
        // At 100 strong beats a minute a bar takes 1.2 s: the first call is 2.4 s before the dancing.
        let clock = Clock::of(&Music::default());
        assert!((clock.seconds(-8.0) + 2.4).abs() < 1e-9 && (clock.seconds(28.0) - 8.4).abs() < 1e-9);
    }

    #[test]
    fn a_dance_with_no_running_order_calls_its_figures() {
        assert_eq!(called(&[]), [Call { line: SpanIndex(0), text: "Over".to_owned(), count: -8.0 }]);
    }
}
