use super::found::Found;
use super::struck::{SAME, Struck};
use crate::dance::{Dancer, FaultKind, Struck as On};
use crate::motion::limbs::{between_two, meeting_at};
use crate::motion::{Blow, BlowOn, Span, wrap_half};
use crate::words::strike_end_words;

/// Farther round than this from the way they face nobody strikes, degrees: side by side in column is as usual as face to face [MB1]
/// (the amount is chosen for this program).
const BEHIND: f64 = 120.0;

/// Strikes in which the other takes no part: there is nobody, they strike somebody else at that moment with that hand, or where they meet is
/// behind one of them.
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    let motion = struck.look.motion;
    for blow in blows {
        let by = blow.by.dancer;
        let mut tell = |dancers: Vec<Dancer>, value: f64, limit: f64, text: String| {
            let at = blow.count - span.begin();
            let (kind, lasts) = (FaultKind::OneSided, (at, at));
            let spot = Some(meeting_at(motion, blow, blow.count));
            found.push(Found { kind, at, lasts, dancers, value, limit, text, spot });
        };
        match blow.on {
            BlowOn::Nobody(on) => {
                let whom = match on {
                    On::Partner => "no partner",
                    On::Opposite => "nobody opposite",
                    On::Up => "nobody up in the file",
                    On::Down => "nobody down in the file",
                    On::Place(_) | On::Ground | On::Own => "nobody",
                };
                let end = strike_end_words(blow.by.end);
                tell(
                    vec![by],
                    1.0,
                    0.0,
                    format!("{by} has {whom} to strike with the {end}: choose somebody else"),
                );
            }
            BlowOn::Other(other) => {
                let from = blows.partition_point(|other| other.count < blow.count - SAME);
                let moment = blows.iter().skip(from).take_while(|other| other.count <= blow.count + SAME);
                let elsewhere = moment.into_iter().find(|their| {
                    // Whoever strikes nobody is told so, and is there for the one who strikes them.
                    !matches!(their.on, BlowOn::Nobody(_))
                        && their.by.dancer == other.dancer
                        && their.end_of(other.dancer, other.hand).is_some()
                        && !their.has(by)
                });
                if let Some(their) = elsewhere {
                    let whom = match their.on {
                        BlowOn::Other(third) => third.dancer.to_string(),
                        BlowOn::Ground => "the ground".to_owned(),
                        BlowOn::Own(_) | BlowOn::Nobody(_) => "themselves".to_owned(),
                    };
                    let text = format!(
                        "{by} strikes {}, who strikes {whom} at that moment: have one of them at another time",
                        other.dancer
                    );
                    tell(vec![by, other.dancer], 1.0, 0.0, text);
                    continue;
                }
                let Some(place) = between_two(motion, blow, blow.count) else { continue };
                let off = |dancer: Dancer| {
                    let pose = motion.pose(dancer, blow.count);
                    let bearing = (place.x - pose.x).atan2(place.y - pose.y).to_degrees();
                    wrap_half(bearing - pose.facing).abs()
                };
                let (one, two) = (off(by), off(other.dancer));
                let (worst, who) = if two > one { (two, other.dancer) } else { (one, by) };
                if worst > BEHIND {
                    let whom = if who == by { other.dancer } else { by };
                    let text = format!(
                        "{who} has {whom} behind: they meet {worst:.0} degrees round from where {who} faces; turn {who} to {whom}"
                    );
                    tell(vec![by, other.dancer], worst, BEHIND, text);
                }
            }
            BlowOn::Ground | BlowOn::Own(_) => {}
        }
    }
}
