//! Dancers of whom the same is said, folded: those who do the same, the mirror of it, or the same turned half about.

use super::mirrored::Image;
use crate::dance::Dancer;

/// Dancers who are told together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alike<T> {
    /// What is told, as to the first of them.
    pub told: T,
    /// Who they are, in order, and how what they do follows from what is told; the first is told it as it is.
    pub who: Vec<(Dancer, Image)>,
}

impl<T> Alike<T> {
    /// Those whose part follows so, in order.
    #[must_use]
    pub fn those(&self, image: Image) -> Vec<Dancer> {
        self.who.iter().filter(|(_, how)| *how == image).map(|(dancer, _)| *dancer).collect()
    }
}

/// All dancers (so many), those told together of whom `told` says the same: what it says of each as they are, and as their images are.
#[must_use]
pub fn alike<T: PartialEq>(dancers: usize, told: impl Fn(Dancer, Image) -> Option<T>) -> Vec<Alike<T>> {
    let mut found: Vec<Alike<T>> = Vec::new();
    for dancer in Dancer::all(dancers) {
        let images = [Image::Same, Image::Mirror, Image::About];
        let with = images.into_iter().find_map(|image| {
            let said = told(dancer, image)?;
            Some((found.iter().position(|group| group.told == said)?, image))
        });
        match with.and_then(|(index, image)| Some((found.get_mut(index)?, image))) {
            Some((group, image)) => group.who.push((dancer, image)),
            None => found.extend(
                told(dancer, Image::Same).map(|said| Alike { told: said, who: vec![(dancer, Image::Same)] }),
            ),
        }
    }
    found
}
