//! Sets of every kind and size that a figure may be danced by.

use bellpad::dance::{Set, SetKind};

/// Sizes of a set, across and along, metres: a small one, the usual one and the square of twelve feet [MB1].
const SIZES: [(f64, f64); 3] = [(2.0, 1.5), (2.4, 1.8), (3.66, 1.83)];

/// Sets of every kind: two files and one alone, rings, and spots on a slope that face anywhere.
pub fn sets() -> Vec<Set> {
    let mut sets = Vec::new();
    for dancers in 1..=12 {
        for (across, along) in SIZES {
            let longways = Set::longways(dancers, across, along);
            sets.push(Set {
                kind: SetKind::Ring,
                radius: Some(across * 0.8 + 0.1 * f64::from(dancers)),
                ..longways.clone()
            });
            let spots = serde_json::from_value(serde_json::json!({
                "kind": "spots", "dancers": dancers,
                "spots": (0..dancers).map(|index| {
                    let (rank, right) = (f64::from(index / 2), index % 2 == 1);
                    serde_json::json!({
                        "x": if right { across / 2.0 } else { -across / 2.0 },
                        "y": along * (f64::from((dancers - 1) / 2) / 2.0 - rank) + if right { 0.15 } else { -0.15 },
                        "facing": (f64::from(index) * 40.0) % 360.0
                    })
                }).collect::<Vec<_>>()
            }));
            sets.push(spots.unwrap());
            sets.push(longways);
        }
    }
    sets
}
