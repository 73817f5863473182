use crate::dance::{Extra, Foot, FreeFoot, FreePlace, Landing, OwnStep};

/// A step: what lands on each count, and what goes with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The short name that phrases use.
    pub short: String,
    /// The name in full.
    pub name: String,
    /// What lands, one for each count.
    pub feet: Vec<Landing>,
    /// How much of the travelling is done from each count to the next; 0 for none.
    pub travels: Vec<f64>,
    /// The height of the left hand on each count, 0 down to 1 high.
    pub left_hand: Vec<f64>,
    /// The height of the right hand on each count.
    pub right_hand: Vec<f64>,
    /// Where the free foot is on each count; it is asked where the foot neither lifts nor lands on it.
    pub free: Vec<FreeFoot>,
    /// How high the body rises in the hop that lands on a count, or in the jump that is in the air on it, metres.
    pub rise: Vec<f64>,
    /// How far each hand, left and right, is in front of its shoulder on each count, metres, behind it below 0.
    pub forward: [Vec<f64>; 2],
    /// Whether `left_hand` and the first of `forward` are of the hand on the side of the foot that does not lead: as written when the right
    /// foot leads, and the other way round when the left does.
    pub hands_follow_lead: bool,
    /// How many circles each hand makes from each count to the next, inwards; outwards below 0.
    pub circles: Vec<f64>,
}

/// A hop of one count's half at 100 strong beats a minute, 0.15 s, rises g t^2 / 8 with g = 9.81 m/s^2 [CALC].
const HOP: f64 = 0.03;
/// A jump is about as high as the dancer's own foot [MB1]: 0.25 m.
const JUMP: f64 = 0.25;
/// How high a foot is that is neither lifted for anything nor stood on, metres (common practice, no source).
pub const LIFTED: f64 = 0.1;
/// How far a hand swings forward on its way up, metres, where nothing is said of it (common practice, no source).
const SWING: f64 = 0.4;

/// How far in front of the shoulder a hand at a height is, where nothing is said of it, metres.
#[must_use]
pub fn swings(height: f64) -> f64 {
    SWING * (height.clamp(0.0, 1.0) * std::f64::consts::PI).sin()
}

/// How high a body rises on a count of a step where nothing is said of it, metres.
#[must_use]
pub fn usual_rise(feet: &[Landing], count: usize) -> f64 {
    let before = count.checked_sub(1).and_then(|before| feet.get(before));
    match feet.get(count) {
        Some(Landing::Air) => JUMP,
        Some(Landing::Upbeat) => HOP,
        Some(landing @ (Landing::Lead | Landing::Other)) if before == Some(landing) => HOP,
        _ => 0.0,
    }
}

impl Step {
    pub(super) fn built_in(
        short: &str,
        name: &str,
        feet: &[Landing],
        travels: &[f64],
        hands: &[f64],
    ) -> Self {
        Self {
            short: short.to_owned(),
            name: name.to_owned(),
            feet: feet.to_vec(),
            travels: travels.to_vec(),
            left_hand: hands.to_vec(),
            right_hand: hands.to_vec(),
            free: vec![FreeFoot::new(FreePlace::Beside, LIFTED); feet.len()],
            rise: (0..feet.len()).map(|count| usual_rise(feet, count)).collect(),
            forward: [0, 1].map(|_| hands.iter().copied().map(swings).collect()),
            hands_follow_lead: false,
            circles: vec![0.0; feet.len()],
        }
    }

    /// The same with the free foot so on some counts: each from 0, its place, and its height, metres.
    pub(super) fn free(mut self, counts: &[(usize, FreePlace, f64)]) -> Self {
        for &(count, at, height) in counts {
            if let Some(free) = self.free.get_mut(count) {
                *free = FreeFoot::new(at, height);
            }
        }
        self
    }

    /// The same with the hand on the side of the leading foot at these heights, and the other as it is.
    pub(super) fn leading_hand(mut self, heights: &[f64]) -> Self {
        self.hands_follow_lead = true;
        self.right_hand = heights.to_vec();
        self.forward[1] = heights.iter().copied().map(swings).collect();
        self
    }

    /// The same with the free lower leg making so many circles outwards from each count to the next.
    pub(super) fn circling_leg(mut self, circles: &[f64]) -> Self {
        for (free, circles) in self.free.iter_mut().zip(circles) {
            free.circles = *circles;
        }
        self
    }

    /// Which of the hands, left and right, is what is written of the left and of the right, when a foot leads.
    #[must_use]
    pub fn hands_as_written(&self, lead: Foot) -> [usize; 2] {
        if self.hands_follow_lead && lead == Foot::Left { [1, 0] } else { [0, 1] }
    }

