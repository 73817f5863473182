use crate::dance::Leg;

/// A role of a hey, to be timed.
pub(in super::super) struct Role<'a> {
    /// Where it begins.
    pub start: (f64, f64),
    /// The line it follows, between two half counts.
    pub leg: &'a Leg,
}
