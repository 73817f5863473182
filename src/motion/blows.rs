use super::{Held, Span, SpanIndex};
use crate::dance::{Dancer, Foot, Holding, PlaceNumber, SetKind, Strike, StrikeEnd, StrikePart, Struck};
use crate::motion::Ground;
use std::collections::{HashMap, hash_map::Entry};

/// A hand that strikes or is struck, or the stick in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BlowHand {
    pub dancer: Dancer,
    /// The left (0) or the right (1).
    pub hand: usize,
    /// What meets: an end of the stick in that hand, or the hand itself.
    pub end: StrikeEnd,
}

/// What is met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlowOn {
    /// Another dancer's hand or stick.
    Other(BlowHand),
    /// Somebody whom there is not: the one at the top has no neighbour up.
    Nobody(Struck),
    Ground,
    /// A part of oneself; where it is the hands, the other hand comes to it as well.
    Own(StrikePart),
}

/// Two ends that meet once, as they are danced: a strike of a figure with everybody it means by name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blow {
    /// When they meet, counts from the start of the dance.
    pub count: f64,
    /// Until when they stay together, counts from the start of the dance: `count` where they part at once.
    pub until: f64,
    /// The line of the running order in which it is.
    pub span: SpanIndex,
    /// Which of the strikes of that figure it is.
    pub strike: usize,
    pub by: BlowHand,
    pub on: BlowOn,
    /// How high they meet, metres, where it is said.
    pub height: Option<f64>,
}

impl Blow {
    /// The hands that are in it: the one that strikes, and the other dancer's.
    #[must_use]
    pub fn hands(&self) -> [Option<BlowHand>; 2] {
        let other = if let BlowOn::Other(other) = self.on { Some(other) } else { None };
        [Some(self.by), other]
    }

    /// Whether a dancer is in it.
    #[must_use]
    pub fn has(&self, dancer: Dancer) -> bool {
        self.hands().into_iter().flatten().any(|hand| hand.dancer == dancer)
    }

    /// What a dancer's hand, left (0) or right (1), meets with in it: the end, where that hand is in it.
    #[must_use]
    pub fn end_of(&self, dancer: Dancer, hand: usize) -> Option<StrikeEnd> {
        let in_it = self.hands().into_iter().flatten().find(|own| own.dancer == dancer && own.hand == hand);
        let joins = self.by.dancer == dancer
            && self.by.hand != hand
            && matches!(self.on, BlowOn::Own(part) if part.is_of_hands());
        in_it.map(|own| own.end).or(joins.then_some(if hand == 0 {
            StrikeEnd::Left
        } else {
            StrikeEnd::Right
        }))
    }

    /// All hands that are in it, whose and which: the other hand of who claps too.
    pub(super) fn all_hands(&self) -> [Option<(Dancer, usize)>; 2] {
        let by = (self.by.dancer, self.by.hand);
        let other = match self.on {
            BlowOn::Other(other) => Some((other.dancer, other.hand)),
            BlowOn::Own(part) if part.is_of_hands() => Some((self.by.dancer, 1 - self.by.hand)),
            _ => None,
        };
        [Some(by), other]
    }

    /// Whether wood sounds in it, and not hands alone.
    #[must_use]
    pub fn is_of_wood(&self) -> bool {
        self.hands().into_iter().flatten().any(|hand| hand.end.is_of_stick())
    }
}

/// How near two counts are the same moment.
const SAME: f64 = 1e-6;

/// The blows of a dance in order of time, from its spans.
pub(super) fn blows_of(spans: &[Span], ground: &Ground, held: &Held) -> Vec<Blow> {
    let mut all = Vec::new();
    for (index, span) in spans.iter().enumerate() {
        let mut found = Vec::new();
        for (strike, told) in span.plan().strikes.iter().enumerate() {
            for count in told.counts() {
                let of = OfSpan { span, index: SpanIndex(index), strike, count: span.begin() + count };
                for place in ground.places().filter(|place| told.by.has(*place)) {
                    of.blows(told, place, (ground, held), &mut found);
                }
            }
        }
        found.sort_by(|one: &Blow, other| one.count.total_cmp(&other.count));
        said_once(&mut found);
        part(&mut found, span.end());
        all.extend(found);
    }
    all
}

