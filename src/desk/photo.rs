use super::{Desk, ask::PhotoAsk, purpose::Purpose, question::Question};
use crate::dance::{Dance, Inside, PhotoMark, Strength, Underlay, limits, rounded, shown_name};
use crate::picture::FloorFit;
use base64::{Engine, engine::general_purpose::STANDARD};

/// Photographs under the floor.
impl Desk {
    pub(super) fn apply_photo(&mut self, ask: PhotoAsk) {
        match ask {
            PhotoAsk::AskFile => {
                self.rest();
                self.ask_path(Purpose::Photo, None);
            }
            PhotoAsk::Lay(path) => self.lay_file(&path, None),
            PhotoAsk::Paste(pasted) => self.lay_pasted(pasted),
            PhotoAsk::Show(photo) => self.show_photo(photo),
            PhotoAsk::MarkAt { photo, mark, across, down } => {
                let most = limits::MOST_PIXEL;
                let size = self.photograph(photo).map_or([most; 2], |known| known.size.map(f64::from));
                let within = |value: f64, most: f64| (value.clamp(0.0, most) * 10.0).round() / 10.0;
                self.change_mark(photo, mark, |own| {
                    (own.across, own.down) = (within(across, size[0]), within(down, size[1]));
                });
            }
            PhotoAsk::PlaceAt { photo, mark, x, y, reach } => {
                let [x, y] = self.caught_on_spot([x, y], reach);
                self.change_mark(photo, mark, |own| {
                    (own.x, own.y) = (rounded(x, 1000.0), rounded(y, 1000.0));
                });
            }
            PhotoAsk::Marks(photo, many) => self.have_marks(photo, many),
            PhotoAsk::Lock(photo, locked) => self.lock_photo(photo, locked),
            PhotoAsk::Strength(photo, strength) => {
                let words = strength.words();
                self.change_photo(photo, words, |own| own.strength = strength);
            }
            PhotoAsk::NextStrength => self.next_strength(),
            PhotoAsk::OneFigure(photo, alone) => self.lay_under_figure(photo, alone),
            PhotoAsk::KeepInside(photo, inside) => self.keep_inside(photo, inside),
            PhotoAsk::TakeAway(photo) => {
                let Some(name) = self.name_of_photo(photo) else { return };
                let mut dance = Dance::clone(self.now.dance());
                dance.underlay.remove(photo);
                self.edit(format!("take {name} away"), dance);
                self.notice = Some(format!("{name} no longer lies under the floor; undo brings it back"));
                if matches!(self.asked.question(), Some(Question::Photo(_))) {
                    self.asked.put_away();
                }
            }
        }
    }

    /// What a photograph is called; where there is none of this number that is said.
    fn name_of_photo(&mut self, photo: usize) -> Option<String> {
        let name = self.now.dance().underlay.get(photo).map(|own| shown_name(own.name()));
        if name.is_none() {
            self.notice = Some("there is no such photograph under the floor".to_owned());
        }
        name
    }

    pub(super) fn show_photo(&mut self, photo: usize) {
        if self.name_of_photo(photo).is_some() {
            self.rest();
            self.asked.ask(Question::Photo(photo));
        }
    }

    /// Changes a photograph, as a step to undo.
    fn change_photo(&mut self, photo: usize, what: &str, change: impl FnOnce(&mut Underlay)) {
        let Some(name) = self.name_of_photo(photo) else { return };
        let mut dance = Dance::clone(self.now.dance());
        if let Some(own) = dance.underlay.get_mut(photo) {
            change(own);
        }
        if dance == **self.now.dance() {
            self.notice = Some(format!("{name} is so already"));
            return;
        }
        self.edit(format!("have {name} {what}"), dance);
    }

    /// Changes a mark of a photograph that is not set; what is done with one mark at one go is one step to undo.
    fn change_mark(&mut self, photo: usize, mark: usize, change: impl FnOnce(&mut PhotoMark)) {
        let Some(name) = self.name_of_photo(photo) else { return };
        let mut dance = Dance::clone(self.now.dance());
        let Some(own) = dance.underlay.get_mut(photo) else { return };
        if own.locked {
            self.notice = Some(format!("{name} is set: set it free to move its marks"));
            return;
        }
        let Some(known) = own.marks.get_mut(mark) else {
            self.notice = Some(format!("{name} has no mark {}", mark.saturating_add(1)));
            return;
        };
        change(known);
        if dance == **self.now.dance() {
            return;
        }
        self.edit_on(format!("move mark {} of {name}", mark + 1), dance);
    }

    /// A place, or the spot that is within reach of it, metres.
    fn caught_on_spot(&self, [x, y]: [f64; 2], reach: f64) -> [f64; 2] {
        let far = |stand: &crate::motion::Stand| (stand.x - x).hypot(stand.y - y);
        let stands = self.now.motion().ground().stands.iter();
        let near = stands.min_by(|one, other| far(one).total_cmp(&far(other)));
        near.filter(|stand| far(stand) < reach).map_or([x, y], |stand| [stand.x, stand.y])
    }

