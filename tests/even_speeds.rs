//! How evenly everyone travels in every named figure, whatever is chosen about it, in every set that can dance it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/choices.rs"]
mod choices;
#[path = "common/sets.rs"]
mod sets;

use bellpad::dance::{Dance, Dancer, Leg};
use bellpad::figures::{all, motion_of};
use bellpad::motion::{Move, Track};
use choices::{chosen, figure_of};
use sets::sets;
use std::collections::BTreeMap;

/// Looks in each count.
const LOOKS: f64 = 16.0;

/// How fast a leg is at its fastest, metres a count, and its mean over the counts in which its dancer's steps travel.
fn speeds(leg: &Leg, danced: &Move, track: &Track) -> (f64, f64) {
    let (begin, counts) = (leg.begin, leg.end - leg.begin);
    let looks = (counts * LOOKS) as u32;
    let at = |look: f64| begin + counts * look / f64::from(looks);
    let fastest = (0..=looks).map(|look| danced.pace.speed(at(f64::from(look)))).fold(0.0, f64::max);
    let travels = |look: &u32| {
        let fall = track.footing().fall(at(f64::from(*look) + 0.5));
        fall.is_none_or(|fall| fall.travel > 0.0)
    };
    let share = (0..looks).filter(travels).count() as f64 / f64::from(looks);
    (fastest, danced.course.length() / (counts * share))
}

/// Over the counts in which a leg travels nobody is ever faster than 1.2 of its mean, in two files, in a ring and on spots that lie
/// and face anyhow. Where the steps of a leg stop on the way, as a jump does, it is the mean of the counts that travel. A leg that
/// has a pace of its own, as a hey's has, is as even as it says: see the tests of heys.
#[test]
fn nobody_hurries_on_the_way() {
    let mut over: Vec<(f64, String)> = Vec::new();
    let mut legs = BTreeMap::<String, u32>::new();
    for set in sets() {
        for figure in all() {
            for with in chosen(figure) {
                let Some(made) = figure_of(figure, &with, &set) else { continue };
                let mut dance = Dance::new("Test", set.clone());
                dance.figures.push(made);
                let motion = motion_of(&dance, None).unwrap();
                let span = &motion.spans()[0];
                for dancer in Dancer::all(motion.dancers()) {
                    let (track, part) = (span.track(dancer).unwrap(), span.part(dancer).unwrap());
                    for (leg, danced) in part.legs.iter().zip(track.moves()) {
                        if !leg.pace.is_empty() || danced.course.length() < 0.05 {
                            continue;
                        }
                        *legs.entry(format!("{:?}", set.kind)).or_default() += 1;
                        let (fastest, mean) = speeds(leg, danced, track);
                        if fastest > 1.2 * mean {
                            let told = format!(
                                "{} {with:?}, {} {:?} {} by {}: {dancer} from {} to {}: {fastest:.2} m a count, mean {mean:.2}",
                                figure.name, set.dancers, set.kind, set.across, set.along, leg.begin, leg.end
                            );
                            over.push((fastest / mean, told));
                        }
                    }
                }
            }
        }
    }
    over.sort_by(|one, other| other.0.total_cmp(&one.0));
    assert!(legs.len() == 3 && legs.values().all(|legs| *legs > 10_000), "{legs:?}");
    assert!(over.is_empty(), "{} of {legs:?}: {:#?}", over.len(), &over[..over.len().min(12)]);
}
