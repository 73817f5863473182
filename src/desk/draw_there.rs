use super::{Desk, numbers::numbers};
use crate::dance::{Dance, Dancer};
use crate::edits::{EditError, Toward, drag_ring, face, go_by, restore_named, stand};
use crate::motion::{Moment, Span};
use std::sync::Arc;

/// Drawing by asking for it by name: home by then, facing the partner, turned by so much.
impl Desk {
    /// Where a dancer, without those picked, is by a count.
    pub(super) fn go_by(&mut self, dancer: Dancer, to: (f64, f64), count: f64) {
        let name = format!("move {dancer} by bar {}", self.moment_here(count));
        self.draw(name, false, &[dancer], |desk, dance, span| {
            go_by(dance, span, dancer, within(span, count)?, to, desk.leg_from)
        });
    }

    pub(super) fn home_by(&mut self, dancer: Dancer, count: f64) {
        let movers = self.movers(Some(dancer));
        let name = format!("bring {} home by bar {}", numbers(&movers), self.moment_here(count));
        let all = movers.clone();
        self.draw(name, false, &all, |desk, dance, span| {
            movers.iter().try_fold(dance.clone(), |dance, &mover| {
                let home = desk.now.motion().ground().stands.get(mover.index());
                let home = home.ok_or(EditError::NoFigure)?;
                go_by(&dance, span, mover, within(span, count)?, (home.x, home.y), desk.leg_from)
            })
        });
    }

    pub(super) fn stand_until(&mut self, dancer: Dancer, count: f64) {
        let (movers, from) = (self.movers(Some(dancer)), self.player.count);
        let name = format!("stand {} until bar {}", numbers(&movers), self.moment_here(count));
        let all = movers.clone();
        self.draw(name, false, &all, |_, dance, span| {
            let times = (from - span.begin(), within(span, count)?);
            movers.iter().try_fold(dance.clone(), |dance, &mover| stand(&dance, span, mover, times))
        });
    }

    pub(super) fn face_toward(&mut self, dancer: Dancer, toward: Toward) {
        let (movers, count) = (self.movers(Some(dancer)), self.player.count);
        let name = format!("face {} {} {}", numbers(&movers), toward.in_short(), self.at_bar());
        let (all, motion) = (movers.clone(), Arc::clone(self.now.motion()));
        self.draw(name, false, &all, |_, dance, _| {
            movers.iter().try_fold(dance.clone(), |dance, &mover| face(&dance, &motion, mover, count, toward))
        });
    }

    pub(super) fn turn_by(&mut self, dancer: Dancer, degrees: f64) {
        let (movers, count) = (self.movers(Some(dancer)), self.player.count);
        let name = format!("turn {} {}", numbers(&movers), self.at_bar());
        let (all, motion) = (movers.clone(), Arc::clone(self.now.motion()));
        self.draw(name, false, &all, |_, dance, _| {
            movers
                .iter()
                .try_fold(dance.clone(), |dance, &mover| drag_ring(&dance, &motion, mover, count, degrees))
        });
    }

    /// Mates keep what they have: it is theirs once it is drawn.
    pub(super) fn clear(&mut self, dancer: Dancer) {
        let movers = self.movers(Some(dancer));
        let Some(span) = self.span_here() else {
            self.notice = Some(EditError::NoFigure.to_string());
            return;
        };
        let figure = self.dance().figures.get(span.figure).map_or("", |figure| figure.name.as_str());
        let name = format!("clear {} in {figure}", numbers(&movers));
        let dance = movers.iter().fold(Dance::clone(self.now.dance()), |dance, &mover| {
            restore_named(&dance, span.figure, span.place(mover))
        });
        if dance == **self.now.dance() {
            self.notice = Some(format!("nothing is drawn for {} in {figure}", numbers(&movers)));
            return;
        }
        self.edit(name, dance);
    }

    /// A moment of the figure at the playhead, as its own bars count it.
    fn moment_here(&self, count: f64) -> Moment {
        let motion = self.now.motion();
        let span = self.span_here();
        span.map_or_else(|| motion.moment(count), |span| span.moment(count))
    }
}

/// A count from the start of the dance as one of a figure, which has to be in it.
fn within(span: &Span, count: f64) -> Result<f64, EditError> {
    let inside = count >= span.begin() - 1e-6 && count <= span.end() + 1e-6;
    inside.then_some(count - span.begin()).ok_or(EditError::NoFigure)
}
