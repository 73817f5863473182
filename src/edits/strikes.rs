//! The taps and claps of a figure: put in, changed, moved, struck again, taken away. Counts are the figure's own, from 0; bars are told
//! from 1. Each function takes a dance and gives a new one.

use super::strikes_follow::{Follow, follow, twin_of};
use crate::dance::{
    BarCounts, Dance, DanceError, Extra, Figure, Foot, PlaceNumber, Strike, StrikeEnd, StrikePart, Striker,
    Struck, check_rules,
};
use crate::motion::Ground;
use thiserror::Error;

/// Nearer than this two counts are one.
pub(super) const SAME: f64 = 1e-6;
/// The last moment of a figure at which a strike can be put by hand is so much before its end, counts.
const BEFORE_END: f64 = 0.25;

/// Why a tap or a clap cannot be so.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum StrikeError {
    /// There is no such figure.
    #[error("there is no such figure")]
    NoFigure,
    /// It is no longer there.
    #[error("there is no such tap any more")]
    NoStrike,
    /// No count of the figure.
    #[error("that is no count of the figure")]
    NoCount,
    /// It would be there twice.
    #[error("that is struck at this count already")]
    Twice,
    /// No bars to strike it in.
    #[error("it has to be struck in some bar; to have it in none, take it away")]
    NoBar,
    /// Bars that are not both there.
    #[error("a bar is copied to another bar of the figure")]
    NoOtherBar,
    /// A bar in which nothing is struck.
    #[error("nothing is struck in bar {0}")]
    EmptyBar(u32),
    /// Everybody would strike and be struck at once.
    #[error(
        "everybody can do the same with a partner, an opposite, the ground or themselves, and not with a neighbour: who \
             strikes one would be struck by another"
    )]
    NotByAll,
    /// No bar to answer in.
    #[error("there is no time left in the figure for the evens to do it after the odds")]
    NoTime,
    /// Who is to answer would be struck again at that moment.
    #[error(
        "the odds do it again just when the evens would answer: choose another time for them to do it in turn"
    )]
    AtOnce,
    /// What a dance cannot be.
    #[error("{}", .0.message)]
    Cannot(DanceError),
}

/// One meeting among the strikes of a figure, by their order in its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct StrikeAt {
    /// Which strike.
    pub strike: usize,
    /// Which of its counts: 0 for its first, 1 for the first time that it is struck again, and so on.
    pub which: usize,
}

/// A change of a strike.
#[derive(Clone, Debug, PartialEq)]
pub enum StrikeEdit {
    /// On whom or what it is.
    On(Struck),
    /// Which part of oneself is struck.
    Part(StrikePart),
    /// What it is made with.
    With(StrikeEnd),
    /// What the other answers with; nothing for the same.
    Their(Option<StrikeEnd>),
    /// In which hand the stick is that strikes; nothing for the dancer's own.
    Hand(Option<Foot>),
    /// In which hand the other has the stick that answers; nothing for that dancer's own.
    TheirHand(Option<Foot>),
    /// How high they meet, metres; nothing for before the chest. A knee has none.
    Height(Option<f64>),
    /// Whether they stay together until the next.
    Stay(bool),
    /// Who does the same; where nobody does, whoever dances in this place is meant, if they are in it.
    Follow(Follow, Option<PlaceNumber>),
    /// That one of its counts is this count of the figure.
    To(f64),
    /// It is struck at this place of these bars, from 1, and of no other.
    InBars(Vec<u32>),
    /// It is not struck at that one of its counts.
    Remove,
    /// It is not struck at all.
    RemoveAll,
}

