//! The step room: the side's own steps and the built-in ones, each as a body that dances it, and what each count of a step says, changed by
//! dragging the body's feet and hands or by typing. Begin with `room.rs`.

mod body;
mod dragged;
mod grid;
mod head;
mod list;
mod picture;
mod room;

pub use room::{StepRoom, show_steps};
