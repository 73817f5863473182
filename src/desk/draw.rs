use super::{
    Desk,
    ask::{DrawAsk, Seen},
    drag::{move_by, put_at},
    numbers::{left_words, numbers},
};
use crate::dance::{Dance, Dancer};
use crate::edits::{
    EditError, Followed, PointOf, RingTurn, TurnEdit, TurnTime, change_leg, change_turn, copy_half,
    copy_part, copy_to_mates, drag_point, drag_ring, drop_point, insert_point, join_legs, leg_at, leg_points,
    restore_named, retime_turn, split_leg, with_mates,
};
use crate::figures::motion_of;
use crate::motion::{Motion, Span, SpanIndex, wrap_half};
use std::sync::Arc;

/// Drawing: moving those picked, and working on paths.
impl Desk {
    pub(super) fn apply_draw(&mut self, ask: DrawAsk) {
        match ask {
            DrawAsk::Together(together) => self.together = together,
            DrawAsk::LegFrom(from) => self.leg_from = from,
            DrawAsk::BeginDrag(grip) => self.begin_drag(grip),
            DrawAsk::DragTo { x, y, reach } => self.drag_to(x, y, reach),
            DrawAsk::DragBy(degrees) => self.drag_by(degrees),
            DrawAsk::DragToCount(count) => self.drag_to_count(count),
            DrawAsk::EndDrag => self.end_drag(),
            DrawAsk::CancelDrag => self.cancel_drag(),
            DrawAsk::Nudge { right, up } => self.nudge(right, up),
            DrawAsk::NudgePoint { span, dancer, point, right, up } => {
                self.nudge_point(span, dancer, point, (right, up));
            }
            DrawAsk::NudgeTurn { span, dancer, turn, of, counts } => {
                self.nudge_turn(span, dancer, (turn, of), counts);
            }
            DrawAsk::PlaceAt { dancer, x, y } => {
                let name = format!("place {dancer} {}", self.at_bar());
                self.draw_on(name, &[dancer], |desk, dance| {
                    put_at(dance, desk.now.motion(), dancer, desk.player.count, (x, y), desk.leg_from)
                });
            }
            DrawAsk::FaceAt { dancer, degrees } => self.face_at(dancer, degrees),
            DrawAsk::GoBy { dancer, x, y, count } => self.go_by(dancer, (x, y), count),
            DrawAsk::HomeBy { dancer, count } => self.home_by(dancer, count),
            DrawAsk::StandUntil { dancer, count } => self.stand_until(dancer, count),
            DrawAsk::Face { dancer, toward } => self.face_toward(dancer, toward),
            DrawAsk::TurnBy { dancer, degrees } => self.turn_by(dancer, degrees),
            DrawAsk::ChangeTurn { span: index, dancer, turn, edit } => {
                // A number of degrees is typed letter by letter; each turn of each figure has its own.
                let joins = matches!(edit, TurnEdit::By(_));
                let far = if joins { "how far" } else { "how" };
                let (turns, bar) = (turn + 1, self.turn_at_bar(index, (dancer, turn)));
                let name = format!("change {far} {dancer} turns, turn {turns}{bar}{}", self.in_figure(index));
                if !joins {
                    self.history.part_steps();
                }
                self.draw_anew(name, index, &[dancer], |dance, motion, span| {
                    change_turn(dance, motion, span, (dancer, turn), edit)
                });
                if !joins {
                    self.history.part_steps();
                }
            }
            DrawAsk::PointAt { span, dancer, point, x, y } => {
                let name = format!("place {}{}", point_name(point, dancer), self.in_figure(span));
                self.draw_span(name, true, span, &[dancer], |_, dance, span| {
                    drag_point(dance, span, dancer, point, x, y)
                });
            }
            DrawAsk::CopyToMates { dancer, together } => {
                let (name, motion) = (format!("copy {dancer} to all mates"), Arc::clone(self.now.motion()));
                self.draw(name, false, &[], |_, dance, span| {
                    copy_to_mates(dance, &motion, span, dancer, together)
                });
            }
            DrawAsk::Clear(dancer) => self.clear(dancer),
            DrawAsk::DropPoint { span, dancer, point } => {
                let name = format!("take away a point of {dancer}");
                self.draw_in(name, span, dancer, |dance, span| drop_point(dance, span, dancer, point));
            }
            DrawAsk::InsertPoint(dancer) => {
                let (name, count) = (format!("put in a point of {dancer}"), self.player.count);
                self.draw_here(name, dancer, |dance, span| insert_point(dance, span, dancer, count));
            }
            DrawAsk::SplitLeg(dancer) => {
                let (name, count) = (format!("split a path of {dancer}"), self.player.count);
                self.draw_here(name, dancer, |dance, span| split_leg(dance, span, dancer, count));
            }
            DrawAsk::JoinLegs { dancer, leg } => {
                let name = format!("join two paths of {dancer}");
                self.draw_here(name, dancer, |dance, span| join_legs(dance, span, dancer, leg));
            }
            DrawAsk::ChangeLeg { dancer, leg, change } => {
                let name = format!("change a path of {dancer}");
                self.draw_here(name, dancer, |dance, span| change_leg(dance, span, dancer, leg, change));
            }
            DrawAsk::CopyPart { dancer, together, other } => {
                let name = format!("copy {dancer} to {other}");
                let motion = Arc::clone(self.now.motion());
                self.draw(name, false, &[], |_, dance, span| {
                    copy_part(dance, &motion, span, dancer, (together, span.place(other)))
                });
            }
            DrawAsk::CopyHalf(second) => {
                let dancers = self.movers(None);
                let (name, motion) =
                    (format!("copy {} to the second half", numbers(&dancers)), Arc::clone(self.now.motion()));
                let all = dancers.clone();
                self.draw(name, false, &all, |_, dance, span| {
                    dancers.iter().try_fold(dance.clone(), |dance, &dancer| {
                        copy_half(&dance, &motion, span, dancer, second)
                    })
                });
            }
            DrawAsk::PartSteps => self.history.part_steps(),
            DrawAsk::RestoreNamed { figure, place } => {
                let dance = restore_named(self.now.dance(), figure, place);
                self.edit(format!("have {place} as the figure is named"), dance);
            }
        }
    }

