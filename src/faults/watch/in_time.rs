use super::figure_look::FigureLook;
use super::spoken::{called, counts_words, own_place, watched};
use crate::dance::Dancer;
use crate::faults::place_words::place_words;
use crate::faults::slack::MOST_SHIFT;
use crate::faults::watched::{WatchKind, Watched};

/// Who touch with less than this are as good as told of a clash, counts.
const CLASH: f64 = 1.0 / 32.0;

/// Who must not be late, and who must not be early: of each dancer the least that it takes for each whom they touch.
pub(super) fn find(look: &FigureLook) -> Vec<Watched> {
    let mut found: Vec<Watched> = Vec::new();
    for slack in look.slacks.iter().filter(|slack| slack.met && slack.counts.abs() > CLASH) {
        let Some(track) = look.span.track(slack.dancer) else { continue };
        let late = slack.counts > 0.0;
        let (x, y, _) = track.stand(slack.due);
        let (dancer, other) = (slack.dancer, slack.other);
        let place = own_place(look, dancer, &place_words(look.motion.ground(), x, y));
        let (moment, counts) = (look.moment(slack.due), counts_words(slack.counts.abs()));
        let whom = called(look, dancer, other);
        let (kind, said) = if late {
            (WatchKind::Late, format!("{place} by {moment}; {counts} late {{meets}} {whom}"))
        } else {
            (WatchKind::Early, format!("not {place} before {moment}; {counts} early {{meets}} {whom}"))
        };
        let watched = watched(look, kind, (slack.due, slack.counts.abs()), vec![dancer, other], said);
        let same = |known: &&mut Watched| known.kind == watched.kind && known.dancers == watched.dancers;
        match found.iter_mut().find(same) {
            Some(known) if known.slack <= watched.slack => {}
            Some(known) => *known = watched,
            None => found.push(watched),
        }
    }
    found
}

/// How late and how early each dancer may be, counts.
pub(super) fn bands(look: &FigureLook) -> Vec<[f64; 2]> {
    let mut bands = vec![[MOST_SHIFT; 2]; look.motion.dancers()];
    for slack in look.slacks {
        let Dancer(index) = slack.dancer;
        if let Some([late, early]) = bands.get_mut(index) {
            let band = if slack.counts > 0.0 { late } else { early };
            *band = band.min(slack.counts.abs());
        }
    }
    bands
}
