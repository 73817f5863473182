use super::found::Found;
use crate::dance::FaultKind;
use crate::motion::SpanIndex;
use serde::Serialize;
use std::cmp::Ordering;

/// The most faults of a kind that are told. Nobody reads more, and those who stand in one heap have one for each two of
/// them.
pub const MOST_OF_A_KIND: usize = 500;

/// Faults of a kind that are not told one by one, since there are too many.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct More {
    pub kind: FaultKind,
    /// How many of it there are besides those that are told.
    pub more: usize,
    /// How many of these the side means.
    #[serde(skip_serializing_if = "is_none")]
    pub meant: usize,
    /// Whether the search ended when there were so many, and there may be still more.
    #[serde(skip_serializing_if = "is_all")]
    pub at_least: bool,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // as serde asks for it
fn is_none(many: &usize) -> bool {
    *many == 0
}

#[allow(clippy::trivially_copy_pass_by_ref)] // as serde asks for it
fn is_all(at_least: &bool) -> bool {
    !*at_least
}

impl More {
    /// What it says in words: `300 more like these`, or `at least 300 more like these`.
    #[must_use]
    pub fn words(&self) -> String {
        let Self { more, meant, at_least, .. } = self;
        let least = if *at_least { "at least " } else { "" };
        let meant = if *meant > 0 { format!(", {meant} of them meant") } else { String::new() };
        format!("{least}{more} more like these{meant}")
    }
}

/// What is to be told, by the index of its span, and what is left out of it.
#[derive(Default)]
pub(super) struct Cut {
    pub found: Vec<(SpanIndex, Found)>,
    pub more: Vec<More>,
    /// The indices of the spans of what is left out and not meant.
    pub left_out: Vec<SpanIndex>,
}

impl Cut {
    /// The first of a list, as many as are told of a kind: those that are not meant before those that are. What is
    /// left out is counted.
    pub(super) fn first<T>(
        &mut self,
        kind: FaultKind,
        mut list: Vec<T>,
        meant: impl Fn(&T) -> bool,
        span: impl Fn(&T) -> SpanIndex,
        order: impl Fn(&T, &T) -> Ordering,
    ) -> Vec<T> {
        if list.len() > MOST_OF_A_KIND {
            list.sort_by(|one, other| meant(one).cmp(&meant(other)).then_with(|| order(one, other)));
            let dropped = list.split_off(MOST_OF_A_KIND);
            let meant_too = dropped.iter().filter(|one| meant(one)).count();
            self.more.push(More { kind, more: dropped.len(), meant: meant_too, at_least: false });
            self.left_out.extend(dropped.iter().filter(|one| !meant(one)).map(span));
        }
        list
    }
}
