use super::moments::is_still;
use crate::dance::{BarCounts, Dance, Dancer, Foot};
use crate::motion::{Footfall, Moment, Motion, Span, Track, Weight, wrap_half};
use crate::words::{
    call_before_said, first_foot, met_line,
    phrases::{list, named},
};

/// What is written under a diagram.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Caption {
    /// The bar.
    pub when: String,
    /// The call, the steps and the feet, and what meets.
    pub what: String,
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
    let danced =
        |dancer: Dancer| (steps(motion, span, dancer, (from, to)), feet(motion, span, dancer, (from, to)));
    let all: Vec<(String, String)> = Dancer::all(motion.dancers()).map(danced).collect();
    let together = |parts: [&str; 2], mark: &str| {
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(mark)
    };
    // Where all dance the same steps they are said once; or else with the foot of those who dance them.
    let what = match all.first() {
        Some((first, _)) if all.iter().all(|(steps, _)| steps == first) => {
            together([first, &by_dancer(all.iter().map(|(_, foot)| foot.clone()))], " · ")
        }
        _ => by_dancer(all.iter().map(|(steps, foot)| together([steps, foot], ", "))),
    };
    let dances = all.iter().any(|(steps, _)| steps != "stand");
    let spot = if dances && is_still(motion, span, (from, to)) { "on the spot" } else { "" };
    let what = together([spot, &what], " · ");
    let taps = met_line(motion, span, (from, to));
    Caption { when: bars_of(span.bar_counts(), from, to), what: together([&what, &taps], " · ") }
}

/// What the foreman calls for a figure and how long before: the first line of the running order that says so.
fn call(dance: &Dance, figure: usize) -> Option<String> {
    let figure = dance.figures.get(figure)?;
    let mut lines = dance.order.iter().filter(|entry| entry.figure == figure.id);
    lines.find_map(|entry| call_before_said(entry, &figure.name))
}

/// Which way everybody faces at the start of a figure, where that can be said in a word.
fn stance(motion: &Motion, span: &Span) -> Option<&'static str> {
    let facing = |dancer: Dancer| span.track(dancer).map_or(0.0, |track| track.stand(0.0).2);
    let all = |wanted: f64| {
        Dancer::all(motion.dancers()).all(|dancer| wrap_half(facing(dancer) - wanted).abs() < 5.0)
    };
    if all(0.0) {
        return Some(if motion.dancers() == 1 { "facing up" } else { "all facing up" });
    }
    if all(180.0) {
        return Some("all facing down");
    }
    let ground = motion.ground();
    let meet = |dancer: Dancer| {
        let stand = |dancer: Dancer| span.track(dancer).map(|track| track.stand(0.0));
        let place = ground.partner(span.place(dancer)).and_then(|place| span.dancer_in(place));
        let (Some(here), Some(there)) = (stand(dancer), place.and_then(stand)) else { return false };
        wrap_half((there.0 - here.0).atan2(there.1 - here.1).to_degrees() - here.2).abs() < 15.0
    };
    (motion.dancers() > 1 && Dancer::all(motion.dancers()).all(meet)).then_some("partners facing")
}

