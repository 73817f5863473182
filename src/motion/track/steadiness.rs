//! How far a dancer strays from travelling and turning evenly between two moments, found from the paces and turns
//! themselves, so that nothing is missed between samples.

use super::facing::TurnKind;
use super::{Move, Track};
use crate::motion::cubics::{ease, off_chord};
use crate::motion::up_to::up_to;

impl Track {
    /// The count until which the dancer goes on standing as at a count, neither travelling nor turning: that count
    /// itself where they are under way. Where nothing more comes, it is not finite.
    #[must_use]
    pub fn stands_until(&self, count: f64) -> f64 {
        let next = self.moves.partition_point(|leg| leg.end <= count);
        let travels = self.moves.get(next).map_or(f64::INFINITY, |leg| leg.begin);
        let now = up_to(&self.pieces, count, |piece| piece.begin).saturating_sub(1);
        let mut pieces = self.pieces.iter().skip(now);
        let turns = pieces
            .find(|piece| !matches!(piece.kind, TurnKind::Hold(_)))
            .map_or(f64::INFINITY, |piece| piece.begin);
        travels.min(turns).max(count)
    }

    /// How far the dancer can be, between two moments (the count, and the metres travelled by then), from what even
    /// travelling and even turning would make it: metres along their way, and degrees.
    #[must_use]
    pub fn strays(&self, from: (f64, f64), to: (f64, f64)) -> (f64, f64) {
        let travelled = (to.1 - from.1).max(0.0);
        let leg = self.move_within(from.0, to.0);
        let uneven = match leg.filter(|_| travelled > 0.0).and_then(|leg| leg.pace.uneven(from.0, to.0)) {
            Some(metres) => metres.min(travelled),
            None => travelled,
        };
        let index = up_to(&self.pieces, from.0, |piece| piece.begin).saturating_sub(1);
        let alone = self.pieces.get(index + 1).is_none_or(|next| next.begin >= to.0);
        let unsteady = self.pieces.get(index).filter(|_| alone).and_then(|piece| {
            let share = |count: f64, over: f64| (count - piece.begin) / over;
            let eased =
                |degrees: f64, over: f64| degrees.abs() * uneasy(share(from.0, over), share(to.0, over));
            match piece.kind {
                TurnKind::Hold(_) => Some(0.0),
                TurnKind::Turn { amount, over, .. } => Some(eased(amount, over)),
                TurnKind::Follow { off, over, .. } => {
                    let leg = leg?;
                    // How the heading wavers along the way, and what the pace makes of its turning.
                    let (wavers, turned) = if travelled > 1e-9 {
                        leg.course.wavering(from.1 - leg.before, to.1 - leg.before)?
                    } else {
                        (0.0, 0.0)
                    };
                    let share = if travelled > 1e-9 { uneven / travelled } else { 0.0 };
                    Some(wavers + turned.abs() * share + eased(off, over))
                }
            }
        });
        let unsteady = unsteady.unwrap_or_else(|| {
            let (least, most) = self.facings(from.0, to.0);
            most - least
        });
        (uneven, unsteady)
    }

    /// The leg that is under way all through from one count to another.
    fn move_within(&self, from: f64, to: f64) -> Option<&Move> {
        let index = up_to(&self.moves, from, |leg| leg.begin).checked_sub(1)?;
        self.moves.get(index).filter(|leg| to <= leg.end)
    }
}

/// How far the ease of a turn is from its chord at the most, between two shares of its time.
fn uneasy(from: f64, to: f64) -> f64 {
    if from >= 1.0 {
        return 0.0;
    }
    if to > 1.0 + 1e-9 {
        // It stops on the way, and never goes back.
        return ease(to) - ease(from);
    }
    off_chord(3.0, -2.0, from, to)
}