/// Those that stay together part at the next strike of either, or at the end of the figure.
fn part(found: &mut [Blow], end: f64) {
    // When each hand strikes next, and what is at one moment taken together.
    let mut next: HashMap<(Dancer, usize), f64> = HashMap::new();
    let mut until = found.len();
    while let Some(last) = until.checked_sub(1).and_then(|last| found.get(last)).map(|last| last.count) {
        let from = found.get(..until).map_or(0, |all| all.partition_point(|blow| blow.count < last - SAME));
        let Some(moment) = found.get_mut(from..until) else { return };
        for blow in moment.iter_mut().filter(|blow| blow.until > blow.count) {
            let hands = blow.all_hands().into_iter().flatten().filter_map(|hand| next.get(&hand).copied());
            blow.until = hands.fold(end, f64::min);
        }
        for blow in moment.iter() {
            for hand in blow.all_hands().into_iter().flatten() {
                next.insert(hand, blow.count);
            }
        }
        until = from;
    }
}

/// Where both say that they meet, they meet once.
fn said_once(found: &mut Vec<Blow>) {
    let mut kept: Vec<Blow> = Vec::with_capacity(found.len());
    // Those of the moment at hand, by who meets whom with what, the lower dancer first.
    let mut here: HashMap<String, usize> = HashMap::new();
    let mut since = f64::NEG_INFINITY;
    for blow in found.drain(..) {
        if blow.count > since + SAME {
            (since, here) = (blow.count, HashMap::new());
        }
        let pair = match blow.on {
            BlowOn::Other(other) if (other.dancer, other.hand) < (blow.by.dancer, blow.by.hand) => {
                format!("{other:?} {:?}", blow.by)
            }
            BlowOn::Other(other) => format!("{:?} {other:?}", blow.by),
            on => format!("{:?} {on:?}", blow.by),
        };
        match here.entry(pair) {
            Entry::Occupied(known) => {
                if let Some(known) = kept.get_mut(*known.get()) {
                    known.until = known.until.max(blow.until);
                }
            }
            Entry::Vacant(slot) => {
                slot.insert(kept.len());
                kept.push(blow);
            }
        }
    }
    *found = kept;
}

/// A strike at one of its counts.
struct OfSpan<'a> {
    span: &'a Span,
    index: SpanIndex,
    strike: usize,
    /// From the start of the dance.
    count: f64,
}

impl OfSpan<'_> {
    /// What whoever dances in a place does in it.
    fn blows(
        &self,
        told: &Strike,
        place: PlaceNumber,
        (ground, held): (&Ground, &Held),
        found: &mut Vec<Blow>,
    ) {
        let Some(dancer) = self.span.dancer_in(place) else { return };
        let other = match told.on {
            Struck::Ground | Struck::Own => None,
            on => neighbour(ground, place, on).and_then(|place| self.span.dancer_in(place)),
        };
        for &(hand, end) in hands_of(told.end, told.hand, dancer, held).iter().flatten() {
            let on = match (told.on, other) {
                (Struck::Ground, _) => BlowOn::Ground,
                (Struck::Own, _) => BlowOn::Own(told.part.unwrap_or(StrikePart::Hands)),
                (_, Some(other)) if other != dancer => {
                    let their = told.their.unwrap_or(told.end);
                    let answers = hands_of(their, told.their_hand, other, held);
                    // With both hands each meets the one before it, so left meets right.
                    let both = (told.end, their) == (StrikeEnd::Both, StrikeEnd::Both);
                    let answer =
                        if both { answers.get(1 - hand) } else { answers.iter().find(|own| own.is_some()) };
                    let Some(&(hand, end)) = answer.and_then(Option::as_ref) else { continue };
                    BlowOn::Other(BlowHand { dancer: other, hand, end })
                }
                (nobody, _) => BlowOn::Nobody(nobody),
            };
            let until = if told.stay { self.span.end() } else { self.count };
            let by = BlowHand { dancer, hand, end };
            let (span, strike, count, height) = (self.index, self.strike, self.count, told.height);
            found.push(Blow { count, until, span, strike, by, on, height });
            // The own two hands are there already.
            if matches!(on, BlowOn::Own(part) if part.is_of_hands()) {
                break;
            }
        }
    }
}

/// The hands, left and right, with which a strike is made, and what of each meets: a hand that should hold a stick and holds none
/// meets itself.
fn hands_of(
    end: StrikeEnd,
    hand: Option<Foot>,
    dancer: Dancer,
    held: &Held,
) -> [Option<(usize, StrikeEnd)>; 2] {
    let (left, right) = (Some((0, StrikeEnd::Left)), Some((1, StrikeEnd::Right)));
    match end {
        StrikeEnd::Left => [left, None],
        StrikeEnd::Right => [None, right],
        StrikeEnd::Both => [left, right],
        stick => {
            let hand = hand.map_or_else(|| held.stick_hand(dancer), |hand| usize::from(hand == Foot::Right));
            let own = if hand == 0 { StrikeEnd::Left } else { StrikeEnd::Right };
            let end = if held.holding == Holding::Sticks { stick } else { own };
            let mut hands = [None; 2];
            if let Some(slot) = hands.get_mut(hand) {
                *slot = Some((hand, end));
            }
            hands
        }
    }
}

