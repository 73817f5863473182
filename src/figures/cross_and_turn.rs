use super::{
    Choice, Choices, FigureError, Kind, NamedFigure,
    partners::{BEFORE_JUMP, WithPartner, face_home, lead, left_sign, way_past},
};
use crate::dance::{LeadRule, Leg, Turn, TurnOn};
use crate::motion::{Ground, Plan, USUAL_PHRASE};

/// Cross and turn. Half 1: start left, change places passing right shoulders on the first double step, a
/// quarter turn left on its hop to face up or down the set; the second double step on the spot; turn left to
/// face your partner; jump. Half 2: home by the right (common practice, no source).
pub(super) static FIGURE: NamedFigure = NamedFigure {
    name: "cross-and-turn",
    title: "Cross and turn",
    titles: &[],
    help: "Change places by the right shoulder and turn to face; then home by the left",
    choices: &[super::usual_choices::PASS, super::usual_choices::FIRST, BARS],
    plan,
};

/// How many bars the way over takes.
const BARS: Choice = Choice {
    key: "bars",
    label: "bars over",
    help: "how many bars they cross over, left out: two where files are too far apart for one",
    kind: Kind::Number { usual: 1.0, least: 1.0, most: 2.0, unit: "" },
};

/// As far as anybody can cross in a count, metres: a step is 0.8 m at the most (common practice, no source), and setting off,
/// stopping and the bow make it so much less (worked out from them).
const FARTHEST: f64 = 0.65;
/// The counts of two bars.
const TWO_BARS: f64 = 8.0;

fn plan(ground: &Ground, choices: &Choices) -> Result<Plan, FigureError> {
    let bow = choices.number("pass") / 2.0;
    // The quarter turn is on the hop that ends the crossing.
    let chosen = choices.counts_of_bars("bars");
    let first = way_past(choices.word("first"));
    let mut plan = Plan::still(8, USUAL_PHRASE, ground.dancers());
    plan.named_lead = Some(LeadRule::LeftThenRight);
    for (part, own) in plan.parts.iter_mut().zip(WithPartner::all(ground, FIGURE.name)?) {
        // Files so far apart that nobody could cross in one bar do so in two, unless the side will have it so.
        let too_far = own.half_way() * 2.0 > FARTHEST * chosen && !choices.is_given("bars");
        let out = if too_far { TWO_BARS } else { chosen };
        for (begin, way, back) in [(0.0, first, 1.0), (16.0, first.other(), -1.0)] {
            // Coming home the dancer faces the other way, so forward and left are the other way too.
            let to = if back > 0.0 { own.away } else { own.home };
            let middle = own.place(0.0, back * left_sign(way) * bow);
            part.legs.push(Leg::smooth(begin, begin + out, &[middle], to.x, to.y));
            let facing = own.facing(if back > 0.0 { 0.0 } else { 180.0 });
            let quarter = Turn::to_face(begin + out - 1.0, begin + out, way, facing + 90.0 * way.sign());
            part.turns.push(quarter.on(TurnOn::Hop));
            let home = Turn::to_face(begin + 8.0, begin + 11.0, way, facing + 180.0);
            part.turns.push(home.on(TurnOn::SingleSteps));
            part.leads.push(lead(begin, way));
        }
    }
    Ok(face_home(plan, ground, BEFORE_JUMP))
}
