//! Two versions of a dance beside each other: where they differ, to the bar.

use super::compare_words::{WholeDifference, bars_words, set_words};
use crate::dance::{Dance, Dancer, Figure, PlaceNumber, Strike};
use crate::motion::{Ground, Motion, Span, SpanIndex, Track, wrap_half};
use std::sync::Arc;

/// Farther apart than this, metres, a dancer is somewhere else.
pub const APART: f64 = 0.05;
/// Farther apart than this, degrees, a dancer faces another way.
pub const ASKEW: f64 = 5.0;
/// How often in a count the two are looked at. A difference that comes and goes between two looks is not seen.
const LOOKS: u32 = 8;

/// What two versions of a dance differ in. Of the two, one is here and the other there.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// What differs in the whole: dancers, set, figures, running order.
    pub whole: Vec<WholeDifference>,
    /// Whose parts differ, in the order in which the figures are danced here.
    pub parts: Vec<PartDifference>,
    pairs: Vec<Pair>,
    /// The motions, which also keep what names the pairs from being another's.
    here: Arc<Motion>,
    there: Arc<Motion>,
}

/// One place of one figure that is danced otherwise there.
#[derive(Clone, Debug, PartialEq)]
pub struct PartDifference {
    /// The index of the figure here.
    pub figure: usize,
    /// The index of the figure there.
    pub other_figure: usize,
    /// The place, by the number whose spot it is.
    pub place: PlaceNumber,
    /// The dancer who begins the figure in it, the first time that it differs.
    pub dancer: Dancer,
    /// The index of that span here.
    pub span: SpanIndex,
    /// The index of the span there that it is beside.
    pub other_span: SpanIndex,
    /// The count from the start, here, to go to to see it.
    pub count: f64,
    /// The bars of the figure, from 1, in which it differs, over all times that it is danced.
    pub bars: Vec<u32>,
    /// The farthest apart that the two are, metres.
    pub apart: f64,
    /// The most that their facings differ, degrees.
    pub askew: f64,
    /// Whether they are ever on other feet.
    pub foot: bool,
}

/// A span here and the one there that it is beside.
#[derive(Clone, Debug)]
struct Pair {
    span: SpanIndex,
    other_span: SpanIndex,
    /// What names the two for as long as their motions live.
    key: (u64, u64),
    found: Arc<Vec<PlaceDiffering>>,
}

/// A place that differs in a pair of spans.
#[derive(Clone, Debug)]
struct PlaceDiffering {
    place: PlaceNumber,
    /// The count from the start of the figure to go to to see it: in the first bar that differs, where it differs
    /// most, on a whole count where one differs.
    see: f64,
    bars: Vec<u32>,
    apart: f64,
    askew: f64,
    foot: bool,
}

impl PartDifference {
    /// Such as `bar 2`, `bars 2 to 4 and 7`.
    #[must_use]
    pub fn bars_words(&self) -> String {
        bars_words(&self.bars)
    }

    /// How much it differs, in words: `0.40 m, 90°, other foot`.
    #[must_use]
    pub fn much_words(&self) -> String {
        let mut said = Vec::new();
        if self.apart > APART {
            said.push(format!("{:.2} m away", self.apart));
        }
        if self.askew > ASKEW {
            said.push(format!("facing {:.0}° off", self.askew));
        }
        if self.foot {
            said.push("on the other foot".to_owned());
        }
        said.join(", ")
    }
}

impl Comparison {
    /// Whether nothing differs.
    #[must_use]
    pub fn alike(&self) -> bool {
        self.whole.is_empty() && self.parts.is_empty()
    }

    /// How many things differ.
    #[must_use]
    pub fn many(&self) -> usize {
        self.whole.len() + self.parts.len()
    }

    #[must_use]
    pub fn here(&self) -> &Arc<Motion> {
        &self.here
    }

    #[must_use]
    pub fn there(&self) -> &Arc<Motion> {
        &self.there
    }

    /// What lies beside a span here: the span there, and the places that differ in the two.
    #[must_use]
    pub fn beside(&self, span: SpanIndex) -> Option<(&Span, Vec<PlaceNumber>)> {
        let pair = self.pairs.iter().find(|pair| pair.span == span)?;
        let there = self.there.span(pair.other_span)?;
        Some((there, pair.found.iter().map(|found| found.place).collect()))
    }
}

