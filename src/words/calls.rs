use super::phrases::sheet;
use crate::dance::{Dance, Entry};
use crate::figures::calls;
use crate::motion::Motion;

/// What there is to say of the call of a line of the running order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CallSaid {
    /// What is called, where it is not the figure's name alone.
    pub own: Option<String>,
    /// When: `at bar 7:1`, or `2 bars before the dancing`.
    pub when: String,
}

impl CallSaid {
    /// All of it: `call: Geese away!, at bar 7:1`, or `called at bar 7:1`.
    #[must_use]
    pub fn words(&self) -> String {
        match &self.own {
            Some(call) => format!("{}, {}", sheet::call(call), self.when),
            None => sheet::called(&self.when),
        }
    }
}

/// What there is to say of the call of each line of a motion of the whole dance; nothing of those that are called by the name of
/// their figure, when such calls usually come.
#[must_use]
pub fn calls_said(dance: &Dance, motion: &Motion) -> Vec<Option<CallSaid>> {
    let mut said = vec![None; motion.spans().len()];
    let bar = f64::from(motion.bar_counts().in_bar(0));
    for call in calls(dance, motion) {
        let figure = motion.span(call.line).and_then(|span| dance.figures.get(span.figure));
        let entry = dance.order.get(call.line.index());
        let own =
            entry.zip(figure).and_then(|(entry, figure)| entry.own_call(&figure.name)).map(str::to_owned);
        if own.is_none() && entry.is_none_or(|entry| entry.call_before.is_none()) {
            continue;
        }
        let moment = if call.count < 0.0 { Err(-call.count / bar) } else { Ok(motion.moment(call.count)) };
        if let Some(slot) = said.get_mut(call.line.index()) {
            *slot = Some(CallSaid { own, when: sheet::call_moment(moment) });
        }
    }
    said
}

/// How long before its figure a line is called, where it says so or has a call of its own: `2 bars before`.
#[must_use]
pub fn call_before_said(entry: &Entry, name: &str) -> Option<String> {
    let own = entry.own_call(name);
    let before = sheet::call_before(entry.called_before());
    match (own, entry.call_before) {
        (Some(call), _) => Some(format!("{call}, {before}")),
        (None, Some(_)) => Some(before),
        (None, None) => None,
    }
}
