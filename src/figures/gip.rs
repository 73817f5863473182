//! What a whole and a half gip share: partners come to meet, go round each other and back out to place, facing all the way.

use super::{
    Choice, Choices, FigureError, Kind,
    partners::{BEFORE_JUMP, WithPartner, face_home, lead, way_past},
};
use crate::dance::{LeadRule, Leg, LegFacing, Part, Shape, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};
use std::f64::consts::PI;

/// How far apart partners are.
pub(super) const APART: Choice = Choice {
    key: "apart",
    label: "apart",
    help: "how far apart partners' middles are as they go round; left out, nearer where ranks are close",
    kind: Kind::Number { usual: 1.0, least: 0.7, most: 2.4, unit: "m" },
};

/// The least that partners have between their middles where nothing is chosen, metres: face to face bodies are 0.28 m deep.
const NEAREST: f64 = 0.55;
/// How much nearer to each other partners are than their middle is to that of the next pair, metres, so that who goes round the one
/// leaves room to who goes round the other: a body's depth, and the room that is not tight, and a little (worked out from the usual limits).
const ROOM: f64 = 0.5;

/// How far apart partners are where nothing is chosen, metres: as usual, and nearer where another pair is close.
fn usual_apart(usual: f64, pairs: &[WithPartner], own: &WithPartner) -> f64 {
    let (x, y) = own.place(0.0, 0.0);
    let between = pairs.iter().map(|other| {
        let (to_x, to_y) = other.place(0.0, 0.0);
        (to_x - x).hypot(to_y - y)
    });
    let next = between.filter(|far| *far > 1e-6).fold(f64::INFINITY, f64::min);
    usual.min((next - ROOM).max(NEAREST))
}

/// Counts in which a half travels; the jump follows.
const TRAVEL: f64 = 12.0;
/// The counts in which they come to meet, at the least and at the most, and the same for going out.
const MEETING: (f64, f64) = (1.0, 3.0);

/// A gip, the first half past one shoulder and the second past the other: all the way round, or to the other side and back.
pub(super) fn plan(
    ground: &Ground,
    choices: &Choices,
    figure: &'static str,
    all_round: bool,
) -> Result<Plan, FigureError> {
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::LeftThenRight);
    let pairs = WithPartner::all(ground, figure)?;
    for (part, own) in plan.parts.iter_mut().zip(&pairs) {
        let chosen = choices.number("apart");
        let apart = if choices.is_given("apart") { chosen } else { usual_apart(chosen, &pairs, own) };
        let radius = (apart / 2.0).min(own.half_way());
        for (begin, way) in [(0.0, first), (16.0, first.other())] {
            half(part, own, (begin, way), radius, all_round);
            part.leads.push(lead(begin, way));
        }
    }
    Ok(face_home(plan, ground, BEFORE_JUMP))
}

/// Half a gip of one dancer, from a count, setting off to one side, so many metres from the middle between partners.
fn half(part: &mut Part, own: &WithPartner, (begin, way): (f64, Way), radius: f64, all_round: bool) {
    let meeting = own.half_way() - radius;
    let counts = if meeting > 1e-6 {
        let share = meeting / (2.0 * meeting + 2.0 * PI * radius);
        (TRAVEL * share).round().clamp(MEETING.0, MEETING.1)
    } else {
        0.0
    };
    let (near, far) = (own.place(-radius, 0.0), own.place(radius, 0.0));
    let (met, turned, back) = (begin + counts, begin + TRAVEL / 2.0, begin + TRAVEL - counts);
    if counts > 0.0 {
        part.legs.push(Leg::straight(begin, met, near.0, near.1));
    }
    part.legs.push(round((met, turned), way, far));
    part.legs.push(round((turned, back), if all_round { way } else { way.other() }, near));
    if counts > 0.0 {
        part.legs.push(Leg::straight(back, begin + TRAVEL, own.home.x, own.home.y));
    }
}

/// Half a circle about the middle between partners, going to one's own side: the path keeps its dancer facing the partner.
fn round((begin, end): (f64, f64), way: Way, (x, y): (f64, f64)) -> Leg {
    let (facing, sweep) = match way {
        // To the left of what one faces is clockwise round it, seen from above.
        Way::Left => (LegFacing::Left, 180.0),
        Way::Right => (LegFacing::Right, -180.0),
    };
    Leg { shape: Shape::Arc, sweep: Some(sweep), facing, ..Leg::straight(begin, end, x, y) }
}
