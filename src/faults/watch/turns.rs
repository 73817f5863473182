use super::figure_look::FigureLook;
use super::spoken::{called, counts_words, watched};
use crate::dance::Dancer;
use crate::faults::halves::falls_to_nought;
use crate::faults::late_turn::jumps;
use crate::faults::slack::MEETS;
use crate::faults::watched::{WatchKind, Watched};
use crate::motion::{Track, ease};

/// Less than this is no time, counts.
const LITTLE: f64 = 1.0 / 16.0;
/// Turns of less than this are not told, degrees.
pub(super) const LEAST: f64 = 60.0;
/// Whoever has so much time before a turn and after it need not watch it, counts.
const ENOUGH: f64 = 2.0;
/// Whom they turn away from or round, the partner, they wait for although there is more time, counts.
const PARTNER: f64 = 8.0;
/// Others than the partner are passed who come nearer than this, metres (chosen for this program).
const CLOSE: f64 = 0.8;
/// Who pass are looked at so long before and after they are nearest, counts.
const ABOUT: f64 = 2.0;
/// The way from one to the other is then turned by more than 100 degrees: the cosine of that.
const ABOUT_TURNED: f64 = -0.173_648;
/// How often it is looked at who passes whom, in a count.
const LOOKS: f64 = 8.0;

/// Turns with little time: not before whoever is passed has been passed, and done before the jump (common practice, no source).
pub(super) fn find(look: &FigureLook, goes_on: &mut dyn FnMut() -> bool) -> Vec<Watched> {
    let mut found = Vec::new();
    for (dancer, track) in look.tracks().take_while(|_| goes_on()) {
        for (turn, amount) in track.turns().iter().zip(track.amounts()) {
            if amount.abs() < LEAST {
                continue;
            }
            let passed = passed_before(look, (dancer, track), turn.begin);
            let jump = jump_after(look, track, turn.end);
            let before =
                passed.map(|(at, other)| (turn.begin - at, at, other)).filter(|(spare, ..)| *spare < PARTNER);
            let spare = |at: f64| spare_before(at, (turn.begin, turn.end), amount.abs(), look.late_turn);
            let after = jump.and_then(|at| Some((spare(at)?, at))).filter(|(spare, _)| *spare < ENOUGH);
            let slack = before
                .map(|(spare, ..)| spare)
                .into_iter()
                .chain(after.map(|(spare, _)| spare))
                .fold(f64::INFINITY, f64::min);
            let (when, dancers) = match (before, after) {
                (None, None) => continue,
                (Some((_, at, other)), None) => (
                    format!("not before {} {{is}} past, {}", called(look, dancer, other), look.moment(at)),
                    vec![dancer, other],
                ),
                (None, Some((_, at))) => (format!("done by the jump, {}", look.moment(at)), vec![dancer]),
                (Some((_, at, other)), Some((_, end))) => (
                    format!(
                        "after {} {{is}} past, {}, and before the jump, {}",
                        called(look, dancer, other),
                        look.moment(at),
                        look.moment(end)
                    ),
                    vec![dancer, other],
                ),
            };
            let spare = if slack < LITTLE {
                "no time to spare".to_owned()
            } else {
                format!("{} to spare", counts_words(slack))
            };
            let said = format!("turn {when}; {spare}");
            found.push(watched(look, WatchKind::Turn, (turn.begin, slack), dancers, said));
        }
    }
    found
}

/// When and whom a dancer last passed before a count: the moment at which they were nearest.
pub(super) fn passed_before(
    look: &FigureLook,
    (dancer, own): (Dancer, &Track),
    turn: f64,
) -> Option<(f64, Dancer)> {
    let partner =
        look.motion.ground().pair(look.span.place(dancer)).and_then(|place| look.span.dancer_in(place));
    let passed = look.tracks().filter(|(other, _)| *other != dancer).filter_map(|(other, track)| {
        let apart = |look: usize| {
            let count = look as f64 / LOOKS;
            let ((ax, ay, _), (bx, by, _)) = (own.stand(count), track.stand(count));
            (ax - bx).hypot(ay - by)
        };
        let near = if Some(other) == partner { MEETS } else { CLOSE };
        // The last moment at which they had come nearer and went away again.
        let last = (turn * LOOKS).floor() as usize;
        let since = if Some(other) == partner { PARTNER } else { ENOUGH };
        let first = ((turn - since).max(0.0) * LOOKS) as usize;
        (first.max(1)..last)
            .rev()
            .find(|&look| {
                let here = apart(look);
                here < near
                    && here < apart(look - 1) - 1e-6
                    && here <= apart(look + 1) + 1e-9
                    && goes_past(own, track, look)
            })
            .map(|look| (look as f64 / LOOKS, other))
    });
    // Who turns round a partner waits for them, whoever else goes by.
    passed.max_by(|one, two| {
        (Some(one.1) == partner).cmp(&(Some(two.1) == partner)).then(one.0.total_cmp(&two.0))
    })
}

/// How much later a turn may be until so much of it is left at a jump that it is told as late, counts; nothing where it never is.
fn spare_before(jump: f64, (begin, end): (f64, f64), amount: f64, limit: f64) -> Option<f64> {
    let left = |late: f64| amount * (1.0 - ease(((jump - begin - late) / (end - begin)).clamp(0.0, 1.0)));
    // Once it is not begun it is all left.
    let never = (jump - begin).max(0.0);
    (amount > limit).then(|| falls_to_nought(|late| limit - left(late), (jump - end).max(0.0), never))
}

/// Whether two who are nearest at a look are past each other afterwards, and do not part as they came: the way from one to the other has turned
/// about.
fn goes_past(own: &Track, their: &Track, nearest: usize) -> bool {
    let way = |look: usize| {
        let count = look as f64 / LOOKS;
        let ((ax, ay, _), (bx, by, _)) = (own.stand(count), their.stand(count));
        (bx - ax, by - ay)
    };
    (1..=(ABOUT * LOOKS) as usize).any(|looks| {
        let (before, after) = (way(nearest.saturating_sub(looks)), way(nearest + looks));
        let along = before.0 * after.0 + before.1 * after.1;
        along < ABOUT_TURNED * before.0.hypot(before.1) * after.0.hypot(after.1)
    })
}

/// The count at which the feet come together for the next jump after a count.
fn jump_after(look: &FigureLook, track: &Track, count: f64) -> Option<f64> {
    jumps(look.motion.known(), track).into_iter().map(|(begin, _)| begin).find(|at| *at >= count - 1e-6)
}
