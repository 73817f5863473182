use super::limits::HEIGHT;
use super::{
    BarCounts, ClearFloor, Entry, Extra, FaultLimits, Figure, Grip, Holding, LeadRule, Leg, Metre, Music,
    Number, OwnStep, Part, Person, Set, Strain, Strike, Underlay,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The version of the dance file that this program writes.
pub const VERSION: u32 = 2;

/// A whole dance, as its file says it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Bellpad dance")]
pub struct Dance {
    /// The version of this file format.
    #[serde(rename = "bellpad", deserialize_with = "super::read::read_version")]
    #[schemars(range(min = 1, max = 2))]
    pub version: u32,
    /// What the dance is called.
    #[schemars(length(max = 10_000))]
    pub title: String,
    /// The side that dances it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub side: String,
    /// The tradition it is danced in.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tradition: String,
    /// Who wrote it down.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub author: String,
    /// The side's own notes.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// What the dancers hold.
    #[serde(default, skip_serializing_if = "Holding::is_usual")]
    pub holding: Holding,
    /// How the sticks are held.
    #[serde(default, skip_serializing_if = "Grip::is_usual")]
    pub grip: Grip,
    /// How tall the dancers are, metres; left out, 1.72. Their legs and arms are as long as ever; trunk, neck and head are longer or shorter.
    #[serde(default = "usual_height", skip_serializing_if = "is_usual_height")]
    #[schemars(range(min = 1.4, max = 2.1))]
    pub height: f64,
    /// Which foot starts, in this tradition, where no figure says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<LeadRule>,
    /// Whether the side hops on the upbeat before a phrase that begins on one foot. Only a side that does not says so.
    #[serde(default = "yes", skip_serializing_if = "is_yes")]
    pub hops: bool,
    /// How the dancers stand.
    pub set: Set,
    /// The clear floor that there is; left out, as much as it takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor: Option<ClearFloor>,
    /// What is a fault, where this dance has its own limits.
    #[serde(default, skip_serializing_if = "FaultLimits::is_usual")]
    pub limits: FaultLimits,
    /// The tune and its speed.
    #[serde(default)]
    pub music: Music,
    /// Steps of this dance's own, beside the ones that are built in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<OwnStep>,
    /// The figures, each written once however often it is danced.
    #[serde(default)]
    pub figures: Vec<Figure>,
    /// The running order. Empty means every figure once, in the order they are written.
    #[serde(default)]
    pub order: Vec<Entry>,
    /// Who dances which number.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<Person>,
    /// Photographs and sketches under the floor, to draw over; the first lies lowest. They are never handed out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 12))]
    pub underlay: Vec<Underlay>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

fn yes() -> bool {
    true
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the shape that serde asks for
fn is_yes(value: &bool) -> bool {
    *value
}

fn usual_height() -> f64 {
    HEIGHT
}

#[allow(clippy::trivially_copy_pass_by_ref, clippy::float_cmp)] // the shape that serde asks for; what was never changed is the same
fn is_usual_height(value: &f64) -> bool {
    *value == HEIGHT
}

impl Dance {
    /// Bytes that it holds, roughly: its paths, turns and texts.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let leg = |leg: &Leg| size_of::<Leg>() + size_of_val(leg.through.as_slice());
        let part = |part: &Part| {
            size_of::<Part>()
                + part.legs.iter().map(leg).sum::<usize>()
                + size_of_val(part.turns.as_slice())
                + size_of_val(part.leads.as_slice())
        };
        let strike = |strike: &Strike| size_of::<Strike>() + size_of_val(strike.again.as_slice());
        let figure = |figure: &Figure| {
            size_of::<Figure>()
                + figure.strikes.iter().map(strike).sum::<usize>()
                + figure.parts.iter().map(part).sum::<usize>()
                + size_of_val(figure.allow.as_slice())
                + figure.notes.len()
        };
        size_of::<Self>()
            + self.figures.iter().map(figure).sum::<usize>()
            + size_of_val(self.order.as_slice())
            + size_of_val(self.people.as_slice())
            + self
                .underlay
                .iter()
                .map(|photo| size_of::<Underlay>() + size_of_val(photo.marks.as_slice()))
                .sum::<usize>()
            + size_of_val(self.set.spots.as_slice())
            + self.music.abc.len()
            + self.notes.len()
    }

    /// An empty dance for a set: no figures yet.
    #[must_use]
    pub fn new(title: &str, set: Set) -> Self {
        Self {
            version: VERSION,
            title: title.to_owned(),
            side: String::new(),
            tradition: String::new(),
            author: String::new(),
            notes: String::new(),
            holding: Holding::default(),
            grip: Grip::default(),
            height: HEIGHT,
            lead: None,
            hops: true,
            set,
            floor: None,
            limits: FaultLimits::default(),
            music: Music::default(),
            steps: Vec::new(),
            figures: Vec::new(),
            order: Vec::new(),
            people: Vec::new(),
            underlay: Vec::new(),
            extra: Extra::new(),
        }
    }

    /// The index in `figures` of the figure with this id.
    #[must_use]
    pub fn figure_index(&self, id: &str) -> Option<usize> {
        self.figures.iter().position(|figure| figure.id == id)
    }

    /// The index of the figure whose id or name this is, in any case.
    #[must_use]
    pub fn find_figure(&self, wanted: &str) -> Option<usize> {
        let wanted = wanted.to_lowercase();
        let by = |text: fn(&Figure) -> &str| {
            self.figures.iter().position(|figure| text(figure).to_lowercase() == wanted)
        };
        by(|figure| &figure.id).or_else(|| by(|figure| &figure.name))
    }

    /// The figures in the order they are danced, as indices into `figures`.
    #[must_use]
    pub fn danced(&self) -> Vec<usize> {
        if self.order.is_empty() {
            (0..self.figures.len()).collect()
        } else {
            self.order.iter().filter_map(|entry| self.figure_index(&entry.figure)).collect()
        }
    }

    /// How many bars the running order takes.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.danced().iter().filter_map(|&index| self.figures.get(index)).map(|figure| figure.bars).sum()
    }

    /// The metre of the music that a figure is danced to: of the strain of the first line that dances it, or of the tune.
    #[must_use]
    pub fn metre_of(&self, figure: &Figure) -> Metre {
        if self.music.strains.iter().all(|strain| strain.metre.is_none()) {
            return self.music.metre;
        }
        self.strain_of(figure).and_then(|strain| strain.metre).unwrap_or(self.music.metre)
    }

    /// The strain of the first line that dances a figure, where that names one of which something is said.
    #[must_use]
    pub fn strain_of(&self, figure: &Figure) -> Option<&Strain> {
        let line = self.order.iter().find(|entry| entry.figure == figure.id)?;
        let name = line.strain.trim();
        self.music.strains.iter().find(|strain| strain.name.eq_ignore_ascii_case(name) && !name.is_empty())
    }

    /// How the counts of a figure fall into its bars.
    #[must_use]
    pub fn bar_counts(&self, figure: &Figure) -> BarCounts {
        figure.bar_counts(self.metre_of(figure))
    }

    /// The name of the person who dances a number, or nothing.
    #[must_use]
    pub fn person(&self, number: impl Into<Number>) -> Option<&str> {
        let number = number.into();
        let person = self.people.iter().find(|person| person.number == number)?;
        Some(person.name.as_str()).filter(|name| !name.is_empty())
    }

    /// In which hand whoever dances a number holds a stick: left (0) or right (1).
    #[must_use]
    pub fn stick_hand(&self, number: impl Into<Number>) -> usize {
        let number = number.into();
        let left = self.people.iter().any(|person| person.number == number && person.left_handed);
        usize::from(!left)
    }
}
