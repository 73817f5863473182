use super::fill_phrase;
use super::steps::Step;
use crate::dance::{BarCounts, Foot};

/// What a bar of three strong beats has beside what is danced in one of two (chosen for this program, no source): a single
/// step, before a jump and after anything else; whoever stands there stands a beat longer. It is the phrase's own where that has one.
const MORE: &str = "ss";
const STANDS: &str = "sb";

/// A phrase for some bars in others, as many: a bar that gets longer has a step more, and one that gets shorter loses it again. As it is
/// where it cannot be read.
#[must_use]
pub fn in_other_bars(phrase: &str, known: &[Step], before: &BarCounts, after: &BarCounts) -> String {
    let Ok(filled) = fill_phrase(phrase, known, before.counts() as usize) else { return phrase.to_owned() };
    let steps = filled.steps.as_slice();
    let (added, taken) = (added(steps, known, before, after), taken_out(steps, known, before, after));
    let mut words: Vec<String> = Vec::new();
    let more = |words: &mut Vec<String>, index: usize| {
        let more = added.iter().filter(|(before, _)| *before == index);
        words.extend(more.map(|(_, more)| (*more).to_owned()));
    };
    for (index, (at, step)) in steps.iter().enumerate() {
        more(&mut words, index);
        let Some(step) = known.get(*step) else { return phrase.to_owned() };
        if taken.contains(&index) {
            continue;
        }
        let lead = filled.leads.iter().find(|(lead, _)| lead == at);
        words.extend(lead.map(|(_, foot)| if *foot == Foot::Left { "left" } else { "right" }.to_owned()));
        words.push(step.short.clone());
    }
    more(&mut words, steps.len());
    in_runs(once(&words))
}

/// Where the steps of a phrase for some bars begin, and where each of them does in others, as many; none of those that are lost.
/// Counts from the start. None where the phrase cannot be read.
pub(super) fn steps_in_other_bars(
    phrase: &str,
    known: &[Step],
    before: &BarCounts,
    after: &BarCounts,
) -> Vec<(usize, usize)> {
    let Ok(filled) = fill_phrase(phrase, known, before.counts() as usize) else { return Vec::new() };
    let steps = filled.steps.as_slice();
    let (added, taken) = (added(steps, known, before, after), taken_out(steps, known, before, after));
    let lasts = |short: &str| known.iter().find(|step| step.short == short).map_or(0, Step::counts);
    let (mut moved, mut count) = (Vec::new(), 0);
    for (index, (at, step)) in steps.iter().enumerate() {
        count +=
            added.iter().filter(|(place, _)| *place == index).map(|(_, more)| lasts(more)).sum::<usize>();
        if !taken.contains(&index) {
            moved.push((*at, count));
            count += known.get(*step).map_or(0, Step::counts);
        }
    }
    moved
}

/// The steps that bars which get longer have more, each with the step (index) before which it comes: that is the bar's jump, or else the
/// first that begins after the bar. Who stands there stands a beat longer.
fn added<'a>(
    steps: &[(usize, usize)],
    known: &'a [Step],
    before: &BarCounts,
    after: &BarCounts,
) -> Vec<(usize, &'a str)> {
    let step = |index: usize| steps.get(index).and_then(|(_, step)| known.get(*step));
    let of_kind = |kind: fn(&Step) -> bool, usual: &'static str| {
        let mut all = steps.iter().filter_map(|(_, step)| known.get(*step));
        all.find(|step| kind(step)).map_or(usual, |step| step.short.as_str())
    };
    let longer = (0..before.bars()).filter(|bar| after.in_bar(*bar) > before.in_bar(*bar));
    longer
        .map(|bar| {
            let here = in_bar(steps, before, bar);
            let (place, there) = match jump_in(steps, known, here.clone()) {
                Some(jump) => (jump, step(jump)),
                None => (here.end, here.end.checked_sub(1).and_then(step)),
            };
            (place, {
                if there.is_some_and(Step::is_wait) {
                    of_kind(stands_a_beat, STANDS)
                } else {
                    of_kind(Step::is_single_step, MORE)
                }
            })
        })
        .collect()
}

