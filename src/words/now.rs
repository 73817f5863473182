use super::eye_level::standing_words;
use super::feet::first_foot;
use super::hover::turned_words;
use crate::dance::{Dancer, Foot, LeadRule, Number, Part, SetKind};
use crate::motion::limbs::Gait;
use crate::motion::{
    Clock, Ground, LeadFrom, LeadMade, Moment, Motion, Track, Weight, amount, wrap_half, wrap_whole,
};

/// Slower than this, metres a count, is standing.
const STILL: f64 = 0.01;

/// Where a dancer stands in the set, such as `middle, left file · partner 4`.
#[must_use]
pub fn standing(ground: &Ground, dancer: Dancer) -> String {
    match ground.kind {
        SetKind::Longways if ground.ranks() > 0 => {
            let file = if dancer.is_even() { "right file" } else { "left file" };
            let rank = ground.rank_name(dancer.home());
            let rank = if rank.is_empty() { String::new() } else { format!("{rank}, ") };
            let partner =
                ground.partner(dancer.home()).map_or_else(String::new, |other| format!(" · partner {other}"));
            format!("{rank}{file}{partner}")
        }
        SetKind::Longways => "alone".to_owned(),
        SetKind::Ring => "in the ring".to_owned(),
        SetKind::Spots => String::new(),
    }
}

/// A facing in words: `up`, `up and to the right`.
#[must_use]
pub fn facing_words(facing: f64) -> &'static str {
    const NAMES: [&str; 8] = [
        "up",
        "up and right",
        "to the right",
        "down and right",
        "down",
        "down and left",
        "to the left",
        "up and left",
    ];
    let eighth = (wrap_whole(facing) / 45.0).round() as usize % 8;
    NAMES.get(eighth).copied().unwrap_or("up")
}

/// What a dancer is doing at a count: names and what to say of each. With how they go on their feet, and when the counts fall, it is said
/// truly between two counts too when they leave the floor; without, they do half a count before.
#[must_use]
pub fn now(
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    feet: Option<(&Gait, &Clock)>,
) -> Vec<(&'static str, String)> {
    let mut pose = motion.pose(dancer, count);
    if let Some((gait, clock)) = feet {
        pose.weight = gait.weight(clock, count);
    }
    let mut lines = Vec::new();
    let span = motion.span_under(count);
    let step = motion.known().get(pose.step).map_or("", |step| step.name.as_str());
    let weight = standing_words(pose.weight);
    if let Some(span) = span {
        let falls = span.falls(dancer);
        let fall = falls.get((count - span.begin()).max(0.0) as usize);
        let hop = fall.is_some_and(|fall| fall.upbeat && fall.hop) && pose.weight != Weight::Air;
        let hop = if hop { ", the hop on the upbeat" } else { "" };
        lines.push(("Now", format!("{step}, {weight}{hop}")));
    }
    let local = span.map_or(0.0, |span| count - span.begin());
    let bars = span.map_or_else(|| motion.bar_counts(), |span| span.bar_counts());
    let part = span.and_then(|span| span.part(dancer));
    let track = span.and_then(|span| span.track(dancer));
    if let Some(made) = track.and_then(|track| track.footing().lead(local)) {
        // A jump or standing has no foot that leads.
        let led = |made: &LeadMade| {
            track.is_some_and(|track| first_foot(motion.known(), track.footing(), made.at).is_some())
        };
        if led(made) {
            lines.push(("Lead", lead_words(made)));
        }
        let start = track.and_then(|track| {
            let fresh = |next: &&LeadMade| next.at > made.at && next.from != LeadFrom::Step && led(next);
            track.footing().leads().iter().find(fresh)
        });
        if let Some(next) = start {
            lines.push((
                "Then",
                format!(
                    "{} at bar {} ({})",
                    foot_word(next.foot),
                    Moment::at(bars, next.at as f64),
                    why_words(next)
                ),
            ));
        }
    }
    lines.extend(super::tap_now(motion, dancer, count).map(|said| {
        let any = span.is_some_and(|span| {
            motion.blows_between(span.begin(), span.end()).iter().any(|blow| blow.has(dancer))
        });
        let nothing = if any { "no more in this figure" } else { "none in this figure" };
        ("Taps", if said.is_empty() { nothing.to_owned() } else { said })
    }));
    let mut facing = facing_words(pose.facing).to_owned();
    if let Some(track) = track
        && let Some(turn) = track.turns().iter().find(|turn| turn.begin <= local && local < turn.end)
    {
        let through = amount(turn, track.stand(turn.begin).2);
        if through.abs() > 0.5 {
            facing += &format!(", turning {}", turned_words(through));
        }
    }
    lines.push(("Facing", facing));
    let (before, after) = (motion.pose(dancer, count - 0.01), motion.pose(dancer, count + 0.01));
    let (dx, dy) = (after.x - before.x, after.y - before.y);
    let speed = dx.hypot(dy) / 0.02;
    lines.push((
        "Going",
        if speed < STILL {
            "on the spot".to_owned()
        } else {
            let way = wrap_half(dx.atan2(dy).to_degrees() - pose.facing);
            let manner = match way.abs() {
                off if off <= 45.0 => "forwards",
                off if off >= 135.0 => "backwards",
                _ if way < 0.0 => "to their left",
                _ => "to their right",
            };
            format!("{manner}, {speed:.2} m a count")
        },
    ));
    if let Some((other, apart)) = nearest(motion, dancer, count) {
        lines.push(("Nearest", format!("{other}, {apart:.2} m away")));
    }
    if let Some(next) = part.zip(track).and_then(|(part, track)| next_change(part, track, local)) {
        lines.push(("Next", format!("{}, at bar {}", next.1, Moment::at(bars, next.0))));
    }
    lines
}

