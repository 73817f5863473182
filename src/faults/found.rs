use crate::dance::{Dancer, FaultKind};

/// A fault as its finder tells it. Counts are from the start of the span.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub kind: FaultKind,
    pub at: f64,
    pub lasts: (f64, f64),
    pub dancers: Vec<Dancer>,
    pub value: f64,
    pub limit: f64,
    pub text: String,
    pub spot: Option<(f64, f64)>,
}