/// Compares a dance with another version of it; `before` is what an earlier state of this dance gave against the same
/// version, to share what has not changed.
///
/// A figure is beside the one there with its id, or else with its name; the first time it is danced beside the first,
/// and so on. Places and facings are looked at eight times a count and just before each bar's end, feet where they land.
#[must_use]
pub fn compare(
    (dance, motion): (&Dance, &Arc<Motion>),
    (other, there): (&Dance, &Arc<Motion>),
    before: Option<&Comparison>,
) -> Comparison {
    let before = before.filter(|before| Arc::ptr_eq(&before.there, there));
    let matched = matched(dance, other);
    let whole = whole(dance, other, &matched);
    let mut pairs: Vec<Pair> = Vec::new();
    let mut parts: Vec<PartDifference> = Vec::new();
    let mut taken = vec![false; there.spans().len()];
    let dancers = if dance.set.dancers == other.set.dancers { motion.dancers() } else { 0 };
    for (index, span) in motion.indexed_spans() {
        let Some(other_figure) = matched.get(span.figure).copied().flatten() else { continue };
        let found = there
            .indexed_spans()
            .zip(&mut taken)
            .find(|((_, candidate), taken)| candidate.figure == other_figure && !**taken);
        let Some(((other_index, beside), taken)) = found else { continue };
        *taken = true;
        let key = (span.identity(), beside.identity());
        let known = pairs.iter().chain(before.iter().flat_map(|before| &before.pairs));
        let found = known.into_iter().find(|pair| pair.key == key).map(|pair| Arc::clone(&pair.found));
        let found = found.unwrap_or_else(|| Arc::new(places_differing(dancers, span, beside)));
        for found in found.iter() {
            add_difference(&mut parts, found, (index, span), (other_index, other_figure));
        }
        pairs.push(Pair { span: index, other_span: other_index, key, found });
    }
    let first = |figure: usize| motion.spans().iter().position(|span| span.figure == figure).map(SpanIndex);
    parts.sort_by_key(|part| (first(part.figure), part.place));
    Comparison { whole, parts, pairs, here: Arc::clone(motion), there: Arc::clone(there) }
}

/// Puts what was found in a pair of spans to what is known of that place of that figure.
fn add_difference(
    parts: &mut Vec<PartDifference>,
    found: &PlaceDiffering,
    (index, span): (SpanIndex, &Span),
    (other_span, other_figure): (SpanIndex, usize),
) {
    let known = parts.iter_mut().find(|part| part.figure == span.figure && part.place == found.place);
    if let Some(part) = known {
        part.bars.extend(&found.bars);
        part.bars.sort_unstable();
        part.bars.dedup();
        part.apart = part.apart.max(found.apart);
        part.askew = part.askew.max(found.askew);
        part.foot |= found.foot;
    } else {
        parts.push(PartDifference {
            figure: span.figure,
            other_figure,
            place: found.place,
            dancer: span.dancer_in(found.place).unwrap_or(found.place.first_dancer()),
            span: index,
            other_span,
            count: span.begin() + found.see,
            bars: found.bars.clone(),
            apart: found.apart,
            askew: found.askew,
            foot: found.foot,
        });
    }
}

/// For each figure here, the index of the same one there: by id, then by name.
fn matched(dance: &Dance, other: &Dance) -> Vec<Option<usize>> {
    let mut matched: Vec<Option<usize>> =
        dance.figures.iter().map(|figure| other.figure_index(&figure.id)).collect();
    for (index, figure) in dance.figures.iter().enumerate() {
        if matched.get(index).copied().flatten().is_some() {
            continue;
        }
        let name = figure.name.to_lowercase();
        let found = other.figures.iter().enumerate().position(|(candidate, known)| {
            known.name.to_lowercase() == name && !matched.contains(&Some(candidate))
        });
        if let Some(slot) = matched.get_mut(index) {
            *slot = found;
        }
    }
    matched
}

fn whole(dance: &Dance, other: &Dance, matched: &[Option<usize>]) -> Vec<WholeDifference> {
    let mut whole = Vec::new();
    if dance.set.dancers != other.set.dancers {
        whole.push(WholeDifference::Dancers { here: dance.set.dancers, there: other.set.dancers });
    } else if Ground::of(&dance.set) != Ground::of(&other.set) {
        whole.push(WholeDifference::Set { here: set_words(&dance.set), there: set_words(&other.set) });
    }
    for (figure, beside) in dance.figures.iter().zip(matched) {
        match beside.and_then(|index| other.figures.get(index)) {
            None => whole.push(WholeDifference::OnlyHere(figure.name.clone())),
            Some(beside) if beside.bars != figure.bars => {
                let name = figure.name.clone();
                whole.push(WholeDifference::Bars { name, here: figure.bars, there: beside.bars });
            }
            Some(_) => {}
        }
    }
    for (index, figure) in other.figures.iter().enumerate() {
        if !matched.contains(&Some(index)) {
            whole.push(WholeDifference::OnlyThere(figure.name.clone()));
        }
    }
    whole.extend(other_taps(dance, other, matched));
    let (order, there) = (dance.danced(), other.danced());
    let differs = (0..order.len().max(there.len())).find(|&line| {
        let beside = order.get(line).map(|&figure| matched.get(figure).copied().flatten());
        beside != there.get(line).map(|&figure| Some(figure))
    });
    if let Some(line) = differs {
        let name = |dance: &Dance, order: &[usize]| {
            order.get(line).and_then(|&index| dance.figures.get(index)).map(|figure| figure.name.clone())
        };
        whole.push(WholeDifference::Order {
            line: line + 1,
            here: name(dance, &order),
            there: name(other, &there),
        });
    }
    whole
}

