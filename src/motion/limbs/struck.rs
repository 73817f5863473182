use super::gait::Gait;
use super::in_space::InSpace;
use super::meet::{Trunk, between_two, palm_at};
use super::sides::{of_side, on_side};
use super::sizes::{HIP_ASIDE, SIDES};
use super::stick::{CARRIED, from_palm};
use crate::dance::{Dancer, StrikeEnd, StrikePart};
use crate::motion::cubics::ease;
use crate::motion::{Blow, BlowOn, Motion};

/// A hand is on its way to what it strikes, and back from it, for so many counts where there is time.
const WAY: f64 = 1.0;
/// Between two strikes of a hand that are farther apart than the second, counts, it goes as the step has it; nearer than the first it stays up.
const GOES_BACK: [f64; 2] = [1.0, 3.0];
/// What stays together parts so long before the next strike, counts.
const PARTS: f64 = 0.5;
/// On the own side of a knee that is struck, the foot is raised so far, metres, and its hip is so far over a knee that is clapped under.
const RAISED: [f64; 2] = [0.3, 0.02];

/// A strike as one hand has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct HandBlow {
    pub blow: Blow,
    /// With what this hand meets.
    pub end: StrikeEnd,
    /// Until when it stays there, counts of the dance.
    until: f64,
}

/// The strikes of a dancer's hands, left and right, in order of time. Of two at once the first is danced.
pub(super) fn hand_blows(motion: &Motion, dancer: Dancer) -> [Vec<HandBlow>; 2] {
    [0, 1].map(|hand| {
        let of_hand = motion.blows().iter().filter(|blow| !matches!(blow.on, BlowOn::Nobody(_)));
        let of_hand = of_hand.filter_map(|blow| {
            blow.end_of(dancer, hand).map(|end| HandBlow { blow: *blow, end, until: blow.until })
        });
        let mut found: Vec<HandBlow> = of_hand.collect();
        found.dedup_by(|next, before| next.blow.count - before.blow.count < 1e-6);
        let next: Vec<f64> = found.iter().skip(1).map(|next| next.blow.count).collect();
        for (own, next) in found.iter_mut().zip(next) {
            let parts = next - PARTS.min((next - own.blow.count) / 2.0);
            own.until = own.until.min(parts);
        }
        found
    })
}