    /// Has so many marks: what is more goes, what is missing comes in the middle of the picture.
    fn have_marks(&mut self, photo: usize, many: usize) {
        let many = many.clamp(2, limits::MOST_MARKS);
        let fit = self.photograph_fit(photo).ok();
        let size = self.photograph(photo).map_or([100.0; 2], |known| known.size.map(f64::from));
        let first = self.first_marks(size);
        if self.now.dance().underlay.get(photo).is_some_and(|own| own.locked) {
            self.notice = Some("it is set: set it free to have other marks".to_owned());
            return;
        }
        self.change_photo(photo, &format!("set by {many} marks"), |own| {
            own.marks.truncate(many);
            while own.marks.len() < many {
                // Where too few are there to tell a place by, as when it is laid.
                let known = first.get(own.marks.len()).filter(|_| fit.is_none());
                let pixel = added_pixel(own.marks.len(), size);
                let place = fit.and_then(|fit| fit.to_floor(pixel)).unwrap_or_default();
                let added = PhotoMark::new(pixel, place.map(|metres| rounded(metres, 1000.0)));
                own.marks.push(known.cloned().unwrap_or(added));
            }
        });
    }

    /// The marks of a photograph, from 0, that are still where they were put at first, so that nothing is known by them.
    #[must_use]
    pub fn fresh_marks(&self, photo: usize) -> Vec<usize> {
        let Some(own) = self.now.dance().underlay.get(photo) else { return Vec::new() };
        let Some(known) = self.photograph(photo) else { return Vec::new() };
        let size = known.size.map(f64::from);
        let first = self.first_marks(size);
        // What the first so many of them say, and what all but one: an added one was given the place that they said then.
        let by_first: Vec<FloorFit> =
            (2..own.marks.len()).filter_map(|many| FloorFit::of(own.marks.get(..many)?).ok()).collect();
        let is_fresh = |(index, mark): &(usize, &PhotoMark)| {
            if first.get(*index) == Some(*mark) {
                return true;
            }
            let pixel = [mark.across, mark.down];
            if pixel != added_pixel(*index, size) {
                return false;
            }
            let mut others = own.marks.clone();
            others.remove(*index);
            let by_others = FloorFit::of(&others).ok();
            by_first
                .iter()
                .chain(&by_others)
                .any(|fit| fit.to_floor(pixel).is_some_and(|[x, y]| (mark.x - x).hypot(mark.y - y) < 0.002))
        };
        own.marks.iter().enumerate().filter(is_fresh).map(|(index, _)| index).collect()
    }

    fn lock_photo(&mut self, photo: usize, locked: bool) {
        if locked && let Err(why) = self.photograph_fit(photo) {
            if let Some(name) = self.name_of_photo(photo) {
                self.notice = Some(format!("{name} is not set: {why}"));
            }
            return;
        }
        self.change_photo(photo, if locked { "set" } else { "free" }, |own| own.locked = locked);
    }

    fn next_strength(&mut self) {
        let here: Vec<usize> = self.photographs_here().iter().map(|here| here.index).collect();
        let first = here.first().and_then(|index| self.now.dance().underlay.get(*index));
        let Some(next) = first.map(|photo| photo.strength.next()) else {
            self.notice =
                Some("no photograph lies under this floor; right click the floor to lay one".to_owned());
            return;
        };
        let mut dance = Dance::clone(self.now.dance());
        let own = dance.underlay.iter_mut().enumerate().filter(|(index, _)| here.contains(index));
        own.for_each(|(_, photo)| photo.strength = next);
        self.edit(format!("have the photographs {}", next.words()), dance);
        if next == Strength::Hidden {
            self.notice = Some("the photographs are hidden (P)".to_owned());
        }
    }

    fn lay_under_figure(&mut self, photo: usize, alone: bool) {
        let dance = self.now.dance();
        let figure = self.span_here().and_then(|span| dance.figures.get(span.figure));
        let figure = figure.map(|figure| (figure.id.clone(), shown_name(&figure.name)));
        match figure {
            _ if !alone => self.change_photo(photo, "under the whole dance", |own| own.figure = None),
            Some((id, name)) => {
                self.change_photo(photo, &format!("under {name} alone"), |own| own.figure = Some(id));
            }
            None => self.notice = Some("nothing is danced here that it could lie under".to_owned()),
        }
    }

    fn keep_inside(&mut self, photo: usize, inside: bool) {
        let Some(name) = self.name_of_photo(photo) else { return };
        let Some(own) = self.now.dance().underlay.get(photo) else { return };
        let bytes = self.photo_bytes(own);
        if !inside {
            if bytes.is_none() && !own.inside.is_empty() {
                self.notice = Some(format!("{name} has no file of its own: it stays inside the dance"));
                return;
            }
            return self.change_photo(photo, "beside the dance", |own| own.inside = Inside::default());
        }
        match bytes {
            Some(bytes) if bytes.len() <= limits::MOST_INSIDE => {
                let text = Inside::new(STANDARD.encode(&bytes));
                self.change_photo(photo, "inside the dance", |own| own.inside = text);
            }
            Some(_) => {
                self.notice = Some(format!("{name} is larger than 1 MB: it stays beside the dance"));
            }
            None => self.notice = Some(format!("{name} has no file that could be read")),
        }
    }
}

/// Where on a picture of so many pixels the mark of this number comes, from 0: near its middle, no two on one place.
fn added_pixel(number: usize, size: [f64; 2]) -> [f64; 2] {
    let step = number as f64;
    let across = size[0] * (0.5 + 0.06 * (step * 2.4).cos() * step.sqrt());
    let down = size[1] * (0.5 + 0.06 * (step * 2.4).sin() * step.sqrt());
    [across, down].map(f64::round)
}
