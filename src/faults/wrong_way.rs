use super::{
    found::Found,
    halves::{Half, halves, is_drawn, side, start},
    look::Look,
    way_round::{may_go_round, way_round},
    wrong_shoulder,
};
use crate::dance::{Dancer, FaultKind, Foot, LeadRule, Part, Way, shown_name};
use crate::motion::{Span, Track, wrap_half};
use std::cell::OnceCell;

/// Turns smaller than this say nothing about the way, degrees.
const TURN: f64 = 45.0;
/// Going less far round the middle of the set than this says nothing about the way, degrees.
const ROUND: f64 = 90.0;
/// A drawn dancer who finishes as the named one would, within this, and has turned so far otherwise, the other way, has
/// gone the wrong way about it, degrees.
const SAME: f64 = 15.0;
const OTHERWISE: f64 = 300.0;
/// One who is no farther from straight ahead than this is faced, degrees: a turn eases in and out where a way goes on.
const FACING: f64 = 45.0;

/// Turning or going round the wrong way, where a dancer is drawn: against the rule that governs the half (common
/// practice, no source), or against the named figure that is drawn over. The value is in degrees turned, or gone round
/// the middle; the limit is what the named figure does, and nought where there is none.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()).filter(|dancer| is_drawn(span, *dancer)) {
        let Some(track) = span.track(dancer) else { continue };
        let this = Looked::of(look, span, dancer, track);
        let mut going_round: Option<f64> = None;
        for half in halves(look, span, track) {
            let rule = start(look, span, dancer, track, &half).and_then(|start| {
                let rule = start.rule?;
                // Facing across the set, no side is away from the partner.
                (rule != LeadRule::OutsideFoot || start.along).then_some((rule, start.foot))
            });
            let before = found.len();
            if let Some((rule, foot)) = rule {
                against_rule(&this, &half, rule, foot, found);
            }
            if found.len() == before {
                turned_otherwise(&this, &half, found);
            }
            gone_otherwise(&this, &half, found);
            if let Some((LeadRule::LeftThenRight, foot)) = rule {
                wrong_shoulder::find(look, span, dancer, track, &half, foot, found);
            }
            let same_way = rule.is_some_and(|(rule, _)| rule == LeadRule::SameWay);
            let round = if same_way { far_round(track, &half) } else { None };
            if let (Some(first), Some(second)) = (going_round, round)
                && first * second < 0.0
                && this.named().is_none_or(|named| {
                    way_round(named, half.begin, half.end).is_none_or(|round| round * second <= 0.0)
                })
                && found.iter().skip(before).all(|fault| fault.lasts != (half.begin, half.end))
            {
                let text = format!(
                    "{} goes round {}, and went round the other way before; it is the same way both times",
                    dancer,
                    round_words(second)
                );
                found.push(this.wrong((half.begin, half.end), second.abs(), 0.0, text));
            }
            going_round = round;
        }
    }
}

/// How far a dancer goes round the middle of the set, where that is far enough to have a way.
fn far_round(track: &Track, half: &Half) -> Option<f64> {
    way_round(track, half.begin, half.end).filter(|round| round.abs() > ROUND)
}

fn round_words(round: f64) -> &'static str {
    if round > 0.0 { "clockwise" } else { "anticlockwise" }
}

fn way_of(amount: f64) -> Way {
    if amount < 0.0 { Way::Left } else { Way::Right }
}

fn way_word(way: Way) -> &'static str {
    side(way.foot())
}

/// A turn as it is danced.
#[derive(Clone, Copy)]
struct DancedTurn {
    begin: f64,
    end: f64,
    /// Degrees, clockwise positive.
    amount: f64,
}

/// The turns of a track that begin between two counts and are big enough to have a way. Those that go the shorter way are
/// nobody's choice.
fn turns(track: &Track, begin: f64, end: f64) -> impl Iterator<Item = DancedTurn> {
    track
        .turns()
        .iter()
        .filter(move |turn| turn.begin >= begin - 1e-6 && turn.begin < end - 1e-6 && !turn.is_shorter())
        .map(|turn| DancedTurn {
            begin: turn.begin,
            end: turn.end,
            amount: track.stand(turn.end).2 - track.stand(turn.begin).2,
        })
        .filter(|turn| turn.amount.abs() >= TURN - 1e-6)
}

