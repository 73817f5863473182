use super::figure_look::FigureLook;
use crate::dance::Dancer;
use crate::faults::slack::{MEETS, Slack};
use crate::motion::wrap_half;

/// In half a figure of eight bars there are so many bars.
const PHRASE: u32 = 4;

/// Whom a dancer should have an eye on in a phrase.
#[derive(Clone, Debug, PartialEq)]
pub struct Eyes {
    pub dancer: Dancer,
    /// The counts of the figure between which the phrase is.
    pub phrase: (f64, f64),
    pub other: Dancer,
    /// Where the other is just before they are nearest: `in front`, `on the left`, `who comes from behind`, ...
    pub side: &'static str,
}

/// Whom each dancer should watch in each phrase: the one with whom they have least time to spare, and where nobody is touched the partner,
/// where they come near them.
pub(super) fn find(look: &FigureLook) -> Vec<Eyes> {
    let bars = look.span.bar_counts();
    let phrases: Vec<(f64, f64)> = (0..look.span.bars)
        .step_by(PHRASE as usize)
        .map(|bar| (bars.begin_of(bar), bars.begin_of((bar + PHRASE).min(look.span.bars))))
        .collect();
    let mut found = Vec::new();
    for (dancer, own) in look.tracks().filter(|(_, track)| !track.moves().is_empty()) {
        for &(from, to) in &phrases {
            let within = |slack: &&Slack| slack.dancer == dancer && (from..to).contains(&slack.due);
            let least = look
                .slacks
                .iter()
                .filter(within)
                .min_by(|one, two| one.counts.abs().total_cmp(&two.counts.abs()));
            let partner = || {
                let partner = look.span.dancer_in(look.motion.ground().pair(look.span.place(dancer))?)?;
                let track = look.span.track(partner)?;
                let nearest =
                    (0..=((to - from) * 4.0) as u32).map(|part| from + f64::from(part) / 4.0).map(|count| {
                        let ((ax, ay, _), (bx, by, _)) = (own.stand(count), track.stand(count));
                        (count, (ax - bx).hypot(ay - by))
                    });
                let nearest = nearest.min_by(|one, two| one.1.total_cmp(&two.1))?;
                (nearest.1 < MEETS).then_some((partner, nearest.0))
            };
            let Some((other, at)) = least.map(|slack| (slack.other, slack.due)).or_else(partner) else {
                continue;
            };
            let Some(track) = look.span.track(other) else { continue };
            let before = (at - 1.0).max(from);
            let ((x, y, facing), (ox, oy, _)) = (own.stand(before), track.stand(before));
            let bearing = wrap_half((ox - x).atan2(oy - y).to_degrees() - facing);
            let side = match bearing {
                b if b.abs() <= 45.0 => "in front",
                b if b.abs() >= 135.0 => "who comes from behind",
                b if b > 0.0 => "on the right",
                _ => "on the left",
            };
            found.push(Eyes { dancer, phrase: (from, to), other, side });
        }
    }
    found
}
