//! Having those who follow a dancer do what was drawn of that dancer.

use super::carried::{Drawn, carried, does_the_same};
use super::others_kept::others_kept;
use super::redraw::{own_part, with_part};
use super::settled::{amounts_settled, leads_of, ways_settled};
use super::together::Together;
use crate::dance::{Dance, Dancer, Figure, Part, PlaceNumber};
use crate::motion::{Motion, Span};

/// A dance in which others follow what was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Followed {
    pub dance: Dance,
    /// Those who should follow, and do otherwise where it was drawn: they stay as they are.
    pub left: Vec<Dancer>,
}

/// The dance in which the mates of dancers do in a span what was drawn of these; `motion` is that of the dance before it was. Whoever
/// did the same as they, or nothing yet, does it all. Of what others have of their own only that path or turn is changed which
/// was drawn. A dancer who is drawn is nobody's mate.
#[must_use]
pub fn with_mates(
    dance: Dance,
    motion: &Motion,
    span: &Span,
    dancers: &[Dancer],
    together: Together,
) -> Followed {
    let ground = motion.ground();
    let mut followed = Followed { dance, left: Vec::new() };
    let mut drawn: Vec<PlaceNumber> = dancers.iter().map(|&dancer| span.place(dancer)).collect();
    for way in together.ways() {
        // Whoever was somebody's mate one way is nobody's another.
        let before = drawn.clone();
        for &dancer in dancers {
            let place = span.place(dancer);
            let part = followed.dance.figures.get(span.figure).and_then(|figure| figure.part(place)).cloned();
            let (Some(part), Some(old)) = (part, own_part(span, dancer)) else { continue };
            if part == old {
                continue;
            }
            for other in way.mates(ground, place).into_iter().filter(|other| !before.contains(other)) {
                drawn.push(other);
                let Some(mate) = span.dancer_in(other) else { continue };
                let image = |part: &Part| way.part_of(ground, (part, leads_of(span, place)), other);
                let change = Drawn { dancer, mate, old: &old, new: &part, swaps: way.swaps() };
                let is_new = |figure: &Figure| figure.named.is_none() && figure.part(other).is_none();
                let figure = followed.dance.figures.get(span.figure);
                let part = if figure.is_some_and(is_new) || does_the_same(span, &change, image) {
                    whole_image(&followed.dance, span, &part, (other, image))
                } else {
                    carried(span, &change, image).map(|part| others_kept(part, motion, span, mate))
                };
                match part {
                    // What changes nothing of theirs leaves them as they are, named as well.
                    Some(part) if Some(&part) == own_part(span, mate).as_ref() => {}
                    Some(part) => followed.dance = with_part(&followed.dance, span.figure, part),
                    None => followed.left.push(mate),
                }
            }
        }
    }
    followed
}

/// What a mate does who does all that a part does.
fn whole_image(
    dance: &Dance,
    span: &Span,
    part: &Part,
    (other, image): (PlaceNumber, impl Fn(&Part) -> Option<Part>),
) -> Option<Part> {
    let written = ways_settled(part.clone(), span);
    let mut made = image(&amounts_settled(written.clone(), span))?;
    // What a mate turns like that already stays as it is written.
    let known = dance.figures.get(span.figure).and_then(|figure| figure.part(other));
    let known = known.map(|part| part.turns.as_slice()).unwrap_or_default();
    for (turn, written) in made.turns.iter_mut().zip(image(&written)?.turns) {
        if known.contains(&written) {
            *turn = written;
        }
    }
    Some(made)
}
