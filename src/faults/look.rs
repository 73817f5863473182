use super::goes_on::Goes;
use crate::dance::{Air, Dance, Dancer, FaultKind, FaultLimits, Figure, KnownTune};
use crate::motion::{Clock, Motion, Span};

/// What the finders look at.
pub(super) struct Look<'a> {
    pub dance: &'a Dance,
    pub motion: &'a Motion,
    pub clock: &'a Clock,
    pub tune: &'a KnownTune,
    pub air: Option<&'a Air>,
    pub limits: &'a FaultLimits,
    pub goes_on: &'a dyn Goes,
}

impl Look<'_> {
    /// The figure of a span.
    pub fn figure(&self, span: &Span) -> Option<&Figure> {
        self.dance.figures.get(span.figure)
    }

    /// Why the side means what was found of dancers in a span; nothing where it does not.
    pub fn allowed(&self, span: &Span, kind: FaultKind, dancers: &[Dancer], value: f64) -> Option<&str> {
        let place = |dancer: &Dancer| span.place(*dancer);
        let meant = self.figure(span)?.allow.iter().find(|allow| {
            let far_enough = allow
                .up_to
                .is_none_or(|up_to| if kind.less_is_worse() { value >= up_to } else { value <= up_to });
            allow.kind == kind
                && far_enough
                && (allow.places.is_empty()
                    || dancers.iter().all(|dancer| allow.places.contains(&place(dancer))))
        })?;
        Some(&meant.reason)
    }

    /// Whether a clash of two in a span is one of the first to be told: it is not meant, whatever space there is, or all
    /// clashes of that figure are meant.
    pub fn tells_clash(&self, span: &Span, one: Dancer, other: Dancer) -> bool {
        let mut allow = self.figure(span).into_iter().flat_map(|figure| &figure.allow);
        let all = allow
            .any(|allow| allow.kind == FaultKind::Clash && allow.places.is_empty() && allow.up_to.is_none());
        all || self.allowed(span, FaultKind::Clash, &[one, other], f64::INFINITY).is_none()
    }
}
