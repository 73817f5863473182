use super::{
    ask::{Ask, Grip, Seen},
    desk::{Desk, Drag},
};
use crate::dance::Dance;
use crate::edits::{
    EditError, Guide, TimePoint, caught, change_leg, copy_half, copy_part, drag_dancer, drag_facing,
    drag_point, drop_point, insert_point, join_legs, keep_amounts, leg_at, retime, split_leg, with_mates,
};
use crate::faults::Faults;
use crate::figures::motion_of;
use crate::motion::{Moment, Motion, Span, wrap_half};
use std::cell::OnceCell;
use std::sync::Arc;

/// Drawing: who is picked, dragging with mates, and working on paths.
impl Desk {
    /// Takes what is asked for about drawing.
    pub(super) fn take_draw_ask(&mut self, ask: Ask) {
        match ask {
            Ask::Pick(dancers) => self.pick(dancers),
            Ask::AlsoPick(dancer) => {
                let mut picked = self.picked.clone();
                match picked.iter().position(|known| *known == dancer) {
                    Some(index) => {
                        picked.remove(index);
                    }
                    None => picked.push(dancer),
                }
                self.pick(picked);
                if self.picked.contains(&dancer) {
                    self.chosen = Some(dancer);
                }
            }
            Ask::ChooseFor(dancer) => {
                if !self.picked.contains(&dancer) {
                    self.take(Ask::Choose(Some(dancer)));
                }
            }
            Ask::DrawTogether(together) => self.together = together,
            Ask::BeginDrag(grip) => self.begin_drag(grip),
            Ask::DragTo(x, y, reach) => self.drag_to(x, y, reach),
            Ask::DragBy(degrees) => self.drag_by(degrees),
            Ask::DragToCount(count) => self.drag_to_count(count),
            Ask::EndDrag => self.end_drag(),
            Ask::CancelDrag => self.cancel_drag(),
            Ask::Nudge(right, up) => self.nudge(right, up),
            Ask::NudgePoint(span, dancer, point, right, up) => {
                self.nudge_point((span, dancer, point), right, up);
            }
            Ask::PlaceAt(dancer, x, y) => {
                let name = format!("place {} {}", dancer + 1, self.at_bar());
                self.draw_on(name, &[dancer], |desk, dance| {
                    drag_dancer(dance, &desk.motion, dancer, desk.player.count, x, y)
                });
            }
            Ask::FaceAt(dancer, degrees) => self.face_at(dancer, degrees),
            Ask::DropPoint(span, dancer, point) => {
                let name = format!("take away a point of {}", dancer + 1);
                self.draw_in(name, span, dancer, |dance, span| drop_point(dance, span, dancer, point));
            }
            Ask::InsertPoint(dancer) => {
                let (name, count) = (format!("put in a point of {}", dancer + 1), self.player.count);
                self.draw_here(name, dancer, |dance, span| insert_point(dance, span, dancer, count));
            }
            Ask::SplitLeg(dancer) => {
                let (name, count) = (format!("split a leg of {}", dancer + 1), self.player.count);
                self.draw_here(name, dancer, |dance, span| split_leg(dance, span, dancer, count));
            }
            Ask::JoinLegs(dancer, leg) => {
                let name = format!("join two legs of {}", dancer + 1);
                self.draw_here(name, dancer, |dance, span| join_legs(dance, span, dancer, leg));
            }
            Ask::ChangeLeg(dancer, leg, change) => {
                let name = format!("change a leg of {}", dancer + 1);
                self.draw_here(name, dancer, |dance, span| change_leg(dance, span, dancer, leg, change));
            }
            Ask::CopyPart(dancer, together, other) => {
                let name = format!("copy {} to {}", dancer + 1, other + 1);
                let motion = Arc::clone(&self.motion);
                self.draw(name, false, &[], |_, dance, span| {
                    copy_part(dance, &motion, span, dancer, (together, span.place(other)))
                });
            }
            Ask::CopyHalf(second) => {
                let dancers = self.movers(None);
                let (name, motion) =
                    (format!("copy {} to the second half", numbers(&dancers)), Arc::clone(&self.motion));
                let all = dancers.clone();
                self.draw(name, false, &all, |_, dance, span| {
                    dancers.iter().try_fold(dance.clone(), |dance, &dancer| {
                        copy_half(&dance, &motion, span, dancer, second)
                    })
                });
            }
            other => self.take_fault_ask(other),
        }
    }

