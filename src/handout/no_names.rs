use crate::dance::Dance;

/// A dance without the names of people, for a handout that goes round: neither who dances which number nor who wrote it down. Which hand
/// holds a stick stays; notes stay as they are.
#[must_use]
pub fn without_names(mut dance: Dance) -> Dance {
    dance.author.clear();
    dance.people.iter_mut().for_each(|person| person.name.clear());
    dance
}
