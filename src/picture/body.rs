use serde::Serialize;

/// Shoulder breadth, metres (from memory; compare bideltoid breadth in the ANSUR II survey, 2012).
pub const BODY_BREADTH: f64 = 0.50;
/// Body depth, metres (from memory).
pub const BODY_DEPTH: f64 = 0.28;
/// The radius of the ring round the chosen dancer, metres.
pub const RING_RADIUS: f64 = 0.52;

/// What a body seen from above is drawn with, here and on the practice page, which gets these with the dance. All are
/// metres; aside is to the dancer's right, or as far to the left, and front is the way they face.
#[derive(Clone, Copy, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct BodySizes {
    /// Across the shoulders.
    pub breadth: f64,
    /// From back to front.
    pub depth: f64,
    /// The radius of the ring round the chosen dancer.
    pub ring: f64,
    /// The radius of the corners of an even dancer's block.
    pub corner: f64,
    /// The line round the body.
    pub outline: f64,
    /// The middle of a foot, aside.
    pub foot_aside: f64,
    /// The middle of a foot, in front.
    pub foot_front: f64,
    /// Half a foot, across and along.
    pub foot_radii: [f64; 2],
    /// The line round a foot.
    pub foot_line: f64,
    /// Where an arm begins, aside.
    pub arm_from: f64,
    /// An arm's line.
    pub arm_line: f64,
    /// How far a hand is from the middle of the body to its side.
    pub hand_aside: f64,
    /// How far a hand goes to the front as it rises from low to high; half of it is behind the shoulders.
    pub hand_swing: f64,
    /// The radius of a bare hand.
    pub hand_radius: f64,
    /// The line round a hand or a handkerchief.
    pub hand_line: f64,
    /// The radius of a handkerchief in a low hand.
    pub kerchief: f64,
    /// How much that grows as the hand rises from low to high.
    pub kerchief_rise: f64,
    /// How far the tip of a stick goes across the front as the hand rises from low to high.
    pub stick_over: f64,
    /// The tip of a stick, in front of the hand.
    pub stick_front: f64,
    /// The butt of a stick, aside and in front.
    pub stick_butt: [f64; 2],
    /// How broad a stick is, its dark edges counted.
    pub stick_edge: f64,
    /// How broad the wood between those edges is.
    pub stick_wood: f64,
    /// Half the breadth of the nose.
    pub nose_aside: f64,
    /// Where the nose begins, in front.
    pub nose_from: f64,
    /// The tip of the nose, in front.
    pub nose_tip: f64,
    /// The radius of the head.
    pub head: f64,
    /// The size of a number of one, two and three figures.
    pub numbers: [f64; 3],
}

/// The body of this program's pictures: breadth and depth as above, the rest by eye.
pub const BODY: BodySizes = BodySizes {
    breadth: BODY_BREADTH,
    depth: BODY_DEPTH,
    ring: RING_RADIUS,
    corner: 0.05,
    outline: 0.012,
    foot_aside: 0.11,
    foot_front: 0.2,
    foot_radii: [0.052, 0.105],
    foot_line: 0.013,
    arm_from: 0.24,
    arm_line: 0.024,
    hand_aside: 0.31,
    hand_swing: 0.16,
    hand_radius: 0.03,
    hand_line: 0.009,
    kerchief: 0.035,
    kerchief_rise: 0.05,
    stick_over: 0.3,
    stick_front: 0.32,
    stick_butt: [0.36, -0.2],
    stick_edge: 0.055,
    stick_wood: 0.035,
    nose_aside: 0.05,
    nose_from: 0.1,
    nose_tip: 0.185,
    head: 0.115,
    numbers: [0.165, 0.14, 0.1],
};