    /// Picks dancers (indices); the first of them is the chosen one, unless the chosen one is among them.
    fn pick(&mut self, mut dancers: Vec<usize>) {
        dancers.retain(|&dancer| dancer < self.motion.dancers());
        dancers.sort_unstable();
        dancers.dedup();
        if !self.chosen.is_some_and(|chosen| dancers.contains(&chosen)) {
            self.chosen = dancers.first().copied();
        }
        self.picked = dancers;
    }

    /// The dancers (indices) that are picked; the chosen one where no more are.
    #[must_use]
    pub fn picked(&self) -> &[usize] {
        &self.picked
    }

    /// What a drag has caught on.
    #[must_use]
    pub fn guides(&self) -> &[Guide] {
        if self.held().is_some() { &self.guides } else { &[] }
    }

    /// The dancers that are drawn with a dancer: all that are picked if it is one of them.
    fn movers(&self, dancer: Option<usize>) -> Vec<usize> {
        match dancer.or(self.chosen) {
            Some(dancer) if self.picked.contains(&dancer) => self.picked.clone(),
            Some(dancer) => vec![dancer],
            None => Vec::new(),
        }
    }

    /// The mates that follow what is drawn now: dancers, by index.
    #[must_use]
    pub fn mates(&self) -> Vec<usize> {
        let Some(span) = self.span().and_then(|index| self.motion.spans().get(index)) else {
            return Vec::new();
        };
        let movers = self.movers(None);
        let mut mates: Vec<usize> = movers
            .iter()
            .flat_map(|&dancer| self.together.mates(self.motion.ground(), span.place(dancer)))
            .filter_map(|place| span.dancer_in(place))
            .filter(|mate| !movers.contains(mate))
            .collect();
        mates.sort_unstable();
        mates.dedup();
        mates
    }

    fn begin_drag(&mut self, grip: Grip) {
        self.end_drag();
        self.player.playing = false;
        let (Grip::Dancer(dancer)
        | Grip::Facing(dancer)
        | Grip::Point(_, dancer, _)
        | Grip::Time(_, dancer, _)) = grip;
        self.chosen = Some(dancer);
        if !self.picked.contains(&dancer) {
            self.picked = vec![dancer];
        }
        self.notice = None;
        self.guides.clear();
        self.drag = Some(Drag {
            grip,
            dance: Arc::clone(&self.dance),
            motion: Arc::clone(&self.motion),
            count: self.player.count,
        });
    }

    /// Drags what is held to a place, which catches on what lies within `reach` metres of it.
    fn drag_to(&mut self, x: f64, y: f64, reach: f64) {
        let Some(drag) = &self.drag else { return };
        let (dance, motion, count) = (&drag.dance, &drag.motion, drag.count);
        let spans = motion.spans();
        let (made, guides) = match drag.grip {
            Grip::Dancer(dancer) => {
                let to = caught(motion, dancer, count, (x, y), reach);
                let movers = self.movers(Some(dancer));
                let from = motion.pose(dancer, count);
                let (dx, dy) = (to.x - from.x, to.y - from.y);
                let made = move_by(dance, motion, count, &movers, (dx, dy)).map(|made| {
                    let span = motion.span_at(count).and_then(|index| spans.get(index));
                    span.map_or(made.clone(), |span| {
                        with_mates(made, motion.ground(), span, &movers, self.together)
                    })
                });
                (made, to.guides)
            }
            Grip::Point(index, dancer, point) => {
                let Some(span) = spans.get(index) else { return };
                let to = caught(motion, dancer, point_count(span, dancer, point), (x, y), reach);
                let made = drag_point(dance, span, dancer, point, to.x, to.y)
                    .map(|made| with_mates(made, motion.ground(), span, &[dancer], self.together));
                (made, to.guides)
            }
            Grip::Facing(_) | Grip::Time(..) => return,
        };
        self.guides = guides;
        self.show_dragged(made);
    }

    fn drag_by(&mut self, degrees: f64) {
        let Some(Drag { grip: Grip::Facing(dancer), dance, motion, count }) = &self.drag else { return };
        let movers = self.movers(Some(*dancer));
        let mut made = Ok(Dance::clone(dance));
        for &mover in &movers {
            made = made.and_then(|dance| drag_facing(&dance, motion, mover, *count, degrees));
        }
        let span = motion.span_at(*count).and_then(|index| motion.spans().get(index));
        let made = made.map(|made| match span {
            Some(span) => with_mates(made, motion.ground(), span, &movers, self.together),
            None => made,
        });
        self.show_dragged(made);
    }