/// The place of whoever a strike is on. In a ring the next one up is the number before, and down the number after (common practice,
/// no source).
fn neighbour(ground: &Ground, place: PlaceNumber, on: Struck) -> Option<PlaceNumber> {
    let many = ground.dancers();
    let by = |index: Option<usize>| index.filter(|index| *index < many).map(PlaceNumber::from_index);
    let index = place.index();
    match (on, ground.kind) {
        (Struck::Place(place), _) => by(Some(place.index())),
        (Struck::Partner, _) => ground.pair(place),
        (Struck::Opposite, SetKind::Ring) if many.is_multiple_of(2) => by(Some((index + many / 2) % many)),
        (Struck::Opposite, _) => ground.opposite(place),
        (Struck::Up, SetKind::Ring) => by(Some((index + many - 1) % many)),
        (Struck::Down, SetKind::Ring) => by(Some((index + 1) % many)),
        (Struck::Up, SetKind::Longways) => by(index.checked_sub(2)),
        (Struck::Down, SetKind::Longways) => by(Some(index + 2)),
        (Struck::Up | Struck::Down | Struck::Ground | Struck::Own, _) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Set, Striker};
    use crate::motion::{Motion, Plan, USUAL_PHRASE};
    use std::sync::Arc;

    fn motion(strikes: Vec<Strike>) -> Motion {
        let mut plan = Plan::still(4, USUAL_PHRASE, 6);
        plan.strikes = strikes;
        let held = Held { holding: Holding::Sticks, left_handed: vec![Dancer(1)], ..Held::default() };
        let ground = Ground::of(&Set::longways(6, 1.2, 1.2));
        let plan = Arc::new(plan);
        Motion::compile(&ground, &[], &[(0, Arc::clone(&plan)), (0, plan)], None).unwrap().holding(held)
    }

    #[test]
    fn odds_tap_evens_once_each_and_again_in_each_figure() {
        let told = Strike {
            their: Some(StrikeEnd::Butt),
            again: vec![6.0],
            ..Strike::new(2.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner)
        };
        let motion = motion(vec![told]);
        let blows = motion.blows();
        let counts: Vec<f64> = blows.iter().map(|blow| blow.count).collect();
        assert_eq!(counts, [2.0, 2.0, 2.0, 6.0, 6.0, 6.0, 18.0, 18.0, 18.0, 22.0, 22.0, 22.0]);
        assert_eq!(blows[0].by, BlowHand { dancer: Dancer(0), hand: 1, end: StrikeEnd::Tip });
        // 2 is left-handed.
        let other = BlowHand { dancer: Dancer(1), hand: 0, end: StrikeEnd::Butt };
        assert_eq!(blows[0].on, BlowOn::Other(other));
    }

    #[test]
    fn what_all_do_with_their_partners_is_done_once_and_stays_until_the_next() {
        let mut first = Strike::new(0.0, Striker::All, StrikeEnd::Tip, Struck::Partner);
        first.stay = true;
        let motion = motion(vec![
            first,
            Strike::new(4.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Tip, Struck::Down),
        ]);
        let blows = motion.blows();
        let first: Vec<f64> = blows.iter().filter(|blow| blow.count == 0.0).map(|blow| blow.until).collect();
        // 1 strikes 3: both their pairs part; 5 and 6 stay until the figure ends.
        assert_eq!(first, [4.0, 4.0, 16.0]);
    }

    #[test]
    fn hands_meet_across_and_nobody_is_above_the_top() {
        let both = Strike::new(1.0, Striker::Odds, StrikeEnd::Both, Struck::Partner);
        let up = Strike::new(2.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Right, Struck::Up);
        let own = Strike::new(3.0, Striker::Place(PlaceNumber(4)), StrikeEnd::Both, Struck::Own);
        let motion = motion(vec![both, up, own]);
        let blows = motion.blows();
        let hands: Vec<_> =
            blows.iter().take(2).map(|blow| (blow.by.hand, blow.hands()[1].map(|hand| hand.hand))).collect();
        assert_eq!(hands, [(0, Some(1)), (1, Some(0))]);
        assert_eq!(blows[6].on, BlowOn::Nobody(Struck::Up));
        assert_eq!(
            (blows[7].on, blows[7].end_of(Dancer(3), 1)),
            (BlowOn::Own(StrikePart::Hands), Some(StrikeEnd::Right))
        );
        assert_eq!(blows.len(), 16);
    }
}
