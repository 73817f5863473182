use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One line of the running order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Entry {
    /// The id of the figure danced here.
    pub figure: String,
    /// The strain of the tune it is danced to, such as `A`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub strain: String,
    /// What the foreman calls, if not the figure's name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub call: String,
    /// How many bars before the figure begins the foreman calls it; left out, two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 16))]
    pub call_before: Option<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Entry {
    /// A line that dances a figure, with no strain and no call of its own.
    #[must_use]
    pub fn of(figure: &str) -> Self {
        Self {
            figure: figure.to_owned(),
            strain: String::new(),
            call: String::new(),
            call_before: None,
            extra: Extra::new(),
        }
    }

    /// Bars before a figure begins at which it is called, where nothing else is said: the last two of the figure before (common
    /// practice, no source).
    pub const CALL_BEFORE: f64 = 2.0;

    /// How many bars before its figure begins it is called.
    #[must_use]
    pub fn called_before(&self) -> f64 {
        self.call_before.unwrap_or(Self::CALL_BEFORE)
    }

    /// The call, where it says more than the name of the figure, whatever the case and the stops.
    #[must_use]
    pub fn own_call(&self, name: &str) -> Option<&str> {
        let letters = |text: &str| -> String {
            text.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
        };
        let call = self.call.trim();
        (!call.is_empty() && call != name.trim() && letters(call) != letters(name)).then_some(call)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_call_that_only_repeats_the_name_says_nothing_of_its_own() {
        let own = |call: &str, name: &str| {
            Entry { call: call.to_owned(), ..Entry::of("f") }.own_call(name).map(str::to_owned)
        };
        for repeated in ["Hey", "hey", " Hey! ", "HEY", ""] {
            assert_eq!(own(repeated, "Hey"), None, "{repeated}");
        }
        assert_eq!(own("Cross over", "Cross-over"), None);
        assert_eq!(own("Hey", "Hey for four").as_deref(), Some("Hey"));
        assert_eq!(own(" Hey again", "Hey").as_deref(), Some("Hey again"));
        assert_eq!(own("Hé", "Hê").as_deref(), Some("Hé"));
    }
}
