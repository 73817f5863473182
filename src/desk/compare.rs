use super::{Desk, ask::CompareAsk, open_words::open_words, purpose::Purpose};
use crate::dance::{Dance, Dancer, PlaceNumber};
use crate::figures::motion_of;
use crate::motion::{Motion, Span};
use crate::picture::MOST_AT_BEATS;
use crate::store;
use crate::versions::{
    Comparison, PartDifference, TakeError, WholeDifference, compare, with_figure_of, with_part_of,
    with_strikes_of,
};
use std::path::Path;
use std::sync::Arc;

/// Another version of the dance, and where this one differs from it.
pub struct Compared {
    /// The name of its file.
    pub name: String,
    /// Where the two differ.
    pub comparison: Comparison,
    dance: Dance,
    motion: Arc<Motion>,
    /// The figure and the place of the difference that is shown.
    shown: Option<(usize, PlaceNumber)>,
}

/// Beside another version, and at the strong beats.
impl Desk {
    pub(super) fn apply_compare(&mut self, ask: CompareAsk) {
        match ask {
            CompareAsk::Ask => self.ask_path(Purpose::Compare, None),
            CompareAsk::With(path) => {
                let done = self.compare_with(&path);
                self.tell_trouble(done);
            }
            CompareAsk::Stop => self.compared = None,
            CompareAsk::GoTo(index) => self.go_to_difference(index),
            CompareAsk::TakePart(index) => self.take_part(index),
            CompareAsk::TakeFigure(index) => self.take_figure(index),
            CompareAsk::TakeTaps(index) => self.take_taps(index),
        }
    }

    /// The other version that this one is compared with.
    #[must_use]
    pub fn compared(&self) -> Option<&Compared> {
        self.compared.as_ref()
    }

    /// The index of the difference that is shown.
    #[must_use]
    pub fn shown_difference(&self) -> Option<usize> {
        let compared = self.compared.as_ref()?;
        let shown = compared.shown?;
        compared.comparison.parts.iter().position(|part| (part.figure, part.place) == shown)
    }

    /// A difference as people say it: `Hey · 3 · bars 2 to 4`.
    #[must_use]
    pub fn difference_words(&self, difference: &PartDifference) -> String {
        let figure =
            self.now.dance().figures.get(difference.figure).map_or("", |figure| figure.name.as_str());
        let place = if difference.dancer.home() == difference.place {
            String::new()
        } else {
            format!(" in {}'s place", difference.place)
        };
        format!("{figure} · {}{place} · {}", difference.dancer, difference.bars_words())
    }

    /// The figure under way here and what it is beside in the other version, with the places that differ.
    #[must_use]
    pub fn beside_here(&self) -> Option<((&Span, &Span), Vec<PlaceNumber>)> {
        let span = self.span()?;
        let (there, places) = self.compared.as_ref()?.comparison.beside(span)?;
        Some(((self.now.motion().span(span)?, there), places))
    }

    /// The dancers to show at the strong beats: the chosen one, or all where there are not too many.
    #[must_use]
    pub fn at_beats(&self) -> Vec<Dancer> {
        match self.chosen {
            Some(dancer) => vec![dancer],
            None if self.now.motion().dancers() <= MOST_AT_BEATS => {
                Dancer::all(self.now.motion().dancers()).collect()
            }
            None => Vec::new(),
        }
    }

    /// Compares again after an edit; figures that are as they were are not looked at again.
    pub(super) fn compare_anew(&mut self) {
        let (dance, motion) = (self.now.dance(), self.now.motion());
        if let Some(compared) = &mut self.compared {
            let other = (&compared.dance, &compared.motion);
            compared.comparison = compare((dance, motion), other, Some(&compared.comparison));
        }
    }

    /// Compares with a file.
    ///
    /// # Errors
    /// When it cannot be read or danced.
    pub(super) fn compare_with(&mut self, path: &Path) -> Result<(), String> {
        self.end_drag();
        let read = store::open(path).map_err(|error| open_words(&error));
        let made = read.and_then(|dance| match motion_of(&dance, None) {
            Ok(motion) => Ok((dance, Arc::new(motion))),
            Err(error) => Err(format!("{}: {error}", path.display())),
        });
        let (dance, motion) = made?;
        let comparison = compare((self.now.dance(), self.now.motion()), (&dance, &motion), None);
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        self.recent.add_beside(path);
        self.compared = Some(Compared { name, comparison, dance, motion, shown: None });
        Ok(())
    }

    fn difference(&self, index: usize) -> Option<(&Compared, &PartDifference)> {
        let compared = self.compared.as_ref()?;
        Some((compared, compared.comparison.parts.get(index)?))
    }

    fn go_to_difference(&mut self, index: usize) {
        let Some((_, difference)) = self.difference(index) else { return };
        let (count, dancer) = (difference.count, difference.dancer);
        let shown = (difference.figure, difference.place);
        self.end_drag();
        self.player.playing = false;
        self.seek(count);
        self.chosen = Some(dancer);
        if let Some(compared) = &mut self.compared {
            compared.shown = Some(shown);
        }
    }

    fn figure_name(&self, figure: usize) -> &str {
        self.now.dance().figures.get(figure).map_or("", |figure| figure.name.as_str())
    }

    fn take_part(&mut self, index: usize) {
        self.end_drag();
        let Some((compared, difference)) = self.difference(index) else { return };
        let made = with_part_of(
            self.now.dance(),
            self.now.motion(),
            &compared.dance,
            &compared.comparison,
            difference,
        );
        let (name, number) = (self.figure_name(difference.figure), difference.dancer);
        let step = format!("take {number}'s part of {name} from {}", compared.name);
        self.edit_taken(step, made);
    }

    fn take_figure(&mut self, index: usize) {
        self.end_drag();
        let Some((compared, difference)) = self.difference(index) else { return };
        let (figure, other) = (difference.figure, difference.other_figure);
        let made = with_figure_of(self.now.dance(), figure, &compared.dance, other);
        let step = format!("take {} from {}", self.figure_name(figure), compared.name);
        self.edit_taken(step, made);
    }

    fn take_taps(&mut self, index: usize) {
        self.end_drag();
        let Some(compared) = &self.compared else { return };
        let differs = compared.comparison.whole.get(index);
        let Some(WholeDifference::Taps { name, figure, other_figure, .. }) = differs else { return };
        let made = with_strikes_of(self.now.dance(), *figure, &compared.dance, *other_figure);
        self.edit_taken(format!("take the taps of {name} from {}", compared.name), made);
    }

    fn edit_taken(&mut self, step: String, made: Result<Dance, TakeError>) {
        match made {
            Ok(dance) if dance == **self.now.dance() => {
                self.notice = Some(
                    "It is written alike already; the figure before it leaves them elsewhere".to_owned(),
                );
            }
            Ok(dance) => self.edit(step, dance),
            Err(error) => self.notice = Some(error.to_string()),
        }
    }
}
