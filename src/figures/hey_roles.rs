//! What each role of a hey does, from the top of the left file, in the first half.

use super::hey_track::Eight;
use crate::dance::{Extra, Foot, Lead, Leg, Part, Turn, Way};

/// What each rank does, its leg not yet paced.
pub(super) fn roles(eight: &Eight) -> Vec<Part> {
    match (eight.ranks, eight.tops_out) {
        (3, false) => three(eight),
        (3, true) => three_outwards(eight),
        (_, false) => four(eight),
        (_, true) => four_outwards(eight),
    }
}

/// What a role does: its leg, its turns and the foot it starts with.
fn role(leg: Leg, turns: Vec<Turn>, foot: Foot) -> Part {
    let mut part = Part::still(1);
    part.legs = vec![leg];
    part.turns = turns;
    part.leads = vec![Lead { at: 0.0, foot, extra: Extra::new() }];
    part
}

/// The way that the left file faces with partners facing.
const FRONT: f64 = 90.0;
/// The way out of the set from the left file.
const OUT: f64 = 270.0;

/// Points so close that everyone's way is the same track, wherever on it they begin and end: degrees. The first and the last
/// are closer still, so that a way begins and ends as the track does.
const POINTS_OF_THREE: [f64; 13] =
    [3.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0, 105.0, 120.0, 135.0, 150.0, 165.0, 177.0];

/// The half hey for three: tops, middles, bottoms.
fn three(eight: &Eight) -> Vec<Part> {
    let points = POINTS_OF_THREE;
    let end = eight.half;
    vec![
        // Down the inside, down the outside; the bend of the way turns them to face at the bottom.
        role(
            eight.leg((0.0, 12.0), 0.0, &points, -end),
            vec![Turn::shorter(11.5, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Back away outward, up the outside, down the inside home; there they turn.
        role(
            eight.leg((0.0, 11.0), 270.0, &points, 0.0),
            vec![Turn::hold(0.0, 2.0), Turn::to_face(11.0, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
        // Once round on the spot away from the set, up the inside, up the outside; the bend turns them to face.
        role(
            eight.leg((3.0, 12.0), 180.0, &points, end),
            vec![
                Turn { spins: 1, ..Turn::to_face(0.0, 3.0, Way::Right, FRONT) },
                Turn::shorter(11.5, 12.0, Way::Left, FRONT),
            ],
            Foot::Left,
        ),
    ]
}

/// The same with tops outside first [MB1]. They turn away from the set to go, and come to the other end from the inside.
fn three_outwards(eight: &Eight) -> Vec<Part> {
    let points = POINTS_OF_THREE;
    let end = eight.half;
    vec![
        // Away from the set, down the outside, down the inside; the turn to face goes on as the way bent.
        role(
            eight.leg((1.0, 11.5), 0.0, &points, -end),
            vec![Turn::to_face(0.0, 1.5, Way::Left, OUT), Turn::to_face(10.75, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Up the inside, down the outside home.
        role(
            eight.leg((0.0, 11.0), 270.0, &points, 0.0),
            vec![Turn::shorter(11.0, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
        // Away from the set, up the outside, up the inside; the turn to face goes on as the way bent.
        role(
            eight.leg((2.5, 11.5), 180.0, &points, end),
            vec![Turn::to_face(0.0, 2.5, Way::Right, OUT), Turn::to_face(10.75, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
    ]
}

/// The same for those at the ends of four.
const POINTS_OF_ENDS: [f64; 18] = [
    3.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0, 160.0,
    170.0, 177.0,
];

/// The same for the two in the middle of four.
const POINTS_OF_MIDDLES: [f64; 19] = [
    9.0, 18.0, 27.0, 36.0, 45.0, 54.0, 63.0, 72.0, 81.0, 90.0, 99.0, 108.0, 117.0, 126.0, 135.0, 144.0,
    153.0, 162.0, 171.0,
];

/// Where on the track the two in the middle of four are, who stand on the file a little off it and come onto it as they go:
/// degrees from an end.
const MIDDLE: f64 = 63.0;

/// The half hey for four, with two crossings: everyone changes with the one as far from the other end.
fn four(eight: &Eight) -> Vec<Part> {
    let (ends, middles) = (POINTS_OF_ENDS, POINTS_OF_MIDDLES);
    let (end, near) = (eight.half, eight.half / 3.0);
    vec![
        // Down the inside, the outside and the inside; the turn to face goes on as the way bent.
        role(
            eight.leg((0.0, 11.5), 0.0, &ends, -end),
            vec![Turn::to_face(10.75, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Back away outward, up the outside and over the top, down the inside and the outside.
        role(
            eight.leg((0.0, 11.0), 360.0 - MIDDLE, &middles, -near),
            vec![Turn::hold(0.0, 1.5), Turn::shorter(11.0, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
        // Down the inside and round the bottom, up the outside and the inside.
        role(
            eight.leg((0.0, 11.5), 180.0 - MIDDLE, &middles, near),
            vec![Turn::shorter(10.75, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Back away outward, up the outside, the inside and the outside; the bend turns them to face.
        role(
            eight.leg((0.0, 12.0), 180.0, &ends, end),
            vec![Turn::hold(0.0, 1.5), Turn::shorter(11.75, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
    ]
}

/// The same with tops outside first.
fn four_outwards(eight: &Eight) -> Vec<Part> {
    let (ends, middles) = (POINTS_OF_ENDS, POINTS_OF_MIDDLES);
    let (end, near) = (eight.half, eight.half / 3.0);
    vec![
        // Away from the set, down the outside, the inside and the outside; the bend turns them to face.
        role(
            eight.leg((1.0, 12.0), 0.0, &ends, -end),
            vec![Turn::to_face(0.0, 1.5, Way::Left, OUT), Turn::shorter(11.75, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Up the inside and over the top, down the outside and the inside.
        role(
            eight.leg((0.0, 11.0), 360.0 - MIDDLE, &middles, -near),
            vec![Turn::shorter(11.0, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
        // Back away outward, down the outside and round the bottom, up the inside and the outside.
        role(
            eight.leg((0.0, 11.0), 180.0 - MIDDLE, &middles, near),
            vec![Turn::hold(0.0, 1.5), Turn::shorter(11.0, 12.0, Way::Right, FRONT)],
            Foot::Right,
        ),
        // Up the inside, the outside and the inside; the turn to face goes on as the way bent.
        role(
            eight.leg((0.0, 11.5), 180.0, &ends, end),
            vec![Turn::to_face(10.75, 12.0, Way::Left, FRONT)],
            Foot::Left,
        ),
    ]
}
