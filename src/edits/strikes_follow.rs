//! Who does the same as whoever strikes.

use super::strikes::{SAME, StrikeError, alike, have_counts};
use crate::dance::{BarCounts, Extra, PlaceNumber, Strike, Striker, Struck};
use crate::motion::Ground;

/// Who does the same in a strike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follow {
    /// Only this dancer, with the one they strike.
    Nobody,
    /// Everyone: odds strike and those whom they strike answer; all, where it is the ground or oneself.
    Everyone,
    /// Odds and evens in turn: what the odds do, the evens do a bar later, or half-way to the next time that the odds do it.
    InTurn,
}

impl Follow {
    /// Every one of them.
    pub const ALL: [Self; 3] = [Self::Nobody, Self::Everyone, Self::InTurn];

    /// Who does the same now in a strike of a figure, by its place among them.
    #[must_use]
    pub fn of(strikes: &[Strike], index: usize) -> Self {
        match strikes.get(index).map(|strike| strike.by) {
            None | Some(Striker::Place(_)) => Self::Nobody,
            Some(_) if twin_of(strikes, index).is_some() => Self::InTurn,
            Some(_) => Self::Everyone,
        }
    }
}

/// Odds for evens.
fn others(by: Striker) -> Option<Striker> {
    match by {
        Striker::Odds => Some(Striker::Evens),
        Striker::Evens => Some(Striker::Odds),
        Striker::All | Striker::Place(_) => None,
    }
}

/// The strike in which the others do the same in turn, after it or before it, by its place among those of the figure.
pub(super) fn twin_of(strikes: &[Strike], index: usize) -> Option<usize> {
    let strike = strikes.get(index)?;
    let by = others(strike.by)?;
    let wanted = Strike { by, ..strike.clone() };
    let as_often = |other: &Strike| other.again.len() == strike.again.len();
    let all = strikes.iter().enumerate();
    let twins = all
        .filter(|(_, other)| alike(other, &wanted) && as_often(other) && (other.at - strike.at).abs() > SAME);
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
        Follow::Everyone | Follow::InTurn => {
            strike.on = by_name(strike, ground)?;
            let alone = !strike.on.is_somebody();
            strike.by = match strike.by {
                Striker::Place(place) if !alone || who == Follow::InTurn => side_of(place),
                Striker::All if who == Follow::InTurn => Striker::Odds,
                _ if alone && who == Follow::Everyone => Striker::All,
                by => by,
            };
        }
    }
    match (who, twin) {
        (Follow::InTurn, None) => {
            let Some(answer) = strikes.get(index).map(|strike| answer_to(strike, bars)) else {
                return Ok(());
            };
            let answer = answer?;
            let at = strikes.iter().rposition(|known| known.at <= answer.at).map_or(0, |last| last + 1);
            strikes.insert(at, answer);
        }
        (Follow::Nobody | Follow::Everyone, Some(twin)) => {
            strikes.remove(twin);
        }
        (Follow::InTurn, Some(_)) | (Follow::Nobody | Follow::Everyone, None) => {}
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
fn answer_to(strike: &Strike, bars: &BarCounts) -> Result<Strike, StrikeError> {
    let by = others(strike.by).ok_or(StrikeError::NoTime)?;
    let counts: Vec<f64> = strike.counts().collect();
    let gaps = counts.windows(2).filter_map(|two| Some(two.last()? - two.first()?));
    let least = gaps.min_by(f64::total_cmp);
    let later =
        |count: f64| count + least.map_or_else(|| bars.to_next_bar(count), |gap| (gap * 2.0).round() / 4.0);
    let answers = counts.iter().map(|count| later(*count)).filter(|count| *count < bars.counts() - SAME);
    let answers: Vec<f64> = answers.collect();
    if answers.is_empty() {
        return Err(StrikeError::NoTime);
    }
    let mut answer = Strike { by, extra: Extra::new(), ..strike.clone() };
    have_counts(&mut answer, answers.into_iter());
    Ok(answer)
}
