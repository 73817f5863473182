use super::in_space::InSpace;

/// Where the joint between two bones is: a knee, an elbow. `bend` is the way to which it bends, of any length.
#[must_use]
pub(super) fn joint(from: InSpace, to: InSpace, [upper, lower]: [f64; 2], bend: InSpace) -> InSpace {
    let way = to - from;
    let length = way.length().max(1e-9);
    let apart = length.clamp((upper - lower).abs() + 1e-6, upper + lower - 1e-6);
    let along = (upper * upper - lower * lower + apart * apart) / (2.0 * apart);
    let aside = (upper * upper - along * along).max(0.0).sqrt();
    let straight = way * (1.0 / length);
    // What of the bend lies across the way.
    let dot = bend.x * straight.x + bend.y * straight.y + bend.z * straight.z;
    let across = bend - straight * dot;
    let side = across.length();
    let across = if side > 1e-9 { across * (1.0 / side) } else { InSpace::default() };
    from + straight * along + across * aside
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_joint_is_as_far_from_both_as_the_bones_are_long() {
        let (hip, foot) = (InSpace::new(0.0, 0.0, 0.9), InSpace::new(0.1, 0.2, 0.1));
        let knee = joint(hip, foot, [0.46, 0.49], InSpace::new(0.0, 1.0, 0.0));
        assert!(((knee - hip).length() - 0.46).abs() < 1e-9);
        assert!(((foot - knee).length() - 0.49).abs() < 1e-9);
        assert!(knee.y > hip.toward(foot, 0.5).y, "a knee bends forward");
    }
}
