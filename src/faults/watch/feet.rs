use super::figure_look::FigureLook;
use super::spoken::watched;
use crate::dance::{Dancer, Foot};
use crate::faults::halves::next_lead;
use crate::faults::watched::{WatchKind, Watched};
use crate::motion::{LeadMade, Track};

/// What a wrong first foot does: the first step that goes another way, or turns, for which the needed foot is then not free. After a jump
/// either foot is free again (common practice, no source).
pub(super) fn find(look: &FigureLook) -> Vec<Watched> {
    look.tracks().flat_map(|(dancer, track)| of_dancer(look, dancer, track)).collect()
}

fn of_dancer(look: &FigureLook, dancer: Dancer, track: &Track) -> Vec<Watched> {
    let leads = track.footing().leads();
    let mut found = Vec::new();
    let mut start: Option<&LeadMade> = None;
    let mut free: Option<Foot> = None;
    let mut told = false;
    for made in leads {
        if free.is_none() {
            (start, told) = (Some(made), false);
        }
        free = next_lead(look.motion.known(), track, made);
        let Some(first) = start else { continue };
        if told || made.at == first.at {
            continue;
        }
        let at = made.at as f64;
        let turns = track
            .turns()
            .iter()
            .zip(track.amounts())
            .any(|(turn, amount)| (turn.begin - at).abs() < 0.5 && amount.abs() > 45.0);
        let goes = track.moves().iter().any(|leg| (leg.begin - at).abs() < 0.5 && leg.course.length() > 0.3);
        if !turns && !goes {
            continue;
        }
        told = true;
        let word = |foot: Foot| if foot == Foot::Left { "left" } else { "right" };
        let what = match (turns, goes) {
            (true, true) => "to step off turning",
            (true, false) => "to turn",
            _ => "to step off",
        };
        let said = format!(
            "start on the {} foot at {}; on the {} the {} is not free {what} at {}",
            word(first.foot),
            look.moment(first.at as f64),
            word(first.foot.other()),
            word(made.foot),
            look.moment(at)
        );
        found.push(watched(look, WatchKind::Foot, (first.at as f64, 1.0), vec![dancer], said));
    }
    found
}
