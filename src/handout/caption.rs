use crate::dance::{COUNTS_PER_BAR, Dance, Foot};
use crate::motion::{Moment, Motion, STAND, Span, wrap_half};

/// What is written under a diagram.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Caption {
    /// The bar.
    pub when: String,
    /// The call, the steps and the feet.
    pub what: String,
}

/// The counts of a figure at which there is a diagram: its start, then once in so many counts, and its end.
#[must_use]
pub fn diagram_times(counts: f64, every: f64) -> Vec<f64> {
    let steps = ((counts - 1e-6) / every.max(0.01)).ceil().max(0.0) as u32;
    (0..steps).map(|step| f64::from(step) * every).chain(std::iter::once(counts)).collect()
}

/// The caption of the diagram at the second of two counts of a figure; where both are the same, of the start.
#[must_use]
pub fn caption(dance: &Dance, motion: &Motion, span: &Span, (from, to): (f64, f64)) -> Caption {
    if from >= to {
        let mut what = Vec::new();
        if let Some(call) = call(dance, span.figure) {
            what.push(format!("Call: {call}"));
        }
        what.extend(stance(motion, span).map(str::to_owned));
        return Caption { when: "Start".to_owned(), what: what.join(" · ") };
    }
    let what = [steps(motion, span, (from, to)), feet(motion, span, (from, to))];
    let what = what.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    Caption { when: bars_of(from, to), what }
}

/// What the foreman calls for a figure: the first call of the running order, or its name.
fn call(dance: &Dance, figure: usize) -> Option<&str> {
    let figure = dance.figures.get(figure)?;
    let calls = dance.order.iter().filter(|entry| entry.figure == figure.id).map(|entry| entry.call.as_str());
    calls.chain([figure.name.as_str()]).find(|call| !call.is_empty())
}

/// Which way everybody faces at the start of a figure, where that can be said in a word.
fn stance(motion: &Motion, span: &Span) -> Option<&'static str> {
    let facing = |dancer: usize| span.track(dancer).map_or(0.0, |track| track.stand(0.0).2);
    let all =
        |wanted: f64| (0..motion.dancers()).all(|dancer| wrap_half(facing(dancer) - wanted).abs() < 5.0);
    if all(0.0) {
        return Some(if motion.dancers() == 1 { "facing up" } else { "all facing up" });
    }
    if all(180.0) {
        return Some("all facing down");
    }
    let ground = motion.ground();
    let meet = |dancer: usize| {
        let stand = |dancer: usize| span.track(dancer).map(|track| track.stand(0.0));
        let place = ground.partner(span.place(dancer)).and_then(|place| span.dancer_in(place));
        let (Some(here), Some(there)) = (stand(dancer), place.and_then(stand)) else { return false };
        wrap_half((there.0 - here.0).atan2(there.1 - here.1).to_degrees() - here.2).abs() < 15.0
    };
    (motion.dancers() > 1 && (0..motion.dancers()).all(meet)).then_some("partners facing")
}

/// `Bar 3`, `Bars 1–4`, `Bar 2, counts 3–4`, or the moment that it goes on to.
pub(super) fn bars_of(from: f64, to: f64) -> String {
    let per_bar = f64::from(COUNTS_PER_BAR);
    let (first, last) = (Moment::at(from), Moment::at(to - 1e-6));
    if from % per_bar == 0.0 && to % per_bar == 0.0 {
        return if first.bar == last.bar {
            format!("Bar {}", first.bar)
        } else {
            format!("Bars {}–{}", first.bar, last.bar)
        };
    }
    if first.bar == last.bar && from.fract() == 0.0 && to.fract() == 0.0 {
        let (one, other) = (first.count as u32, last.count as u32);
        return if one == other {
            format!("Bar {}, count {one}", first.bar)
        } else {
            format!("Bar {}, counts {one}–{other}", first.bar)
        };
    }
    format!("Bar {} to {}", first, Moment::at(to))
}

/// The steps under way between two counts, `2 single steps`; of the most dancers, and of the others as well.
fn steps(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> String {
    let said = |dancer: usize| {
        let Some(track) = span.track(dancer) else { return String::new() };
        let mut runs: Vec<(usize, u32)> = Vec::new();
        for (count, fall) in track.footing().falls().iter().enumerate() {
            let inside = count as f64 >= from && (count as f64) < to;
            let begins = fall.begins || runs.is_empty();
            if inside && begins {
                match runs.last_mut() {
                    Some((step, times)) if *step == fall.step => *times += 1,
                    _ => runs.push((fall.step, 1)),
                }
            }
        }
        let names = runs.into_iter().filter_map(|(step, times)| {
            let name = motion.known().get(step)?.name.as_str();
            let stands = motion.known().get(step).is_some_and(|step| step.short == STAND);
            Some(if times > 1 && !stands { format!("{times} {name}s") } else { name.to_owned() })
        });
        names.collect::<Vec<_>>().join(", ")
    };
    by_dancer(motion.dancers(), said)
}

/// The feet that lead the first step to begin between two counts.
fn feet(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> String {
    let said = |dancer: usize| {
        let footing = span.track(dancer).map(crate::motion::Track::footing);
        let made = footing.and_then(|footing| {
            footing.leads().iter().find(|made| made.at as f64 >= from && (made.at as f64) < to).filter(
                |made| {
                    let step = footing.falls().get(made.at).and_then(|fall| motion.known().get(fall.step));
                    step.is_some_and(|step| step.next_lead(made.foot).is_some())
                },
            )
        });
        match made.map(|made| made.foot) {
            Some(Foot::Left) => "left foot".to_owned(),
            Some(Foot::Right) => "right foot".to_owned(),
            None => String::new(),
        }
    };
    by_dancer(motion.dancers(), said)
}

/// What is said of each dancer, once for all those of whom the same is said: `odds left foot; evens right foot`.
fn by_dancer(dancers: usize, said: impl Fn(usize) -> String) -> String {
    let mut groups: Vec<(String, Vec<usize>)> = Vec::new();
    for dancer in 0..dancers {
        let said = said(dancer);
        match groups.iter_mut().find(|(other, _)| *other == said) {
            Some((_, who)) => who.push(dancer),
            None => groups.push((said, vec![dancer])),
        }
    }
    if groups.len() == 1 {
        return groups.pop().map_or_else(String::new, |(said, _)| said);
    }
    // Most of them are the others, and come last.
    groups.sort_by_key(|(_, who)| who.len() * 2 > dancers);
    let parts = groups.into_iter().filter(|(said, _)| !said.is_empty()).map(|(said, who)| {
        let most = who.len() * 2 > dancers && dancers > 2;
        format!("{} {said}", if most { "others".to_owned() } else { who_words(&who, dancers) })
    });
    parts.collect::<Vec<_>>().join("; ")
}

/// Some of the dancers (indices from 0) in words: `odds`, `evens`, or their numbers.
pub(super) fn who_words(who: &[usize], dancers: usize) -> String {
    let all = |rest: usize| (0..dancers).filter(|dancer| dancer % 2 == rest).eq(who.iter().copied());
    if dancers > 2 && all(0) {
        "odds".to_owned()
    } else if dancers > 2 && all(1) {
        "evens".to_owned()
    } else {
        who.iter().map(|dancer| (dancer + 1).to_string()).collect::<Vec<_>>().join(", ")
    }
}
