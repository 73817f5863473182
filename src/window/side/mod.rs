//! The sides beside the floor: the running order, the shelf and the set; the chosen dancer, the figure and the faults. Each is
//! a tab, so that nothing vanishes where the window is small, and nothing on them moves while time runs.
//!
//! Begin with `sides.rs`, which says what stands where.

mod card;
mod card_layout;
mod differences;
pub mod draw_card;
mod ends_menu;
mod fault_foot;
mod fault_list;
mod figure_card;
mod mend_card;
mod order_drop;
pub mod order_menu;
pub mod running_order;
mod set_row;
mod shelf;
mod sides;
mod tabs;
mod watch_for;

pub use mend_card::show_mend;
pub use sides::Sides;
