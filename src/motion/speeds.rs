use super::{Motion, Span};
use crate::dance::{Dance, SpeedChange, Strain, played_strains};

/// A stretch of a dance in which the speed of the music stays, or changes evenly from count to count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Paced {
    /// Counts from the start of the dance.
    pub begin: f64,
    pub end: f64,
    /// Strong beats a minute where it begins and where it ends.
    pub speeds: [f64; 2],
}

impl Paced {
    fn at(&self, count: f64) -> f64 {
        let [from, to] = self.speeds;
        let length = self.end - self.begin;
        if length > 0.0 { from + (to - from) * (count - self.begin) / length } else { to }
    }

    fn cut(&self, begin: f64, end: f64) -> Self {
        Self { begin, end, speeds: [self.at(begin), self.at(end)] }
    }

    /// Seconds in which the music goes through a part of it, of which each count has so many strong beats.
    pub fn seconds(&self, (begin, end): (f64, f64), beats: f64) -> f64 {
        let (begin, end) = (begin.max(self.begin), end.min(self.end));
        if end <= begin {
            return 0.0;
        }
        let [from, to] = [self.at(begin), self.at(end)];
        // The mean of 1 / v where v goes evenly from one to the other.
        let mean = if (to - from).abs() < 1e-9 { 1.0 / from } else { (to / from).ln() / (to - from) };
        60.0 * beats * (end - begin) * mean
    }
}

/// How fast the music is throughout a dance: what a figure says goes over what the strain says, and that over the tune.
/// Empty where nothing says anything of its own,
/// unless it is wanted all the same.
pub(super) fn paced(dance: &Dance, motion: &Motion, wanted: bool) -> Vec<Paced> {
    let figures = dance.figures.iter().any(|figure| !figure.speeds.is_empty());
    let strains = dance.music.strains.iter().any(|strain| !strain.speeds.is_empty());
    if !figures && !strains && !wanted {
        return Vec::new();
    }
    let whole = Paced { begin: 0.0, end: motion.counts(), speeds: [dance.music.speed; 2] };
    let mut paced = vec![whole];
    if strains {
        let bars = motion.bar_counts();
        let played = if motion.spans().len() == dance.danced().len() {
            played_strains(dance, motion.spans().iter().map(|span| (span.first_bar, span.bars)))
        } else {
            motion.spans().iter().flat_map(|span| strains_alone(dance, span)).collect()
        };
        let changes = played.iter().map(|(strain, first_bar, lasts)| {
            (strain.speeds.as_slice(), (bars.begin_of(*first_bar), bars.begin_of(first_bar + lasts)))
        });
        paced = changed(&paced, changes);
    }
    let changes = motion.spans().iter().filter_map(|span| {
        let figure = dance.figures.get(span.figure)?;
        Some((figure.speeds.as_slice(), (span.begin(), span.end())))
    });
    changed(&paced, changes)
}

/// The strain that a figure is first danced to, again and again for as long as it lasts: for a figure by itself.
fn strains_alone<'a>(dance: &'a Dance, span: &Span) -> Vec<(&'a Strain, u32, u32)> {
    let strain = dance.figures.get(span.figure).and_then(|figure| dance.strain_of(figure));
    let Some(strain) = strain.filter(|strain| strain.bars > 0) else { return Vec::new() };
    (0..span.bars.div_ceil(strain.bars))
        .map(|time| {
            let first = time * strain.bars;
            (strain, span.first_bar + first, strain.bars.min(span.bars - first))
        })
        .collect()
}

/// What is there with changes over it: each list of them is counted from where its stretch begins. Stretches are in order
/// and do not overlap.
fn changed<'a>(
    beneath: &[Paced],
    changes: impl Iterator<Item = (&'a [SpeedChange], (f64, f64))>,
) -> Vec<Paced> {
    let (mut made, mut done) = (Vec::new(), 0.0);
    for (changes, (begin, end)) in
        changes.filter(|(changes, (begin, end))| !changes.is_empty() && begin < end)
    {
        made.extend(cut(beneath, done, begin));
        let mut here = cut(beneath, begin, end).collect();
        change(&mut here, changes, (begin, end));
        made.extend(here);
        done = end;
    }
    made.extend(cut(beneath, done, f64::INFINITY));
    made
}

/// What there is between two counts.
fn cut(paced: &[Paced], begin: f64, end: f64) -> impl Iterator<Item = Paced> {
    let first = paced.partition_point(|paced| paced.end <= begin);
    let within = paced.iter().skip(first).take_while(move |paced| paced.begin < end);
    within.map(move |paced| paced.cut(paced.begin.max(begin), paced.end.min(end)))
}

/// Lays changes, counted from where a stretch begins, over what is there.
fn change(paced: &mut Vec<Paced>, changes: &[SpeedChange], (begin, end): (f64, f64)) {
    // What is before the first of them, for one that is come to little by little.
    let mut before: Option<(f64, f64)> = None;
    let first = speed_at(paced, begin);
    let mut put = |new: Paced| {
        if new.begin < end {
            lay(paced, new.cut(new.begin, new.end.min(end)));
        }
    };
    for (index, change) in changes.iter().enumerate() {
        let from = begin + change.count;
        if change.ease {
            let (at, speed) = before.unwrap_or((begin, first));
            put(Paced { begin: at, end: from, speeds: [speed, change.speed] });
        }
        let until = changes.get(index + 1).map_or(f64::INFINITY, |next| begin + next.count);
        put(Paced { begin: from, end: until.min(end), speeds: [change.speed; 2] });
        before = Some((from, change.speed));
    }
}

fn speed_at(paced: &[Paced], count: f64) -> f64 {
    let under = paced.iter().rfind(|paced| paced.begin <= count).or(paced.first());
    under.map_or(100.0, |paced| paced.at(count.clamp(paced.begin, paced.end)))
}

fn lay(paced: &mut Vec<Paced>, new: Paced) {
    if new.end <= new.begin {
        return;
    }
    let mut laid = Vec::with_capacity(paced.len() + 2);
    for old in paced.iter() {
        if old.begin < new.begin {
            laid.push(old.cut(old.begin, old.end.min(new.begin)));
        }
        if old.end > new.end {
            laid.push(old.cut(old.begin.max(new.end), old.end));
        }
    }
    laid.push(new);
    laid.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    *paced = laid;
}