    /// Drags a moment of a path to another count.
    fn drag_to_count(&mut self, count: f64) {
        let Some(Drag { grip: Grip::Time(index, dancer, point), dance, motion, .. }) = &self.drag else {
            return;
        };
        let Some(span) = motion.spans().get(*index) else { return };
        let made = retime(dance, span, *dancer, *point, count)
            .map(|made| with_mates(made, motion.ground(), span, &[*dancer], self.together));
        self.show_dragged(made);
    }

    fn show_dragged(&mut self, made: Result<Dance, EditError>) {
        match made {
            Ok(dance) => {
                self.notice = None;
                // Worked out from where the drag began, so that nothing is left of the moments between.
                let dance = match &self.drag {
                    Some(drag) => keep_amounts(&drag.dance, &drag.motion, dance, |dance| {
                        motion_of(dance, Some(&self.motion)).ok()
                    }),
                    None => dance,
                };
                self.put(Arc::new(dance));
            }
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    pub(super) fn end_drag(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        self.guides.clear();
        if self.dance == drag.dance {
            return;
        }
        // The bar is the figure's own, as the bar strip counts it.
        let begin = drag.motion.span_at(drag.count).and_then(|index| drag.motion.spans().get(index));
        let bar = Moment::at(drag.count - begin.map_or(0.0, Span::begin)).bar;
        let name = match drag.grip {
            Grip::Dancer(dancer) => format!("move {} at bar {bar}", numbers(&self.movers(Some(dancer)))),
            Grip::Facing(dancer) => format!("turn {} at bar {bar}", numbers(&self.movers(Some(dancer)))),
            Grip::Point(_, dancer, _) => format!("move a point of {}", dancer + 1),
            Grip::Time(_, dancer, _) => format!("move a point of {} in time", dancer + 1),
        };
        let notice = self.notice.take();
        self.remember(name, drag.dance);
        self.notice = notice;
    }

    pub(super) fn cancel_drag(&mut self) {
        if let Some(drag) = self.drag.take() {
            self.faults = Faults::of(&drag.dance, &drag.motion);
            self.dance = drag.dance;
            self.motion = drag.motion;
            self.compare_anew();
            self.proposed = None;
            self.space = OnceCell::new();
            self.air = OnceCell::new();
            self.notice = None;
            self.guides.clear();
        }
    }

    /// Moves those picked by metres as the floor is seen, to the right and up.
    fn nudge(&mut self, right: f64, up: f64) {
        let movers = self.movers(None);
        if movers.is_empty() {
            return;
        }
        let by = self.as_seen(right, up);
        let name = format!("nudge {} {}", numbers(&movers), self.at_bar());
        let all = movers.clone();
        self.draw_on(name, &all, |desk, dance| move_by(dance, &desk.motion, desk.player.count, &movers, by));
    }

    /// Has a dancer face this way, turned the shorter way from where they faced before the number was changed: a
    /// number is typed letter by letter, and 2 and 20 on the way to 200 are not meant. A little more or less goes on
    /// the way that they turn, so that a number can be dragged past half a turn.
    fn face_at(&mut self, dancer: usize, degrees: f64) {
        let name = format!("face {} {}", dancer + 1, self.at_bar());
        let (count, little) = (self.player.count, 45.0);
        let by = |motion: &Motion| wrap_half(degrees - motion.pose(dancer, count).facing);
        let begun = self.joined(&name).filter(|_| by(&self.motion).abs() > little);
        let begun = begun.and_then(|dance| {
            let motion = motion_of(dance, Some(&self.motion)).ok()?;
            Some((Arc::clone(dance), motion))
        });
        self.draw_on(name, &[dancer], |desk, dance| match &begun {
            Some((dance, motion)) => drag_facing(dance, motion, dancer, count, by(motion)),
            None => drag_facing(dance, &desk.motion, dancer, count, by(&desk.motion)),
        });
    }

    fn nudge_point(
        &mut self,
        (index, dancer, point): (usize, usize, (usize, Option<usize>)),
        right: f64,
        up: f64,
    ) {
        let (dx, dy) = self.as_seen(right, up);
        let place = self.motion.spans().get(index).and_then(|span| {
            let points = crate::edits::leg_points(span, dancer);
            points.into_iter().find(|known| (known.leg, known.point) == point)
        });
        let Some(place) = place else { return };
        let name = format!("nudge a point of {}", dancer + 1);
        self.draw_span(name, true, index, &[dancer], |_, dance, span| {
            drag_point(dance, span, dancer, point, place.x + dx, place.y + dy)
        });
    }

    /// Metres right and up on the picture of the floor as metres on the floor.
    fn as_seen(&self, right: f64, up: f64) -> (f64, f64) {
        let turned = match self.seen {
            Seen::FromBottom => 0.0,
            Seen::FromTop => 180.0,
            Seen::OwnFacing => {
                self.chosen.map_or(0.0, |dancer| self.motion.pose(dancer, self.player.count).facing)
            }
        };
        let (sin, cos) = f64::to_radians(turned).sin_cos();
        (right * cos + up * sin, up * cos - right * sin)
    }

    /// `at bar 3`, by the figure's own bars.
    fn at_bar(&self) -> String {
        let begin = self.span().and_then(|index| self.motion.spans().get(index)).map_or(0.0, Span::begin);
        format!("at bar {}", Moment::at(self.player.count - begin).bar)
    }

    /// Draws in the span at the playhead, with mates, as one step that joins the one before it of the same name.
    fn draw_on(
        &mut self,
        name: String,
        dancers: &[usize],
        change: impl FnOnce(&Self, &Dance) -> Result<Dance, EditError>,
    ) {
        self.draw(name, true, dancers, |desk, dance, _| change(desk, dance));
    }

    /// Draws one dancer in the span at the playhead, with mates, as one step.
    fn draw_here(
        &mut self,
        name: String,
        dancer: usize,
        change: impl FnOnce(&Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.draw(name, false, &[dancer], |_, dance, span| change(dance, span));
    }

    /// Draws one dancer in a span, with mates, as one step.
    fn draw_in(
        &mut self,
        name: String,
        span: usize,
        dancer: usize,
        change: impl FnOnce(&Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.draw_span(name, false, span, &[dancer], |_, dance, span| change(dance, span));
    }

    fn draw(
        &mut self,
        name: String,
        joins: bool,
        dancers: &[usize],
        change: impl FnOnce(&Self, &Dance, &Span) -> Result<Dance, EditError>,
    ) {
        match self.span() {
            Some(index) => self.draw_span(name, joins, index, dancers, change),
            None => self.notice = Some(EditError::NoFigure.to_string()),
        }
    }

    fn draw_span(
        &mut self,
        name: String,
        joins: bool,
        index: usize,
        dancers: &[usize],
        change: impl FnOnce(&Self, &Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.end_drag();
        let motion = Arc::clone(&self.motion);
        let Some(span) = motion.spans().get(index) else { return };
        let made = change(self, &self.dance, span)
            .map(|made| with_mates(made, motion.ground(), span, dancers, self.together));
        match made {
            Ok(dance) if joins => self.edit_on(name, dance),
            Ok(dance) => self.edit(name, dance),
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    /// The leg of a dancer at the playhead: the span's index, the leg's, and how many there are.
    #[must_use]
    pub fn leg_here(&self, dancer: usize) -> Option<(usize, usize, usize)> {
        let index = self.span()?;
        let span = self.motion.spans().get(index)?;
        let legs = span.part(dancer)?.legs.len();
        Some((index, leg_at(span, dancer, self.player.count)?, legs))
    }
}

/// Moves dancers by metres at a count.
fn move_by(
    dance: &Dance,
    motion: &Motion,
    count: f64,
    dancers: &[usize],
    (dx, dy): (f64, f64),
) -> Result<Dance, EditError> {
    dancers.iter().try_fold(dance.clone(), |dance, &dancer| {
        let from = motion.pose(dancer, count);
        drag_dancer(&dance, motion, dancer, count, from.x + dx, from.y + dy)
    })
}

/// The count from the start of the dance at which a dancer is at a point of their path.
fn point_count(span: &Span, dancer: usize, (leg, point): (usize, Option<usize>)) -> f64 {
    let wanted = match point {
        Some(point) => TimePoint::Through(leg, point),
        None => TimePoint::End(leg),
    };
    crate::edits::time_points(span, dancer)
        .into_iter()
        .find(|(known, _)| *known == wanted)
        .map_or(span.begin(), |(_, count)| count)
}

/// Numbers in a list: `1, 2 and 5`.
fn numbers(dancers: &[usize]) -> String {
    let names: Vec<String> = dancers.iter().map(|dancer| (dancer + 1).to_string()).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() && names.len() <= 4 => {
            format!("{} and {last}", rest.join(", "))
        }
        Some(_) if names.len() > 4 => format!("{} dancers", names.len()),
        _ => names.join(""),
    }
}
