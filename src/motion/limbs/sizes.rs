/// The fall of bodies, metres a second for each second (standard gravity, 9.806 65, to the centimetre).
pub const GRAVITY: f64 = 9.81;
/// From a hip to the sole under it, metres (from memory).
pub const LEG: f64 = 0.95;
/// From a shoulder to the palm, metres.
pub const ARM: f64 = crate::dance::limits::ARM;
/// How tall a body is that the dance says nothing of, metres (from memory).
pub const HEIGHT: f64 = crate::dance::limits::HEIGHT;

/// From under the ankle to the end of the heel and of the toe, metres to the front: the foot is 0.27 m long [MB1].
pub const FOOT: [f64; 2] = [-0.075, 0.195];

/// Before the dance and after it everybody stands for so long, seconds.
pub(super) const STANDS: f64 = 10.0;
/// How far aside of the middle a foot is planted, and a joint of the hips and of the shoulders is, metres (from memory).
pub(super) const FOOT_ASIDE: f64 = 0.08;
pub(super) const HIP_ASIDE: f64 = 0.09;
pub(super) const SHOULDER_ASIDE: f64 = 0.2;
/// From the hips to the shoulders of a body of the usual height, and how high the hips of somebody who stands are, metres (from memory).
const TRUNK: f64 = 0.48;
pub(super) const REACH: f64 = LEG - 0.001;
/// How far the trunk leans forward, degrees (common practice, no source).
pub(super) const LEAN: f64 = 3.0;
/// Thigh and shin, together half a millimetre longer than a leg is ever stretched: one that stands is bent by 6 degrees, which is straight to the
/// eye [MB1], and a knee that were quite so would go from rest to its speed at once; upper arm and forearm, metres (from memory).
pub(super) const LEG_BONES: [f64; 2] = [0.46, 0.4905];
pub(super) const ARM_BONES: [f64; 2] = [0.31, 0.345];
/// From the hips to the shoulders of somebody so tall, metres. All legs and arms are alike; what is over the hips, trunk, neck and head, is
/// longer or shorter, each by the same share (common practice, no source).
pub(super) fn trunk(tall: f64) -> f64 {
    TRUNK * (tall - REACH) / (HEIGHT - REACH)
}

/// From the shoulders to the crown of somebody so tall who leans so far, degrees; metres.
pub(super) fn neck(tall: f64, lean: f64) -> f64 {
    tall - REACH - trunk(tall) * lean.to_radians().cos()
}

/// Left, then right: to which side of the middle each is.
pub(super) const SIDES: [f64; 2] = [-1.0, 1.0];
/// So many counts after a step the other foot is where the step has it.
pub(super) const ON_ITS_WAY: f64 = 0.4;
