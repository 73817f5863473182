use super::Colour;
use crate::motion::limbs::FOOT;
use serde::{Serialize, Serializer};

/// What a body at eye level is drawn with, here and on the practice page, which gets these with the dance. All are metres, by eye.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct EyeSizes {
    /// How high a body is with its hands up in a jump: what a picture has room for.
    pub tall: f64,
    /// How broad a leg, an arm and the foot with its shoe are.
    pub leg: f64,
    pub arm: f64,
    pub sole: f64,
    /// The radius of the head and of a hand.
    pub head: f64,
    pub hand: f64,
    /// From under the ankle to the heel and to the toe, to the front.
    pub foot: [f64; 2],
    /// How long a handkerchief is.
    pub cloth: f64,
    /// Its edge, from the hand and back to it: how far along it, and across it, shares of its length.
    pub edge: [[f64; 2]; 9],
    /// How long a stick is.
    pub stick: f64,
    /// The colour of the bells on the shins.
    #[serde(serialize_with = "as_css")]
    pub bell: Colour,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the shape that serde asks for
fn as_css<S: Serializer>(colour: &Colour, serializer: S) -> Result<S::Ok, S::Error> {
    let Colour(red, green, blue, _) = colour;
    serializer.serialize_str(&format!("#{red:02x}{green:02x}{blue:02x}"))
}

/// The body of this program's pictures at eye level.
pub const EYE: EyeSizes = EyeSizes {
    tall: 2.2,
    leg: 0.075,
    arm: 0.055,
    sole: 0.07,
    head: 0.115,
    hand: 0.036,
    foot: FOOT,
    cloth: 0.24,
    edge: [
        [0.0, 0.0],
        [0.35, 0.16],
        [0.7, 0.2],
        [1.0, 0.38],
        [0.88, 0.1],
        [0.72, -0.08],
        [0.8, -0.32],
        [0.4, -0.2],
        [0.0, 0.0],
    ],
    stick: 0.6,
    bell: Colour::hex(0xE3_B341),
};
