//! What is asked of the timing of a hey: that everyone goes as evenly as they can, and, each with a price that rises with
//! the square of what is missing, that those in a file keep apart, that nobody hurries, stands or lurches.

use super::way::{HALVES, LOOKS, MOMENTS, Spot, Way};

/// How much speed beside the even one costs, against changes of speed.
const EVEN: f64 = 6.0;
/// Least share of the mean that a bar has to bring, and a full count on the way (chosen for this program); a little more is
/// asked for than has to be had.
const BAR: f64 = 0.6 + 0.015;
const COUNT: f64 = 0.5 + 0.015;
/// The most by which the distances of two counts that follow each other may differ, metres, on the way and at its ends
/// (chosen for this program); a little less is asked for.
const CHANGE: f64 = 0.35 - 0.01;
const END_CHANGE: f64 = 0.55 - 0.01;
/// The most that anybody should go, metres a count, where their way is short enough for that.
const TOP_SPEED: f64 = 0.75;
/// How much dearer it is to go faster than that than to miss a metre.
const HASTE: f64 = 10.0;
/// Counts by which a way at top speed is longer than it would be without setting off and stopping.
const ENDS: f64 = 1.1;
/// Half counts in a count, and in a bar.
const IN_COUNT: usize = 2;
const IN_BAR: usize = 8;

/// Something that the metres done at a few moments have to come to at the least.
struct Least {
    role: usize,
    /// The moment, and how often its metres count.
    terms: Vec<(usize, f64)>,
    metres: f64,
}

/// The price of the timing of everyone in a file.
pub(super) struct Demands<'a> {
    ways: &'a [Way],
    least: Vec<Least>,
    /// How far those in a file should keep apart, metres.
    pub apart: f64,
    /// What a missing metre costs, squared: of distance, and of all else.
    pub weights: (f64, f64),
    done: Vec<[f64; MOMENTS]>,
    slopes: Vec<[f64; MOMENTS]>,
}

impl<'a> Demands<'a> {
    pub(super) fn new(ways: &'a [Way], apart: f64) -> Self {
        let least = ways.iter().enumerate().flat_map(|(role, way)| least(role, way)).collect();
        let none = vec![[0.0; MOMENTS]; ways.len()];
        Self { ways, least, apart, weights: (1.0, 1.0), done: none.clone(), slopes: none }
    }

    /// The price of speeds, those of one role after those of another, and how it changes with each of them while every way
    /// stays as long as it is.
    pub(super) fn look(&mut self, speeds: &[f64], slopes: &mut [f64]) -> f64 {
        slopes.fill(0.0);
        let mut price = 0.0;
        let mut from = 0;
        for ((way, done), of_done) in self.ways.iter().zip(&mut self.done).zip(&mut self.slopes) {
            let to = from + way.speeds();
            if let (Some(speeds), Some(slopes)) = (speeds.get(from..to), slopes.get_mut(from..to)) {
                price += unevenness(way, speeds, slopes) + haste(way, speeds, slopes, self.weights.1);
                way.travel(speeds, done);
            }
            of_done.fill(0.0);
            from = to;
        }
        price += self.missing() + self.closeness();
        from = 0;
        for (way, of_done) in self.ways.iter().zip(&self.slopes) {
            let to = from + way.speeds();
            if let Some(slopes) = slopes.get_mut(from..to) {
                way.trace_back(of_done, slopes);
                let mean = slopes.iter().sum::<f64>() / slopes.len() as f64;
                for slope in slopes {
                    *slope -= mean;
                }
            }
            from = to;
        }
        price
    }

    /// What is missing of the metres that have to be done.
    fn missing(&mut self) -> f64 {
        let mut price = 0.0;
        for least in &self.least {
            let (Some(done), Some(slopes)) = (self.done.get(least.role), self.slopes.get_mut(least.role))
            else {
                continue;
            };
            let has: f64 = least.terms.iter().filter_map(|(at, times)| Some(done.get(*at)? * times)).sum();
            let short = least.metres - has;
            if short > 0.0 {
                price += self.weights.1 * short * short;
                for (at, times) in &least.terms {
                    if let Some(slope) = slopes.get_mut(*at) {
                        *slope -= 2.0 * self.weights.1 * short * times;
                    }
                }
            }
        }
        price
    }

