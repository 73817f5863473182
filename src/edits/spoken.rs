//! A turn that says its way and how far it goes, and nothing else.

use crate::dance::{Turn, Way};

/// A turn as this version writes it once it is edited: the times, the way and the amount that it is danced with (degrees, clockwise
/// positive), and no direction beside them that could say otherwise.
#[must_use]
pub(super) fn spoken(turn: &Turn, danced: &Turn, amount: f64) -> Turn {
    let way = way_danced(danced, amount);
    Turn {
        begin: danced.begin,
        end: danced.end,
        way,
        // One that goes back against its foot follows that no more.
        by_lead: turn.by_lead && way == danced.way,
        by: Some(((amount.abs() * 1000.0).round() / 1000.0).min(36_000.0)),
        face: None,
        spins: 0,
        ..turn.clone()
    }
}

/// The way that a turn goes, by the degrees that it goes, clockwise positive.
#[must_use]
pub(super) fn way_danced(danced: &Turn, amount: f64) -> Way {
    match amount {
        left if left < 0.0 => Way::Left,
        right if right > 0.0 => Way::Right,
        _ => danced.way,
    }
}
