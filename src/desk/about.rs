use super::{Desk, ask::AboutAsk, purpose::Purpose, question::Question};
use crate::dance::{
    CleanedTunes, Dance, Extra, Figure, Metre, Music, Strain, Tune, follow_tune, limits, shown_name,
};
use crate::edits::{is_once_to_yourself, with_once_to_yourself, without_once_to_yourself};
use crate::store;
use std::path::Path;

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
            AboutAsk::SetOnceToYourself(wanted) => self.set_once_to_yourself(wanted),
            AboutAsk::SetNotes(text) => {
                self.change_dance("change the notes on the dance", |dance| dance.notes = text);
            }
            AboutAsk::SetHolding(holding) => {
                self.change_dance("change what is held", |dance| dance.holding = holding);
            }
            AboutAsk::SetGrip(grip) => {
                self.change_dance("change how the sticks are held", |dance| dance.grip = grip);
            }
            AboutAsk::SetHeight(height) => {
                self.change_dance("change how tall the dancers are", |dance| dance.height = height);
            }
            AboutAsk::SetMetre(metre) => {
                self.change_music("change the metre", |music| {
                    music.metre = metre;
                    music.upbeat = music.upbeat.min(metre.counts());
                });
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
                let name = format!("change strain {}", shown_name(&strain.name));
                self.change_dance(&name, |dance| change_strain(dance, index, strain));
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

    fn set_once_to_yourself(&mut self, wanted: bool) {
        let dance = self.now.dance();
        match (wanted, is_once_to_yourself(dance)) {
            (true, false) => {
                let made = with_once_to_yourself(dance);
                self.reorder("begin with once to yourself".to_owned(), made, |line| Some(line + 1));
            }
            (false, true) => {
                let made = without_once_to_yourself(dance);
                self.reorder("begin with the dancing".to_owned(), made, |line| line.checked_sub(1));
            }
            _ => {}
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
        self.edit_on(name.to_owned(), dance);
    }

    /// Gives a bar of a figure, from 1, a metre of its own; one that it would have anyhow is none of its own.
    fn set_bar_metre(&mut self, index: usize, bar: u32, metre: Option<Metre>) {
        let mut dance = Dance::clone(self.now.dance());
        let usual = dance.figures.get(index).map(|figure| dance.metre_of(figure));
        // One that a longer figure had can be taken away too.
        let is_there = |figure: &&mut Figure| {
            (1..=figure.bars).contains(&bar) || (metre.is_none() && figure.metres.contains_key(&bar))
        };
        let Some(figure) = dance.figures.get_mut(index).filter(is_there) else {
            self.notice = Some(format!("There is no bar {bar} to give a metre"));
            return;
        };
        match metre.filter(|metre| Some(*metre) != usual) {
            Some(metre) => figure.metres.insert(bar, metre),
            None => figure.metres.remove(&bar),
        };
        let name = format!("change the metre of bar {bar} of {}", figure.name);
        self.edit_on(name, dance);
    }

    /// Gives the dance a tune. For as long as it has all as its tune has it, it goes on doing so, letter by letter.
    fn set_tune(&mut self, abc: String) {
        let music = &self.now.dance().music;
        let follows = match follow_tune(music) {
            Ok(followed) => followed == *music,
            // None was read before, and nothing said that goes with one.
            Err(_) => music.strains.is_empty() && music.played.is_empty(),
        };
        let mut made = Music { abc, ..music.clone() };
        if follows {
            // What the tune before had of a strain's speed goes with it.
            let before = Tune::read(&music.abc).ok();
            let mut bare = made.clone();
            for strain in &mut bare.strains {
                let had = before.as_ref().and_then(|tune| tune.strain(&strain.name));
                strain.speeds.retain(|_| had.is_none_or(|had| had.speeds.is_empty()));
            }
            if let Ok(followed) = follow_tune(&bare) {
                made = followed;
            }
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

/// Changes a strain; where its name changes, what is played and danced to it is called by the new one.
fn change_strain(dance: &mut Dance, index: usize, strain: Strain) {
    let Some(slot) = dance.music.strains.get_mut(index) else { return };
    let new = strain.name.clone();
    let before = std::mem::replace(slot, strain).name;
    let lines = dance.order.iter_mut().map(|entry| &mut entry.strain);
    for name in dance.music.played.iter_mut().chain(lines) {
        if before != new && name.trim().eq_ignore_ascii_case(&before) {
            name.clone_from(&new);
        }
    }
}

/// The first letter that no strain is called by.
fn next_name(music: &Music) -> String {
    let is_free = |name: &String| music.strains.iter().all(|strain| strain.name != *name);
    let letters = ('A'..='Z').map(String::from);
    let numbered = (1..=limits::MOST_BARS).map(|number| format!("strain {number}"));
    letters.chain(numbered).find(is_free).unwrap_or_default()
}
