use super::Weight;
use crate::dance::Number;

/// A dancer at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// The number that the dancer is called by.
    pub number: Number,
    /// Metres to the right of the middle as you face up.
    pub x: f64,
    /// Metres up, towards the music.
    pub y: f64,
    /// Degrees clockwise from up, unwrapped: turning on makes it grow past 360.
    pub facing: f64,
    /// What carries the weight.
    pub weight: Weight,
    /// The index of the step among the known steps.
    pub step: usize,
    /// The height of the higher hand, 0 down to 1 high.
    pub hands: f64,
    /// The heights of the left and the right hand.
    pub each_hand: [f64; 2],
    /// In which hand a stick is held, where one is: left (0) or right (1).
    pub stick_hand: usize,
}
