use super::limits::{MOST_CHANGES, SPEEDS};
use super::tempo::Tempo;
use super::{BarCounts, Metre, SpeedChange, rounded};

/// The speeds that a tune has within a strain: `Q:` among its notes (ABC standard 2.1, 3.1.8).
#[derive(Default)]
pub(super) struct StrainSpeeds {
    has_begun: bool,
    /// What the strain begins at, where anything is said of that.
    first: Option<Tempo>,
    /// Where each change is, bars from the strain's first whole one, and what to.
    changes: Vec<(f64, Tempo)>,
}

impl StrainSpeeds {
    /// Takes a bar, or a part of one, in which no speed changes before the changes that are told after it.
    pub(super) fn begin(&mut self, tempo: Option<Tempo>) {
        if !std::mem::replace(&mut self.has_begun, true) {
            self.first = tempo;
        }
    }

    /// Takes a change so many bars from the first whole one; one within the upbeat is there from the first bar on.
    pub(super) fn change(&mut self, at: f64, tempo: Tempo) {
        self.changes.push((at.max(0.0), tempo));
    }

    /// As changes of a strain of bars of these metres, each time it is played; `head` is the speed of the tune as a whole. None
    /// where nobody dances one of the metres; a speed at which nobody dances is left out.
    pub(super) fn changes(self, head: Option<Tempo>, metres: &[(u64, u64)]) -> Vec<SpeedChange> {
        let mut bars = BarCounts::default();
        for metre in metres {
            let Some(metre) = Metre::as_written(*metre) else { return Vec::new() };
            bars.add(metre, 1);
        }
        // Of several at one place the last is heard.
        let mut told: Vec<(f64, Tempo)> = self.first.map(|tempo| (0.0, tempo)).into_iter().collect();
        for (at, tempo) in self.changes {
            told.retain(|(before, _)| *before < at);
            told.push((at, tempo));
        }
        let (mut made, mut now) = (Vec::new(), head);
        for (at, tempo) in told.into_iter().filter(|(at, _)| *at < f64::from(bars.bars())) {
            if now.replace(tempo) == Some(tempo) {
                continue;
            }
            let metre = bars.metre(at as u32);
            let (beats, each) = metre.written();
            let strong_beat = f64::from(beats) / f64::from(each) / metre.strong_beats();
            let speed = (tempo.length * tempo.a_minute / strong_beat).round();
            let count = bars.begin_of(at as u32) + metre.count_of_share(at.fract());
            let count = rounded(count, 10_000.0);
            made.retain(|change: &SpeedChange| change.count < count);
            if (SPEEDS[0]..=SPEEDS[1]).contains(&speed) {
                made.push(SpeedChange::at(count, speed));
            }
        }
        made.truncate(MOST_CHANGES);
        made
    }
}
