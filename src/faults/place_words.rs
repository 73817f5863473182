use crate::dance::{PlaceNumber, SetKind};
use crate::motion::Ground;

/// Near enough to a spot or a line to be said to be there, metres.
const NEAR: f64 = 0.35;

/// A place on the floor as a dancer would say it: `at the middle of the set`, `at 3's spot`, `in the odds' file,
/// between tops and middles`.
#[must_use]
pub fn place_words(ground: &Ground, x: f64, y: f64) -> String {
    let half = ground.across / 2.0;
    if ground.ranks() >= 3 && y.abs() < NEAR && (x.abs() - half).abs() < NEAR {
        return format!("at the middle of the {} file", if x < 0.0 { "odds'" } else { "evens'" });
    }
    if let Some(place) = ground.place_near((x, y), NEAR) {
        return format!("at {place}'s spot");
    }
    if x.hypot(y) < NEAR {
        return "at the middle of the set".to_owned();
    }
    if ground.kind != SetKind::Longways || ground.ranks() == 0 {
        let (across, along) = (if x < 0.0 { "left" } else { "right" }, if y < 0.0 { "down" } else { "up" });
        return format!("{:.1} m {across} and {:.1} m {along} of the middle", x.abs(), y.abs());
    }
    let file = if x < 0.0 { "odds'" } else { "evens'" };
    let across = if x.abs() < NEAR.min(half / 2.0) {
        "on the middle line".to_owned()
    } else if (x.abs() - half).abs() < NEAR {
        format!("in the {file} file")
    } else if x.abs() < half {
        format!("inside the {file} file")
    } else {
        format!("outside the {file} file")
    };
    format!("{across}, {}", along_words(ground, y))
}

/// Where along the set.
fn along_words(ground: &Ground, y: f64) -> String {
    let half = ground.length() / 2.0;
    if y > half + NEAR {
        return "above the set".to_owned();
    }
    if y < -half - NEAR {
        return "below the set".to_owned();
    }
    let rank = ((half - y) / ground.along.max(1e-9)).clamp(0.0, ground.ranks().saturating_sub(1) as f64);
    let name = |rank: f64| {
        let [odd, even] = PlaceNumber::of_rank(rank as usize);
        match ground.rank_name(odd) {
            "" => format!("{odd} and {even}"),
            name => format!("{name}s"),
        }
    };
    if (rank - rank.round()).abs() * ground.along < NEAR {
        format!("level with the {}", name(rank.round()))
    } else {
        format!("between {} and {}", name(rank.floor()), name(rank.ceil()))
    }
}
