//! A fault as it is told: with its place in the dance, and in a sentence that names it.

use super::{Fault, found::Found, look::Look};
use crate::dance::{FaultKind, rounded, shown_name};
use crate::motion::{Moment, SpanIndex};

/// A fault told with its place in the dance.
pub(super) fn told(look: &Look, index: SpanIndex, found: Found) -> Option<Fault> {
    let span = look.motion.span(index)?;
    let begin = span.begin();
    let at = thousandths(begin + found.at);
    let moment = look.motion.moment(at);
    let allowed = look.allowed(span, found.kind, &found.dancers, found.value).map(str::to_owned);
    let own = Moment::at(span.bar_counts(), (found.at * 10.0).round() / 10.0);
    let text = match look.figure(span).filter(|_| found.kind != FaultKind::Music) {
        Some(figure) if begin + found.at >= span.end() - 1e-6 => {
            format!("At the end of {}: {}", shown_name(&figure.name), found.text)
        }
        Some(figure) => {
            format!(
                "In {}, bar {} count {}: {}",
                shown_name(&figure.name),
                own.bar,
                (own.count * 10.0).round() / 10.0,
                found.text
            )
        }
        None => found.text.clone(),
    };
    Some(Fault {
        kind: found.kind,
        bar: moment.bar,
        count: thousandths(moment.count),
        at,
        dancers: found.dancers.iter().map(|&dancer| dancer.number()).collect(),
        value: rounded(found.value, 10_000.0),
        limit: found.limit,
        text,
        said: found.text,
        allowed,
        lasts: (begin + found.lasts.0, begin + found.lasts.1),
        spot: found.spot,
        span: index,
    })
}

fn thousandths(value: f64) -> f64 {
    rounded(value, 1000.0)
}
