//! What may be meant by a word that is being typed: offered over the field, to take with the mouse, or with Down and Enter.

use super::step_words::{begun_name, mistaken_name, near_name};
use crate::dance::nearest;
use egui::widgets::text_edit::TextEditOutput;
use egui::{Id, Key, Modifiers, Popup, PopupCloseBehavior, Rect, RectAlign, RichText, Ui};
use std::ops::Range;

/// A name that can be typed, and what it means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Name {
    pub short: String,
    pub long: String,
}

/// Names offered at the most.
const MOST: usize = 6;

/// The word at a place in a text, letters from its start: what lies between blanks and commas.
#[must_use]
pub fn word_at(text: &str, place: usize) -> Range<usize> {
    let letters: Vec<char> = text.chars().collect();
    let parts = |letter: &char| letter.is_whitespace() || *letter == ',';
    let place = place.min(letters.len());
    let before = letters.get(..place).unwrap_or_default();
    let after = letters.get(place..).unwrap_or_default();
    let begin = before.iter().rposition(parts).map_or(0, |at| at + 1);
    begin..place + after.iter().position(parts).unwrap_or(after.len())
}

/// The names that a word may be the beginning of, by their short name or a word of the long one; where it is none, the one
/// that it is nearest to. Nothing for a word that is a name already.
#[must_use]
pub fn offered<'a>(word: &str, names: &'a [Name]) -> Vec<&'a Name> {
    let word = word.to_lowercase();
    let is_begun = |name: &&Name| {
        // Of a name of several words that has been begun.
        (word.contains(' ') && name.long.to_lowercase().starts_with(&word))
            || name.short.starts_with(&word)
            || name.long.split([' ', '-']).any(|part| part.starts_with(&word))
    };
    if word.is_empty()
        || word.chars().all(|letter| letter.is_ascii_digit())
        || names.iter().any(|name| name.short == word)
    {
        return Vec::new();
    }
    let begun: Vec<&Name> = names.iter().filter(is_begun).take(MOST).collect();
    if !begun.is_empty() {
        return begun;
    }
    let near = nearest(&word, names.iter().map(|name| name.short.as_str()));
    let by_letters = names.iter().find(|name| Some(name.short.as_str()) == near);
    by_letters.or_else(|| near_name(&word, names)).into_iter().collect()
}

/// The offers of a field: which of them is lit.
#[derive(Clone, Copy, Default)]
struct Lit(Option<usize>);

/// What the keys do to the offers of a field, before the field itself sees them: Down and Up go through them, Enter takes the
/// one that is lit. Gives whether it is to be taken.
pub fn take_keys(ui: &Ui, field: Id) -> bool {
    let name = field.with("offers");
    let many: usize = ui.data(|data| data.get_temp(name.with("many"))).unwrap_or(0);
    if many == 0 || !ui.memory(|memory| memory.has_focus(field)) {
        return false;
    }
    let Lit(lit) = ui.data(|data| data.get_temp(name)).unwrap_or_default();
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let lit = if pressed(Key::ArrowDown) {
        Some(lit.map_or(0, |lit| (lit + 1) % many))
    } else if pressed(Key::ArrowUp) {
        Some(lit.map_or(many - 1, |lit| (lit + many - 1) % many))
    } else {
        lit
    };
    ui.data_mut(|data| data.insert_temp(name, Lit(lit)));
    lit.is_some() && pressed(Key::Enter)
}

/// Shows what may be meant by the word at the cursor of a field; gives the text with the one that was taken in its place, and
/// where the cursor is then. `take` is what [`take_keys`] gave.
pub fn show(
    ui: &Ui,
    field: &TextEditOutput,
    text: &str,
    names: &[Name],
    take: bool,
) -> Option<(String, usize)> {
    let response = &field.response.response;
    let name = response.id.with("offers");
    // A click takes the focus from the field before it is a click: until then the offers stay under the pointer.
    let known: Option<(Rect, usize)> = ui.data(|data| data.get_temp(name.with("shown")));
    let pointer = ui.input(|input| input.pointer.interact_pos());
    let clicked = known.filter(|(rect, _)| pointer.is_some_and(|at| rect.contains(at)));
    let cursor = match field.cursor_range.filter(|_| response.has_focus()) {
        Some(range) => Some(range.primary.index.into()),
        None => clicked.map(|(_, cursor)| cursor),
    };
    let several = cursor.and_then(|cursor: usize| {
        begun_name(text, cursor, names).or_else(|| mistaken_name(text, cursor, names))
    });
    let place = several.clone().or_else(|| cursor.map(|cursor: usize| word_at(text, cursor)));
    let word: String = place
        .clone()
        .map_or_else(String::new, |place| text.chars().skip(place.start).take(place.len()).collect());
    let offers = offered(&word, names);
    ui.data_mut(|data| data.insert_temp(name.with("many"), offers.len()));
    let (Some(place), false) = (place, offers.is_empty()) else {
        ui.data_mut(|data| {
            data.insert_temp(name, Lit::default());
            data.remove::<(Rect, usize)>(name.with("shown"));
        });
        return None;
    };
    let Lit(lit) = ui.data(|data| data.get_temp(name)).unwrap_or_default();
    let mut taken = lit.filter(|_| take);
    let shown = Popup::from_response(response)
        .id(name.with("popup"))
        .open(true)
        .align(RectAlign::TOP_START)
        .close_behavior(PopupCloseBehavior::IgnoreClicks)
        .show(|ui| {
            for (index, offer) in offers.iter().enumerate() {
                let words = format!("{}  {}", offer.short, offer.long);
                if ui.selectable_label(lit == Some(index), RichText::new(words).small()).clicked() {
                    taken = Some(index);
                }
            }
        });
    if let (Some(shown), Some(cursor)) = (shown, cursor) {
        ui.data_mut(|data| data.insert_temp(name.with("shown"), (shown.response.rect.expand(4.0), cursor)));
    }
    let offer = taken.and_then(|index| offers.get(index))?;
    ui.data_mut(|data| data.insert_temp(name, Lit::default()));
    let mut letters: Vec<char> = text.chars().collect();
    letters.splice(place.clone(), offer.short.chars());
    Some((letters.into_iter().collect(), place.start + offer.short.chars().count()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names() -> Vec<Name> {
        [
            ("ds", "double step"),
            ("ss", "single step"),
            ("sh", "step and three hops"),
            ("ftj", "feet-together jump"),
        ]
        .map(|(short, long)| Name { short: short.to_owned(), long: long.to_owned() })
        .to_vec()
    }

    #[test]
    fn the_word_at_the_cursor_is_found() {
        assert_eq!(word_at("2 ds, 2 s", 9), 8..9);
        assert_eq!(word_at("2 ds, 2 s", 3), 2..4);
        assert_eq!(word_at("2 ds, ", 6), 6..6);
        assert_eq!(word_at("", 4), 0..0);
        assert_eq!(word_at("é ü", 99), 2..3);
    }

    #[test]
    fn names_are_offered_by_either_name_and_the_nearest_for_a_mistake() {
        let names = names();
        let short =
            |word: &str| offered(word, &names).iter().map(|name| name.short.clone()).collect::<Vec<_>>();
        assert_eq!(short("s"), ["ds", "ss", "sh"]);
        assert_eq!(short("jump"), ["ftj"]);
        assert_eq!(short("Dou"), ["ds"]);
        assert_eq!(short("ftk"), ["ftj"]);
        assert_eq!(short("single stpe"), ["ss"], "by the whole name, with a slip");
        for nothing in ["", "2", "ds", "polka"] {
            assert!(short(nothing).is_empty(), "{nothing}");
        }
    }
}
