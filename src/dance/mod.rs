//! What a dance file says.
//!
//! A [`Dance`] holds exactly what is in a `*.dance.json` file: numbers and names, no geometry. Lengths are
//! metres, times are counts (half a strong beat), directions are degrees clockwise from up, where up is towards
//! the music. x runs to the right as you face up, y runs up, and the origin is the middle of the set.
//!
//! Reading never changes the disk and never panics; what is wrong is said with its place in the file.
//! Keys that this version does not know are kept, so that a file written by a later minor change survives
//! being opened and saved here.
//!
//! May use no other room. Begin with [`Dance`]; what types alone cannot hold is in `rules.rs`.
//!
//! ```
//! let text = r#"{"bellpad": 2, "title": "Small dance",
//!   "set": {"kind": "longways", "dancers": 4, "across": 2.4, "along": 1.8},
//!   "figures": [{"id": "stand", "name": "Stand", "bars": 4}], "order": [{"figure": "stand"}]}"#;
//! let dance = bellpad::dance::read(text.as_bytes()).unwrap();
//! assert_eq!(dance.bars(), 4);
//! let written = bellpad::dance::write(&dance).unwrap();
//! assert_eq!(bellpad::dance::read(written.as_bytes()).unwrap(), dance);
//! ```

mod abc;
mod allow;
mod bar_counts;
mod cleaned_tune;
mod clear_floor;
mod counted_bars;
mod dancer;
mod ends;
mod entry;
mod error;
mod extra;
mod fault_kind;
mod fault_limits;
mod figure;
mod follow_tune;
mod free_foot;
mod head;
mod holding;
mod lead_rule;
mod leg;
mod length;
pub mod limits;
mod music;
mod nearest;
mod number;
mod part;
mod passages;
mod pasted_signs;
mod person;
mod place_number;
mod played_tune;
mod playing;
mod quoted;
mod read;
mod rounded;
mod rules;
mod schema;
mod score;
mod set;
mod speed_change;
mod step;
mod strain_speeds;
mod strike;
mod tempo;
mod tune;
mod tune_error;
mod tune_remark;
mod tuplet_place;
mod turn;
mod turn_on;
mod underlay;
mod whole_dance;
mod word_or_place;

pub use allow::Allow;
pub use bar_counts::BarCounts;
pub use cleaned_tune::CleanedTunes;
pub use clear_floor::ClearFloor;
pub use dancer::Dancer;
pub use ends::{Ends, EndsIn};
pub use entry::Entry;
pub use error::{DanceError, InFile};
pub use extra::Extra;
pub use fault_kind::FaultKind;
pub use fault_limits::FaultLimits;
pub use figure::{Figure, Named, Stance};
pub use follow_tune::follow_tune;
pub use free_foot::{FreeFoot, FreePlace};
pub use head::Head;
pub use holding::Holding;
pub use lead_rule::LeadRule;
pub use leg::{Leg, LegFacing, Point, Shape, Waypoint};
pub use length::Length;
pub use music::{Metre, Music, Strain};
pub use nearest::{did_you_mean, nearest};
pub use number::Number;
pub use part::{Foot, Lead, Part};
pub use person::Person;
pub use place_number::PlaceNumber;
pub use played_tune::{PlayedNote, PlayedTune};
pub use playing::{Air, KnownTune, Playing, Sounded, played_strains, tune_of};
pub use quoted::{is_unseen, letter_words, quoted, shown_list, shown_name, shown_text};
pub use read::{read, write};
pub use rounded::rounded;
pub use rules::check_rules;
pub use schema::schema;
pub use score::{BarEnd, Score, ScoreBar, ScoreItem, Value, beat, is_compound};
pub use set::{Set, SetKind, Spot};
pub use speed_change::SpeedChange;
pub use step::{Landing, OwnStep, are_letters_of_a_step};
pub use strike::{Grip, Strike, StrikeEnd, StrikePart, Striker, Struck};
pub use tune::{Tune, TuneNote, TuneStrain};
pub use tune_error::TuneError;
pub use tune_remark::TuneRemark;
pub use tuplet_place::TupletPlace;
pub use turn::{Turn, Way};
pub use turn_on::TurnOn;
pub use underlay::{Inside, PhotoMark, Strength, Underlay};
pub use whole_dance::{Dance, VERSION};
