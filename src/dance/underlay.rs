use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::sync::Arc;

/// A photograph or a sketch that lies under the floor, true to scale, to draw over.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Underlay {
    /// Its file, as a path from the folder of the dance, with `/` between; or the whole path. With `inside`, what it was called.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[schemars(length(max = 10_000))]
    pub path: String,
    /// The file itself in base64, where the dance is to be one file: under 1 MB of picture.
    #[serde(default, skip_serializing_if = "Inside::is_empty")]
    #[schemars(length(max = 1_333_336))]
    pub inside: Inside,
    /// SHA-256 of the file, in 64 hexadecimal digits: whether it is still the picture that was set true.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub fingerprint: String,
    /// What in the picture belongs where on the floor: four or more set it true, two do for a flat sketch.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 24))]
    pub marks: Vec<PhotoMark>,
    /// How strong it is.
    #[serde(default, skip_serializing_if = "Strength::is_usual")]
    pub strength: Strength,
    /// Whether it is set: its marks then keep still.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub locked: bool,
    /// The id of the figure that it lies under; left out, it lies under the whole dance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub figure: Option<String>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Underlay {
    /// What it is called: the name of its file.
    #[must_use]
    pub fn name(&self) -> &str {
        let name = self.path.rsplit(['/', '\\']).next().unwrap_or_default();
        if name.is_empty() { "photograph" } else { name }
    }

    /// Whether it lies under a figure, by its id.
    #[must_use]
    pub fn lies_under(&self, figure: Option<&str>) -> bool {
        self.figure.as_deref().is_none_or(|own| Some(own) == figure)
    }
}

/// A place in the picture that belongs to a place on the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PhotoMark {
    /// Pixels from the left edge of the picture, turned as it is looked at.
    #[schemars(range(min = 0, max = 100_000))]
    pub across: f64,
    /// Pixels from its upper edge.
    #[schemars(range(min = 0, max = 100_000))]
    pub down: f64,
    /// Metres to the right of the middle of the set.
    #[schemars(range(min = -1000, max = 1000))]
    pub x: f64,
    /// Metres up from the middle of the set.
    #[schemars(range(min = -1000, max = 1000))]
    pub y: f64,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl PhotoMark {
    /// A mark: pixels across and down the picture, metres right and up on the floor.
    #[must_use]
    pub fn new([across, down]: [f64; 2], [x, y]: [f64; 2]) -> Self {
        Self { across, down, x, y, extra: Extra::new() }
    }
}

/// How strong a photograph is under the floor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Strength {
    /// So that what is drawn over it stands out.
    #[default]
    Faint,
    /// So that it is seen well itself.
    Stronger,
    /// Not at all.
    Hidden,
}

impl Strength {
    /// Every one, the usual one first.
    pub const ALL: [Self; 3] = [Self::Faint, Self::Stronger, Self::Hidden];

    /// Whether this is what a photograph has that does not say.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }

    /// The word for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Faint => "faint",
            Self::Stronger => "stronger",
            Self::Hidden => "hidden",
        }
    }

    /// The next of them, the first after the last.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Faint => Self::Stronger,
            Self::Stronger => Self::Hidden,
            Self::Hidden => Self::Faint,
        }
    }
}

/// The text of a picture that is kept inside its dance. Copies of the dance share it.
#[derive(Clone, Default)]
pub struct Inside(Option<Arc<str>>);

impl Inside {
    /// This text.
    #[must_use]
    pub fn new(text: String) -> Self {
        Self((!text.is_empty()).then(|| text.into()))
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_none()
    }

    /// The text.
    #[must_use]
    pub fn text(&self) -> &str {
        self.0.as_deref().unwrap_or_default()
    }
}

impl PartialEq for Inside {
    fn eq(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Some(one), Some(other)) => Arc::ptr_eq(one, other) || one == other,
            (one, other) => one.is_none() && other.is_none(),
        }
    }
}

impl std::fmt::Debug for Inside {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(to, "Inside({} letters)", self.text().len())
    }
}

impl Serialize for Inside {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.text())
    }
}

impl<'de> Deserialize<'de> for Inside {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Self::new(String::deserialize(deserializer)?))
    }
}

impl JsonSchema for Inside {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Inside".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        String::json_schema(generator)
    }
}