/// The strikes that a hand comes from and goes to at a count, and how far it is with each of them.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Between<'a> {
    before: Option<(&'a HandBlow, f64)>,
    after: Option<(&'a HandBlow, f64)>,
    /// How far it goes back to what the step has it do in between, a share.
    goes_back: f64,
}

impl<'a> Between<'a> {
    pub fn at(blows: &'a [HandBlow], count: f64) -> Self {
        let next = blows.partition_point(|own| own.blow.count <= count + 1e-9);
        let before = next.checked_sub(1).and_then(|index| blows.get(index));
        let after = blows.get(next);
        let apart = before.zip(after).map_or(f64::INFINITY, |(one, two)| two.blow.count - one.until);
        let way = WAY.min(apart / 2.0);
        let comes = |gone: f64| (1.0 - gone.max(0.0) / way).max(0.0).powi(2);
        let [near, far] = GOES_BACK;
        Self {
            before: before.map(|own| (own, comes(count - own.until))),
            after: after.map(|own| (own, comes(own.blow.count - count))),
            goes_back: ease(((apart - near) / (far - near)).clamp(0.0, 1.0)),
        }
    }

    /// Whether it has nothing to do with any strike.
    pub fn is_free(&self) -> bool {
        self.goes_back >= 1.0 && self.all().all(|(_, share)| share <= 0.0)
    }

    /// The strikes with their shares.
    fn all(&self) -> impl Iterator<Item = (&'a HandBlow, f64)> {
        self.before.into_iter().chain(self.after)
    }

    /// What lies between two strikes that it does not go back from, a share.
    fn held_up(&self) -> f64 {
        let struck: f64 = self.all().map(|(_, share)| share).sum();
        (1.0 - struck).max(0.0) * (1.0 - self.goes_back)
    }
}

/// The strikes of both hands at a moment, in the body that makes them.
pub(super) struct Struck<'a> {
    pub hands: [Between<'a>; 2],
    pub motion: &'a Motion,
    pub count: f64,
    /// The knees as the legs have them.
    pub knees: [InSpace; 2],
    pub crown: f64,
}

impl Struck<'_> {
    /// Where an end is to come to.
    fn place(&self, own: &HandBlow, trunk: &Trunk) -> InSpace {
        let at = |x: f64, y: f64, z: f64| trunk.body.place(InSpace::new(x, y, z));
        let side = on_side(SIDES, own.blow.by.hand);
        let height = |usual: f64| own.blow.height.unwrap_or(usual);
        match own.blow.on {
            BlowOn::Other(_) => between_two(self.motion, &own.blow, self.count).unwrap_or_default(),
            BlowOn::Nobody(_) => InSpace::default(),
            BlowOn::Ground => at(side * 0.08, 0.42, height(0.0)),
            BlowOn::Own(part) => match part {
                StrikePart::Hands => at(0.0, 0.36, height(1.25)),
                StrikePart::Behind => at(0.0, -0.24, height(0.95)),
                StrikePart::Overhead => at(0.0, 0.12, height(self.crown + 0.12)),
                StrikePart::RightKnee => on_side(self.knees, 1) + InSpace::new(0.0, 0.0, 0.07),
                StrikePart::LeftKnee => on_side(self.knees, 0) + InSpace::new(0.0, 0.0, 0.07),
                StrikePart::UnderRightKnee => under(trunk, on_side(self.knees, 1), 1),
                StrikePart::UnderLeftKnee => under(trunk, on_side(self.knees, 0), 0),
            },
        }
    }

    fn lean_of(&self, own: &HandBlow, hand: usize, trunk: &Trunk) -> f64 {
        let end = from_palm(own.end, self.motion.held().grip);
        trunk.lean_to(hand, self.place(own, trunk), end, matches!(own.blow.on, BlowOn::Own(_)))
    }

    /// How far the trunk leans, degrees.
    pub fn lean(&self, trunk: &Trunk) -> f64 {
        let of_hand = |hand: usize| {
            let between = on_side(self.hands, hand);
            if between.is_free() {
                return trunk.upright;
            }
            let mut most = trunk.upright;
            let mut lean = trunk.upright;
            for (own, share) in between.all().filter(|(_, share)| *share > 0.0 || between.held_up() > 0.0) {
                let wanted = self.lean_of(own, hand, trunk);
                lean += share * (wanted - trunk.upright);
                most = most.max(wanted);
            }
            let leans = lean - trunk.upright + between.held_up() * 0.85 * (most - trunk.upright);
            trunk.upright + leans * trunk.stands
        };
        of_hand(0).max(of_hand(1))
    }

    /// A palm, and which way its stick points, where the step has the palm somewhere of its own.
    pub fn palm(
        &self,
        hand: usize,
        (shoulder, own): (InSpace, InSpace),
        trunk: &Trunk,
    ) -> (InSpace, InSpace) {
        let between = on_side(self.hands, hand);
        let carried = trunk.body.way(CARRIED);
        if between.is_free() {
            return (own, carried);
        }
        let grip = self.motion.held().grip;
        let at = |blow: &HandBlow| palm_at(shoulder, self.place(blow, trunk), (blow.end, grip), carried);
        let (mut palm, mut along) = (InSpace::default(), InSpace::default());
        let (mut up, mut many) = ((InSpace::default(), InSpace::default()), 0.0);
        for (blow, share) in between.all().filter(|(_, share)| *share > 0.0 || between.held_up() > 0.0) {
            let found = at(blow);
            (palm, along) = (palm + found.0 * share, along + found.1 * share);
            (up, many) = ((up.0 + found.0, up.1 + found.1), many + 1.0);
        }
        let struck: f64 = between.all().map(|(_, share)| share).sum();
        let rest = 1.0 - struck;
        let held = between.held_up();
        // Drawn back towards the shoulder, and up, to strike again.
        if held > 0.0 {
            let middle = up.0 * (1.0 / many);
            let back = middle.toward(shoulder, 0.25) + InSpace::new(0.0, 0.0, 0.06);
            (palm, along) = (palm + back * held, along + up.1 * (held / many));
        }
        let goes = (rest - held).max(0.0);
        (palm, along) = (palm + own * goes, along + carried * goes);
        let length = along.length();
        (palm, if length > 1e-3 { along * (1.0 / length) } else { carried })
    }

    /// Where a foot is whose knee is struck: raised from where it stands, a share, to a place as the body has it.
    pub fn raises(&self, side: usize, hips: f64) -> Option<(f64, InSpace)> {
        let mut found: Option<(f64, bool)> = None;
        for (own, share) in self.hands.iter().flat_map(Between::all) {
            let BlowOn::Own(part) = own.blow.on else { continue };
            let under = match (part, side) {
                (StrikePart::RightKnee, 1) | (StrikePart::LeftKnee, 0) => false,
                (StrikePart::UnderRightKnee, 1) | (StrikePart::UnderLeftKnee, 0) => true,
                _ => continue,
            };
            // Gently off the floor and onto it again.
            let share = ease(share.sqrt());
            if share > found.map_or(0.0, |(share, _)| share) {
                found = Some((share, under));
            }
        }
        found.map(|(share, under)| {
            let [raised, over] = RAISED;
            let x = on_side(SIDES, side) * HIP_ASIDE;
            let foot =
                if under { InSpace::new(x, 0.36, hips - over - 0.46) } else { InSpace::new(x, 0.28, raised) };
            (share, foot)
        })
    }
}