/// A lead and why it is so, such as `right: outside foot, facing down`.
#[must_use]
pub fn lead_words(made: &LeadMade) -> String {
    // Up and down are what the outside foot is told by; across the set the facing says nothing.
    let facing = made
        .facing
        .map(facing_words)
        .filter(|words| ["up", "down"].contains(words))
        .map_or_else(String::new, |words| format!(", facing {words}"));
    format!("{}: {}{facing}", foot_word(made.foot), why_words(made))
}

/// Why a lead is so.
fn why_words(made: &LeadMade) -> String {
    let rule = made.rule.map_or("", LeadRule::words);
    match made.from {
        LeadFrom::Step => "follows from the step before".to_owned(),
        LeadFrom::Usual => "what the side usually does".to_owned(),
        LeadFrom::Phrase => "written in the phrase".to_owned(),
        LeadFrom::Dancer if rule.is_empty() => "drawn for this dancer".to_owned(),
        LeadFrom::Dancer => format!("{rule}, for this dancer"),
        LeadFrom::Named if rule.is_empty() => "the figure's own".to_owned(),
        LeadFrom::Named => rule.to_owned(),
        LeadFrom::Figure => format!("{rule}, in this figure"),
        LeadFrom::Dance => format!("{rule}, in this dance"),
    }
}

fn foot_word(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "left",
        Foot::Right => "right",
    }
}

/// The nearest other dancer and how far away they are, metres between middles.
fn nearest(motion: &Motion, dancer: Dancer, count: f64) -> Option<(Number, f64)> {
    let poses = motion.poses(count);
    let here = poses.get(dancer.index())?;
    poses
        .iter()
        .filter(|pose| pose.number != here.number)
        .map(|pose| (pose.number, (pose.x - here.x).hypot(pose.y - here.y)))
        .min_by(|(_, one), (_, other)| one.total_cmp(other))
}

/// The next leg or turn to begin, and when, counts from the start of the figure.
fn next_change(part: &Part, track: &Track, local: f64) -> Option<(f64, &'static str)> {
    let leg = part.legs.iter().map(|leg| leg.begin).find(|&begin| begin > local + 1e-6);
    let mut turns = track.turns().iter().zip(track.amounts());
    let turn = turns
        .find(|(turn, through)| turn.begin > local + 1e-6 && through.abs() > 0.5)
        .map(|(turn, through)| (turn.begin, if *through < 0.0 { "turn left" } else { "turn right" }));
    match (leg, turn) {
        (Some(leg), Some((turn, name))) if turn <= leg => Some((turn, name)),
        (Some(leg), _) => Some((leg, "travel")),
        (None, turn) => turn,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Figure, Set};
    use crate::figures::motion_of;

    /// At 60 strong beats a minute a jump of 0.25 m, 0.45 s [CALC, g = 9.81 m/s^2], leaves the floor 0.9 of a count before it lands: half a count
    /// before its count in the air the feet are on the floor still.
    #[test]
    fn nobody_is_told_to_be_in_the_air_who_stands() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        dance.music.speed = 60.0;
        let mut figure = Figure::drawn("one", "One", 4);
        figure.phrase = "2 ds, 2 ss, ftj".to_owned();
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        let clock = Clock::of_dance(&dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let said = |count: f64| now(&motion, Dancer(0), count, Some((&gait, &clock))).remove(0).1;
        for (count, words) in
            [(12.6, "on both feet"), (13.0, "in the air"), (13.5, "in the air"), (14.0, "on both feet")]
        {
            assert!(said(count).ends_with(words), "{count}: {}", said(count));
        }
        let plain = now(&motion, Dancer(0), 12.6, None).remove(0).1;
        assert!(plain.ends_with("in the air"), "{plain}");
    }
}
