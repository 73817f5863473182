use super::{found::Found, look::Look};
use crate::dance::{Dancer, EndsIn, FaultKind, PlaceNumber};
use crate::motion::{Ground, Motion, Span, SpanIndex, wrap_half};
use crate::words::phrases::list;

/// Dancers who are not where the figure says that it ends, or face the wrong way, when it does: each in their own spot, or
/// everyone in some spot of the set. And at the end of the dance those who are not in the spot of their own number: a
/// dance can only end with 1 back at the top left [MB1]. A figure that ends anywhere is taken at its word.
pub(super) fn find(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let (ground, motion) = (look.motion.ground(), look.motion);
    let (limit, askew) = (look.limits.home(), look.limits.home_facing());
    for (index, span) in motion.indexed_spans() {
        let plan = span.plan();
        if plan.spots == EndsIn::Anywhere {
            continue;
        }
        // A file of one figure is a study of it, not a dance: it may end as the figure does.
        let last = index.next().index() == motion.spans().len() && index.before().is_some();
        let end_of_span = span.end() - span.begin();
        let before = found.len();
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
        // Those whom the side means to be elsewhere are told as meant, each by themselves.
        let means_some = look.figure(span).is_some_and(|figure| {
            figure.allow.iter().any(|allow| allow.kind == FaultKind::NotHome && !allow.places.is_empty())
        });
        if !last && !means_some {
            fold(ground, (index, span), before, found);
        }
    }
}

/// How far apart the ways of two may be who go off the spot alike, metres.
const ALIKE: f64 = 0.05;
/// As many as go off the spot alike before that is one thing to say.
const SEVERAL: usize = 3;

/// Makes one fault of those from an index on of dancers who have all come as far from their spots the same way, as in a
/// processional (common practice, no source), where they are more than half of all.
fn fold(
    ground: &Ground,
    (span_index, span): (SpanIndex, &Span),
    from: usize,
    found: &mut Vec<(SpanIndex, Found)>,
) {
    let ends_in = &span.plan().ends_in;
    let gone = |fault: &Found| {
        let dancer = *fault.dancers.first()?;
        let stand = ground.stand(*ends_in.get(span.place(dancer).index())?)?;
        let (x, y) = fault.spot?;
        let (dx, dy) = (x - stand.x, y - stand.y);
        (dx.hypot(dy) > fault.limit && (dx.hypot(dy) - fault.value).abs() < 1e-6).then_some((dx, dy))
    };
    let alike = |one: &Found, other: &Found| {
        gone(one).zip(gone(other)).is_some_and(|((x, y), (to_x, to_y))| (to_x - x).hypot(to_y - y) <= ALIKE)
    };
    let new = found.get(from..).unwrap_or_default();
    // Whom more than half are like is left over when each is set against another who is not alike.
    let (mut model, mut votes) = (None, 0_usize);
    for (index, fault) in new {
        match model {
            Some((_, kept)) if votes > 0 && !alike(kept, fault) => votes -= 1,
            Some(_) if votes > 0 => votes += 1,
            _ => (model, votes) = (Some((*index, fault)), 1),
        }
    }
    let many = model.map_or(0, |(_, model)| new.iter().filter(|(_, fault)| alike(model, fault)).count());
    let Some((_, model)) = model.filter(|_| many >= SEVERAL && many * 2 > ground.dancers()) else { return };
    let model = model.clone();
    let mut dancers = Vec::new();
    let mut rest = Vec::new();
    for (index, fault) in found.split_off(from) {
        if alike(&model, &fault) {
            dancers.extend(fault.dancers.iter().copied());
        } else {
            rest.push((index, fault));
        }
    }
    let far = model.value;
    let text = if dancers.len() == ground.dancers() {
        format!("everyone ends the figure {far:.2} m from their spot, all the same way")
    } else {
        let numbers: Vec<String> = dancers.iter().map(ToString::to_string).collect();
        format!("{} end the figure {far:.2} m from their spots, all the same way", list(&numbers))
    };
    found.extend(rest);
    found.push((span_index, Found { dancers, text, ..model }));
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