    /// The dancers that are drawn with a dancer: all that are picked if it is one of them.
    pub(super) fn movers(&self, dancer: Option<Dancer>) -> Vec<Dancer> {
        match dancer.or(self.chosen) {
            Some(dancer) if self.picked.contains(&dancer) => self.picked.clone(),
            Some(dancer) => vec![dancer],
            None => Vec::new(),
        }
    }

    /// The mates that follow what is drawn now.
    #[must_use]
    pub fn mates(&self) -> Vec<Dancer> {
        self.span_here().map_or_else(Vec::new, |span| self.mates_in(span, &self.movers(None)))
    }

    /// The mates that follow some dancers in a figure.
    #[must_use]
    pub fn mates_in(&self, span: &Span, movers: &[Dancer]) -> Vec<Dancer> {
        let mut mates: Vec<Dancer> = movers
            .iter()
            .flat_map(|&dancer| self.together.mates(self.now.motion().ground(), span.place(dancer)))
            .filter_map(|place| span.dancer_in(place))
            .filter(|mate| !movers.contains(mate))
            .collect();
        mates.sort_unstable();
        mates.dedup();
        mates
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
        self.draw_on(name, &all, |desk, dance| {
            move_by(dance, desk.now.motion(), desk.player.count, (&movers, desk.leg_from), by)
        });
    }

    /// Has a dancer face this way, as a turn finishes that is under way, turned the shorter way from where they faced before the number was changed: a
    /// number is typed letter by letter, and 2 and 20 on the way to 200 are not meant. A little more or less goes on
    /// the way that they turn, so that a number can be dragged past half a turn.
    fn face_at(&mut self, dancer: Dancer, degrees: f64) {
        let name = format!("face {dancer} {}", self.at_bar());
        let (count, little) = (self.player.count, 45.0);
        let by = |motion: &Motion| wrap_half(degrees - RingTurn::in_hand(motion, dancer, count).0);
        if by(self.now.motion()).abs() <= little {
            self.draw_on(name, &[dancer], |desk, dance| {
                drag_ring(dance, desk.now.motion(), dancer, count, by(desk.now.motion()))
            });
        } else if let Some(index) = self.span() {
            self.draw_anew(name, index, &[dancer], |dance, motion, _| {
                drag_ring(dance, motion, dancer, count, by(motion))
            });
        } else {
            self.notice = Some(EditError::NoFigure.to_string());
        }
    }

