use super::{Choice, Choices, FigureError, Kind};
use crate::dance::{Number, Person};
use crate::motion::{Ground, Plan};

/// A figure that is known by name.
pub struct NamedFigure {
    /// The name that files and the command line use.
    pub name: &'static str,
    /// The name that people read.
    pub title: &'static str,
    /// What people call it where a word has been chosen for a key: the key, the word and the title.
    pub titles: &'static [(&'static str, &'static str, &'static str)],
    /// What it is, in a line.
    pub help: &'static str,
    /// What a side can choose about it.
    pub choices: &'static [Choice],
    /// What everybody does in it on a ground.
    pub(super) plan: fn(&Ground, &Choices) -> Result<Plan, FigureError>,
}

impl NamedFigure {
    /// The name that people read, as a side has chosen it, of which these dance it: `Foot up twice`, `Solo of Wat`.
    #[must_use]
    pub fn title_with(&self, choices: &Choices, people: &[Person]) -> String {
        let one = self.choices.iter().find_map(|choice| match choice.kind {
            Kind::Dancer { title, .. } => {
                Some((title, Number(choices.number(choice.key) as u32))).filter(|(_, number)| number.0 > 0)
            }
            Kind::Number { .. } | Kind::Word(_) => None,
        });
        if let Some((title, number)) = one {
            let person = people.iter().find(|person| person.number == number);
            let name = person.map(|person| person.name.trim()).filter(|name| !name.is_empty());
            return name.map_or_else(|| format!("{title} {number}"), |name| format!("{title} {name}"));
        }
        let own = self.titles.iter().find(|(key, word, _)| choices.word(key) == *word);
        own.map_or(self.title, |(_, _, title)| title).to_owned()
    }
}
