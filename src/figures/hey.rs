use super::{
    Choice, Choices, FigureError, Kind, Mirror, NamedFigure,
    hey_timing::{self, Role},
    mirrored,
};
use crate::dance::{Extra, Foot, Lead, LeadRule, Leg, LegFacing, Part, PlaceNumber, Turn, Way};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// The hey: two half heys, the second undoing the first [MB1]. Each file dances a figure of eight along itself and
/// the two mirror each other; inside the loops partners go shoulder to shoulder, and having passed one couple they
/// part to the outside to let the next one through (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "hey",
    title: "Hey",
    help: "Each file weaves along itself, ends changing and back again",
    choices: &[INSIDE, OUTSIDE, TIMING],
    plan,
};

/// From the middle line to the inside strand.
pub(super) const INSIDE: Choice = Choice {
    key: "inside",
    help: "from the middle line of the set to the inside strand",
    kind: Kind::Number { usual: 0.31, least: 0.15, most: 2.0, unit: "m" },
};
/// From the file to the outside strand.
pub(super) const OUTSIDE: Choice = Choice {
    key: "outside",
    help: "from the file out to the outside strand",
    kind: Kind::Number { usual: 0.5, least: 0.1, most: 2.0, unit: "m" },
};

/// How fast along the track.
pub(super) const TIMING: Choice = Choice {
    key: "timing",
    help: "spaced so that bodies keep farthest apart and 1 leads, or even, in which ends meet at the middle",
    kind: Kind::Word(&["spaced", "even"]),
};

/// Counts of travelling in a half hey; the jump follows.
const TRAVEL: f64 = 12.0;
/// Counts in a half hey.
const HALF: f64 = 16.0;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::OutsideFoot);
    for (rank, first) in half_hey_parts(ground, choices, FIGURE.name)?.iter().enumerate() {
        let second = later_and_mirrored(first);
        let mut whole = first.clone();
        whole.legs.extend(second.legs);
        whole.turns.extend(second.turns);
        whole.leads.extend(second.leads);
        put_in_both_files(&mut plan, rank, &whole);
    }
    Ok(plan)
}

/// Puts what a rank of the left file does into a plan, and its mirror across the set for the right file.
pub(super) fn put_in_both_files(plan: &mut Plan, rank: usize, part: &Part) {
    for (place, right_file) in PlaceNumber::of_rank(rank).into_iter().zip([false, true]) {
        if let Some(slot) = plan.parts.get_mut(place.index()) {
            *slot = if right_file {
                mirrored(part, Mirror::Across, place)
            } else {
                Part { place, ..part.clone() }
            };
        }
    }
}

