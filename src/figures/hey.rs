use super::{Choice, Choices, FigureError, Kind, Mirror, NamedFigure, hey_timing, mirrored};
use crate::dance::{Extra, Foot, Lead, Leg, LegFacing, Part, Turn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};
use std::f64::consts::{FRAC_PI_2, PI};

/// The hey for three in each file: two half heys, the second undoing the first [MB1]. Each file dances a figure
/// of eight along itself and the two mirror each other; inside the loops partners go shoulder to shoulder, and
/// having passed one couple they part to the outside to let the next one through (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "hey",
    title: "Hey",
    help: "Each file weaves a figure of eight, ends changing and back again",
    bars: 8,
    choices: &[
        Choice {
            key: "inside",
            help: "from the middle line of the set to the inside strand",
            kind: Kind::Number { usual: 0.3, least: 0.15, most: 2.0, unit: "m" },
        },
        Choice {
            key: "outside",
            help: "from the file out to the outside strand",
            kind: Kind::Number { usual: 0.5, least: 0.1, most: 2.0, unit: "m" },
        },
    ],
    plan,
};

/// Counts of travelling in a half hey; the jump follows.
const TRAVEL: f64 = 12.0;

/// The points that half the figure of eight is drawn with, twelfths of it: closer at the ends, where the curve has
/// a neighbour on one side only.
const TWELFTHS: [f64; 7] = [1.0, 2.0, 4.0, 6.0, 8.0, 10.0, 11.0];

/// Counts in a half hey.
const HALF: f64 = 16.0;

/// Who goes where in a half hey.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Role {
    Top,
    Middle,
    Bottom,
}

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let refuse = |why: String| FigureError::Set { figure: FIGURE.name, why };
    if ground.ranks() != 3 {
        return Err(refuse(format!(
            "it needs three in each of two files, six in all, and this set has {}",
            match ground.dancers() {
                1 => "one dancer".to_owned(),
                n => format!("{n} dancers"),
            }
        )));
    }
    let inside = ground.across / 2.0 - choices.number("inside");
    if inside < 0.2 {
        return Err(refuse(format!(
            "the files are {} m apart, too close for an inside strand {} m from the middle line",
            ground.across,
            choices.number("inside")
        )));
    }
    let eight =
        Eight { file: -ground.across / 2.0, inside, outside: choices.number("outside"), half: ground.along };
    let mut parts = [Role::Top, Role::Middle, Role::Bottom].map(|role| eight.part(role));
    let paces = hey_timing::solve(&eight.starts(), &parts.each_ref().map(|part| part.legs.as_slice()));
    for (part, pace) in parts.iter_mut().zip(paces) {
        if let Some(leg) = part.legs.first_mut() {
            leg.pace = pace;
        }
    }
    let [top, middle, bottom] = &parts;
    let mut plan = Plan::still(FIGURE.bars, USUAL_PHRASE, ground.dancers());
    // In the second half those who are now at the bottom lead, so it is the first half end for end.
    let halves = [(top, second_half(top)), (middle, second_half(middle)), (bottom, second_half(bottom))];
    for (rank, (first, second)) in halves.into_iter().enumerate() {
        let (odd, even) = (2 * rank, 2 * rank + 1);
        for (index, right_file) in [(odd, false), (even, true)] {
            let Some(part) = plan.parts.get_mut(index) else { continue };
            let mut whole = first.clone();
            whole.legs.extend(second.legs.iter().cloned());
            whole.turns.extend(second.turns.iter().cloned());
            whole.leads.extend(second.leads.iter().cloned());
            *part = if right_file {
                mirrored(&whole, Mirror::Across, part.place)
            } else {
                Part { place: part.place, ..whole }
            };
        }
    }
    Ok(plan)
}

/// What a dancer does in the second half: their own first half end for end, sixteen counts later.
fn second_half(first: &Part) -> Part {
    let mut second = mirrored(first, Mirror::EndForEnd, first.place);
    for leg in &mut second.legs {
        leg.begin += HALF;
        leg.end += HALF;
    }
    for turn in &mut second.turns {
        turn.begin += HALF;
        turn.end += HALF;
    }
    for lead in &mut second.leads {
        lead.at += HALF;
    }
    second
}

/// The figure of eight of the left file, metres. An angle goes once round it: 0 at the top spot, a quarter at
/// the middle coming down the inside, a half at the bottom spot, three quarters at the middle going up.
struct Eight {
    /// x of the file.
    file: f64,
    /// How far the inside strand comes in from the file.
    inside: f64,
    /// How far the outside strand goes out from it.
    outside: f64,
    /// From the middle to the end of the file.
    half: f64,
}

impl Eight {
    fn place(&self, angle: f64) -> (f64, f64) {
        let across = (2.0 * angle).sin();
        let width = if across > 0.0 { self.inside } else { self.outside };
        (self.file + width * across, self.half * angle.cos())
    }

    /// Where the three roles begin.
    fn starts(&self) -> [(f64, f64); 3] {
        [(self.file, self.half), (self.file, 0.0), (self.file, -self.half)]
    }

    /// The way of a role in the left file through the first half hey, with no pace yet.
    fn part(&self, role: Role) -> Part {
        let front = 90.0;
        let (from, end, turns, foot) = match role {
            // Down the inside, down the outside; at the bottom turn away from the set to face.
            Role::Top => (0.0, -self.half, vec![Turn::to_face(9.5, 12.0, Way::Right, front)], Foot::Right),
            // Back away outward, up the outside, down the inside home.
            Role::Middle => (
                3.0 * FRAC_PI_2,
                0.0,
                vec![Turn::hold(0.0, 2.5), Turn::to_face(10.0, 12.0, Way::Left, front)],
                Foot::Left,
            ),
            // A turn on the spot away from the set, up the inside, up the outside; turn away again to face.
            Role::Bottom => (
                PI,
                self.half,
                vec![Turn::to_face(0.0, 3.0, Way::Right, 0.0), Turn::to_face(9.5, 12.0, Way::Left, front)],
                Foot::Left,
            ),
        };
        let points = TWELFTHS.map(|part| self.place(from + PI * part / 12.0));
        let leg = Leg::smooth(0.0, TRAVEL, &points, self.file, end).facing(LegFacing::Forwards);
        let mut part = Part::still(1);
        part.legs = vec![leg];
        part.turns = turns;
        part.leads = vec![Lead { at: 0.0, foot, extra: Extra::new() }];
        part
    }
}