/// `Bar 3`, `Bars 1–4`, `Bar 2, counts 3–4`, or the moment that it goes on to.
pub(super) fn bars_of(bars: &BarCounts, from: f64, to: f64) -> String {
    let (first, last) = (Moment::at(bars, from), Moment::at(bars, to - 1e-6));
    if bars.is_begin(from) && bars.is_begin(to) {
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
    if bars.is_begin(to) && from.fract() == 0.0 {
        return format!("Bars {}–{}, from count {}", first.bar, last.bar, first.count as u32);
    }
    format!("Bar {} to {}", first, Moment::at(bars, to))
}

/// What lands on the counts from one to below another.
fn falls_between(track: &Track, from: f64, to: f64) -> &[Footfall] {
    let falls = track.footing().falls();
    let index = |count: f64| (count.max(0.0).ceil() as usize).min(falls.len());
    falls.get(index(from)..index(to)).unwrap_or_default()
}

/// A dancer's steps under way between two counts, `2 single steps`.
fn steps(motion: &Motion, span: &Span, dancer: Dancer, (from, to): (f64, f64)) -> String {
    let Some(track) = span.track(dancer) else { return String::new() };
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for fall in falls_between(track, from, to) {
        if fall.begins || runs.is_empty() {
            match runs.last_mut() {
                Some((step, many)) if *step == fall.step => *many += 1,
                _ => runs.push((fall.step, 1)),
            }
        }
    }
    let hop = span.falls(dancer).into_iter().enumerate().find_map(|(count, fall)| {
        let inside = (count as f64) >= from && (count as f64) < to;
        match fall.weight {
            Weight::Left if inside && fall.upbeat => Some("hop left"),
            Weight::Right if inside && fall.upbeat => Some("hop right"),
            _ => None,
        }
    });
    let names = runs.into_iter().filter_map(|(step, many)| {
        let step = motion.known().get(step)?;
        let name = step.name.as_str();
        let counted = many > 1 && !step.is_stand();
        Some(if counted { format!("{many} {}", named(many, name)) } else { name.to_owned() })
    });
    names.chain(hop.map(str::to_owned)).collect::<Vec<_>>().join(", ")
}

/// The foot on which the first step of a dancer to begin between two counts lands first, if it does so between them.
fn feet(motion: &Motion, span: &Span, dancer: Dancer, (from, to): (f64, f64)) -> String {
    let foot = span.track(dancer).and_then(|track| {
        let footing = track.footing();
        let inside = |at: usize| at as f64 >= from && (at as f64) < to;
        let first = footing.leads().partition_point(|made| (made.at as f64) < from);
        let made = footing.leads().get(first).filter(|made| inside(made.at))?;
        first_foot(motion.known(), footing, made.at).filter(|(_, lands)| inside(*lands))
    });
    match foot {
        Some((Foot::Left, _)) => "first foot left".to_owned(),
        Some((Foot::Right, _)) => "first foot right".to_owned(),
        None => String::new(),
    }
}

/// What is said of each dancer in turn, once for all those of whom the same is said: `odds first foot left; evens first foot right`,
/// and where they are numbers, `1 and 8: first foot right`.
fn by_dancer(all: impl ExactSizeIterator<Item = String>) -> String {
    let dancers = all.len();
    let mut groups: Vec<(String, Vec<Dancer>)> = Vec::new();
    for (dancer, said) in Dancer::all(dancers).zip(all) {
        match groups.iter_mut().find(|(other, _)| *other == said) {
            Some((_, who)) => who.push(dancer),
            None => groups.push((said, vec![dancer])),
        }
    }
    if groups.len() == 1 {
        return groups.pop().map_or_else(String::new, |(said, _)| said);
    }
    // Most of them are the others, and come last; but where nothing is said of some, nobody is called so.
    let most = |who: &[Dancer]| who.len() * 2 > dancers && dancers > 2;
    let others = !groups.iter().any(|(said, who)| said.is_empty() && !most(who));
    groups.sort_by_key(|(_, who)| most(who));
    let parts = groups.into_iter().filter(|(said, _)| !said.is_empty()).map(|(said, who)| {
        if others && most(&who) {
            format!("others {said}")
        } else if let Some(file) = file_words(&who, dancers) {
            format!("{file} {said}")
        } else {
            let numbers: Vec<String> = who.iter().map(ToString::to_string).collect();
            format!("{}: {said}", list(&numbers))
        }
    });
    parts.collect::<Vec<_>>().join("; ")
}

/// Some of the dancers in words: `odds`, `evens`, or their numbers.
pub(super) fn who_words(who: &[Dancer], dancers: usize) -> String {
    file_words(who, dancers)
        .map_or_else(|| who.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "), str::to_owned)
}

/// What a whole file is called, where some of the dancers are one.
fn file_words(who: &[Dancer], dancers: usize) -> Option<&'static str> {
    let all =
        |even: bool| Dancer::all(dancers).filter(|dancer| dancer.is_even() == even).eq(who.iter().copied());
    if dancers <= 2 {
        None
    } else if all(false) {
        Some("odds")
    } else {
        all(true).then_some("evens")
    }
}
