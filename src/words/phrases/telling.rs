use crate::dance::{BarCounts, Number, PlaceNumber};

/// For whom facts are put into words.
#[derive(Clone, Copy, Debug)]
pub struct Telling<'a> {
    /// The bars of the figure.
    pub bars: &'a BarCounts,
    /// The partner of whom it is told to, where there is one.
    pub partner: Option<Number>,
}

impl<'a> Telling<'a> {
    /// To somebody with no partner: everyone is a number.
    #[must_use]
    pub fn alone(bars: &'a BarCounts) -> Self {
        Self { bars, partner: None }
    }

    /// `your partner`, or a number.
    pub(super) fn who(&self, number: Number) -> String {
        if self.partner == Some(number) { "your partner".to_owned() } else { number.to_string() }
    }

    /// `partner`, or a number.
    pub(super) fn who_short(&self, number: Number) -> String {
        if self.partner == Some(number) { "partner".to_owned() } else { number.to_string() }
    }

    /// `your partner's place`, or that of a number.
    pub(super) fn place(&self, place: PlaceNumber) -> String {
        format!("{}'s place", self.who(place.first_dancer().number()))
    }
}
