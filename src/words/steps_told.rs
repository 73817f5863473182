use super::eye_level::hands_at_words;
use super::phrases;
use crate::dance::{Dancer, Foot, FreePlace, Landing};
use crate::motion::limbs::{HandAt, on_side};
use crate::motion::steps::Step;
use crate::motion::{Footfall, Motion, Span, SpanIndex, Weight};
use std::collections::BTreeSet;

/// A spring as high as this, metres, is no hop.
const SPRING: f64 = 0.1;
/// A free foot as high as this, metres, is high.
const HIGH: f64 = 0.3;

/// Each step but standing that some dancers dance in a span (index) of a motion, in the order in which they come: what the body does count by
/// count, and its hands, such as `Double step: left, right, left, hop; hands down and back, then half up in front on 2; or the other way round.`
#[must_use]
pub fn steps_told(motion: &Motion, span: SpanIndex, dancers: &[Dancer]) -> Vec<String> {
    let Some(span) = motion.span(span) else { return Vec::new() };
    lines(motion, &[span], dancers).into_iter().map(|(_, line)| line).collect()
}

/// The same of each step that anyone dances in a motion, once.
#[must_use]
pub fn all_steps_told(motion: &Motion) -> Vec<String> {
    let mut seen = BTreeSet::new();
    // What is danced again is told already.
    let spans: Vec<&Span> = motion.spans().iter().filter(|span| seen.insert(span.identity())).collect();
    let dancers: Vec<Dancer> = Dancer::all(motion.dancers()).collect();
    lines(motion, &spans, &dancers).into_iter().map(|(_, line)| line).collect()
}

/// The same of each step that one dancer dances in a motion, once.
#[must_use]
pub fn steps_of(motion: &Motion, dancer: Dancer) -> Vec<String> {
    let spans: Vec<&Span> = motion.spans().iter().collect();
    lines(motion, &spans, &[dancer]).into_iter().map(|(_, line)| line).collect()
}

/// The same of the one step that a dancer is in at a count of the dance; nothing while they stand.
#[must_use]
pub fn step_told(motion: &Motion, dancer: Dancer, count: f64) -> Option<String> {
    let step = motion.pose(dancer, count).step;
    let lines = lines(motion, &[motion.span_under(count)?], &[dancer]);
    lines.into_iter().find(|(index, _)| *index == step).map(|(_, line)| line)
}

/// The indices of the steps and what there is to say of each.
fn lines(motion: &Motion, spans: &[&Span], dancers: &[Dancer]) -> Vec<(usize, String)> {
    let mut told: Vec<Danced> = Vec::new();
    let danced = spans.iter().flat_map(|span| dancers.iter().map(move |dancer| (*span, *dancer)));
    for (span, dancer) in danced {
        let falls = span.falls(dancer);
        for (at, first) in falls.iter().enumerate().filter(|(_, fall)| fall.begins) {
            let Some(step) = motion.known().get(first.step).filter(|step| !step.is_stand()) else { continue };
            let inside = falls.get(at..falls.len().min(at + step.counts())).unwrap_or_default();
            let lead = lead_of(step, inside);
            match told.iter_mut().find(|danced| danced.index == first.step) {
                Some(danced) => danced.both_ways |= lead.is_some() && lead != danced.lead,
                None => {
                    told.push(Danced { index: first.step, falls: inside.to_vec(), lead, both_ways: false });
                }
            }
        }
    }
    told.iter()
        .filter_map(|danced| {
            let step = motion.known().get(danced.index)?;
            Some((danced.index, step_line(step, &danced.falls, danced.both_ways)))
        })
        .collect()
}

/// A step as it is first danced.
struct Danced {
    /// Its index among the known steps.
    index: usize,
    falls: Vec<Footfall>,
    lead: Option<Foot>,
    both_ways: bool,
}

/// The foot that leads a step, where one does.
fn lead_of(step: &Step, falls: &[Footfall]) -> Option<Foot> {
    step.feet.iter().zip(falls).find_map(|(landing, fall)| {
        let foot = match fall.weight {
            Weight::Left => Foot::Left,
            Weight::Right => Foot::Right,
            Weight::Both | Weight::Air => return None,
        };
        match landing {
            Landing::Lead => Some(foot),
            Landing::Other => Some(foot.other()),
            Landing::Both | Landing::Air | Landing::Upbeat | Landing::Stay => None,
        }
    })
}

/// A step as its falls have it; `both_ways` where it is led by the other foot too.
fn step_line(step: &Step, falls: &[Footfall], both_ways: bool) -> String {
    let feet: Vec<String> = (0..falls.len()).map(|count| foot_words(step, falls, count)).collect();
    let mut clauses = vec![feet.join(", ")];
    clauses.extend(free_clause(step, falls));
    clauses.extend(hands_clause(step, falls));
    if both_ways {
        clauses.push("or the other way round".to_owned());
    }
    let mut letters = step.name.chars();
    let name: String =
        letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    format!("{name}: {}.", clauses.join("; "))
}

/// What a count is, as a step has it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Lands {
    Foot(Weight),
    Hop,
    Spring,
    Upbeat,
    Stay,
    Up,
    Down(Weight),
    Both,
}

