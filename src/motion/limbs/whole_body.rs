use super::arms::hand_from_shoulder;
use super::body::Limbs;
use super::flight::{Flight, rise};
use super::frame::Frame;
use super::gait::Gait;
use super::in_space::InSpace;
use super::meet::Trunk;
use super::node::hips;
use super::sides::{of_side, on_side, on_side_mut};
use super::sizes::{ARM_BONES, HIP_ASIDE, LEAN, LEG, LEG_BONES, ON_ITS_WAY, REACH, SIDES, neck, trunk};
use super::stick::{CARRIED, StickAt};
use super::struck::Struck;
use super::two_bones::joint;
use crate::motion::cubics::ease;
use crate::motion::{Clock, Motion, Weight};

/// In a jump as high as this, metres, and in higher ones the trunk is straight at the top.
const STRAIGHT: f64 = 0.1;

/// A leg that swings is drawn in gently where it is longer than this share of all of it.
const WELL_WITHIN: f64 = 0.92;
/// Hands that were held in a jump have so long to come to where they are on its landing, seconds.
const COME_DOWN: f64 = 0.18;
/// In a jump so high, metres, nobody stoops any more: who stoops on both sides of one straightens as they rise.
const LEFT: f64 = 0.25;
/// The neck of who stoops leans so much of what the trunk leans.
const NECK: f64 = 0.7;
/// What a hand holds trails behind where the hand was so long ago, seconds.
const TRAIL: f64 = 0.07;

