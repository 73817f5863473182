use crate::dance::{Set, SetKind};
use std::fmt;

/// Something that differs in the whole of two versions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WholeDifference {
    /// Other numbers of dancers.
    Dancers { here: u32, there: u32 },
    /// Other spots.
    Set {
        /// The set here, in words.
        here: String,
        /// The set there, in words.
        there: String,
    },
    /// A figure of other lengths.
    Bars { name: String, here: u32, there: u32 },
    /// A figure that is not there.
    OnlyHere(String),
    /// A figure that is not here.
    OnlyThere(String),
    /// Other taps and claps of a figure.
    Taps {
        name: String,
        /// The index of the figure here.
        figure: usize,
        /// The index of the figure there.
        other_figure: usize,
        /// The bars, from 1, in which they differ; none where only what is not known to this version does.
        bars: Vec<u32>,
    },
    /// Other running orders.
    Order {
        /// The first line that differs, from 1.
        line: usize,
        /// The figure in it here.
        here: Option<String>,
        /// The figure in it there.
        there: Option<String>,
    },
}

impl fmt::Display for WholeDifference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Dancers { here, there } => {
                write!(f, "{here} dancers here, {there} there; their parts are not compared")
            }
            Self::Set { here, there } if here == there => {
                write!(f, "The spots are other ones there, both {here}")
            }
            Self::Set { here, there } => write!(f, "The set is {here} here; {there} there"),
            Self::Bars { name, here, there } => write!(f, "{name} takes {here} bars here, {there} there"),
            Self::OnlyHere(name) => write!(f, "{name} is only here"),
            Self::OnlyThere(name) => write!(f, "{name} is only in the other"),
            Self::Taps { name, bars, .. } if bars.is_empty() => {
                write!(f, "The taps of {name} are written otherwise")
            }
            Self::Taps { name, bars, .. } => write!(f, "The taps of {name} differ in {}", bars_words(bars)),
            Self::Order { line, here, there } => {
                let name = |name: &Option<String>| name.clone().unwrap_or_else(|| "nothing".to_owned());
                write!(
                    f,
                    "The running order differs from line {line}: here {}, there {}",
                    name(here),
                    name(there)
                )
            }
        }
    }
}

/// Such as `two files, 2.4 m across and 1.8 m from rank to rank`.
pub(super) fn set_words(set: &Set) -> String {
    match set.kind {
        SetKind::Longways => {
            format!("two files, {} m across and {} m from rank to rank", set.across, set.along)
        }
        SetKind::Ring => {
            let radius = set.radius.unwrap_or_else(|| Set::usual_radius(set.dancers));
            format!("a ring, {radius:.2} m to the middle")
        }
        SetKind::Spots => "spots of its own".to_owned(),
    }
}

/// Bars in words: `bar 2`, `bars 2 to 4 and 7`. They are in order.
pub(super) fn bars_words(bars: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &bar in bars {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == bar => *last = bar,
            _ => runs.push((bar, bar)),
        }
    }
    let said: Vec<String> = runs
        .iter()
        .map(|(from, to)| if from == to { from.to_string() } else { format!("{from} to {to}") })
        .collect();
    let word = if bars.len() == 1 { "bar" } else { "bars" };
    match said.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{word} {} and {last}", rest.join(", ")),
        _ => format!("{word} {}", said.join("")),
    }
}
