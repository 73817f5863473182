//! The finders that look at taps and claps.

use super::{found::Found, look::Look, near_head, one_sided, out_of_reach, struck::Struck, two_places};
use crate::motion::{Blow, Span, SpanIndex};
use std::collections::HashMap;

/// Looks at the taps and claps of a figure in its place in the order. Counts are from the start of the dance.
type StrikeFinder = fn(&Struck, &Span, &[Blow], &mut Vec<Found>);

const STRIKE_FINDERS: [StrikeFinder; 4] =
    [out_of_reach::find, one_sided::find, two_places::find, near_head::find];

/// What is wrong with the taps and claps of a dance. A figure that is danced again from the same state of the set to the same music is
/// looked at once.
pub(super) fn find(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    if look.motion.blows().is_empty() {
        return;
    }
    let struck = Struck::of(look);
    let mut seen: HashMap<(u64, u64), Vec<Found>> = HashMap::new();
    for (index, span) in look.motion.indexed_spans().take_while(|_| look.goes_on.asked()) {
        let blows = look.motion.blows_between(span.begin(), span.end());
        if blows.is_empty() {
            continue;
        }
        let key = (span.identity(), look.clock.pattern(span.begin(), span.end()));
        let here = seen.entry(key).or_insert_with(|| {
            struck.next_figure();
            let mut here = Vec::new();
            for find in STRIKE_FINDERS {
                find(&struck, span, blows, &mut here);
            }
            here
        });
        found.extend(here.iter().map(|found| (index, found.clone())));
    }
}