impl Gait {
    /// The body at a count of the dance whose gait it is.
    #[must_use]
    pub fn limbs(&self, motion: &Motion, clock: &Clock, count: f64) -> Limbs {
        let count = count.clamp(0.0, motion.counts());
        let time = clock.seconds(count);
        let pose = motion.pose(self.dancer, count);
        let body = Frame::new(InSpace::new(pose.x, pose.y, 0.0), pose.facing);
        let rise = rise(&self.flights, time);
        let height = hips(&self.nodes, &self.contacts, &self.flights, &body, time);
        // Legs and body are straight in the air [MB1].
        let upright = LEAN * (1.0 - ease(rise / STRAIGHT));
        let tall = motion.held().tall;
        let trunk =
            Trunk { body: &body, hips: height, long: trunk(tall), upright, stands: 1.0 - ease(rise / LEFT) };
        let [left, right] = [0, 1].map(|side| {
            let hip = body.place(InSpace::new(on_side(SIDES, side) * HIP_ASIDE, 0.0, height));
            self.foot(side, time, &body, (hip, rise))
        });
        let (mut feet, mut planted) = ([left.0, right.0], [left.1, right.1]);
        let front = body.way(InSpace::new(0.0, 1.0, 0.0));
        let knees_of = |hips: [InSpace; 2], feet: [InSpace; 2]| {
            [0, 1].map(|side| joint(on_side(hips, side), on_side(feet, side), LEG_BONES, front))
        };
        let hips_at =
            |middle: InSpace| SIDES.map(|side| body.place(middle + InSpace::new(side * HIP_ASIDE, 0.0, 0.0)));
        let mut hips = hips_at(trunk.middle(upright));
        let mut lean = upright;
        let struck = self.struck(count).map(|hands| {
            let crown = height + tall - REACH;
            let mut struck = Struck { hands, motion, count, knees: [InSpace::default(); 2], crown };
            // Whoever stands on the other foot raises a knee to clap it, and so does who has that foot free; never both.
            let raised = [0, 1].map(|side| struck.raises(side, height));
            for side in [0, 1] {
                let Some((share, there)) = on_side(raised, side) else { continue };
                let other = on_side(raised, 1 - side).map_or(0.0, |(share, _)| share);
                let share = (share - other).max(0.0) * self.firm(side, time, planted);
                let foot = on_side(feet, side).toward(body.place(there), share);
                *on_side_mut(&mut feet, side) = foot;
                *on_side_mut(&mut planted, side) &= share < 1e-3;
            }
            struck.knees = knees_of(hips, feet);
            lean = struck.lean(&trunk);
            struck
        });
        if struck.is_some() {
            hips = hips_at(trunk.middle(lean));
        }
        // A leg is no longer than it is, where somebody stoops over feet that are apart.
        let sinks = |side: usize| {
            let (hip, foot) = (on_side(hips, side), on_side(feet, side));
            let across = (hip - foot).across();
            let most = foot.z + (REACH * REACH - across * across).max(0.0).sqrt();
            if on_side(planted, side) { (hip.z - most).max(0.0) } else { 0.0 }
        };
        let sunk = InSpace::new(0.0, 0.0, if lean > upright { sinks(0).max(sinks(1)) } else { 0.0 });
        let hips = hips.map(|hip| hip - sunk);
        if lean > upright {
            for side in [0, 1] {
                let (hip, foot) = (on_side(hips, side), on_side(feet, side));
                let long = (foot - hip).length();
                if !on_side(planted, side) && long > REACH {
                    *on_side_mut(&mut feet, side) = hip + (foot - hip) * (REACH / long);
                }
            }
        }
        let shoulders = [0, 1].map(|side| trunk.shoulder(side, lean) - sunk);
        let chest = on_side(shoulders, 0).toward(on_side(shoulders, 1), 0.5);
        // Whoever stoops still looks to the front.
        let (sin, cos) = (NECK * (lean - upright)).to_radians().sin_cos();
        let neck = neck(tall, upright);
        let crown = chest + body.way(InSpace::new(0.0, neck * sin, neck * cos));
        let own = self.hands(count, tall);
        let mut hands = [InSpace::default(); 2];
        let mut sticks = [None; 2];
        for side in [0, 1] {
            let InSpace { x, y, z } = on_side(own, side);
            let shoulder = on_side(shoulders, side);
            let palm = shoulder + body.way(InSpace::new(on_side(SIDES, side) * x, y, z));
            let (palm, along) = match &struck {
                Some(struck) => struck.palm(side, (shoulder, palm), &trunk),
                None => (palm, body.way(CARRIED)),
            };
            *on_side_mut(&mut hands, side) = palm;
            let stick = StickAt { along, grip: motion.held().grip };
            *on_side_mut(&mut sticks, side) = on_side(self.sticks, side).then_some(stick);
        }
        let elbow = |side: usize| {
            // It hangs behind a low hand, and is out to the side of a high one, never behind the neck.
            let raised = ease((on_side(hands, side).z - on_side(shoulders, side).z + 0.3) / 0.5);
            let out = InSpace::new(on_side(SIDES, side) * (0.6 + raised), 1.4 * raised - 1.0, -0.5);
            joint(on_side(shoulders, side), on_side(hands, side), ARM_BONES, body.way(out))
        };
        Limbs {
            hips,
            knees: knees_of(hips, feet),
            feet,
            facing: body.facing,
            shoulders,
            elbows: [elbow(0), elbow(1)],
            hands,
            crown,
            lean,
            planted,
            sticks,
            strikes: [0, 1].map(|side| self.struck_now(side, count)),
        }
    }

    /// How far each hand, left and right, has moved within the body's own picture in the last moments before a count, metres.
    #[must_use]
    pub fn trails(&self, motion: &Motion, clock: &Clock, count: f64) -> [InSpace; 2] {
        let before = clock.counts((clock.seconds(count) - TRAIL).max(0.0)).min(count);
        let (now, then) = (self.limbs(motion, clock, count), self.limbs(motion, clock, before));
        [0, 1].map(|side| on_side(now.hands, side) - on_side(then.hands, side))
    }

    /// The count at which a picture of a whole count alone is drawn: as [`top_at`](Self::top_at), and a step when the other foot is on its way.
    #[must_use]
    pub fn shown_at(&self, clock: &Clock, count: f64) -> f64 {
        let top = self.top_at(clock, count);
        let steps = self
            .on_count(count as usize)
            .is_some_and(|on| matches!(on.weight, Weight::Left | Weight::Right) && !on.hop && !on.stays);
        if steps && (top - count).abs() < 1e-9 { count + ON_ITS_WAY } else { top }
    }

