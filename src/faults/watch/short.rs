use super::figure_look::FigureLook;
use super::spoken::{called, watched};
use crate::dance::Dancer;
use crate::faults::watched::{WatchKind, Watched};
use crate::faults::what_if::WhatIf;
use crate::motion::Track;

/// Who takes their whole way a tenth short.
const SHORT: WhatIf = WhatIf { late: 0.0, short: 0.1 };

/// Whom a dancer touches whose whole way is a tenth short: proved as for those who are out of time.
pub(super) fn find(look: &FigureLook, goes_on: &mut dyn FnMut() -> bool) -> Vec<Watched> {
    let mut found = Vec::new();
    for (dancer, own) in look.tracks().filter(|(_, track)| !track.moves().is_empty()) {
        let touches = look
            .tracks()
            .filter(|(other, _)| *other != dancer)
            .take_while(|_| goes_on())
            .filter_map(|(other, track)| {
                let at = SHORT.first_touch(look.body, (own, track), look.counts())?;
                // Who touch as drawn are told of a clash.
                let clash = WhatIf::default().first_touch(look.body, (own, track), look.counts());
                clash.is_none().then_some((at, other))
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
    let slack = SHORT.short * (x - x0).hypot(y - y0);
    let said = format!(
        "the whole way; a tenth short of it, {slack:.2} m at {}, {{meets}} {}",
        look.moment(at),
        called(look, dancer, other)
    );
    watched(look, WatchKind::Short, (at, slack), vec![dancer, other], said)
}
