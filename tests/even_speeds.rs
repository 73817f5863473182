//! How evenly everyone travels in every named figure, whatever is chosen about it, in every set that can dance it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/choices.rs"]
mod choices;

use bellpad::dance::{Dance, Dancer, Set};
use bellpad::figures::{all, motion_of};
use choices::{chosen, figure_of};

/// Sizes of a set, across and along, metres: a small one, the usual one and the square of twelve feet [MB1].
const SIZES: [(f64, f64); 3] = [(2.0, 1.5), (2.4, 1.8), (3.66, 1.83)];

/// Over the counts in which a leg travels nobody is ever faster than 1.2 of its mean. Where the steps of a leg stop on the
/// way, as a jump does, it is the mean of the counts that travel. A leg that has a pace of its own, as a hey's has, is as
/// even as it says: see the tests of heys.
#[test]
fn nobody_hurries_on_the_way() {
    let mut worst: Vec<(f64, String)> = Vec::new();
    let mut legs = 0;
    for figure in all() {
        for with in chosen(figure) {
            for dancers in 1..=12 {
                for (across, along) in SIZES {
                    let set = Set::longways(dancers, across, along);
                    let Some(made) = figure_of(figure, &with, &set) else { continue };
                    let mut dance = Dance::new("Test", set);
                    dance.figures.push(made);
                    let motion = motion_of(&dance, None).unwrap();
                    let span = &motion.spans()[0];
                    for dancer in Dancer::all(motion.dancers()) {
                        let (track, part) = (span.track(dancer).unwrap(), span.part(dancer).unwrap());
                        for (leg, danced) in part.legs.iter().zip(track.moves()) {
                            let length = danced.course.length();
                            if !leg.pace.is_empty() || length < 0.05 {
                                continue;
                            }
                            legs += 1;
                            let (begin, end) = (leg.begin, leg.end);
                            let looks = ((end - begin) * 16.0) as u32;
                            let fastest = (0..=looks)
                                .map(|look| {
                                    danced
                                        .pace
                                        .speed(begin + (end - begin) * f64::from(look) / f64::from(looks))
                                })
                                .fold(0.0, f64::max);
                            let travelling = (0..looks)
                                .filter(|look| {
                                    let count =
                                        begin + (end - begin) * (f64::from(*look) + 0.5) / f64::from(looks);
                                    track.footing().fall(count).is_none_or(|fall| fall.travel > 0.0)
                                })
                                .count() as f64
                                / f64::from(looks);
                            let mean = length / ((end - begin) * travelling);
                            worst.push((
                                fastest / mean,
                                format!(
                                    "{} {with:?}, {dancers} at {across} by {along}: {dancer} from {begin} to {end}: {fastest:.2} m a count, mean {mean:.2}",
                                    figure.name
                                ),
                            ));
                        }
                    }
                }
            }
        }
    }
    worst.sort_by(|one, other| other.0.total_cmp(&one.0));
    let over = worst.iter().filter(|(ratio, _)| *ratio > 1.2).count();
    assert!(legs > 10_000, "{legs}");
    assert!(over == 0, "{over} of {legs} legs: {:#?}", &worst[..worst.len().min(12)]);
}
