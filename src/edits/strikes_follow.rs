//! Who does the same as whoever strikes.

use super::strikes::{SAME, StrikeError, alike, have_counts};
use crate::dance::{BarCounts, Extra, PlaceNumber, Strike, Striker, Struck};
use crate::motion::Ground;

/// How much later the others do it who do it in turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Later {
    /// At the same place of the next bar.
    Bar,
    /// Half a bar later.
    Half,
}

impl Later {
    /// The count of the figure at which what is struck at a count is answered.
    fn of(self, count: f64, bars: &BarCounts) -> f64 {
        match self {
            Self::Bar => count + bars.to_next_bar(count),
            Self::Half => count + f64::from(bars.in_bar(bars.at(count + SAME).0)) / 2.0,
        }
    }
}

/// Who does the same in a strike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follow {
    /// Only this dancer, with the one they strike.
    Nobody,
    /// Everyone: odds strike and those whom they strike answer; all, where it is the ground or oneself.
    Everyone,
    /// All odds, with those whom they strike.
    Odds,
    /// All evens, with those whom they strike.
    Evens,
    /// Odds and evens in turn: what the odds do, the evens do later.
    InTurn(Later),
}

impl Follow {
    /// Every one of them.
    pub const ALL: [Self; 6] = [
        Self::Nobody,
        Self::Everyone,
        Self::Odds,
        Self::Evens,
        Self::InTurn(Later::Bar),
        Self::InTurn(Later::Half),
    ];

    /// Who does the same now in a strike of a figure, by its place among them; nothing where it is in turn at another time.
    #[must_use]
    pub fn of(strikes: &[Strike], index: usize, bars: &BarCounts) -> Option<Self> {
        let strike = strikes.get(index)?;
        if let Some((first, second)) = pair_of(strikes, index, bars) {
            let answers =
                |later: &Later| answer_to(first, *later, bars).is_ok_and(|found| same_counts(&found, second));
            return [Later::Bar, Later::Half].into_iter().find(answers).map(Self::InTurn);
        }
        Some(match strike.by {
            Striker::Place(_) => Self::Nobody,
            Striker::All => Self::Everyone,
            Striker::Odds => Self::Odds,
            Striker::Evens => Self::Evens,
        })
    }

    /// Who strikes first where odds and evens strike in turn, and how many counts later the others do.
    #[must_use]
    pub fn in_turn(strikes: &[Strike], index: usize, bars: &BarCounts) -> Option<(Striker, f64)> {
        pair_of(strikes, index, bars).map(|(first, second)| (first.by, second.at - first.at))
    }
}

fn same_counts(one: &Strike, other: &Strike) -> bool {
    one.again.len() == other.again.len()
        && one.counts().zip(other.counts()).all(|(one, other)| (one - other).abs() < SAME)
}

/// A strike and the one in which the others do the same in turn, the first of them first.
fn pair_of<'a>(strikes: &'a [Strike], index: usize, bars: &BarCounts) -> Option<(&'a Strike, &'a Strike)> {
    let (own, twin) = (strikes.get(index)?, strikes.get(twin_of(strikes, index, bars)?)?);
    Some(if own.at <= twin.at { (own, twin) } else { (twin, own) })
}

/// Odds for evens.
fn others(by: Striker) -> Option<Striker> {
    match by {
        Striker::Odds => Some(Striker::Evens),
        Striker::Evens => Some(Striker::Odds),
        Striker::All | Striker::Place(_) => None,
    }
}

/// Whether a strike answers another in turn: each time as much later, and no more than a bar; what would be after the end of the figure is
/// not there.
fn answers(second: &Strike, first: &Strike, bars: &BarCounts) -> bool {
    let later = second.at - first.at;
    let end = bars.counts() - SAME;
    let wanted = || first.counts().map(|count| count + later).filter(|count| *count < end);
    later > SAME
        && later <= bars.to_next_bar(first.at) + SAME
        && wanted().count() == second.counts().count()
        && wanted().zip(second.counts()).all(|(one, other)| (one - other).abs() < SAME)
}

/// The strike in which the others do the same in turn, after it or before it, by its place among those of the figure.
pub(super) fn twin_of(strikes: &[Strike], index: usize, bars: &BarCounts) -> Option<usize> {
    let strike = strikes.get(index)?;
    let by = others(strike.by)?;
    let wanted = Strike { by, ..strike.clone() };
    let in_turn = |other: &Strike| answers(other, strike, bars) || answers(strike, other, bars);
    let twins = strikes.iter().enumerate().filter(|(_, other)| alike(other, &wanted) && in_turn(other));
    // Of several, the next one is answered by the one that comes nearest.
    let away = |other: &Strike| (other.at - strike.at).abs();
    twins.min_by(|(_, one), (_, other)| away(one).total_cmp(&away(other))).map(|(twin, _)| twin)
}

