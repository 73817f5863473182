use super::lines;
use super::system::{self, Carried, System};
use crate::dance::Score;
use crate::picture::Colour;

/// The fewest spaces of the stave that a system is wide.
const NARROWEST: f32 = 24.0;

/// The systems of a tune, each no wider than a width, with so much from one line of the stave to the next.
#[must_use]
pub fn engrave(score: &Score, width: f32, space: f32, colour: Colour) -> Vec<System> {
    let space = space.max(1e-3);
    let room = (width / space).max(NARROWEST);
    let bars = lines::cut_wide(&score.bars, room);
    let mut carried = Carried::default();
    let made = lines::systems(&bars, room).into_iter().map(|stretch| {
        let (system, top) = system::system(&bars, stretch, room, colour, &mut carried);
        system.scaled(space, top)
    });
    made.collect()
}
