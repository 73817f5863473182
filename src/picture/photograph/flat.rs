//! A photograph laid flat: as it would look from right above, a part of the floor to a picture.

use super::{FloorFit, Photograph};
use image::RgbaImage;
use rayon::prelude::*;

/// The most pixels of a side of it.
const MOST_SIDE: f64 = 1536.0;
/// Pixels a metre that are worth drawing.
const FINEST: f64 = 250.0;
/// The lines that are drawn before it is asked again whether it goes on.
const BAND: usize = 64;

/// A part of the floor as the photograph shows it.
pub struct Flat {
    /// The least x and y and the greatest ones, metres.
    pub bounds: [f64; 4],
    /// Its pixels, red, green, blue and how much covers, from the upper left; up is up the floor.
    pub pixels: RgbaImage,
}

impl Flat {
    /// Lays a photograph flat, unless it is told to go on no longer; nothing where nothing of the floor is seen in it.
    pub fn lay(
        photograph: &Photograph,
        fit: &FloorFit,
        goes_on: &mut dyn FnMut(usize, usize) -> bool,
    ) -> Option<Self> {
        let bounds = seen(photograph, fit)?;
        let [x0, y0, x1, y1] = bounds;
        let scale = (MOST_SIDE / (x1 - x0).max(y1 - y0)).min(FINEST);
        let side = |metres: f64| ((metres * scale).ceil().max(1.0) as u32).min(MOST_SIDE as u32);
        let (across, down) = (side(x1 - x0), side(y1 - y0));
        let (wide, high) = ((x1 - x0) / f64::from(across), (y1 - y0) / f64::from(down));
        let mut pixels = RgbaImage::new(across, down);
        // A band at a time, of which each line is drawn for itself.
        let line_bytes = across as usize * 4;
        for (band, lines) in pixels.chunks_mut(line_bytes * BAND).enumerate() {
            if !goes_on(band * BAND, down as usize) {
                return None;
            }
            lines.par_chunks_mut(line_bytes).enumerate().for_each(|(row, line)| {
                let y = y1 - ((band * BAND + row) as f64 + 0.5) * high;
                for (column, pixel) in line.chunks_exact_mut(4).enumerate() {
                    let x = x0 + (column as f64 + 0.5) * wide;
                    pixel.copy_from_slice(&seen_at(photograph, fit, [x, y], [wide, high]));
                }
            });
        }
        Some(Self { bounds, pixels })
    }
}

/// What is seen of a piece of the floor round its middle, so wide and so high, metres.
fn seen_at(photograph: &Photograph, fit: &FloorFit, [x, y]: [f64; 2], [wide, high]: [f64; 2]) -> [u8; 4] {
    let share = photograph.kept_share();
    // Four looks a piece: what is far away in the picture is small there and coarse here, and the other way about.
    let mut sum = [0.0_f32; 4];
    for (right, up) in [(-0.25, -0.25), (0.25, -0.25), (-0.25, 0.25), (0.25, 0.25)] {
        let Some([across, down]) = fit.to_pixel([x + right * wide, y + up * high]) else { continue };
        let look = look(&photograph.kept, [across * share - 0.5, down * share - 0.5]);
        sum.iter_mut().zip(look).for_each(|(sum, look)| *sum += look / 4.0);
    }
    let [red, green, blue, cover] = sum;
    if cover <= 0.0 {
        return [0; 4];
    }
    let byte = |value: f32| (value / cover * 255.0).round() as u8;
    [byte(red), byte(green), byte(blue), (cover * 255.0).round() as u8]
}

/// What is seen at a place of the kept picture, its pixels' middles on whole numbers: colours times cover, and cover, 0 to 1.
fn look(kept: &RgbaImage, [across, down]: [f64; 2]) -> [f32; 4] {
    let (wide, high) = (f64::from(kept.width()), f64::from(kept.height()));
    if across < -0.5 || down < -0.5 || across > wide - 0.5 || down > high - 0.5 {
        return [0.0; 4];
    }
    let (across, down) = (across.clamp(0.0, wide - 1.0), down.clamp(0.0, high - 1.0));
    let (left, top) = (across.floor(), down.floor());
    let (right_share, down_share) = ((across - left) as f32, (down - top) as f32);
    let mut sum = [0.0; 4];
    for (right, below, share) in [
        (0, 0, (1.0 - right_share) * (1.0 - down_share)),
        (1, 0, right_share * (1.0 - down_share)),
        (0, 1, (1.0 - right_share) * down_share),
        (1, 1, right_share * down_share),
    ] {
        let x = (left as u32 + right).min(kept.width() - 1);
        let y = (top as u32 + below).min(kept.height() - 1);
        let [red, green, blue, cover] = kept.get_pixel(x, y).0.map(|byte| f32::from(byte) / 255.0);
        for (sum, value) in sum.iter_mut().zip([red * cover, green * cover, blue * cover, cover]) {
            *sum += value * share;
        }
    }
    sum
}

/// The part of the floor that is worth drawing, least x and y and greatest: all that is seen, but no farther from the marks'
/// middle than makes sense, since the floor goes on to the horizon.
fn seen(photograph: &Photograph, fit: &FloorFit) -> Option<[f64; 4]> {
    let [wide, high] = photograph.size.map(f64::from);
    let middle = fit.near();
    let mut bounds = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
    // A fine net, since the horizon cuts the picture anywhere.
    for row in 0..=48 {
        for column in 0..=48 {
            let pixel = [wide * f64::from(column) / 48.0, high * f64::from(row) / 48.0];
            let Some([x, y]) = fit.to_floor(pixel) else { continue };
            let [x0, y0, x1, y1] = middle;
            let (x, y) = (x.clamp(x0, x1), y.clamp(y0, y1));
            bounds = [bounds[0].min(x), bounds[1].min(y), bounds[2].max(x), bounds[3].max(y)];
        }
    }
    (bounds[2] - bounds[0] > 1e-3 && bounds[3] - bounds[1] > 1e-3).then_some(bounds)
}
