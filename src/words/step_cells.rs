//! What each count of a step says, in the words in which it is typed: a row for each foot, for the body and for each hand.

use crate::dance::{Foot, FreeFoot, FreePlace, Landing};
use crate::motion::steps::{Step, swings, usual_rise};

/// A row of what a step says, as the dancer does it who leads with a foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StepRow {
    LeftFoot,
    RightFoot,
    /// How high it rises.
    Body,
    /// How much of the way is gone.
    Goes,
    LeftHand,
    RightHand,
    Circles,
}

/// What lands, as a foot's cell says it.
pub(super) const LANDINGS: [(&str, Option<Landing>); 6] = [
    ("lands", None),
    ("hops", None),
    ("both", Some(Landing::Both)),
    ("air", Some(Landing::Air)),
    ("upbeat", Some(Landing::Upbeat)),
    ("stays", Some(Landing::Stay)),
];

/// Where a free foot is.
pub(super) const PLACES: [(&str, FreePlace); 5] = [
    ("front", FreePlace::Front),
    ("beside", FreePlace::Beside),
    ("crossed before", FreePlace::CrossedBefore),
    ("crossed behind", FreePlace::CrossedBehind),
    ("shin", FreePlace::Shin),
];

impl StepRow {
    /// Each of them, from the top.
    pub const ALL: [Self; 7] = [
        Self::LeftFoot,
        Self::RightFoot,
        Self::Body,
        Self::Goes,
        Self::LeftHand,
        Self::RightHand,
        Self::Circles,
    ];

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::LeftFoot => "left foot",
            Self::RightFoot => "right foot",
            Self::Body => "body",
            Self::Goes => "goes",
            Self::LeftHand => "left hand",
            Self::RightHand => "right hand",
            Self::Circles => "circles",
        }
    }

    /// What can be typed in it.
    #[must_use]
    pub fn takes(self) -> &'static str {
        match self {
            Self::LeftFoot | Self::RightFoot => {
                "What this foot does: lands (or hops, where it has landed on the count before), both, air (neither foot), upbeat (the hop before the next step), stays (nothing lands); or where it is while the other one lands: front 16 cm, beside, crossed before, crossed behind, shin, with circle 1 or circle -1 for the lower leg, outwards or inwards"
            }
            Self::Body => "How high the hop or the jump is, such as 25 cm; empty for the usual height",
            Self::Goes => {
                "How much of the travelling is done from this count to the next: 100 % for as much as elsewhere, 50 % for half of that, or none"
            }
            Self::LeftHand | Self::RightHand => {
                "How high: down, high, or how much of the way up, such as 50 % up; then how far forward or back of the shoulder, such as 15 % up, 45 cm back"
            }
            Self::Circles => {
                "How many circles the hands make to the next count: 1 in, 0.5 out; empty for none"
            }
        }
    }
}

/// Left (0) or right (1), of a row of a foot or a hand.
pub(super) fn side(row: StepRow) -> usize {
    usize::from(matches!(row, StepRow::RightFoot | StepRow::RightHand))
}

/// Which of what is written of the hands a side does.
pub(super) fn as_written(step: &Step, lead: Foot, side: usize) -> usize {
    let [left, right] = step.hands_as_written(lead);
    if side == 0 { left } else { right }
}

/// The landing of a foot that lands alone.
pub(super) fn landing_of(lead: Foot, side: usize) -> Landing {
    let foot = if side == 0 { Foot::Left } else { Foot::Right };
    if foot == lead { Landing::Lead } else { Landing::Other }
}

/// What a step says on a count, from 0, where a foot leads it.
#[must_use]
pub fn step_cell(step: &Step, lead: Foot, row: StepRow, count: usize) -> String {
    let at = |list: &[f64]| list.get(count).copied().unwrap_or(0.0);
    match row {
        StepRow::LeftFoot | StepRow::RightFoot => foot_cell(step, lead, side(row), count),
        // What goes without saying is not said where nothing rises.
        StepRow::Body => match (at(&step.rise), usual_rise(&step.feet, count)) {
            (0.0, 0.0) => String::new(),
            (rise, _) => centimetres(rise),
        },
        StepRow::Goes => match at(&step.travels) {
            0.0 => "none".to_owned(),
            share => percent(share),
        },
        StepRow::LeftHand | StepRow::RightHand => {
            let written = as_written(step, lead, side(row));
            let heights = if written == 0 { &step.left_hand } else { &step.right_hand };
            let (height, forward) = (at(heights), step.forward.get(written).map_or(0.0, |list| at(list)));
            let high = match height {
                0.0 => "down".to_owned(),
                1.0 => "high".to_owned(),
                height => format!("{} up", percent(height)),
            };
            if (forward - swings(height)).abs() < 1e-9 {
                high
            } else {
                let way = if forward < 0.0 { "back" } else { "forward" };
                format!("{high}, {} {way}", centimetres(forward.abs()))
            }
        }
        StepRow::Circles => match at(&step.circles) {
            0.0 => String::new(),
            circles => format!("{} {}", number(circles.abs()), if circles > 0.0 { "in" } else { "out" }),
        },
    }
}

fn foot_cell(step: &Step, lead: Foot, side: usize, count: usize) -> String {
    match step.feet.get(count) {
        Some(landing @ (Landing::Lead | Landing::Other)) => {
            if *landing == landing_of(lead, side) {
                let before = count.checked_sub(1).and_then(|before| step.feet.get(before));
                return if before == Some(landing) { "hops" } else { "lands" }.to_owned();
            }
            step.free.get(count).map_or_else(String::new, free_cell)
        }
        // Of the foot that does not carry the weight it is said where it is.
        Some(Landing::Stay)
            if carries(step, count).is_some_and(|landing| landing != landing_of(lead, side)) =>
        {
            step.free.get(count).map_or_else(String::new, free_cell)
        }
        Some(landing) => {
            let word = LANDINGS.iter().find(|(_, known)| known.as_ref() == Some(landing));
            word.map_or("", |(word, _)| word).to_owned()
        }
        None => String::new(),
    }
}

/// Which foot carries the weight on a count of a step, where it is one foot of which the step itself says so.
#[must_use]
pub fn carries(step: &Step, count: usize) -> Option<Landing> {
    let until = step.feet.get(..=count)?;
    let last = until.iter().rev().find(|landing| **landing != Landing::Stay).copied()?;
    matches!(last, Landing::Lead | Landing::Other).then_some(last)
}

fn free_cell(free: &FreeFoot) -> String {
    let place = PLACES.iter().find(|(_, place)| *place == free.at).map_or("", |(word, _)| word);
    let circles = match free.circles {
        0.0 => String::new(),
        circles => format!(" circle {}", number(circles)),
    };
    format!("{place} {}{circles}", centimetres(free.height))
}

/// A number with at most three places.
fn number(value: f64) -> String {
    format!("{}", crate::dance::rounded(value, 1e3))
}

/// A share of a whole, with at most one place.
fn percent(share: f64) -> String {
    format!("{} %", crate::dance::rounded(share * 100.0, 10.0))
}

fn centimetres(metres: f64) -> String {
    format!("{} cm", crate::dance::rounded(metres * 100.0, 10.0))
}