/// Whether a step is standing for a strong beat.
fn stands_a_beat(step: &Step) -> bool {
    step.is_stand() && step.counts() == 2
}

/// The steps (indices) that begin in a bar.
fn in_bar(steps: &[(usize, usize)], bars: &BarCounts, bar: u32) -> std::ops::Range<usize> {
    let [begin, end] = [bar, bar + 1].map(|bar| {
        let count = bars.begin_of(bar);
        steps.partition_point(|(at, _)| (*at as f64) < count)
    });
    begin..end
}

/// The first jump (index) among some steps.
fn jump_in(steps: &[(usize, usize)], known: &[Step], mut here: std::ops::Range<usize>) -> Option<usize> {
    here.find(|index| {
        let step = steps.get(*index).and_then(|(_, step)| known.get(*step));
        step.is_some_and(Step::is_jump)
    })
}

/// The steps (indices) that go from bars which get shorter: in each the last of those that may be more, before its jump where it has one.
fn taken_out(steps: &[(usize, usize)], known: &[Step], before: &BarCounts, after: &BarCounts) -> Vec<usize> {
    let step = |index: usize| steps.get(index).and_then(|(_, step)| known.get(*step));
    let shorter = (0..before.bars()).filter(|bar| after.in_bar(*bar) < before.in_bar(*bar));
    shorter
        .filter_map(|bar| {
            let here = in_bar(steps, before, bar);
            let end = jump_in(steps, known, here.clone()).unwrap_or(here.end);
            let last = end.checked_sub(1).filter(|last| here.contains(last))?;
            step(last).filter(|step| step.is_single_step() || stands_a_beat(step)).map(|_| last)
        })
        .collect()
}

/// What is danced once, where all of it is the same over and over.
fn once(words: &[String]) -> &[String] {
    let is_period = |period: &usize| {
        words.len().is_multiple_of(*period)
            && words.iter().zip(words.iter().cycle().skip(*period)).all(|(one, other)| one == other)
    };
    (1..=words.len()).find(is_period).and_then(|period| words.get(..period)).unwrap_or(words)
}

/// Words with each run of one told once, with how many.
fn in_runs(words: &[String]) -> String {
    let run = |run: &[String]| match run {
        [one] => one.clone(),
        [one, ..] if !one.contains(',') => format!("{} {one}", run.len()),
        _ => run.join(", "),
    };
    words.chunk_by(|one, other| one == other).map(run).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::super::{USUAL_PHRASE, known_steps};
    use super::*;
    use crate::dance::Metre;

    #[test]
    fn a_bar_of_three_strong_beats_has_a_single_step_more() {
        let before = BarCounts::usual(8);
        let known = known_steps(&[]);
        let nine = BarCounts::of(8, Metre::NineEight);
        let made = in_other_bars(USUAL_PHRASE, &known, &before, &nine);
        assert_eq!(made, "ds, ss, ds, 5 ss, ftj");
        assert_eq!(fill_phrase(&made, &known, 48).unwrap().steps.len(), 18);
        // One bar of 9/8, the sixth of eight.
        let mut one = BarCounts::of(5, Metre::SixEight);
        one.add(Metre::NineEight, 1);
        one.add(Metre::SixEight, 2);
        let made = in_other_bars("left, 2 ds, 2 ss, ftj", &known, &before, &one);
        assert_eq!(made, "left, 2 ds, 2 ss, ftj, left, 2 ds, 3 ss, ftj");
        assert!(fill_phrase(&made, &known, 34).is_ok());
        assert_eq!(in_other_bars("2 zz", &known, &before, &nine), "2 zz");
        let waits = in_other_bars("3 st, sj, 4 ds", &known, &before, &nine);
        assert_eq!(waits, "st, sb, st, sb, st, 2 sb, sj, ds, ss, ds, ss, ds, ss, ds, ss");
        assert!(fill_phrase(&waits, &known, 48).is_ok());
    }
}
