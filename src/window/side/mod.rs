//! The panels beside the floor: the set, the running order and the shelf on the left, the card and the faults on the
//! right.

pub mod card;
pub mod differences;
pub mod draw_card;
mod ends_menu;
pub mod fault_list;
pub mod order_menu;
pub mod running_order;
pub mod set_row;
pub mod shelf;
