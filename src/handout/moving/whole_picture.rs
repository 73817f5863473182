//! A moving picture from its first picture to its last.

use super::changed::Changed;
use super::drawing::{AT_ONCE, Drawing, Layers};
use super::one_picture::{Scene, layers};
use super::palette::Palette;
use super::{MovingChoice, MovingError, MovingKind, apng, gif_out, picture_counts};
use crate::dance::Dance;
use crate::handout::OnProgress;
use crate::motion::Motion;
use rayon::prelude::*;

/// Pictures looked at for their colours.
const LOOKED_AT: u32 = 24;

/// The bytes of the moving picture; `progress` hears how many pictures are done, of how many, and
/// says whether to go on.
///
/// # Errors
/// When a choice is not within its limits or a picture cannot be drawn or written.
pub fn moving(
    dance: &Dance,
    motion: &Motion,
    kind: MovingKind,
    choice: &MovingChoice,
    progress: OnProgress,
) -> Result<Vec<u8>, MovingError> {
    Ok(moving_and_drawn(dance, motion, kind, choice, progress)?.0)
}

/// The same, and how many floors and lines under them have been drawn for it: the measure of the work it took.
///
/// # Errors
/// When a choice is not within its limits or a picture cannot be drawn or written.
pub fn moving_and_drawn(
    dance: &Dance,
    motion: &Motion,
    kind: MovingKind,
    choice: &MovingChoice,
    progress: OnProgress,
) -> Result<(Vec<u8>, usize), MovingError> {
    let counts = picture_counts(dance, motion, choice)?;
    let scene = Scene::of(dance, motion, choice);
    let layers = |counts: &[f64]| -> Vec<Layers> {
        counts.par_iter().map(|count| layers(motion, *count, &scene, choice)).collect()
    };
    let mut drawing = Drawing::new(choice);
    let mut palette = Palette::default();
    let looks: Vec<f64> =
        (0..LOOKED_AT).map(|look| motion.counts() * f64::from(look) / f64::from(LOOKED_AT)).collect();
    for rgb in drawing.draw(layers(&looks))? {
        palette.look_at(&rgb);
    }
    let mut before: Option<Vec<u8>> = None;
    let mut frames = Vec::with_capacity(counts.len());
    for some in counts.chunks(AT_ONCE) {
        for rgb in drawing.draw(layers(some))? {
            let now = palette.find_all(&rgb);
            frames.push(Changed::of(before.as_deref(), &now, choice.size));
            before = Some(now);
            if !progress(frames.len(), counts.len()) {
                return Err(MovingError::Stopped);
            }
        }
    }
    let bytes = match kind {
        MovingKind::Png => apng::write(&frames, &palette, choice),
        MovingKind::Gif => gif_out::write(&frames, &palette, choice),
    };
    Ok((bytes?, drawing.drawn))
}
