//! The way a dancer faces through a figure: turns first, then legs that turn their dancer, and between them it holds.

use super::Track;
use crate::dance::{LegFacing, Part, Turn};
use crate::motion::{amount, wrap_half};

/// A stretch of facing, from its count until the next one's.
#[derive(Clone, Copy, Debug)]
pub(super) struct TurnPiece {
    pub begin: f64,
    pub kind: TurnKind,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum TurnKind {
    /// Facing one way, degrees.
    Hold(f64),
    /// Turning by an amount, degrees clockwise, over a number of counts.
    Turn { from: f64, amount: f64, over: f64 },
    /// Facing with the path: `shift` is added to its heading, and `off` dies away over `over` counts.
    Follow { shift: f64, off: f64, over: f64 },
}

impl Track {
    /// Works out the facing: turns come first, then legs that turn the dancer, and between them it holds.
    pub(super) fn face(&mut self, part: &Part, start: f64) {
        let mut facing = start;
        let mut now = 0.0;
        self.pieces.push(TurnPiece { begin: 0.0, kind: TurnKind::Hold(facing) });
        for stretch in stretches(part) {
            if stretch.begin > now + 1e-9 {
                self.pieces.push(TurnPiece { begin: now, kind: TurnKind::Hold(facing) });
            }
            let over = stretch.end - stretch.begin;
            match stretch.what {
                FacingKind::Turn(turn, index) => {
                    let amount = amount(turn, facing);
                    if let Some(slot) = self.amounts.get_mut(index) {
                        *slot = amount;
                    }
                    self.pieces.push(TurnPiece {
                        begin: stretch.begin,
                        kind: TurnKind::Turn { from: facing, amount, over },
                    });
                    facing += amount;
                }
                FacingKind::Follow(offset, index) => {
                    let Some(leg) = self.moves.get(index).filter(|leg| leg.course.length() > 1e-6) else {
                        continue;
                    };
                    let heading = |count: f64| leg.course.at(leg.pace.at(count)).heading;
                    let first = heading(stretch.begin);
                    let off = wrap_half(facing - first - offset);
                    let shift = facing - off - first;
                    let over = (off.abs() / 100.0).clamp(0.25, 2.5).min(over);
                    facing = heading(stretch.end) + shift;
                    self.pieces.push(TurnPiece {
                        begin: stretch.begin,
                        kind: TurnKind::Follow { shift, off, over },
                    });
                }
            }
            now = stretch.end;
        }
        self.pieces.push(TurnPiece { begin: now, kind: TurnKind::Hold(facing) });
        self.end.2 = facing;
    }
}

/// A stretch of time in which the facing changes.
struct FacingStretch<'a> {
    begin: f64,
    end: f64,
    what: FacingKind<'a>,
}

enum FacingKind<'a> {
    /// The turn, and which of them.
    Turn(&'a Turn, usize),
    /// Degrees from the heading to the facing, and which move.
    Follow(f64, usize),
}

/// The turns of a part and what is left of its legs that turn the dancer, in order.
fn stretches(part: &Part) -> Vec<FacingStretch<'_>> {
    let mut stretches: Vec<FacingStretch> = part
        .turns
        .iter()
        .enumerate()
        .map(|(index, turn)| FacingStretch {
            begin: turn.begin,
            end: turn.end,
            what: FacingKind::Turn(turn, index),
        })
        .collect();
    for (index, leg) in part.legs.iter().enumerate() {
        let offset = match leg.facing {
            LegFacing::Held => continue,
            LegFacing::Forwards => 0.0,
            LegFacing::Backwards => 180.0,
            LegFacing::Left => 90.0,
            LegFacing::Right => -90.0,
        };
        let mut from = leg.begin;
        for turn in &part.turns {
            if turn.end <= from || turn.begin >= leg.end {
                continue;
            }
            if turn.begin > from + 1e-9 {
                stretches.push(FacingStretch {
                    begin: from,
                    end: turn.begin,
                    what: FacingKind::Follow(offset, index),
                });
            }
            from = from.max(turn.end);
        }
        if leg.end > from + 1e-9 {
            stretches.push(FacingStretch {
                begin: from,
                end: leg.end,
                what: FacingKind::Follow(offset, index),
            });
        }
    }
    stretches.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    stretches
}
