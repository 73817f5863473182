use super::{
    Desk,
    ask::Grip,
    compiled::Compiled,
    numbers::{left_words, numbers},
    strike_name::words_of,
};
use crate::dance::{Dance, Dancer};
use crate::edits::{
    EditError, Followed, Guide, Kept, LegFrom, PointOf, StrikeEdit, TIME_STEP, caught, change_strike,
    drag_point, drag_ring, go_by, keep_amounts, leg_at, leg_points, retime, retime_turn, with_mates,
};
use crate::figures::motion_after;
use crate::motion::{Motion, Span};
use std::sync::Arc;

/// A drag under way: all is worked out afresh from where it began.
pub(super) struct Drag {
    pub grip: Grip,
    /// The dance where it began.
    pub from: Arc<Compiled>,
    pub count: f64,
}

/// Dragging with mates: dancers, facings, points and times.
impl Desk {
    /// What a drag has caught on.
    #[must_use]
    pub fn guides(&self) -> &[Guide] {
        if self.held().is_some() { &self.guides } else { &[] }
    }

    /// While a dancer is dragged: between which moments the leg goes on which they are, `from bar 2:1 to bar 3:1`.
    #[must_use]
    pub fn drag_words(&self) -> Option<String> {
        let Some(Drag { grip: Grip::Dancer(dancer), from, count }) = &self.drag else { return None };
        if self.now.dance() == from.dance() {
            return None;
        }
        let span = self.span_here()?;
        // The leg that ends here, not one that begins here.
        let leg = leg_at(span, *dancer, count - 2.0 * TIME_STEP)?;
        let leg = span.part(*dancer)?.legs.get(leg)?;
        let moment = |local: f64| span.moment_said(span.begin() + local);
        Some(format!("from {} to {}", moment(leg.begin), moment(leg.end)))
    }

    pub(super) fn begin_drag(&mut self, grip: Grip) {
        self.end_drag();
        self.player.playing = false;
        let dancer = match grip {
            Grip::Dancer(dancer)
            | Grip::Facing(dancer)
            | Grip::Point { dancer, .. }
            | Grip::Time { dancer, .. }
            | Grip::Turn { dancer, .. } => Some(dancer),
            // It is of several, whoever is chosen.
            Grip::Strike { .. } => None,
        };
        if dancer.is_some_and(|dancer| dancer.index() >= self.now.motion().dancers()) {
            return;
        }
        if let Some(dancer) = dancer {
            self.chosen = Some(dancer);
            if !self.picked.contains(&dancer) {
                self.picked = vec![dancer];
            }
        }
        self.notice = None;
        self.guides.clear();
        self.drag = Some(Drag { grip, from: Arc::clone(&self.now), count: self.player.count });
    }

    /// Drags what is held to a place, which catches on what lies within `reach` metres of it.
    pub(super) fn drag_to(&mut self, x: f64, y: f64, reach: f64) {
        let Some(drag) = &self.drag else { return };
        let (dance, motion, count) = (drag.from.dance(), drag.from.motion(), drag.count);
        let (made, guides) = match drag.grip {
            Grip::Dancer(dancer) => {
                let to = caught(motion, dancer, count, (x, y), reach);
                let movers = self.movers(Some(dancer));
                let from = motion.pose(dancer, count);
                let (dx, dy) = (to.x - from.x, to.y - from.y);
                let made = move_by(dance, motion, count, (&movers, self.leg_from), (dx, dy));
                (self.followed(made, drag, motion.span_under(count), &movers), to.guides)
            }
            Grip::Point { span, dancer, point } => {
                let Some(span) = motion.span(span) else { return };
                let to = caught(motion, dancer, point_count(span, dancer, point), (x, y), reach);
                let made = drag_point(dance, span, dancer, point, to.x, to.y);
                (self.followed(made, drag, Some(span), &[dancer]), to.guides)
            }
            Grip::Facing(_) | Grip::Time { .. } | Grip::Turn { .. } | Grip::Strike { .. } => return,
        };
        self.guides = guides;
        self.show_dragged(made);
    }

    pub(super) fn drag_by(&mut self, degrees: f64) {
        let Some(drag @ Drag { grip: Grip::Facing(dancer), from, count }) = &self.drag else { return };
        let (dance, motion) = (from.dance(), from.motion());
        let movers = self.movers(Some(*dancer));
        let mut made = Ok(Dance::clone(dance));
        for &mover in &movers {
            made = made.and_then(|dance| drag_ring(&dance, motion, mover, *count, degrees));
        }
        let made = self.followed(made, drag, motion.span_under(*count), &movers);
        self.show_dragged(made);
    }

