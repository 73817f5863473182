use super::small::number_word;
use crate::words::StepRun;

/// How a step is spoken of.
enum Spoken {
    /// `jump`, whichever of the jumps it is.
    Jump,
    /// As standing, bar by bar.
    Stand,
    /// As standing, beat by beat.
    StandABeat,
    Name,
}

/// A dance's own step that has taken the short name of one that is built in is spoken of by its own name.
fn spoken(run: &StepRun) -> Spoken {
    match (run.short.as_str(), run.name.as_str()) {
        ("ftj", "feet-together jump") | ("hj", "half-bar jump") => Spoken::Jump,
        ("st", "stand") => Spoken::Stand,
        ("sb", "stand a beat") => Spoken::StandABeat,
        _ => Spoken::Name,
    }
}

/// Steps as they are counted out: `two double steps`, `jump`.
pub(super) fn run_words(run: &StepRun) -> String {
    let many = number_word(run.many as u64);
    match (spoken(run), run.many) {
        (Spoken::Jump, 1) => "jump".to_owned(),
        (Spoken::Jump, _) => format!("{many} jumps"),
        (Spoken::Stand, 1) => "stand for a bar".to_owned(),
        (Spoken::Stand, _) => format!("stand for {many} bars"),
        (Spoken::StandABeat, 1) => "stand for a beat".to_owned(),
        (Spoken::StandABeat, _) => format!("stand for {many} beats"),
        (Spoken::Name, _) => format!("{many} {}", named(run.many, &run.name)),
    }
}

/// Steps as what something is done on: `the single steps`, `the jump`.
pub(super) fn steps_words(run: &StepRun) -> String {
    match (spoken(run), run.many) {
        (Spoken::Jump, 1) => "the jump".to_owned(),
        (Spoken::Jump, _) => "the jumps".to_owned(),
        _ => format!("the {}", named(run.many, &run.name)),
    }
}

/// The name of a step for so many of it: `single step`, `single steps`, `steps and three hops`, `running steps to the
/// beat`, `side steps, closing behind`.
#[must_use]
pub fn named(many: usize, name: &str) -> String {
    if many == 1 || name.is_empty() {
        return name.to_owned();
    }
    // What comes after a comma or in brackets says which step it is, and stays.
    let end = [", ", " ("].into_iter().filter_map(|mark| name.find(mark)).min().unwrap_or(name.len());
    let (step, rest) = name.split_at_checked(end).unwrap_or((name, ""));
    let steps = match step.split_once("step ") {
        Some((kind, more)) if kind.is_empty() || kind.ends_with(' ') => format!("{kind}steps {more}"),
        _ if step.ends_with('s') => step.to_owned(),
        _ if ["ch", "sh", "x", "z"].into_iter().any(|last| step.ends_with(last)) => format!("{step}es"),
        _ => format!("{step}s"),
    };
    steps + rest
}