/// A changed copy of a figure of a dance, if the dance keeps the rules with it.
fn with_figure(
    dance: &Dance,
    figure: usize,
    change: impl FnOnce(&mut Figure, &BarCounts) -> Result<(), StrikeError>,
) -> Result<Dance, StrikeError> {
    let mut dance = dance.clone();
    let bars =
        dance.figures.get(figure).map(|figure| dance.bar_counts(figure)).ok_or(StrikeError::NoFigure)?;
    change(dance.figures.get_mut(figure).ok_or(StrikeError::NoFigure)?, &bars)?;
    check_rules(&dance).map_err(StrikeError::Cannot)?;
    Ok(dance)
}

/// The nearest count of a figure at which something can be struck.
fn within(count: f64, bars: &BarCounts) -> Result<f64, StrikeError> {
    let most = (bars.counts() - BEFORE_END).max(0.0);
    if count.is_finite() { Ok(count.clamp(0.0, most)) } else { Err(StrikeError::NoCount) }
}

/// Whether two strikes are the same but for their counts and the keys that are not known.
pub(super) fn alike(one: &Strike, other: &Strike) -> bool {
    let bare = |strike: &Strike| Strike { at: 0.0, again: Vec::new(), extra: Extra::new(), ..strike.clone() };
    bare(one) == bare(other)
}

/// The dance with a strike put into a figure, after all that begin no later; and which one it is.
///
/// # Errors
/// When there is no such figure, the same is there already, or no dance can say it.
pub fn add_strike(dance: &Dance, figure: usize, strike: Strike) -> Result<(Dance, StrikeAt), StrikeError> {
    let mut at = 0;
    let made = with_figure(dance, figure, |figure, bars| {
        let mut strike = strike;
        strike.at = within(strike.at, bars)?;
        let is_there = |known: &Strike| {
            alike(known, &strike) && known.counts().any(|count| (count - strike.at).abs() < SAME)
        };
        if figure.strikes.iter().any(is_there) {
            return Err(StrikeError::Twice);
        }
        at = figure.strikes.iter().rposition(|known| known.at <= strike.at).map_or(0, |last| last + 1);
        figure.strikes.insert(at, strike);
        Ok(())
    })?;
    Ok((made, StrikeAt { strike: at, which: 0 }))
}

/// The dance with a strike of a figure changed; who answers it in turn does the same, but for when.
///
/// # Errors
/// When there is no such strike, or it cannot be so.
pub fn change_strike(
    dance: &Dance,
    figure: usize,
    at: StrikeAt,
    edit: &StrikeEdit,
) -> Result<Dance, StrikeError> {
    let ground = Ground::of(&dance.set);
    with_figure(dance, figure, |figure, bars| {
        let twin = twin_of(&figure.strikes, at.strike, bars);
        let strike = figure.strikes.get_mut(at.strike).ok_or(StrikeError::NoStrike)?;
        if at.which > strike.again.len() {
            return Err(StrikeError::NoStrike);
        }
        match edit {
            StrikeEdit::Follow(who, place) => {
                follow(&mut figure.strikes, (at.strike, twin), (*who, *place), (&ground, bars))?;
            }
            StrikeEdit::To(count) => {
                let count = within(*count, bars)?;
                let counts = strike.counts().enumerate().filter(|(which, _)| *which != at.which);
                let rest: Vec<f64> = counts.map(|(_, count)| count).collect();
                if rest.iter().any(|other| (other - count).abs() < SAME) {
                    return Err(StrikeError::Twice);
                }
                have_counts(strike, rest.into_iter().chain([count]));
            }
            StrikeEdit::InBars(wanted) => {
                let inside = bars.at(strike.counts().nth(at.which).unwrap_or(strike.at)).1;
                let others = strike.counts().filter(|count| (bars.at(*count).1 - inside).abs() > SAME);
                let others: Vec<f64> = others.collect();
                let has =
                    |bar: &u32| (1..=bars.bars()).contains(bar) && inside < f64::from(bars.in_bar(bar - 1));
                let here = wanted.iter().filter(|bar| has(bar)).map(|bar| bars.begin_of(bar - 1) + inside);
                let all: Vec<f64> = here.chain(others).collect();
                if all.is_empty() {
                    return Err(StrikeError::NoBar);
                }
                have_counts(strike, all.into_iter());
            }
            StrikeEdit::Remove => {
                let counts = strike.counts().enumerate().filter(|(which, _)| *which != at.which);
                let rest: Vec<f64> = counts.map(|(_, count)| count).collect();
                if rest.is_empty() {
                    figure.strikes.remove(at.strike);
                } else {
                    have_counts(strike, rest.into_iter());
                }
            }
            StrikeEdit::RemoveAll => {
                figure.strikes.remove(at.strike);
            }
            plain => {
                for index in std::iter::once(at.strike).chain(twin) {
                    if let Some(strike) = figure.strikes.get_mut(index) {
                        change(strike, plain, twin.is_some());
                    }
                }
            }
        }
        Ok(())
    })
}