/// The figures in which other ends meet, or at other counts.
fn other_taps(dance: &Dance, other: &Dance, matched: &[Option<usize>]) -> Vec<WholeDifference> {
    let beside = dance.figures.iter().enumerate().zip(matched);
    let beside = beside.filter_map(|((index, figure), beside)| {
        let other_index = (*beside)?;
        Some((index, figure, other_index, other.figures.get(other_index)?))
    });
    let differ = beside.filter(|(_, figure, _, there)| figure.strikes != there.strikes);
    differ
        .map(|(figure, here, other_figure, there)| {
            // Each strike at each of its counts, by itself.
            let each = |strikes: &[Strike]| {
                let at = |strike: &Strike, at: f64| Strike { at, again: Vec::new(), ..strike.clone() };
                let all =
                    strikes.iter().flat_map(|strike| strike.counts().map(move |count| at(strike, count)));
                all.collect::<Vec<_>>()
            };
            let (mine, theirs) = (each(&here.strikes), each(&there.strikes));
            let only = |ones: &[Strike], others: &[Strike], dance: &Dance, figure: &Figure| {
                let bars = dance.bar_counts(figure);
                let only = ones.iter().filter(|strike| !others.contains(strike));
                only.map(|strike| bars.at(strike.at + 1e-9).0 + 1).collect::<Vec<u32>>()
            };
            let mut bars = only(&mine, &theirs, dance, here);
            bars.extend(only(&theirs, &mine, other, there));
            bars.sort_unstable();
            bars.dedup();
            WholeDifference::Taps { name: here.name.clone(), figure, other_figure, bars }
        })
        .collect()
}

fn places_differing(dancers: usize, span: &Span, beside: &Span) -> Vec<PlaceDiffering> {
    PlaceNumber::all(dancers).filter_map(|place| place_differing(place, span, beside)).collect()
}

/// How unlike a place of two spans is danced, over the bars that both have: 0 where nothing differs.
pub(super) fn unlikeness(place: PlaceNumber, span: &Span, beside: &Span) -> f64 {
    let Some((track, other)) = tracks(place, span, beside) else { return 0.0 };
    let counts = span.bar_counts().counts().min(beside.bar_counts().counts());
    let looks = counts as u32 * LOOKS;
    (0..looks)
        .map(|look| {
            let count = f64::from(look) / f64::from(LOOKS);
            let (apart, askew) = far(track, other, count);
            apart + askew / 360.0 + f64::from(u8::from(other_foot(track, other, count)))
        })
        .sum()
}

/// The ways of those who begin in a place.
fn tracks<'a>(place: PlaceNumber, span: &'a Span, beside: &'a Span) -> Option<(&'a Track, &'a Track)> {
    Some((span.track(span.dancer_in(place)?)?, beside.track(beside.dancer_in(place)?)?))
}

fn place_differing(place: PlaceNumber, span: &Span, beside: &Span) -> Option<PlaceDiffering> {
    let (track, other) = tracks(place, span, beside)?;
    let mut found = PlaceDiffering { place, see: 0.0, bars: Vec::new(), apart: 0.0, askew: 0.0, foot: false };
    for bar in 0..span.bars.min(beside.bars) {
        let (begin, counts) = (span.bar_counts().begin_of(bar), span.bar_counts().in_bar(bar));
        let mut differs = false;
        let mut most = (false, 0.0);
        for look in 0..=counts * LOOKS {
            let count = begin + f64::from(look) / f64::from(LOOKS);
            // The end of a bar is seen just before it, so that the next bar does not count.
            let last = look == counts * LOOKS;
            let (apart, askew) = far(track, other, if last { count - 1e-6 } else { count });
            found.apart = found.apart.max(apart);
            found.askew = found.askew.max(askew);
            let foot = look.is_multiple_of(LOOKS) && !last && other_foot(track, other, count);
            found.foot |= foot;
            if apart > APART || askew > ASKEW || foot {
                differs = true;
                let much = (look.is_multiple_of(LOOKS) && !last, apart + askew / 360.0);
                if found.bars.is_empty() && (much > most || most == (false, 0.0)) {
                    (most, found.see) = (much, if last { count - 1e-6 } else { count });
                }
            }
        }
        if differs {
            found.bars.push(bar + 1);
        }
    }
    (!found.bars.is_empty()).then_some(found)
}

/// How far apart two ways are at a count of their figure, metres and degrees.
fn far(track: &Track, other: &Track, count: f64) -> (f64, f64) {
    let ((x, y, facing), (other_x, other_y, other_facing)) = (track.stand(count), other.stand(count));
    ((x - other_x).hypot(y - other_y), wrap_half(facing - other_facing).abs())
}

/// Whether other feet land on a count.
fn other_foot(track: &Track, other: &Track, count: f64) -> bool {
    let weight = |track: &Track| track.footing().fall(count).map(|fall| fall.weight);
    weight(track) != weight(other)
}