    /// The same with the free foot in front on some counts (from 0), so high, metres.
    pub(super) fn free_in_front(self, counts: &[usize], height: f64) -> Self {
        let counts: Vec<_> = counts.iter().map(|&count| (count, FreePlace::Front, height)).collect();
        self.free(&counts)
    }

    /// The same with both hands so far in front of the shoulders on each count, metres.
    pub(super) fn hands_forward(mut self, forward: &[f64]) -> Self {
        self.forward = [0, 1].map(|_| forward.to_vec());
        self
    }

    /// The same with the body rising so high on each count, metres.
    pub(super) fn rises(mut self, rise: &[f64]) -> Self {
        self.rise = rise.to_vec();
        self
    }

    /// The foot that may lead the step after this one when a foot leads this: the one that does not carry the weight
    /// at its end. Nothing after both feet or the air: then either may.
    #[must_use]
    pub fn next_lead(&self, lead: Foot) -> Option<Foot> {
        match self.feet.iter().rev().find(|landing| **landing != Landing::Stay) {
            Some(Landing::Lead) => Some(lead.other()),
            // Where nothing lands at all the foot that was free still is.
            Some(Landing::Other) | None => Some(lead),
            Some(Landing::Both | Landing::Air | Landing::Upbeat | Landing::Stay) => None,
        }
    }

    /// How many counts it takes.
    #[must_use]
    pub fn counts(&self) -> usize {
        self.feet.len()
    }
}

impl From<&OwnStep> for Step {
    fn from(own: &OwnStep) -> Self {
        let fill = |list: &[f64], otherwise: &[f64], value: f64| match (list.is_empty(), otherwise.is_empty())
        {
            (false, _) => list.to_vec(),
            (true, false) => otherwise.to_vec(),
            (true, true) => vec![value; own.feet.len()],
        };
        let left_hand = fill(&own.left_hand, &own.hands, 0.0);
        let right_hand = fill(&own.right_hand, &own.hands, 0.0);
        let forward = |said: &[f64], heights: &[f64]| {
            if said.is_empty() { heights.iter().copied().map(swings).collect() } else { said.to_vec() }
        };
        let rises = || (0..own.feet.len()).map(|count| usual_rise(&own.feet, count)).collect();
        Self {
            short: own.short.clone(),
            name: own.name.clone(),
            feet: own.feet.clone(),
            travels: fill(&own.travels, &[], 1.0),
            free: if own.free.is_empty() {
                vec![FreeFoot::new(FreePlace::Beside, LIFTED); own.feet.len()]
            } else {
                own.free.clone()
            },
            rise: if own.rise.is_empty() { rises() } else { own.rise.clone() },
            forward: [forward(&own.left_forward, &left_hand), forward(&own.right_forward, &right_hand)],
            hands_follow_lead: own.hands_follow_lead,
            circles: fill(&own.circles, &[], 0.0),
            left_hand,
            right_hand,
        }
    }
}

/// A step of a dance's own that is the same, with nothing written that goes without saying.
impl From<&Step> for OwnStep {
    fn from(step: &Step) -> Self {
        let unless = |usual: bool, list: &[f64]| if usual { Vec::new() } else { list.to_vec() };
        let all = |list: &[f64], value: f64| list.iter().all(|other| *other == value);
        let alike = step.left_hand == step.right_hand;
        let forward = |forward: &[f64], heights: &[f64]| {
            unless(forward.iter().zip(heights).all(|(said, height)| *said == swings(*height)), forward)
        };
        let [left, right] = &step.forward;
        let usual_rises =
            step.rise.iter().enumerate().all(|(count, rise)| *rise == usual_rise(&step.feet, count));
        let usual_free = FreeFoot::new(FreePlace::Beside, LIFTED);
        Self {
            name: step.name.clone(),
            short: step.short.clone(),
            feet: step.feet.clone(),
            travels: unless(all(&step.travels, 1.0), &step.travels),
            hands: unless(!alike || all(&step.left_hand, 0.0), &step.left_hand),
            left_hand: unless(alike, &step.left_hand),
            right_hand: unless(alike, &step.right_hand),
            free: if step.free.iter().all(|free| *free == usual_free) {
                Vec::new()
            } else {
                step.free.clone()
            },
            rise: unless(usual_rises, &step.rise),
            left_forward: forward(left, &step.left_hand),
            right_forward: forward(right, &step.right_hand),
            hands_follow_lead: step.hands_follow_lead,
            circles: unless(all(&step.circles, 0.0), &step.circles),
            extra: Extra::new(),
        }
    }
}