    /// The count at which a whole count is seen in rest: a hop or a jump at its top, just before it lands, and a count in the air at the
    /// top as well.
    #[must_use]
    pub fn top_at(&self, clock: &Clock, count: f64) -> f64 {
        self.flight_shown(clock, count).map_or(count, |flight| clock.counts(flight.top()))
    }

    /// The hop that lands on a count, or the jump that is in the air on it: what a picture of that count has at its top.
    #[must_use]
    pub fn flight_shown(&self, clock: &Clock, count: f64) -> Option<&Flight> {
        let time = clock.seconds(count);
        let next = self.flights.partition_point(|flight| flight.end < time - 1e-6);
        let flight = self.flights.get(next)?;
        let lands = (flight.end - time).abs() < 1e-6;
        // To slow music a jump springs off a little after its count in the air.
        let waits =
            flight.is_jump && self.on_count(count as usize).is_some_and(|on| on.weight == Weight::Air);
        let flies = (flight.begin < time - 1e-6 || waits) && time < flight.end - 1e-6;
        ((lands && !flight.is_jump) || flies).then_some(flight)
    }

    /// The body as a picture of a whole count has it, where what the count says is seen: the arms as they are on it, and the legs
    /// as [`shown_at`](Self::shown_at) has them. Also the count of the legs.
    #[must_use]
    pub fn seen_on(&self, motion: &Motion, clock: &Clock, count: f64) -> (Limbs, f64) {
        let shown = self.shown_at(clock, count);
        (self.limbs(motion, clock, shown).with_arms_of(&self.limbs(motion, clock, count)), shown)
    }

    /// Where a foot is, and whether it is planted.
    fn foot(&self, side: usize, time: f64, body: &Frame, (hip, rise): (InSpace, f64)) -> (InSpace, bool) {
        let contacts = of_side(&self.contacts, side);
        let begun = contacts.partition_point(|contact| contact.begin <= time).max(1) - 1;
        let Some(contact) = contacts.get(begun) else { return (body.middle, false) };
        if contact.holds(time) || time < contact.begin {
            return (contact.place(body), true);
        }
        let Some(swing) = of_side(&self.swings, side).get(begun) else { return (contact.place(body), true) };
        let there = body.place(swing.at(time)) + InSpace::new(0.0, 0.0, rise);
        let way = there - hip;
        let gently = way.toward(way.within(LEG, WELL_WITHIN * LEG), swing.kept_within(time));
        let mut within = hip + gently.within(LEG, REACH);
        within.z = within.z.max(0.0);
        (within, false)
    }

    /// Where the hands of somebody so tall are from their shoulders at a count: each to its own side, to the front, and up.
    fn hands(&self, count: f64, tall: f64) -> [InSpace; 2] {
        // There is a key for each count, and one for the end.
        let index = (count as usize).min(self.keys.len().saturating_sub(1));
        let Some(from) = self.keys.get(index) else { return [InSpace::default(); 2] };
        let to = self.keys.get(index + 1).unwrap_or(from);
        let share = (count - index as f64).clamp(0.0, 1.0);
        let round = (share, self.goes.get(index).copied().unwrap_or_default());
        // What the hands do on a count in the air they do until the top of the jump.
        let held = if from.weight == Weight::Air { self.top_between(from.time, to.time) } else { 0.0 };
        let share = ((share - held) / (1.0 - held)).max(0.0);
        [0, 1].map(|side| {
            hand_from_shoulder((on_side(from.hands, side), on_side(to.hands, side)), share, round, tall)
        })
    }

    /// How far between two times the top of the jump is that lands at the second, a share; 0 where it is before the first.
    fn top_between(&self, from: f64, to: f64) -> f64 {
        let next = self.flights.partition_point(|flight| flight.end < to - 1e-6);
        let jump = self.flights.get(next).filter(|flight| flight.is_jump && flight.begin < to);
        jump.map_or(0.0, |jump| ((jump.top().min(to - COME_DOWN) - from) / (to - from).max(1e-9)).max(0.0))
    }
}
