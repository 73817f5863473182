use super::{MovingChoice, MovingError, changed::Changed, palette::Palette, times::delay};
use gif::{DisposalMethod, Encoder, Repeat};
use std::borrow::Cow;

/// A GIF that goes round for ever.
pub(super) fn write(
    frames: &[Changed],
    palette: &Palette,
    choice: &MovingChoice,
) -> Result<Vec<u8>, MovingError> {
    let mut bytes = Vec::new();
    let side = choice.size as u16;
    let mut encoder = Encoder::new(&mut bytes, side, side, &palette.bytes())?;
    encoder.set_repeat(Repeat::Infinite)?;
    for (index, frame) in frames.iter().enumerate() {
        encoder.write_frame(&gif::Frame {
            delay: delay(index, frames.len(), choice.rate),
            dispose: DisposalMethod::Keep,
            transparent: Some(Palette::CLEAR),
            left: frame.left as u16,
            top: frame.top as u16,
            width: frame.width as u16,
            height: frame.height as u16,
            buffer: Cow::Borrowed(&frame.pixels),
            ..gif::Frame::default()
        })?;
    }
    drop(encoder);
    Ok(bytes)
}
