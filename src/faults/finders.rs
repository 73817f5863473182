//! The lists of the finders: a new kind of fault is one line more in one of them.

use super::{
    curved_home, hurried_jump, hurried_turn, late_turn, metre, music, needless_turn, not_home, over_long,
    room, strikes, stuck, wrench, wrong_foot, wrong_way,
};
use super::{found::Found, look::Look};
use crate::motion::{Span, SpanIndex};

/// Looks at one figure in its place in the order.
pub(super) type SpanFinder = fn(&Look, &Span, &mut Vec<Found>);

/// The finders that look at one figure in its place in the order; a figure danced again from the same state of the
/// set is looked at once. [`bodies`], which goes on from one figure into the next, is beside them.
pub(super) const SPAN_FINDERS: [SpanFinder; 11] = [
    wrong_foot::find,
    wrong_way::find,
    late_turn::find,
    curved_home::find,
    over_long::find,
    hurried_turn::find,
    hurried_jump::find,
    needless_turn::find,
    stuck::find,
    wrench::find,
    room::find,
];

/// Looks at the order as a whole.
pub(super) type DanceFinder = fn(&Look, &mut Vec<(SpanIndex, Found)>);

/// The finders that look at the order as a whole: each gives the index of the span with what it finds.
pub(super) const DANCE_FINDERS: [DanceFinder; 7] = [
    not_home::find,
    hurried_jump::find_between,
    over_long::find_between,
    strikes::find,
    music::find,
    metre::find,
    metre::find_in_tune,
];