/// A dancer who is looked at.
struct Looked<'a> {
    look: &'a Look<'a>,
    span: &'a Span,
    dancer: Dancer,
    track: &'a Track,
    /// What is drawn, and what the named figure has beneath it.
    parts: Option<(&'a Part, &'a Part)>,
    named: OnceCell<Option<Track>>,
}

impl<'a> Looked<'a> {
    fn of(look: &'a Look<'a>, span: &'a Span, dancer: Dancer, track: &'a Track) -> Self {
        let beneath = span.plan().named_part(span.place(dancer));
        let parts = span.part(dancer).zip(beneath);
        Self { look, span, dancer, track, parts, named: OnceCell::new() }
    }

    /// The way that the named figure beneath would go: worked out only where something may be wrong.
    fn named(&self) -> Option<&Track> {
        let make = || self.span.named_track(self.dancer, self.look.motion.known());
        self.parts.and_then(|_| self.named.get_or_init(make).as_ref())
    }

    /// What the figure is called.
    fn figure(&self) -> String {
        self.look.figure(self.span).map_or_else(|| "the figure".to_owned(), |figure| shown_name(&figure.name))
    }

    fn wrong(&self, lasts: (f64, f64), value: f64, limit: f64, text: String) -> Found {
        let (x, y, _) = self.track.stand(lasts.0);
        Found {
            kind: FaultKind::WrongWay,
            at: lasts.0,
            lasts,
            dancers: vec![self.dancer],
            value,
            limit,
            text,
            spot: Some((x, y)),
        }
    }
}

/// Turns against the rule of a half; turns in a row the same way make one fault. What the named figure beneath does
/// too is right.
fn against_rule(this: &Looked, half: &Half, rule: LeadRule, foot: Foot, found: &mut Vec<Found>) {
    let (begin, end) = (half.begin, half.speaks_until(this.span.bar_counts()));
    let (right, first_alone) = match rule {
        LeadRule::LeftThenRight | LeadRule::OutsideFoot => (foot, false),
        LeadRule::SameWay => (Foot::Right, true),
        LeadRule::Left | LeadRule::Right | LeadRule::ByNumber => return,
    };
    let named_too = |way: Way| {
        this.parts.is_some_and(|(_, beneath)| beneath.turns.iter().any(|turn| turn.way == way))
            && this
                .named()
                .is_some_and(|named| turns(named, begin, end).any(|turn| way_of(turn.amount) == way))
    };
    let mut wrong: Vec<DancedTurn> = Vec::new();
    for turn in turns(this.track, begin, end).take(if first_alone { 1 } else { usize::MAX }) {
        let way = way_of(turn.amount);
        if way.foot() == right || named_too(way) || faces_partner(this, &turn) {
            continue;
        }
        match wrong.last_mut().filter(|last| turn.begin <= last.end + 1e-6) {
            Some(last) => {
                last.end = turn.end;
                last.amount += turn.amount;
            }
            None => wrong.push(turn),
        }
    }
    for turn in wrong {
        let way = way_of(turn.amount);
        let why = match rule {
            LeadRule::OutsideFoot => format!("away from the partner is {}", side(right)),
            LeadRule::SameWay => format!("the first turn of each half goes {}", side(right)),
            _ => format!("{} turns {}", half.name(), side(right)),
        };
        let degrees = turn.amount.abs();
        let text = format!("{} turns {} {degrees:.0} degrees; {why}", this.dancer, way_word(way));
        found.push(this.wrong((turn.begin, turn.end), degrees, 0.0, text));
    }
}