/// What a dancer does in the second half. Those who are then at the bottom lead, so it is their own first half end
/// for end, sixteen counts later.
fn later_and_mirrored(first: &Part) -> Part {
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

/// The first half hey of each rank of the left file, from the top, timed.
///
/// # Errors
/// When the set has not three or four in each file, or they stand too close for the inside strand.
pub(super) fn half_hey_parts(
    ground: &Ground,
    choices: &Choices,
    figure: &'static str,
) -> Result<Vec<Part>, FigureError> {
    let refuse = |why: String| FigureError::Set { figure, why };
    let ranks = ground.ranks();
    if !(3..=4).contains(&ranks) {
        let dancers = ground.dancers();
        return Err(refuse(format!(
            "it needs three or four in each of two files, six or eight in all, and this set has {dancers} {}",
            if dancers == 1 { "dancer" } else { "dancers" }
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
    let eight = Eight {
        file: -ground.across / 2.0,
        inside,
        outside: choices.number("outside"),
        half: ground.length() / 2.0,
        loops: (ranks - 1) as f64,
    };
    let roles = if ranks == 3 { three(&eight) } else { four(&eight) };
    let sought: Vec<Role> = roles
        .iter()
        .zip(&ground.stands.iter().step_by(2).collect::<Vec<_>>())
        .filter_map(|((part, wait, bend), stand)| {
            Some(Role { start: (stand.x, stand.y), leg: part.legs.first()?, wait: *wait, bend: *bend })
        })
        .collect();
    let even = || vec![(1..=12).map(|count| f64::from(count) / 12.0).collect(); sought.len()];
    let paces = if choices.word("timing") == "even" { even() } else { hey_timing::solve(&sought) };
    Ok(roles
        .into_iter()
        .zip(paces)
        .map(|((mut part, _, _), pace)| {
            if let Some(leg) = part.legs.first_mut() {
                leg.pace = pace;
            }
            part
        })
        .collect())
}

/// The track of the left file, metres. An angle goes once round it, degrees: 0 at the top of the file, down one
/// strand of each loop to 180 at the bottom, and up the other.
struct Eight {
    /// x of the file.
    file: f64,
    /// How far the inside strand comes in from the file.
    inside: f64,
    /// How far the outside strand goes out from it.
    outside: f64,
    /// From the middle to the end of the file.
    half: f64,
    /// Loops that the two strands make from end to end of the file: one fewer than its ranks.
    loops: f64,
}

impl Eight {
    fn place(&self, angle: f64) -> (f64, f64) {
        let across = (self.loops * angle.to_radians()).sin();
        let width = if across > 0.0 { self.inside } else { self.outside };
        (self.file + width * across, self.half * angle.to_radians().cos())
    }

    /// Half the track, from an angle through points so far on, to a place on the file.
    fn leg(&self, from: f64, points: &[f64], end: f64) -> Leg {
        let points: Vec<(f64, f64)> = points.iter().map(|point| self.place(from + point)).collect();
        Leg::smooth(0.0, TRAVEL, &points, self.file, end).facing(LegFacing::Forwards)
    }
}

/// A role: its part, for how many counts it waits, and how much sooner than evenly it goes to begin with.
type Cast = (Part, usize, f64);

fn cast(leg: Leg, turns: Vec<Turn>, foot: Foot, wait: usize, bend: f64) -> Cast {
    let mut part = Part::still(1);
    part.legs = vec![leg];
    part.turns = turns;
    part.leads = vec![Lead { at: 0.0, foot, extra: Extra::new() }];
    (part, wait, bend)
}

/// The way that the left file faces with partners facing.
const FRONT: f64 = 90.0;

/// The half hey for three: tops, middles, bottoms.
fn three(eight: &Eight) -> Vec<Cast> {
    // So close that everyone's way is the same track, wherever on it they begin and end.
    let points: Vec<f64> = (1..12).map(|point| f64::from(point) * 15.0).collect();
    let end = eight.half;
    vec![
        // Down the inside, down the outside; the bend of the way turns them to face at the bottom.
        cast(
            eight.leg(0.0, &points, -end),
            vec![Turn::shorter(9.5, 12.0, Way::Right, FRONT)],
            Foot::Right,
            0,
            0.5,
        ),
        // Back away outward, up the outside, down the inside home.
        cast(
            eight.leg(270.0, &points, 0.0),
            vec![Turn::hold(0.0, 2.0), Turn::shorter(10.0, 12.0, Way::Left, FRONT)],
            Foot::Left,
            0,
            -0.2,
        ),
        // A turn on the spot away from the set, up the inside, up the outside; the bend turns them to face.
        cast(
            eight.leg(180.0, &points, end),
            vec![Turn::to_face(0.0, 3.0, Way::Right, 0.0), Turn::shorter(9.5, 12.0, Way::Left, FRONT)],
            Foot::Left,
            2,
            0.0,
        ),
    ]
}

/// The half hey for four, with two crossings: everyone changes with the one as far from the other end.
fn four(eight: &Eight) -> Vec<Cast> {
    // The two in the middle stand on the file a little off the track, and come onto it as they go.
    let off = (1.0_f64 / 3.0).acos().to_degrees();
    let ends =
        [10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 75.0, 90.0, 105.0, 120.0, 130.0, 140.0, 150.0, 160.0, 170.0];
    let middles: Vec<f64> = (1..11).map(|point| f64::from(point) * 180.0 / 11.0).collect();
    let (end, near) = (eight.half, eight.half / 3.0);
    vec![
        // Down the inside, the outside and the inside; the bend of the way turns them to face at the bottom.
        cast(
            eight.leg(0.0, &ends, -end),
            vec![Turn::shorter(9.5, 12.0, Way::Right, FRONT)],
            Foot::Right,
            0,
            0.0,
        ),
        // Back away outward, up the outside and over the top, down the inside and the outside.
        cast(
            eight.leg(360.0 - off, &middles, -near),
            vec![Turn::hold(0.0, 1.5), Turn::shorter(10.5, 12.0, Way::Left, FRONT)],
            Foot::Left,
            0,
            0.0,
        ),
        // Down the inside and round the bottom, up the outside and the inside.
        cast(
            eight.leg(180.0 - off, &middles, near),
            vec![Turn::shorter(10.0, 12.0, Way::Right, FRONT)],
            Foot::Right,
            0,
            0.0,
        ),
        // Back away outward, up the outside, the inside and the outside; the bend turns them to face.
        cast(
            eight.leg(180.0, &ends, end),
            vec![Turn::hold(0.0, 1.5), Turn::shorter(9.5, 12.0, Way::Left, FRONT)],
            Foot::Left,
            0,
            0.0,
        ),
    ]
}
