use super::figure_look::FigureLook;
use super::spoken::{called, watched};
use crate::dance::Dancer;
use crate::faults::body::Body;
use crate::faults::watched::{WatchKind, Watched};
use crate::motion::Track;

/// Who takes their whole way a tenth short is so much of it from where they began.
const SHORT: f64 = 0.9;
/// Stretches are not halved below this, counts.
const FINEST: f64 = 1.0 / 128.0;

/// Whom a dancer touches whose whole way is a tenth short: proved as for those who are out of time.
pub(super) fn find(look: &FigureLook) -> Vec<Watched> {
    let mut found = Vec::new();
    for (dancer, own) in look.tracks().filter(|(_, track)| !track.moves().is_empty()) {
        let touches = look
            .tracks()
            .filter(|(other, _)| *other != dancer)
            .filter_map(|(other, track)| {
                // Who touch as drawn are told of a clash.
                let clash = first_touch(look.body, (own, track), look.counts(), 1.0);
                let touch = first_touch(look.body, (own, track), look.counts(), SHORT);
                touch.filter(|_| clash.is_none()).map(|at| (at, other))
            })
            .min_by(|one, two| one.0.total_cmp(&two.0));
        if let Some((at, other)) = touches {
            found.push(told(look, (dancer, own), (at, other)));
        }
    }
    found
}

fn told(look: &FigureLook, (dancer, own): (Dancer, &Track), (at, other): (f64, Dancer)) -> Watched {
    let ((x0, y0, _), (x, y, _)) = (own.stand(0.0), own.stand(at));
    let slack = (1.0 - SHORT) * (x - x0).hypot(y - y0);
    let said = format!(
        "the whole way; a tenth short of it, {slack:.2} m at {}, {{meets}} {}",
        look.moment(at),
        called(look, dancer, other)
    );
    watched(look, WatchKind::Short, (at, slack), vec![dancer, other], said)
}

/// The first count at which two touch, the first of whom goes a share of their way.
fn first_touch(body: Body, (own, other): (&Track, &Track), counts: f64, share: f64) -> Option<f64> {
    let (x0, y0, _) = own.stand(0.0);
    let mut stack: Vec<(f64, f64)> = (0..counts.ceil() as u32)
        .rev()
        .map(|count| (f64::from(count), (f64::from(count) + 1.0).min(counts)))
        .collect();
    while let Some((from, to)) = stack.pop() {
        let at = f64::midpoint(from, to);
        let ((x, y, facing), (ox, oy, their)) = (own.stand(at), other.stand(at));
        let way = (ox - (x0 + (x - x0) * share), oy - (y0 + (y - y0) * share));
        let room = |track: &Track, share: f64| {
            let gone = track.travelled(at);
            let (least, most) = track.facings(from, to);
            share * (gone - track.travelled(from)).max(track.travelled(to) - gone)
                + body.change() * (most - least).to_radians()
        };
        let room = room(own, share) + room(other, 1.0);
        if way.0.hypot(way.1) - 2.0 * body.reach() > room {
            continue;
        }
        let (space, _) = body.space(way, facing, their);
        if space > room {
            continue;
        }
        if space < 0.0 {
            return Some(at);
        }
        if to - from > FINEST {
            stack.push((at, to));
            stack.push((from, at));
        }
    }
    None
}
