use super::{
    Choice, Choices, FigureError, Kind, Mirror, NamedFigure,
    hey_roles::roles,
    hey_timing::{self, Role},
    hey_track::Eight,
    mirrored,
};
use crate::dance::{LeadRule, Part};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// The hey: two half heys, the second undoing the first [MB1]. Each file dances a figure of eight along itself and
/// the two mirror each other; inside the loops partners go shoulder to shoulder, and having passed one couple they
/// part to the outside to let the next one through (common practice, no source). Which strand tops take first is for a side
/// to choose: see [`TOPS`].
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "hey",
    title: "Hey",
    titles: &[],
    help: "Each file weaves along itself, ends changing and back again",
    choices: &[INSIDE, OUTSIDE, TIMING, TOPS],
    plan,
};

/// From the middle line to the inside strand.
pub(super) const INSIDE: Choice = Choice {
    key: "inside",
    label: "inside strand",
    help: "from the middle line of the set to the inside strand",
    kind: Kind::Number { usual: 0.31, least: 0.15, most: 2.0, unit: "m" },
};
/// From the file to the outside strand. A way nearer than [`AROUND`] to the file is none round it, and is danced so far out.
pub(super) const OUTSIDE: Choice = Choice {
    key: "outside",
    label: "outside strand",
    help: "from the file out to the outside strand",
    kind: Kind::Number { usual: 0.5, least: 0.1, most: 2.0, unit: "m" },
};

/// How fast along the track.
pub(super) const TIMING: Choice = Choice {
    key: "timing",
    label: "timing",
    help: "spaced so that bodies keep apart, all keep moving and 1 leads, or even, in which ends meet at the middle",
    kind: Kind::Word(&["spaced", "even"]),
};

/// Which strand those at the top take first: inside (common practice, no source), or outside, 1 always turning outwards
/// first, 3 following 1 and 5 following 3 in both halves [MB1].
pub(super) const TOPS: Choice = Choice {
    key: "tops",
    label: "the tops begin",
    help: "whether those at the top go inside first, or out: 1 turns outwards, 3 follows 1 and 5 follows 3",
    kind: Kind::Word(&["in", "out"]),
};

/// The nearest to the file that the outside strand is danced, metres: nearer, those at the top would all but spin (worked out
/// for this program).
const AROUND: f64 = 0.2;

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
    for (index, right_file) in [(2 * rank, false), (2 * rank + 1, true)] {
        if let Some(slot) = plan.parts.get_mut(index) {
            let place = slot.place;
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
    let dancers = ground.dancers();
    // One more than fills the files would stand the set off its middle.
    if !(3..=4).contains(&ranks) || ranks * 2 != dancers {
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
        outside: choices.number("outside").max(AROUND),
        half: ground.length() / 2.0,
        ranks,
        tops_out: choices.word("tops") == "out",
    };
    let mut parts = roles(&eight);
    let paces = if choices.word("timing") == "even" {
        // Everyone goes all the time, so that it is the steps of the way alone that bring the ends together.
        for leg in parts.iter_mut().flat_map(|part| &mut part.legs) {
            (leg.begin, leg.end) = (0.0, TRAVEL);
        }
        vec![(1..=12).map(|count| f64::from(count) / TRAVEL).collect(); parts.len()]
    } else {
        let stands = ground.stands.iter().step_by(2);
        let roles: Vec<Role> = parts
            .iter()
            .zip(stands)
            .filter_map(|(part, stand)| Some(Role { start: (stand.x, stand.y), leg: part.legs.first()? }))
            .collect();
        hey_timing::solve(&roles, apart(ranks, ground.across))
    };
    for (part, pace) in parts.iter_mut().zip(paces) {
        if let Some(leg) = part.legs.first_mut() {
            leg.pace = pace;
        }
    }
    Ok(parts)
}

/// How far those in a file keep apart, metres: as far as lets everyone move all the time at all usual sizes, and for six no
/// farther, since tops would all but stand for a count (worked out for some hundred sizes).
fn apart(ranks: usize, across: f64) -> f64 {
    match ranks {
        3 if across > 1.8 => 0.9,
        3 => 0.8,
        _ => 0.65,
    }
}