/// Has others do the same as a strike of a figure, `twin` in turn so far.
pub(super) fn follow(
    strikes: &mut Vec<Strike>,
    (index, twin): (usize, Option<usize>),
    (who, place): (Follow, Option<PlaceNumber>),
    (ground, bars): (&Ground, &BarCounts),
) -> Result<(), StrikeError> {
    let strike = strikes.get_mut(index).ok_or(StrikeError::NoStrike)?;
    match who {
        Follow::Nobody => strike.by = Striker::Place(one_of(strike, place, ground)),
        Follow::Everyone | Follow::InTurn(_) | Follow::Odds | Follow::Evens => {
            strike.on = by_name(strike, ground)?;
            let alone = !strike.on.is_somebody();
            strike.by = match (who, strike.by) {
                (Follow::Odds, _) | (Follow::InTurn(_), Striker::All) => Striker::Odds,
                (Follow::Evens, _) => Striker::Evens,
                (Follow::Everyone, _) if alone => Striker::All,
                (_, Striker::Place(place)) => side_of(place),
                (_, by) => by,
            };
        }
    }
    match (who, twin) {
        (Follow::InTurn(later), None) => {
            let Some(answer) = strikes.get(index).map(|strike| answer_to(strike, later, bars)) else {
                return Ok(());
            };
            let answer = answer?;
            let at = strikes.iter().rposition(|known| known.at <= answer.at).map_or(0, |last| last + 1);
            strikes.insert(at, answer);
        }
        (Follow::InTurn(later), Some(twin)) => {
            let begins = |index: usize| strikes.get(index).map_or(0.0, |strike| strike.at);
            let (first, second) = if begins(index) <= begins(twin) { (index, twin) } else { (twin, index) };
            let answer = strikes.get(first).map(|strike| answer_to(strike, later, bars));
            if let Some((answer, second)) = answer.zip(strikes.get_mut(second)) {
                have_counts(second, answer?.counts());
            }
        }
        (_, Some(twin)) => {
            strikes.remove(twin);
        }
        (_, None) => {}
    }
    Ok(())
}

fn side_of(place: PlaceNumber) -> Striker {
    if Striker::Odds.has(place) { Striker::Odds } else { Striker::Evens }
}

/// The place of whoever strikes alone, where all did: of the one that is meant, or of whoever strikes them.
fn one_of(strike: &Strike, meant: Option<PlaceNumber>, ground: &Ground) -> PlaceNumber {
    if let Striker::Place(place) = strike.by {
        return place;
    }
    let strikes = |place: PlaceNumber| strike.by.has(place).then_some(place);
    let struck_by = |place: PlaceNumber| match strike.on {
        Struck::Partner => ground.pair(place).and_then(strikes),
        Struck::Opposite => ground.opposite(place).and_then(strikes),
        _ => None,
    };
    let first = ground.places().find_map(strikes).unwrap_or(PlaceNumber(1));
    meant.and_then(|place| strikes(place).or_else(|| struck_by(place))).unwrap_or(first)
}

/// On whom a strike is that everybody can do.
fn by_name(strike: &Strike, ground: &Ground) -> Result<Struck, StrikeError> {
    match (strike.on, strike.by) {
        (Struck::Place(on), Striker::Place(by)) if ground.pair(by) == Some(on) => Ok(Struck::Partner),
        (Struck::Place(on), Striker::Place(by)) if ground.opposite(by) == Some(on) => Ok(Struck::Opposite),
        (Struck::Place(_) | Struck::Up | Struck::Down, _) => Err(StrikeError::NotByAll),
        (on, _) => Ok(on),
    }
}

/// The strike in which the others do in turn what a strike says: [MB1] has 1's tip on 2's butt in bar 1, and 2's tip on 1's butt in bar 2.
fn answer_to(strike: &Strike, later: Later, bars: &BarCounts) -> Result<Strike, StrikeError> {
    let by = others(strike.by).ok_or(StrikeError::NoTime)?;
    let answers = strike.counts().map(|count| later.of(count, bars));
    let answers: Vec<f64> = answers.filter(|count| *count < bars.counts() - SAME).collect();
    if answers.is_empty() {
        return Err(StrikeError::NoTime);
    }
    if strike.on.is_somebody()
        && strike.counts().any(|count| answers.iter().any(|answer| (answer - count).abs() < SAME))
    {
        return Err(StrikeError::AtOnce);
    }
    let mut answer = Strike { by, extra: Extra::new(), ..strike.clone() };
    have_counts(&mut answer, answers.into_iter());
    Ok(answer)
}
