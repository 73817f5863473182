use super::{MovingChoice, MovingError, changed::Changed, palette::Palette, times::delay};

/// An animated PNG that goes round for ever (PNG Specification, Third Edition, W3C 2025, sections 11.3.6 and on).
pub(super) fn write(
    frames: &[Changed],
    palette: &Palette,
    choice: &MovingChoice,
) -> Result<Vec<u8>, MovingError> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, choice.size, choice.size);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    encoder.set_palette(palette.bytes());
    let mut opacity = vec![255; 256];
    if let Some(clear) = opacity.get_mut(usize::from(Palette::CLEAR)) {
        *clear = 0;
    }
    encoder.set_trns(opacity);
    encoder.set_animated(frames.len() as u32, 0)?;
    encoder.add_itxt_chunk("Title".to_owned(), choice.figure.clone())?;
    let mut writer = encoder.write_header()?;
    for (index, frame) in frames.iter().enumerate() {
        writer.reset_frame_position()?;
        writer.set_frame_dimension(frame.width, frame.height)?;
        writer.set_frame_position(frame.left, frame.top)?;
        writer.set_frame_delay(delay(index, frames.len(), choice.rate), 100)?;
        writer.set_blend_op(if index == 0 { png::BlendOp::Source } else { png::BlendOp::Over })?;
        writer.set_dispose_op(png::DisposeOp::None)?;
        writer.write_image_data(&frame.pixels)?;
    }
    writer.finish()?;
    Ok(bytes)
}
