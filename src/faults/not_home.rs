use super::{found::Found, look::Look};
use crate::dance::{Dancer, EndsIn, FaultKind, PlaceNumber};
use crate::motion::{Ground, Motion, Span, wrap_half};

/// Dancers who are not where the figure says that it ends, or face the wrong way, when it does: each in their own spot, or
/// everyone in some spot of the set. And at the end of the dance those who are not in the spot of their own number: a
/// dance can only end with 1 back at the top left [MB1]. A figure that ends anywhere is taken at its word.
pub(super) fn find(look: &Look, found: &mut Vec<(usize, Found)>) {
    let (ground, motion) = (look.motion.ground(), look.motion);
    let (limit, askew) = (look.limits.home(), look.limits.home_facing());
    for (index, span) in motion.spans().iter().enumerate() {
        let plan = span.plan();
        if plan.spots == EndsIn::Anywhere {
            continue;
        }
        // A file of one figure is a study of it, not a dance: it may end as the figure does.
        let last = index + 1 == motion.spans().len() && index > 0;
        let end_of_span = span.end() - span.begin();
        let taken = if plan.spots == EndsIn::Places { places_taken(motion, span) } else { Vec::new() };
        for dancer in Dancer::all(motion.dancers()) {
            let own = match plan.spots {
                EndsIn::Places => taken.get(dancer.index()).copied(),
                EndsIn::Home | EndsIn::Anywhere => plan.ends_in.get(span.place(dancer).index()).copied(),
            };
            let (Some(own), Some(track)) = (own, span.track(dancer)) else { continue };
            let (x, y, facing) = track.end();
            let far = |place: PlaceNumber| far_from(ground, place, (x, y));
            let home = dancer.home();
            let over = last && own != home;
            let expected = if over { home } else { own };
            let (far, off) = (far(expected), wrap_half(facing - ground.facing(expected, plan.ends)).abs());
            let mut add = |value: f64, limit: f64, text: String| {
                found.push((
                    index,
                    Found {
                        kind: FaultKind::NotHome,
                        at: end_of_span,
                        lasts: (end_of_span, end_of_span),
                        dancers: vec![dancer],
                        value,
                        limit,
                        text,
                        spot: Some((x, y)),
                    },
                ));
            };
            if far > limit {
                let what = if over { "dance" } else { "figure" };
                let whose = match plan.spots {
                    _ if expected == home => "their spot".to_owned(),
                    EndsIn::Places => format!("{expected}'s spot, the nearest that is free"),
                    EndsIn::Home | EndsIn::Anywhere => format!("{expected}'s spot"),
                };
                add(far, limit, format!("{dancer} ends the {what} {far:.2} m from {whose}"));
            } else if off > askew {
                add(off, askew, format!("{dancer} ends the figure facing {off:.0} degrees off"));
            }
        }
    }
}

/// How far a place is from a point, metres.
fn far_from(ground: &Ground, place: PlaceNumber, (x, y): (f64, f64)) -> f64 {
    ground.stand(place).map_or(f64::INFINITY, |stand| (stand.x - x).hypot(stand.y - y))
}

/// The place in which each dancer ends a figure: the nearest, and where two have come to one, the nearer of the
/// two has it and the other the nearest that is still free.
fn places_taken(motion: &Motion, span: &Span) -> Vec<PlaceNumber> {
    let (ground, dancers) = (motion.ground(), Dancer::all(motion.dancers()));
    let end = |dancer: Dancer| span.track(dancer).map_or((0.0, 0.0), |track| (track.end().0, track.end().1));
    let nearest: Vec<PlaceNumber> = dancers
        .clone()
        .map(|dancer| {
            let far = |place: &PlaceNumber| far_from(ground, *place, end(dancer));
            ground.places().min_by(|one, other| far(one).total_cmp(&far(other))).unwrap_or(dancer.home())
        })
        .collect();
    let mut order: Vec<(f64, Dancer)> = dancers
        .zip(&nearest)
        .map(|(dancer, place)| (far_from(ground, *place, end(dancer)), dancer))
        .collect();
    order.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut free = vec![true; ground.dancers()];
    let mut taken = nearest.clone();
    // Those who are alone in a spot, or the nearest to it, have it before the others look for one.
    let mut late = Vec::new();
    for (_, dancer) in order {
        match nearest.get(dancer.index()).and_then(|place| free.get_mut(place.index())) {
            Some(free) if *free => *free = false,
            _ => late.push(dancer),
        }
    }
    for dancer in late {
        let far = |place: &PlaceNumber| far_from(ground, *place, end(dancer));
        let still_free = ground.places().filter(|place| free.get(place.index()).copied().unwrap_or(false));
        if let Some(place) = still_free.min_by(|one, other| far(one).total_cmp(&far(other)))
            && let (Some(slot), Some(free)) = (taken.get_mut(dancer.index()), free.get_mut(place.index()))
        {
            (*slot, *free) = (place, false);
        }
    }
    taken
}
