use super::figure_look::FigureLook;
use super::turns::{LEAST, passed_before};
use crate::dance::Dancer;
use crate::faults::slack::{MEETS, Slack};
use crate::motion::{BlowOn, Track, wrap_half};

/// In half a figure of eight bars there are so many bars.
const PHRASE: u32 = 4;
/// Who touch have passed each other no longer ago than this, counts.
const ABOUT: f64 = 2.0;

/// Whom a dancer should have an eye on in a phrase.
#[derive(Clone, Debug, PartialEq)]
pub struct Eyes {
    pub dancer: Dancer,
    /// The counts of the figure between which the phrase is.
    pub phrase: (f64, f64),
    pub other: Dancer,
    /// Where the other is just before they are nearest: `in front`, `on the left`, `who comes from behind`, ...
    pub side: &'static str,
    /// What they are watched for, where it is not only so as not to meet them: `for the taps`, `to turn by`.
    pub what: &'static str,
}

impl Eyes {
    /// As it is said: `an eye on 5, in front`, `an eye on 2, in front, for the taps`.
    #[must_use]
    pub fn words(&self) -> String {
        let what = if self.what.is_empty() { String::new() } else { format!(", {}", self.what) };
        format!("an eye on {}, {}{what}", self.other, self.side)
    }
}

/// Whom each dancer should watch in each phrase: whom they strike; the one with whom they have least time to spare, and where nobody is touched
/// the partner, where they come near them; and the partner round whom they turn.
pub(super) fn find(look: &FigureLook) -> Vec<Eyes> {
    let bars = look.span.bar_counts();
    let phrases: Vec<(f64, f64)> = (0..look.span.bars)
        .step_by(PHRASE as usize)
        .map(|bar| (bars.begin_of(bar), bars.begin_of((bar + PHRASE).min(look.span.bars))))
        .collect();
    let mut found: Vec<Eyes> = Vec::new();
    for (dancer, own) in look.tracks() {
        for &phrase in &phrases {
            let moves = !own.moves().is_empty();
            let seen = [
                struck(look, dancer, phrase),
                least(look, (dancer, own), phrase).filter(|_| moves),
                turned_by(look, (dancer, own), phrase),
            ];
            let mut here: Vec<Eyes> = Vec::new();
            for (other, at, what) in seen.into_iter().flatten() {
                if here.iter().any(|known| known.other == other) {
                    continue;
                }
                let Some(side) = side(look, own, other, (at - 1.0).max(phrase.0)) else { continue };
                here.push(Eyes { dancer, phrase, other, side, what });
            }
            found.append(&mut here);
        }
    }
    found
}

/// Who is watched, the count at which, and what for.
type Seen = (Dancer, f64, &'static str);

/// Whom a dancer strikes first in a phrase.
fn struck(look: &FigureLook, dancer: Dancer, (from, to): (f64, f64)) -> Option<Seen> {
    let begin = look.span.begin();
    let blows = look.motion.blows_between(begin + from, begin + to);
    blows.iter().filter(|blow| blow.has(dancer)).find_map(|blow| {
        let BlowOn::Other(other) = blow.on else { return None };
        let whom = if blow.by.dancer == dancer { other.dancer } else { blow.by.dancer };
        let what = if blow.is_of_wood() { "for the taps" } else { "for the claps" };
        Some((whom, blow.count - begin, what))
    })
}

/// With whom they have least time to spare in a phrase, and where nobody is touched the partner, where they come near them.
fn least(look: &FigureLook, (dancer, own): (Dancer, &Track), (from, to): (f64, f64)) -> Option<Seen> {
    let within = |slack: &&Slack| slack.dancer == dancer && slack.met && (from..to).contains(&slack.due);
    let least =
        look.slacks.iter().filter(within).min_by(|one, two| one.counts.abs().total_cmp(&two.counts.abs()));
    let partner = || {
        let partner = look.span.dancer_in(look.motion.ground().pair(look.span.place(dancer))?)?;
        let track = look.span.track(partner)?;
        let nearest =
            (0..=((to - from) * 4.0) as u32).map(|part| from + f64::from(part) / 4.0).map(|count| {
                let ((ax, ay, _), (bx, by, _)) = (own.stand(count), track.stand(count));
                (count, (ax - bx).hypot(ay - by))
            });
        let nearest = nearest.min_by(|one, two| one.1.total_cmp(&two.1))?;
        (nearest.1 < MEETS).then_some((partner, nearest.0, ""))
    };
    // They are looked for as they come: before they are nearest, where they touch only after that.
    let comes = |slack: &Slack| {
        let track = look.span.track(slack.other)?;
        let looks = (0..=(ABOUT * 8.0) as u32).map(|part| slack.due - ABOUT + f64::from(part) / 8.0);
        let apart = looks.filter(|count| *count >= from).map(|count| {
            let ((ax, ay, _), (bx, by, _)) = (own.stand(count), track.stand(count));
            (count, (ax - bx).hypot(ay - by))
        });
        apart.min_by(|one, two| one.1.total_cmp(&two.1)).map(|(count, _)| count)
    };
    least.map(|slack| (slack.other, comes(slack).unwrap_or(slack.due), "")).or_else(partner)
}

/// The partner, where a dancer turns in a phrase after they have passed each other.
fn turned_by(look: &FigureLook, (dancer, own): (Dancer, &Track), (from, to): (f64, f64)) -> Option<Seen> {
    let partner = look.span.dancer_in(look.motion.ground().pair(look.span.place(dancer))?)?;
    let mut turns = own.turns().iter().zip(own.amounts());
    turns.find_map(|(turn, amount)| {
        let here = amount.abs() >= LEAST && (from..to).contains(&turn.begin);
        let (at, other) = here.then(|| passed_before(look, (dancer, own), turn.begin)).flatten()?;
        (other == partner && at >= from).then_some((partner, at, "to turn by"))
    })
}

/// On which side somebody is at a count.
fn side(look: &FigureLook, own: &Track, other: Dancer, count: f64) -> Option<&'static str> {
    let ((x, y, facing), (ox, oy, _)) = (own.stand(count), look.span.track(other)?.stand(count));
    let bearing = wrap_half((ox - x).atan2(oy - y).to_degrees() - facing);
    Some(match bearing {
        b if b.abs() <= 45.0 => "in front",
        b if b.abs() >= 135.0 => "who comes from behind",
        b if b > 0.0 => "on the right",
        _ => "on the left",
    })
}
