//! How a file says who strikes and who is struck: one word, or the number of a place.

use super::{PlaceNumber, Striker, Struck};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{Error, Visitor},
};
use std::{borrow::Cow, fmt};

/// What is one of some words, or a place.
trait WordOrPlace: Copy + PartialEq + 'static {
    /// What is expected where a word is none of them.
    const WANTED: &'static str;
    fn words() -> &'static [(&'static str, Self)];
    fn of_place(place: PlaceNumber) -> Self;
    fn place(self) -> Option<PlaceNumber>;
}

impl WordOrPlace for Striker {
    const WANTED: &'static str = "`odds`, `evens`, `all` or the number of a place";

    fn words() -> &'static [(&'static str, Self)] {
        &Self::WORDS
    }

    fn of_place(place: PlaceNumber) -> Self {
        Self::Place(place)
    }

    fn place(self) -> Option<PlaceNumber> {
        if let Self::Place(place) = self { Some(place) } else { None }
    }
}

impl WordOrPlace for Struck {
    const WANTED: &'static str =
        "`partner`, `opposite`, `up`, `down`, `ground`, `self` or the number of a place";

    fn words() -> &'static [(&'static str, Self)] {
        &Self::WORDS
    }

    fn of_place(place: PlaceNumber) -> Self {
        Self::Place(place)
    }

    fn place(self) -> Option<PlaceNumber> {
        if let Self::Place(place) = self { Some(place) } else { None }
    }
}

fn written<T: WordOrPlace, S: Serializer>(value: T, serializer: S) -> Result<S::Ok, S::Error> {
    match (value.place(), T::words().iter().find(|(_, known)| *known == value)) {
        (Some(place), _) => place.serialize(serializer),
        (None, Some((word, _))) => serializer.serialize_str(word),
        (None, None) => serializer.serialize_none(),
    }
}

fn read<'de, T: WordOrPlace, D: Deserializer<'de>>(deserializer: D) -> Result<T, D::Error> {
    struct Read<T>(std::marker::PhantomData<T>);

    impl<T: WordOrPlace> Visitor<'_> for Read<T> {
        type Value = T;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str(T::WANTED)
        }

        fn visit_str<E: Error>(self, word: &str) -> Result<T, E> {
            let known = T::words().iter().find(|(known, _)| *known == word);
            known
                .map(|(_, value)| *value)
                .ok_or_else(|| E::custom(format!("unknown word `{word}`, expected {}", T::WANTED)))
        }

        fn visit_u64<E: Error>(self, number: u64) -> Result<T, E> {
            u32::try_from(number)
                .map(|number| T::of_place(PlaceNumber(number)))
                .map_err(|_| E::custom(format!("{number} is no place, expected {}", T::WANTED)))
        }
    }
    deserializer.deserialize_any(Read(std::marker::PhantomData))
}

fn schema_of<T: WordOrPlace>(description: &str) -> Schema {
    let words: Vec<&str> = T::words().iter().map(|(word, _)| *word).collect();
    json_schema!({
        "description": description,
        "anyOf": [{"enum": words}, {"type": "integer", "minimum": 1, "maximum": super::limits::MOST_DANCERS}]
    })
}

impl Serialize for Striker {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        written(*self, serializer)
    }
}

impl<'de> Deserialize<'de> for Striker {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        read(deserializer)
    }
}

impl JsonSchema for Striker {
    fn schema_name() -> Cow<'static, str> {
        "Striker".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schema_of::<Self>("Who strikes: whoever dances in a place (its number), or some of them all.")
    }
}

impl Serialize for Struck {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        written(*self, serializer)
    }
}

impl<'de> Deserialize<'de> for Struck {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        read(deserializer)
    }
}

impl JsonSchema for Struck {
    fn schema_name() -> Cow<'static, str> {
        "Struck".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schema_of::<Self>(
            "On whom or what: somebody, the ground, oneself, or whoever dances in a place (its number).",
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_numbers_are_read_and_written_as_they_were() {
        for text in [r#""odds""#, r#""evens""#, r#""all""#, "4"] {
            let read: Striker = serde_json::from_str(text).unwrap();
            assert_eq!(serde_json::to_string(&read).unwrap(), text);
        }
        for text in
            [r#""partner""#, r#""opposite""#, r#""up""#, r#""down""#, r#""ground""#, r#""self""#, "12"]
        {
            let read: Struck = serde_json::from_str(text).unwrap();
            assert_eq!(serde_json::to_string(&read).unwrap(), text);
        }
    }

    #[test]
    fn what_is_neither_is_told_with_what_was_expected() {
        for (text, wrong) in [
            (r#""partnr""#, "unknown word `partnr`"),
            ("-1", "integer `-1`"),
            ("[]", "sequence"),
            ("5000000000", "is no place"),
        ] {
            let said = serde_json::from_str::<Struck>(text).unwrap_err().to_string();
            assert!(said.contains(wrong) && said.contains("`partner`, `opposite`"), "{said}");
        }
        let said = serde_json::from_str::<Striker>(r#""both""#).unwrap_err().to_string();
        assert!(said.contains("expected `odds`, `evens`, `all` or the number of a place"), "{said}");
    }
}