/// Has a strike have these counts, in order and each once.
pub(super) fn have_counts(strike: &mut Strike, counts: impl Iterator<Item = f64>) {
    let mut counts: Vec<f64> = counts.collect();
    counts.sort_by(f64::total_cmp);
    counts.dedup_by(|one, other| (*one - *other).abs() < SAME);
    let mut counts = counts.into_iter();
    if let Some(first) = counts.next() {
        strike.at = first;
        strike.again = counts.collect();
    }
}

/// A change of what is struck with and on what, by itself or `in_turn` with another. What goes with another choice alone goes.
fn change(strike: &mut Strike, edit: &StrikeEdit, in_turn: bool) {
    change_one(strike, edit, in_turn);
    strike.their_hand = strike.their_hand.filter(|_| strike.is_on_a_stick());
    strike.height = strike.height.filter(|_| strike.takes_height());
}

fn change_one(strike: &mut Strike, edit: &StrikeEdit, in_turn: bool) {
    match *edit {
        StrikeEdit::On(on) => {
            let was = strike.on.is_somebody();
            strike.on = on;
            if !on.is_somebody() {
                strike.their = None;
            }
            if on != Struck::Own {
                strike.part = None;
            }
            // Odds with those whom they strike are everybody, who have the ground and themselves; a pair meets once. Evens, and odds
            // whom the evens answer, were chosen and stay.
            match (strike.by, on) {
                (Striker::Odds, Struck::Ground | Struck::Own) if was && !in_turn => strike.by = Striker::All,
                (Striker::All, Struck::Partner | Struck::Opposite) if !was => strike.by = Striker::Odds,
                _ => {}
            }
            // A clap on oneself is of both hands, and with nobody of one.
            if on == Struck::Own && was && strike.end == StrikeEnd::Right {
                strike.end = StrikeEnd::Both;
            }
        }
        StrikeEdit::Part(part) => {
            change_one(strike, &StrikeEdit::On(Struck::Own), in_turn);
            strike.part = (part != StrikePart::Hands).then_some(part);
            // A knee is struck with the hand of its side.
            match (strike.end, part) {
                (StrikeEnd::Both, StrikePart::RightKnee) => strike.end = StrikeEnd::Right,
                (StrikeEnd::Both, StrikePart::LeftKnee) => strike.end = StrikeEnd::Left,
                _ => {}
            }
        }
        StrikeEdit::With(end) => {
            strike.end = end;
            if !end.is_of_stick() {
                strike.hand = None;
            }
        }
        StrikeEdit::Their(their) => strike.their = their.filter(|_| strike.on.is_somebody()),
        StrikeEdit::Hand(hand) => strike.hand = hand.filter(|_| strike.end.is_of_stick()),
        StrikeEdit::TheirHand(hand) => strike.their_hand = hand,
        StrikeEdit::Height(height) => strike.height = height,
        StrikeEdit::Stay(stay) => strike.stay = stay,
        StrikeEdit::Follow(..)
        | StrikeEdit::To(_)
        | StrikeEdit::InBars(_)
        | StrikeEdit::Remove
        | StrikeEdit::RemoveAll => {}
    }
}

