//! Opening and saving dance files, and keeping work from being lost.
//!
//! A save is whole or not at all: the text goes to a temporary file beside the old one, is flushed to the disk,
//! and takes the old one's place in one step, with its permissions. A file that is a link stays one.
//!
//! A window opens a file with [`open_with_stamp`] and saves it with [`Home::save_checked`], which refuses to save
//! over what someone else changed meanwhile, and keeps the last ten versions as [backups](Home::backups). After
//! each change it hands the dance to an [`AutosaveThread`], and when it starts it asks [`Home::recover`] for work
//! that was left.
//!
//! May use `dance`. Begin with `whole.rs`, how a file is written, and `open_and_save.rs`.
//!
//! ```
//! use bellpad::dance::{Dance, Set};
//! use bellpad::store::{AutosaveThread, Home, StoreError, open_with_stamp};
//! use std::sync::Arc;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! # let folder = tempfile::tempdir()?;
//! # let path = folder.path().join("small.dance.json");
//! # let state = folder.path().join("state");
//! // The window uses `Home::of_user()`.
//! let home = Home::at(&state);
//! let autosave = AutosaveThread::begin(&home, None, None)?;
//!
//! // The first save of a dance, as the user chose the place.
//! let mut dance = Dance::new("Small dance", Set::longways(4, 2.4, 1.8));
//! let saved = home.save_checked(&path, &dance, None)?;
//! autosave.work_is_on(Some(&path), Some(&saved.stamp))?;
//!
//! // A change; it is kept within a second, here by closing without a save.
//! dance.title = "Small dance, with bells".to_owned();
//! autosave.hand(Arc::new(dance.clone()));
//! drop(autosave);
//!
//! // The next time the program starts.
//! for work in home.recover() {
//!     assert_eq!(work.dance, dance);
//!     // The window takes the dance on, keeps it anew with its own autosave, and then:
//!     work.discard()?;
//! }
//!
//! // A save that goes on from what was opened, and its backup.
//! let (opened, stamp) = open_with_stamp(&path)?;
//! assert_eq!(opened.title, "Small dance");
//! let saved = home.save_checked(&path, &dance, Some(&stamp))?;
//! assert!(saved.warning.is_none());
//! assert_eq!(home.backups(&path)[0].open()?, opened);
//!
//! // Someone else writes the file: the window is to ask, and may then save with `None`.
//! std::fs::write(&path, "changed")?;
//! let refused = home.save_checked(&path, &dance, Some(&saved.stamp));
//! assert!(matches!(refused, Err(StoreError::ChangedOutside { gone: false, .. })));
//! # Ok(())
//! # }
//! ```

mod arrangement;
mod autosave;
mod autosave_thread;
mod backups;
mod error;
mod file_limit;
mod home;
mod installed;
mod keep_old;
mod kept_work;
mod numbered;
mod open_and_save;
mod page_mark;
mod page_set;
mod photo_file;
mod recent;
mod recovered;
mod save_checked;
mod settings;
mod stamp;
mod stored_path;
mod tune_text;
mod whole;
mod window_size;

pub use arrangement::{Arrangement, HiddenRows, Tab};
pub use autosave::Autosave;
pub use autosave_thread::AutosaveThread;
pub use backups::{Backup, MOST_BACKUPS};
pub use error::StoreError;
pub use file_limit::outlive_file_limit;
pub use home::Home;
pub use installed::{Installed, TakenAway};
pub use keep_old::keep_old;
pub use numbered::numbered;
pub use open_and_save::{open, save};
pub use page_set::{Over, PageSet, PagesOf};
pub use photo_file::{path_from, plain_path, read_at_most};
pub use recent::Recent;
pub use recovered::{FileSince, Recovered};
pub use save_checked::Saved;
pub use settings::Settings;
pub use stamp::{Stamp, open_with_stamp};
pub use stored_path::units_of_untold;
pub use tune_text::tune_text;
pub use whole::write_whole;
pub use window_size::{OpenedAt, WindowSize};
