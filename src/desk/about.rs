use super::{Desk, ask::AboutAsk, purpose::Purpose, question::Question};
use crate::dance::{CleanedTunes, Dance, Extra, Metre, Music, Strain, follow_tune, limits};
use crate::edits::keep_in_bars;
use crate::store;
use std::path::Path;
use std::sync::Arc;

/// What is said of the dance as a whole, and its tune.
impl Desk {
    pub(super) fn apply_about(&mut self, ask: AboutAsk) {
        match ask {
            AboutAsk::Show => {
                self.rest();
                self.asked.ask(Question::ThisDance(None));
            }
            AboutAsk::AskTune => {
                self.rest();
                self.ask_path(Purpose::Tune, None);
            }
            AboutAsk::Listen => self.listen(),
            AboutAsk::SetTitle(text) => self.change_dance("change the title", |dance| dance.title = text),
            AboutAsk::SetSide(text) => self.change_dance("change the side", |dance| dance.side = text),
            AboutAsk::SetTradition(text) => {
                self.change_dance("change the tradition", |dance| dance.tradition = text);
            }
            AboutAsk::SetAuthor(text) => {
                self.change_dance("change who wrote it down", |dance| dance.author = text);
            }
            AboutAsk::SetNotes(text) => {
                self.change_dance("change the notes on the dance", |dance| dance.notes = text);
            }
            AboutAsk::SetHolding(holding) => {
                self.change_dance("change what is held", |dance| dance.holding = holding);
            }
            AboutAsk::SetMetre(metre) => {
                self.change_music("change the metre", |music| music.metre = metre);
            }
            AboutAsk::SetSpeed(speed) => {
                self.change_music("change the speed of the music", |music| music.speed = speed);
            }
            AboutAsk::SetUpbeat(counts) => {
                self.change_music("change the upbeat", |music| music.upbeat = counts);
            }
            AboutAsk::SetTune(abc) => self.set_tune(abc),
            AboutAsk::FollowTune => self.follow_tune(),
            AboutAsk::SetStrain(index, strain) => {
                self.change_music("change a strain", |music| rename_strain(music, index, strain));
            }
            AboutAsk::AddStrain => self.change_music("add a strain", |music| {
                let name = next_name(music);
                let (metre, speeds, extra) = (None, Vec::new(), Extra::new());
                music.strains.push(Strain { name, bars: 8, metre, speeds, extra });
            }),
            AboutAsk::TakeStrain(index) => self.change_music("take a strain away", |music| {
                if index < music.strains.len() {
                    let gone = music.strains.remove(index);
                    music.played.retain(|name| *name != gone.name);
                }
            }),
            AboutAsk::SetPlayed(names) => {
                self.change_music("change the order of the strains", |music| music.played = names);
            }
            AboutAsk::SetSpeeds(figure, speeds) => {
                self.change_figure(figure, "speeds", |figure| figure.speeds = speeds);
            }
            AboutAsk::SetBarMetre(figure, bar, metre) => self.set_bar_metre(figure, bar, metre),
        }
    }

    fn change_dance(&mut self, name: &str, change: impl FnOnce(&mut Dance)) {
        let mut dance = Dance::clone(self.now.dance());
        change(&mut dance);
        self.edit_on(name.to_owned(), dance);
    }

    fn change_music(&mut self, name: &str, change: impl FnOnce(&mut Music)) {
        let mut dance = Dance::clone(self.now.dance());
        change(&mut dance.music);
        self.edit_in_bars(name.to_owned(), dance);
    }

    /// Gives a bar of a figure, from 1, a metre of its own; one that it would have anyhow is none of its own.
    fn set_bar_metre(&mut self, index: usize, bar: u32, metre: Option<Metre>) {
        let mut dance = Dance::clone(self.now.dance());
        let usual = dance.figures.get(index).map(|figure| dance.metre_of(figure));
        let Some(figure) = dance.figures.get_mut(index).filter(|figure| (1..=figure.bars).contains(&bar))
        else {
            self.notice = Some(format!("There is no bar {bar} to give a metre"));
            return;
        };
        match metre.filter(|metre| Some(*metre) != usual) {
            Some(metre) => figure.metres.insert(bar, metre),
            None => figure.metres.remove(&bar),
        };
        let name = format!("change the metre of bar {bar} of {}", figure.name);
        self.edit_in_bars(name, dance);
    }

    /// Makes a change after which bars may have other counts: what is danced in them goes on falling where it fell.
    pub(super) fn edit_in_bars(&mut self, name: String, mut dance: Dance) {
        let before = Arc::clone(self.now.dance());
        let given_up = keep_in_bars(&mut dance, &before);
        let names: Vec<String> = given_up
            .iter()
            .filter_map(|index| dance.figures.get(*index))
            .map(|figure| figure.name.clone())
            .collect();
        self.edit_on(name, dance);
        if !names.is_empty() && self.notice.is_none() {
            let names = names.join(", ");
            self.notice = Some(format!(
                "The stepping written for {names} has no room in these bars; the figure's own is danced"
            ));
        }
    }

    /// Gives the dance a tune. The first one that can be read brings all that a dance is to know of it.
    fn set_tune(&mut self, abc: String) {
        let music = &self.now.dance().music;
        let is_first = music.abc.trim().is_empty() && music.strains.is_empty();
        let mut made = Music { abc, ..music.clone() };
        if is_first && let Ok(followed) = follow_tune(&made) {
            made = followed;
        }
        self.change_music("change the tune", |music| *music = made);
    }

    fn follow_tune(&mut self) {
        match follow_tune(&self.now.dance().music) {
            Ok(made) => self.change_music("have the music as the tune has it", |music| *music = made),
            Err(error) => self.notice = Some(format!("The tune cannot be read: {error}")),
        }
    }

    /// Reads a file that may have tunes in it, and shows them.
    ///
    /// # Errors
    /// Says why it cannot be read.
    pub(super) fn read_tunes(&mut self, path: &Path) -> Result<(), String> {
        let text = store::tune_text(path).map_err(|error| error.to_string())?;
        if CleanedTunes::of(&text).tunes.is_empty() {
            return Err(format!(
                "{}: there is no tune in it; a tune in ABC notation has lines such as M:6/8 and K:G",
                path.display()
            ));
        }
        self.asked.ask(Question::ThisDance(Some(text)));
        Ok(())
    }
}

/// Changes a strain; where its name changes, what is played is called by the new one.
fn rename_strain(music: &mut Music, index: usize, strain: Strain) {
    let Some(slot) = music.strains.get_mut(index) else { return };
    let before = std::mem::replace(slot, strain);
    for name in music.played.iter_mut().filter(|name| **name == before.name) {
        name.clone_from(&slot.name);
    }
}

/// The first letter that no strain is called by.
fn next_name(music: &Music) -> String {
    let is_free = |name: &String| music.strains.iter().all(|strain| strain.name != *name);
    let letters = ('A'..='Z').map(String::from);
    let numbered = (1..=limits::MOST_BARS).map(|number| format!("strain {number}"));
    letters.chain(numbered).find(is_free).unwrap_or_default()
}
