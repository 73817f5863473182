//! The window: floor, bar strip, running order, card, dialogs, and nothing that is not shown.
//!
//! Panels read the [`Desk`](crate::desk::Desk) and push [`Ask`](crate::desk::Ask)s, which the window hands to the desk after
//! they have been shown; nothing here changes a dance. What the desk asks of the user is shown by `dialogs`, whose fields,
//! pictures and threads live here. No rule of the dance is here either.
//!
//! May use every other room, and egui, which no other room may. Begin with `whole_window.rs`, one frame from top to bottom;
//! then `floor/`, the set from above, `strip/`, the bars, `side/`, the panels, `dialogs/` and `fields/`.

mod aloud;
mod bar_room;
mod context_menu;
mod dialogs;
mod explain;
mod eye_level;
mod fault_menu;
mod fields;
mod first_minute;
mod floor;
mod focus_ring;
mod keys;
mod news;
mod one_press;
mod opening;
mod pace;
mod paint;
mod path_menu;
mod photo_menu;
mod place;
mod share;
mod side;
mod sizes;
mod sound_menu;
mod strike_menu;
mod strip;
mod text_size;
mod theme;
mod top_bar;
mod turn_menu;
mod views;
mod what_if;
mod whole_window;

pub use crate::words::CAUTIONS;
pub use dialogs::KEYS;
pub use fields::PathText;
pub use floor::Floor;
pub use opening::{display_is_there, open_window};
pub use strip::{BarAxis, BarStrip};
pub use whole_window::Window;