    fn nudge_point(&mut self, index: SpanIndex, dancer: Dancer, point: PointOf, (right, up): (f64, f64)) {
        let (dx, dy) = self.as_seen(right, up);
        let place = self.now.motion().span(index).and_then(|span| {
            let points = leg_points(span, dancer);
            points.into_iter().find(|known| known.of == point)
        });
        let Some(place) = place else { return };
        // Each point is a step of its own.
        let name = format!("nudge {}{}", point_name(point, dancer), self.in_figure(index));
        self.draw_span(name, true, index, &[dancer], |_, dance, span| {
            drag_point(dance, span, dancer, point, place.x + dx, place.y + dy)
        });
    }

    /// Moves a turn, or an end of it, by counts from where it is danced.
    fn nudge_turn(&mut self, index: SpanIndex, dancer: Dancer, (turn, of): (usize, TurnTime), counts: f64) {
        // Each turn is a step of its own, and keeps its name wherever it goes.
        let name = format!("move turn {} of {dancer} in time{}", turn + 1, self.in_figure(index));
        let motion = Arc::clone(self.now.motion());
        self.draw_span(name, true, index, &[dancer], |_, dance, span| {
            let danced = span.track(dancer).and_then(|track| track.turns().get(turn));
            let danced = danced.ok_or(EditError::NoTurn)?;
            let from = if of == TurnTime::End { danced.end } else { danced.begin };
            retime_turn(dance, &motion, span, (dancer, turn), (of, span.begin() + from + counts))
        });
    }

    /// ` in Hey`: the name of a span's figure.
    fn in_figure(&self, index: SpanIndex) -> String {
        let span = self.now.motion().span(index);
        let figure = span.and_then(|span| self.dance().figures.get(span.figure));
        figure.map_or_else(String::new, |figure| format!(" in {}", figure.name))
    }

    /// ` at bar 3`, where a turn of a dancer begins, by the figure's own bars.
    fn turn_at_bar(&self, index: SpanIndex, (dancer, turn): (Dancer, usize)) -> String {
        let span = self.now.motion().span(index);
        let danced = span.and_then(|span| Some((span, span.track(dancer)?.turns().get(turn)?)));
        danced.map_or_else(String::new, |(span, turn)| {
            format!(" at bar {}", span.moment(span.begin() + turn.begin).bar)
        })
    }

    /// Metres right and up on the picture of the floor as metres on the floor.
    fn as_seen(&self, right: f64, up: f64) -> (f64, f64) {
        let turned = match self.view.seen {
            Seen::FromBottom => 0.0,
            Seen::FromTop => 180.0,
            Seen::OwnFacing => {
                self.chosen.map_or(0.0, |dancer| self.now.motion().pose(dancer, self.player.count).facing)
            }
        };
        let (sin, cos) = f64::to_radians(turned).sin_cos();
        (right * cos + up * sin, up * cos - right * sin)
    }

    /// `at bar 3`, by the figure's own bars.
    pub(super) fn at_bar(&self) -> String {
        format!("at bar {}", self.now.motion().moment_in_figure(self.player.count).bar)
    }

    /// Draws in the span at the playhead, with mates, as one step that joins the one before it of the same name.
    fn draw_on(
        &mut self,
        name: String,
        dancers: &[Dancer],
        change: impl FnOnce(&Self, &Dance) -> Result<Dance, EditError>,
    ) {
        self.draw(name, true, dancers, |desk, dance, _| change(desk, dance));
    }