    /// Drags a moment of a path or a turn to another count.
    pub(super) fn drag_to_count(&mut self, count: f64) {
        let Some(drag @ Drag { grip, from, .. }) = &self.drag else { return };
        if let Grip::Strike { span, at } = *grip {
            let Some(span) = from.motion().span(span) else { return };
            let edit = StrikeEdit::To(count - span.begin());
            match change_strike(from.dance(), span.figure, at, &edit) {
                Ok(dance) => {
                    // The floor shows them meet where it is dragged to.
                    let count = count.clamp(span.begin(), span.end());
                    self.show_dragged(Ok(Followed { dance, left: Vec::new() }));
                    self.player.count = count.clamp(0.0, self.now.motion().counts());
                }
                Err(error) => self.notice = Some(format!("That cannot be: {error}")),
            }
            return;
        }
        let (Grip::Time { span, dancer, .. } | Grip::Turn { span, dancer, .. }) = *grip else { return };
        let (dance, motion) = (from.dance(), from.motion());
        let Some(span) = motion.span(span) else { return };
        let made = match *grip {
            Grip::Time { point, .. } => retime(dance, span, dancer, point, count),
            Grip::Turn { turn, of, .. } => retime_turn(dance, motion, span, (dancer, turn), (of, count)),
            Grip::Dancer(_) | Grip::Facing(_) | Grip::Point { .. } | Grip::Strike { .. } => return,
        };
        let made = self.followed(made, drag, Some(span), &[dancer]);
        self.show_dragged(made);
    }

    /// What was dragged of some, with those who follow them.
    fn followed(
        &self,
        made: Result<Dance, EditError>,
        drag: &Drag,
        span: Option<&Span>,
        movers: &[Dancer],
    ) -> Result<Followed, EditError> {
        let made = made?;
        // What is where it was is nobody's drawing.
        let Some(span) = span.filter(|_| made != **drag.from.dance()) else {
            return Ok(Followed { dance: made, left: Vec::new() });
        };
        Ok(with_mates(made, drag.from.motion(), span, movers, self.together))
    }

    fn show_dragged(&mut self, made: Result<Followed, EditError>) {
        match made {
            Ok(Followed { dance, left }) => {
                self.notice = left_words(&left);
                // Worked out from where the drag began, so that nothing is left of the moments between.
                let kept = match &self.drag {
                    Some(Drag { from, .. }) => keep_amounts(from.dance(), from.motion(), dance, |dance| {
                        motion_after(dance, (self.now.dance(), self.now.motion())).ok()
                    }),
                    None => Kept { dance, motion: None },
                };
                self.put_in_place(kept);
            }
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    pub(super) fn end_drag(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        self.guides.clear();
        if self.now.dance() == drag.from.dance() {
            return;
        }
        // The bar is the figure's own, as the bar strip counts it.
        let bar = drag.from.motion().moment_in_figure(drag.count).bar;
        let name = match drag.grip {
            Grip::Dancer(dancer) => format!("move {} at bar {bar}", numbers(&self.movers(Some(dancer)))),
            Grip::Facing(dancer) => format!("turn {} at bar {bar}", numbers(&self.movers(Some(dancer)))),
            Grip::Point { dancer, .. } => format!("move a point of {dancer}"),
            Grip::Time { dancer, .. } => format!("move a point of {dancer} in time"),
            Grip::Turn { dancer, .. } => format!("move a turn of {dancer} in time"),
            Grip::Strike { span, at } => {
                let figure = drag.from.motion().span(span).map_or(0, |span| span.figure);
                format!("move {}", words_of(drag.from.dance(), figure, at))
            }
        };
        let notice = self.notice.take();
        self.remember(name, drag.from);
        self.notice = notice;
    }

    pub(super) fn cancel_drag(&mut self) {
        if let Some(drag) = self.drag.take() {
            self.have(drag.from);
            self.notice = None;
            self.guides.clear();
        }
    }
}

/// Moves dancers by metres at a count.
pub(super) fn move_by(
    dance: &Dance,
    motion: &Motion,
    count: f64,
    (dancers, leg_from): (&[Dancer], LegFrom),
    (dx, dy): (f64, f64),
) -> Result<Dance, EditError> {
    dancers.iter().try_fold(dance.clone(), |dance, &dancer| {
        let from = motion.pose(dancer, count);
        put_at(&dance, motion, dancer, count, (from.x + dx, from.y + dy), leg_from)
    })
}

/// Puts a dancer at a place, metres, at a count from the start of the dance.
pub(super) fn put_at(
    dance: &Dance,
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    to: (f64, f64),
    leg_from: LegFrom,
) -> Result<Dance, EditError> {
    let span = motion.span_under(count);
    let span = span.ok_or(EditError::NoFigure)?;
    go_by(dance, span, dancer, count - span.begin(), to, leg_from)
}

/// The count from the start of the dance at which a dancer is at a point of their path.
fn point_count(span: &Span, dancer: Dancer, point: PointOf) -> f64 {
    leg_points(span, dancer)
        .into_iter()
        .find(|known| known.of == point)
        .map_or(span.begin(), |known| known.count)
}
