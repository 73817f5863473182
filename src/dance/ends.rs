use super::Stance;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{Error, SeqAccess, Visitor},
};
use std::{borrow::Cow, fmt};

/// Where everyone is to be when a figure ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndsIn {
    /// Each in the spot in which they began it.
    Home,
    /// Everyone in some spot of the set, each spot taken by one: people have changed places.
    Places,
    /// Wherever they are.
    Anywhere,
}

/// How a figure ends, as far as its file says: one word, or a list of two, such as `["places", "column"]`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Ends {
    /// Where everyone is; left out, what the named figure says, or home.
    pub spots: Option<EndsIn>,
    /// Which way the set faces; left out, what the named figure says, or front.
    pub stance: Option<Stance>,
}

/// What is expected where a word is none of these.
const WANTED: &str = "`home`, `places` or `anywhere`, `front`, `column` or `reversed`, or a list of one of the first and one of the last";

impl EndsIn {
    /// Every one, the usual one first.
    pub const ALL: [Self; 3] = [Self::Home, Self::Places, Self::Anywhere];

    /// The word that files use.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Home => "home",
            Self::Places => "places",
            Self::Anywhere => "anywhere",
        }
    }

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Home => "home",
            Self::Places => "in new places",
            Self::Anywhere => "anywhere",
        }
    }
}

impl Ends {
    /// Whether the file says nothing of it.
    #[must_use]
    pub fn is_unsaid(&self) -> bool {
        *self == Self::default()
    }

    /// Takes a word in; gives whether there was one like it before, or it is not known.
    fn take(&mut self, word: &str) -> Result<(), String> {
        let twice =
            |known: &str| format!("`{word}` comes after `{known}`, which says the same kind of thing");
        if let Some(spots) = EndsIn::ALL.into_iter().find(|spots| spots.key() == word) {
            return match self.spots.replace(spots) {
                Some(known) => Err(twice(known.key())),
                None => Ok(()),
            };
        }
        if let Some(stance) = Stance::ALL.into_iter().find(|stance| stance.key() == word) {
            return match self.stance.replace(stance) {
                Some(known) => Err(twice(known.key())),
                None => Ok(()),
            };
        }
        Err(format!("unknown word `{word}`"))
    }
}

impl Serialize for Ends {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match (self.spots.map(EndsIn::key), self.stance.map(Stance::key)) {
            (Some(spots), Some(stance)) => [spots, stance].serialize(serializer),
            (Some(word), None) | (None, Some(word)) => word.serialize(serializer),
            (None, None) => serializer.serialize_none(),
        }
    }
}

impl<'de> Deserialize<'de> for Ends {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Words;
        impl<'de> Visitor<'de> for Words {
            type Value = Ends;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(WANTED)
            }

            fn visit_str<E: Error>(self, word: &str) -> Result<Ends, E> {
                let mut ends = Ends::default();
                ends.take(word).map_err(|wrong| E::custom(format!("{wrong}, expected {WANTED}")))?;
                Ok(ends)
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut words: A) -> Result<Ends, A::Error> {
                let mut ends = Ends::default();
                while let Some(word) = words.next_element::<Cow<'de, str>>()? {
                    ends.take(&word)
                        .map_err(|wrong| A::Error::custom(format!("{wrong}, expected {WANTED}")))?;
                }
                if ends.is_unsaid() {
                    return Err(A::Error::custom(format!("an empty list, expected {WANTED}")));
                }
                Ok(ends)
            }

            fn visit_unit<E: Error>(self) -> Result<Ends, E> {
                Ok(Ends::default())
            }
        }
        deserializer.deserialize_any(Words)
    }
}

impl JsonSchema for Ends {
    fn schema_name() -> Cow<'static, str> {
        "Ends".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let spots = EndsIn::ALL.map(EndsIn::key);
        let stances = Stance::ALL.map(Stance::key);
        let words: Vec<&str> = spots.into_iter().chain(stances).collect();
        let pair = |first: &[&str], second: &[&str]| {
            json_schema!({
                "type": "array",
                "prefixItems": [{"enum": first}, {"enum": second}],
                "minItems": 1,
                "maxItems": 2
            })
        };
        json_schema!({
            "description": "How a figure ends: where everyone is (`home`, each in the spot in which they began; \
        `places`, everyone in some spot of the set; or `anywhere`), which way the set faces (`front`, \
        `column` or `reversed`, a column that faces down), or both in a list.",
            "anyOf": [
                {"enum": words},
                pair(&spots, &stances),
                pair(&stances, &spots),
                {"type": "null"}
            ]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Ends, String> {
        serde_json::from_str(text).map_err(|error| error.to_string())
    }

    #[test]
    fn one_word_or_two_are_read_and_written_as_they_were() {
        for (text, spots, stance) in [
            (r#""home""#, Some(EndsIn::Home), None),
            (r#""places""#, Some(EndsIn::Places), None),
            (r#""anywhere""#, Some(EndsIn::Anywhere), None),
            (r#""front""#, None, Some(Stance::Front)),
            (r#""column""#, None, Some(Stance::Column)),
            (r#""reversed""#, None, Some(Stance::Reversed)),
            (r#"["places","column"]"#, Some(EndsIn::Places), Some(Stance::Column)),
            (r#"["anywhere","front"]"#, Some(EndsIn::Anywhere), Some(Stance::Front)),
        ] {
            let ends = Ends { spots, stance };
            assert_eq!(read(text), Ok(ends), "{text}");
            assert_eq!(serde_json::to_string(&ends).unwrap(), text);
        }
        let turned = Ends { spots: Some(EndsIn::Places), stance: Some(Stance::Column) };
        assert_eq!(read(r#"["column", "places"]"#), Ok(turned), "the order of the two does not matter");
        assert_eq!(read(r#"["places"]"#), read(r#""places""#));
        assert_eq!(read("null"), Ok(Ends::default()));
    }

    #[test]
    fn what_is_neither_is_told_with_what_was_expected() {
        for (text, wrong) in [
            (r#""hoem""#, "unknown word `hoem`"),
            (r#"["places", "home"]"#, "`home` comes after `places`"),
            (r#"["column", "column"]"#, "`column` comes after `column`"),
            (r#"["places", "sideways"]"#, "unknown word `sideways`"),
            ("[]", "an empty list"),
            ("3", "integer `3`"),
            ("{}", "map"),
        ] {
            let said = read(text).unwrap_err();
            assert!(said.contains(wrong), "{said}");
            assert!(
                said.contains("expected `home`, `places` or `anywhere`, `front`, `column` or `reversed`"),
                "{said}"
            );
        }
    }
}