fn lands(step: &Step, falls: &[Footfall], count: usize) -> Lands {
    let weight = falls.get(count).map_or(Weight::Both, |fall| fall.weight);
    let upbeat = falls.get(count).is_some_and(|fall| fall.upbeat && fall.hop);
    let before = step.feet.get(..count).unwrap_or_default();
    let last = before.iter().rev().find(|landing| **landing != Landing::Stay).copied();
    let rise = step.rise.get(count).copied().unwrap_or(0.0);
    match step.feet.get(count).copied().unwrap_or(Landing::Stay) {
        Landing::Air => Lands::Up,
        Landing::Upbeat if upbeat => Lands::Upbeat,
        Landing::Stay | Landing::Upbeat => Lands::Stay,
        _ if last == Some(Landing::Air) => Lands::Down(weight),
        Landing::Both if last != Some(Landing::Both) => Lands::Both,
        Landing::Both => Lands::Stay,
        landing if last == Some(landing) && rise >= SPRING => Lands::Spring,
        landing if last == Some(landing) && rise > 0.0 => Lands::Hop,
        Landing::Lead | Landing::Other => Lands::Foot(weight),
    }
}

fn foot_words(step: &Step, falls: &[Footfall], count: usize) -> String {
    match lands(step, falls, count) {
        Lands::Foot(weight) => weight.word().to_owned(),
        Lands::Hop => "hop".to_owned(),
        Lands::Spring => "spring".to_owned(),
        Lands::Upbeat => "hop on the upbeat".to_owned(),
        Lands::Stay => "stay".to_owned(),
        Lands::Up => "up".to_owned(),
        Lands::Down(Weight::Both | Weight::Air) => "down on both".to_owned(),
        Lands::Down(weight) => format!("down on the {}", weight.word()),
        Lands::Both => "both feet".to_owned(),
    }
}

/// A count as something is done on it: what it is, where no other is alike, or its number in the step.
fn on(step: &Step, falls: &[Footfall], count: usize) -> String {
    let here = lands(step, falls, count);
    let alone = (0..falls.len()).filter(|other| lands(step, falls, *other) == here).count() == 1;
    match here {
        Lands::Hop if alone => "the hop".to_owned(),
        Lands::Spring if alone => "the spring".to_owned(),
        Lands::Up if alone => "the jump".to_owned(),
        Lands::Upbeat if alone => "the upbeat".to_owned(),
        _ => (count + 1).to_string(),
    }
}

/// Where the free foot is on the counts on which it is somewhere of its own: crossed, at the shin, high, or circling.
fn free_clause(step: &Step, falls: &[Footfall]) -> Option<String> {
    let mut said: Vec<(String, Vec<String>)> = Vec::new();
    for (count, fall) in falls.iter().enumerate() {
        let Some(free) = step.free.get(count) else { continue };
        if !matches!(fall.weight, Weight::Left | Weight::Right)
            || step.feet.get(count) == Some(&Landing::Upbeat)
        {
            continue;
        }
        let place = match free.at {
            FreePlace::Front if free.height >= HIGH => "high in front",
            FreePlace::Beside if free.circles != 0.0 => "beside",
            FreePlace::Front | FreePlace::Beside => continue,
            FreePlace::CrossedBefore => "crossed before",
            FreePlace::CrossedBehind => "crossed behind",
            FreePlace::Shin => "at the shin",
        };
        let circles = match free.circles {
            0.0 => "",
            outwards if outwards > 0.0 => ", circling outwards",
            _ => ", circling inwards",
        };
        let (words, on) = (format!("{place}{circles}"), on(step, falls, count));
        match said.iter_mut().find(|(other, _)| *other == words) {
            Some((_, counts)) => counts.push(on),
            None => said.push((words, vec![on])),
        }
    }
    let each: Vec<String> =
        said.iter().map(|(words, counts)| format!("{words} on {}", phrases::list(counts))).collect();
    (!each.is_empty()).then(|| format!("free foot {}", each.join(", ")))
}

/// Where the hands are and where they go; nothing where they stay as they are all through the step.
fn hands_clause(step: &Step, falls: &[Footfall]) -> Option<String> {
    let mut said: Vec<(usize, String)> = Vec::new();
    for (count, fall) in falls.iter().enumerate() {
        let hands = [0, 1].map(|side| {
            let forward = step.forward.get(on_side(fall.as_written, side));
            HandAt {
                height: on_side(fall.hands, side),
                forward: forward.and_then(|forward| forward.get(count)).copied().unwrap_or(0.0),
                circles: step.circles.get(count).copied().unwrap_or(0.0),
                round: 0.0,
            }
        });
        let words = hands_at_words(hands);
        if said.last().is_none_or(|(_, last)| *last != words) {
            said.push((count, words));
        }
    }
    let circles = step.circles.iter().any(|circles| *circles != 0.0);
    let (_, first) = said.first().filter(|_| said.len() > 1 || circles)?.clone();
    let later: Vec<String> = said
        .iter()
        .skip(1)
        .map(|(count, words)| {
            let words = words.strip_prefix("hands ").unwrap_or(words);
            format!("{words} on {}", on(step, falls, *count))
        })
        .collect();
    Some(if later.is_empty() { first } else { format!("{first}, then {}", later.join(", ")) })
}