    /// Draws one dancer in the span at the playhead, with mates, as one step.
    fn draw_here(
        &mut self,
        name: String,
        dancer: Dancer,
        change: impl FnOnce(&Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.draw(name, false, &[dancer], |_, dance, span| change(dance, span));
    }

    /// Draws one dancer in a span, with mates, as one step.
    fn draw_in(
        &mut self,
        name: String,
        span: SpanIndex,
        dancer: Dancer,
        change: impl FnOnce(&Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.draw_span(name, false, span, &[dancer], |_, dance, span| change(dance, span));
    }

    pub(super) fn draw(
        &mut self,
        name: String,
        joins: bool,
        dancers: &[Dancer],
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
        index: SpanIndex,
        dancers: &[Dancer],
        change: impl FnOnce(&Self, &Dance, &Span) -> Result<Dance, EditError>,
    ) {
        self.end_drag();
        let from = (Arc::clone(self.now.dance()), Arc::clone(self.now.motion()));
        let Some(followed) =
            self.drawn_from((&from.0, &from.1), index, dancers, |dance, _, span| change(self, dance, span))
        else {
            return;
        };
        match followed {
            Ok(Followed { dance, left }) => {
                if joins {
                    self.edit_on(name, dance);
                } else {
                    self.edit(name, dance);
                }
                self.say_left(&left);
            }
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    /// Draws in a span of the dance as it was before the step that a change of this name joins, with mates: a number is typed letter by
    /// letter, and what 1 and 12 on the way to 120 would do to the rest is not meant.
    fn draw_anew(
        &mut self,
        name: String,
        index: SpanIndex,
        dancers: &[Dancer],
        change: impl FnOnce(&Dance, &Motion, &Span) -> Result<Dance, EditError>,
    ) {
        self.end_drag();
        let begun = self.history.joined(&name).map(Arc::clone);
        let begun = begun.and_then(|dance| {
            let motion = motion_of(&dance, Some(self.now.motion())).ok()?;
            Some((dance, Arc::new(motion)))
        });
        let from = begun.unwrap_or_else(|| (Arc::clone(self.now.dance()), Arc::clone(self.now.motion())));
        match self.drawn_from((&from.0, &from.1), index, dancers, change) {
            Some(Ok(Followed { dance, left })) => {
                self.edit_on_from(name, dance, (&from.0, &from.1));
                self.say_left(&left);
            }
            Some(Err(error)) => self.notice = Some(error.to_string()),
            None => {}
        }
    }

    /// What is drawn in a span of a dance, with those who follow; nothing where there is no such span.
    fn drawn_from(
        &self,
        (dance, motion): (&Dance, &Motion),
        index: SpanIndex,
        dancers: &[Dancer],
        change: impl FnOnce(&Dance, &Motion, &Span) -> Result<Dance, EditError>,
    ) -> Option<Result<Followed, EditError>> {
        let span = motion.span(index)?;
        Some(change(dance, motion, span).map(|made| {
            // What changes nothing is nobody's drawing: those who follow keep what they have.
            if made == *dance {
                return Followed { dance: made, left: Vec::new() };
            }
            with_mates(made, motion, span, dancers, self.together)
        }))
    }

    /// Says who should have followed and did not.
    fn say_left(&mut self, left: &[Dancer]) {
        let said = left_words(left);
        self.notice = match (self.notice.take(), said) {
            (Some(one), Some(other)) => Some(format!("{one}. {other}")),
            (one, other) => one.or(other),
        };
    }

    /// The leg of a dancer at the playhead: the span's index, the leg's, and how many there are.
    #[must_use]
    pub fn leg_here(&self, dancer: Dancer) -> Option<(SpanIndex, usize, usize)> {
        let index = self.span()?;
        let span = self.now.motion().span(index)?;
        let legs = span.part(dancer)?.legs.len();
        Some((index, leg_at(span, dancer, self.player.count)?, legs))
    }
}

/// `point 2 of path 1 of 3`, `the end of path 1 of 3`.
fn point_name(point: PointOf, dancer: Dancer) -> String {
    let which = point.point.map_or_else(|| "the end".to_owned(), |at| format!("point {}", at + 1));
    format!("{which} of path {} of {dancer}", point.leg + 1)
}