/// Under a thigh: half-way to its knee, and below.
fn under(trunk: &Trunk, knee: InSpace, side: usize) -> InSpace {
    let hip = trunk.body.place(InSpace::new(on_side(SIDES, side) * HIP_ASIDE, 0.0, trunk.hips));
    hip.toward(knee, 0.75) - InSpace::new(0.0, 0.0, 0.12)
}

/// A strike is seen for so many counts before it and after it.
const SEEN: [f64; 2] = [0.125, 0.5];

/// A foot is raised to be clapped under where both are planted for so long before and after, seconds; near to that less.
const FIRM: f64 = 0.15;

impl Gait {
    /// How far a foot can be raised to be clapped under at a time: all the way, 1, where both are planted or it is on its way from where it
    /// was lifted to where it lands, down to 0 near to where one lands or is lifted. Not in a jump.
    pub(super) fn firm(&self, side: usize, time: f64, planted: [bool; 2]) -> f64 {
        let well_within = |begin: f64, end: f64| ease((time - begin).min(end - time) / FIRM);
        let begun = |side: usize| {
            let contacts = of_side(&self.contacts, side);
            contacts.partition_point(|contact| contact.begin <= time).checked_sub(1)
        };
        let stands = |side: usize| {
            let held = begun(side).and_then(|index| of_side(&self.contacts, side).get(index));
            held.filter(|contact| contact.holds(time))
                .map_or(0.0, |contact| well_within(contact.begin, contact.end))
        };
        if planted == [true; 2] {
            return stands(0) * stands(1);
        }
        let swings = !on_side(planted, side)
            && begun(side).is_some_and(|index| {
                of_side(&self.swings, side).get(index).is_some_and(|swing| !swing.flies)
            });
        let lifted = begun(side).filter(|_| swings);
        let between = lifted.and_then(|index| of_side(&self.contacts, side).get(index..index + 2));
        match between {
            Some([from, to]) => well_within(from.end, to.begin),
            _ => 0.0,
        }
    }

    /// What a hand strikes with about a count, and how much it is that moment.
    pub(super) fn struck_now(&self, hand: usize, count: f64) -> Option<(StrikeEnd, f64)> {
        let blows = of_side(&self.blows, hand);
        let [early, late] = SEEN;
        let next = blows.partition_point(|own| own.blow.count <= count + early);
        let own = blows.get(next.checked_sub(1)?)?;
        let after = count - own.blow.count;
        let share = if after < 0.0 { 1.0 + after / early } else { 1.0 - after / late };
        (share > 0.0).then_some((own.end, share))
    }

    /// What the strikes about a count have the hands do; nothing where none is near.
    pub(super) fn struck(&self, count: f64) -> Option<[Between<'_>; 2]> {
        let [left, right] = &self.blows;
        if left.is_empty() && right.is_empty() {
            return None;
        }
        let hands = [Between::at(left, count), Between::at(right, count)];
        hands.iter().any(|hand| !hand.is_free()).then_some(hands)
    }
}