    /// What two in a file cost who come closer than they should.
    fn closeness(&mut self) -> f64 {
        let mut price = 0.0;
        let square = self.apart * self.apart;
        let mut spots: Vec<Spot> = Vec::with_capacity(self.ways.len());
        for moment in 0..MOMENTS {
            spots.clear();
            let metres = self.done.iter().map(|done| done.get(moment).copied().unwrap_or(0.0));
            spots.extend(self.ways.iter().zip(metres).map(|(way, metres)| way.spot(metres)));
            for (one, a) in spots.iter().enumerate() {
                for (other, b) in spots.iter().enumerate().skip(one + 1) {
                    let (dx, dy) = (a.place[0] - b.place[0], a.place[1] - b.place[1]);
                    let far = dx * dx + dy * dy;
                    if far >= square {
                        continue;
                    }
                    let far = far.sqrt().max(1e-6);
                    let short = self.apart - far;
                    price += self.weights.0 * short * short;
                    let pull = -2.0 * self.weights.0 * short / far;
                    for (role, along, sign) in [(one, a.along, 1.0), (other, b.along, -1.0)] {
                        if let Some(slope) =
                            self.slopes.get_mut(role).and_then(|slopes| slopes.get_mut(moment))
                        {
                            *slope += sign * pull * (dx * along[0] + dy * along[1]);
                        }
                    }
                }
            }
        }
        price
    }

    /// The least distance between two in a file at the speeds looked at last, metres.
    pub(super) fn nearest(&self) -> f64 {
        let mut least = f64::INFINITY;
        for moment in 0..MOMENTS {
            let metres = self.done.iter().map(|done| done.get(moment).copied().unwrap_or(0.0));
            let spots: Vec<Spot> =
                self.ways.iter().zip(metres).map(|(way, metres)| way.spot(metres)).collect();
            for (one, a) in spots.iter().enumerate() {
                for b in spots.iter().skip(one + 1) {
                    let (dx, dy) = (a.place[0] - b.place[0], a.place[1] - b.place[1]);
                    least = least.min((dx * dx + dy * dy).sqrt());
                }
            }
        }
        least
    }
}

/// Changes of speed and what is beside the even one, each squared, over the time that the way takes.
fn unevenness(way: &Way, speeds: &[f64], slopes: &mut [f64]) -> f64 {
    let mut price = 0.0;
    let mut before = 0.0;
    for index in 0..=speeds.len() {
        let speed = speeds.get(index).copied().unwrap_or(0.0);
        let change = speed - before;
        price += 2.0 * change * change;
        if let Some(slope) = slopes.get_mut(index) {
            *slope += 4.0 * change;
        }
        if let Some(slope) = index.checked_sub(1).and_then(|index| slopes.get_mut(index)) {
            *slope -= 4.0 * change;
        }
        before = speed;
    }
    for (speed, slope) in speeds.iter().zip(slopes) {
        let off = speed - way.even();
        price += EVEN / 2.0 * off * off;
        *slope += EVEN * off;
    }
    price
}

/// What speeds cost that are above the top speed, or backwards.
fn haste(way: &Way, speeds: &[f64], slopes: &mut [f64], weight: f64) -> f64 {
    let top = TOP_SPEED.max(way.length / (way.counts() - ENDS));
    let mut price = 0.0;
    for (speed, slope) in speeds.iter().zip(slopes) {
        let over = if *speed > top { speed - top } else { speed.min(0.0) };
        price += HASTE * weight * over * over;
        *slope += 2.0 * HASTE * weight * over;
    }
    price
}

/// What the metres of a role have to come to. Counts are looked at from each quarter of a count, changes from each half.
fn least(role: usize, way: &Way) -> Vec<Least> {
    let mut all = Vec::new();
    let (begin, end, count) = (way.begin * LOOKS, way.end * LOOKS, IN_COUNT * LOOKS);
    let mean = way.mean() / count as f64;
    let bar = IN_BAR * LOOKS;
    for bar_begins in (0..HALVES * LOOKS).step_by(bar) {
        let (from, to) = (bar_begins.max(begin), (bar_begins + bar).min(end));
        if to > from {
            let metres = BAR * mean * (to - from) as f64;
            all.push(Least { role, terms: vec![(to, 1.0), (from, -1.0)], metres });
        }
    }
    let (first, last) = (begin + count, end.saturating_sub(count));
    for from in (first..(last + 1).saturating_sub(count)).step_by(LOOKS / 2) {
        let metres = COUNT * mean * count as f64;
        all.push(Least { role, terms: vec![(from + count, 1.0), (from, -1.0)], metres });
    }
    // Two counts that follow each other, from before setting off until after stopping.
    for middle in (begin..=end).step_by(LOOKS) {
        let (before, after) = (middle.saturating_sub(count), (middle + count).min(HALVES * LOOKS));
        let ends = before < first || after > last;
        let most = if ends { END_CHANGE } else { CHANGE };
        for sign in [1.0, -1.0] {
            let terms = vec![(after, sign), (middle, -2.0 * sign), (before, sign)];
            all.push(Least { role, terms, metres: -most });
        }
    }
    all
}