/// The dance with a bar of a figure struck as another is; what was struck in it before goes.
///
/// # Errors
/// When these are not two bars of it, nothing is struck in the first, or there is no such figure.
pub fn copy_struck_bar(dance: &Dance, figure: usize, from: u32, to: u32) -> Result<Dance, StrikeError> {
    with_figure(dance, figure, |figure, bars| {
        let is_bar = |bar: u32| (1..=bars.bars()).contains(&bar);
        if from == to || !is_bar(from) || !is_bar(to) {
            return Err(StrikeError::NoOtherBar);
        }
        let in_bar = |count: f64, bar: u32| bars.at(count + SAME).0 + 1 == bar;
        let ahead = bars.begin_of(to - 1) - bars.begin_of(from - 1);
        let mut copies = Vec::new();
        for strike in &figure.strikes {
            let counts: Vec<f64> = strike.counts().filter(|count| in_bar(*count, from)).collect();
            let counts = counts.into_iter().map(|count| count + ahead).filter(|count| in_bar(*count, to));
            let counts: Vec<f64> = counts.collect();
            if !counts.is_empty() {
                let mut copy = strike.clone();
                have_counts(&mut copy, counts.into_iter());
                copies.push(copy);
            }
        }
        if copies.is_empty() {
            return Err(StrikeError::EmptyBar(from));
        }
        for strike in &mut figure.strikes {
            let rest: Vec<f64> = strike.counts().filter(|count| !in_bar(*count, to)).collect();
            // Without any left it is told by a count that there is not, and goes.
            strike.at = f64::NAN;
            have_counts(strike, rest.into_iter());
        }
        figure.strikes.retain(|strike| !strike.at.is_nan());
        figure.strikes.extend(copies);
        figure.strikes.sort_by(|one, other| one.at.total_cmp(&other.at));
        Ok(())
    })
}

/// The dance with all strikes of a figure as they are written. Where one of them was there before, what else its file says of it stays.
///
/// # Errors
/// When there is no such figure, or no dance can say them.
pub fn write_strikes(dance: &Dance, figure: usize, written: &[Strike]) -> Result<Dance, StrikeError> {
    /// Farther apart than they are written, two numbers are others.
    const WRITTEN: f64 = 6e-4;
    with_figure(dance, figure, |figure, _| {
        let near = |one: f64, other: f64| (one - other).abs() < WRITTEN;
        let heights = |one: Option<f64>, other: Option<f64>| match (one, other) {
            (Some(one), Some(other)) => near(one, other),
            (one, other) => one.is_none() && other.is_none(),
        };
        let is_it = |known: &Strike, new: &Strike| {
            let bare = Strike { height: new.height, ..known.clone() };
            alike(&bare, new)
                && heights(known.height, new.height)
                && known.again.len() == new.again.len()
                && known.counts().zip(new.counts()).all(|(one, other)| near(one, other))
        };
        let mut known: Vec<Option<Strike>> = figure.strikes.iter().cloned().map(Some).collect();
        let mut taken: Vec<(usize, Strike)> = Vec::new();
        for new in written {
            let found = known
                .iter_mut()
                .enumerate()
                .find(|(_, slot)| slot.as_ref().is_some_and(|known| is_it(known, new)));
            match found.and_then(|(index, slot)| Some((index, slot.take()?))) {
                Some(kept) => taken.push(kept),
                None => taken.push((usize::MAX, new.clone())),
            }
        }
        // Nothing is otherwise: the order in which a file has them stays.
        if known.iter().all(Option::is_none) && taken.iter().all(|(index, _)| *index != usize::MAX) {
            taken.sort_by_key(|(index, _)| *index);
        }
        figure.strikes = taken.into_iter().map(|(_, strike)| strike).collect();
        Ok(())
    })
}