/// Whether a dancer faces the one they dance with all through a turn, and goes round them: then it is the path that turns
/// them, as in a gip, and there is no other way (common practice, no source).
fn faces_partner(this: &Looked, turn: &DancedTurn) -> bool {
    let place = this.look.motion.ground().pair(this.span.place(this.dancer));
    let partner = place.and_then(|place| this.span.dancer_in(place)).and_then(|other| this.span.track(other));
    let looks = ((turn.end - turn.begin) * 4.0).ceil().max(1.0);
    let faces = |partner: &Track, count: f64| {
        let ((x, y, facing), (to_x, to_y, _)) = (this.track.stand(count), partner.stand(count));
        wrap_half((to_x - x).atan2(to_y - y).to_degrees() - facing).abs() <= FACING
    };
    let at = |look: u32| turn.begin + (turn.end - turn.begin) * f64::from(look) / looks;
    partner.is_some_and(|partner| {
        let bearing = |count: f64| {
            let ((x, y, _), (to_x, to_y, _)) = (this.track.stand(count), partner.stand(count));
            (to_x - x).atan2(to_y - y).to_degrees()
        };
        let swept: f64 =
            (0..looks as u32).map(|look| wrap_half(bearing(at(look + 1)) - bearing(at(look)))).sum();
        let goes_round = swept * turn.amount > 0.0 && swept.abs() >= turn.amount.abs() / 2.0;
        goes_round && (0..=looks as u32).all(|look| faces(partner, at(look)))
    })
}

/// A half that ends facing as the named figure beneath would, got there by turning the other way.
fn turned_otherwise(this: &Looked, half: &Half, found: &mut Vec<Found>) {
    let Some((part, beneath)) = this.parts else { return };
    // The same turns go the same way, and without turns both ways there is no other way.
    let either = |way: Way| part.turns.iter().chain(&beneath.turns).any(|turn| turn.way == way);
    if part.turns == beneath.turns || !either(Way::Left) || !either(Way::Right) {
        return;
    }
    let Some(named) = this.named() else { return };
    let facing = |track: &Track, count: f64| track.stand(count).2;
    let turned = |track: &Track| facing(track, half.end) - facing(track, half.begin);
    let (own, made) = (turned(this.track), turned(named));
    let alike = wrap_half(facing(this.track, half.end) - facing(named, half.end)).abs() <= SAME;
    // By turns of their own: one that is left out, or a kink in a path that is followed, is not the wrong way.
    let by_turns = |track: &Track| turns(track, half.begin, half.end).map(|turn| turn.amount).sum::<f64>();
    let otherwise = (own - made).abs() >= OTHERWISE && by_turns(this.track) * by_turns(named) < 0.0;
    if !alike || !otherwise {
        return;
    }
    // The turn that took them there: the biggest one that goes their way, or the whole half if the path did.
    let lasts = turns(this.track, half.begin, half.end)
        .filter(|turn| turn.amount * own > 0.0)
        .max_by(|one, other| one.amount.abs().total_cmp(&other.amount.abs()))
        .map_or((half.begin, half.end), |turn| (turn.begin, turn.end));
    let words = |amount: f64| match amount.abs().round() {
        0.0 => "does not turn".to_owned(),
        degrees => format!("turns {} {degrees:.0} degrees", way_word(way_of(amount))),
    };
    let text = format!("{} {}; {} {} here", this.dancer, words(own), this.figure(), words(made));
    found.push(this.wrong(lasts, own.abs(), made.abs(), text));
}

/// A half that goes round the middle of the set the other way than the named figure beneath.
fn gone_otherwise(this: &Looked, half: &Half, found: &mut Vec<Found>) {
    let Some((part, beneath)) = this.parts else { return };
    let (x, y, _) = this.track.stand(0.0);
    if part.legs == beneath.legs || !may_go_round((x, y), &beneath.legs, half.begin, half.end) {
        return;
    }
    if let Some(own) = far_round(this.track, half)
        && let Some(made) = this.named().and_then(|named| far_round(named, half))
        && own * made < 0.0
    {
        let text = format!(
            "{} goes round {}; {} goes {} here",
            this.dancer,
            round_words(own),
            this.figure(),
            round_words(made)
        );
        found.push(this.wrong((half.begin, half.end), own.abs(), made.abs(), text));
    }
}
