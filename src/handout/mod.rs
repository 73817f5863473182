//! What is handed out: the practice page for a phone, and a figure as a moving picture.

pub mod moving;
pub mod page;
