//! Marks as pixels, by way of vello's rasteriser.

use super::{Colour, Face, Mark, Stroke, glyphs};
use vello_cpu::color::{AlphaColor, Srgb};
use vello_cpu::kurbo::{Affine, BezPath, Cap, Ellipse, Join, Point, Rect, RoundedRect, Shape};
use vello_cpu::{Pixmap, RenderContext, Resources, kurbo};

/// How far a curve may lie from the lines that stand for it, pixels.
const TOLERANCE: f64 = 0.05;

/// A drawing of marks.
pub(super) struct Pixels {
    context: RenderContext,
    fit: Affine,
}

impl Pixels {
    /// A drawing on a ground, of so many pixels across and down; its marks are laid out in a width and a height of
    /// their own.
    pub fn new((across, down): (u16, u16), [width, height]: [f32; 2], ground: Colour) -> Self {
        let fit = Affine::scale_non_uniform(
            f64::from(across) / f64::from(width),
            f64::from(down) / f64::from(height),
        );
        let mut context = RenderContext::new(across, down);
        context.set_paint(paint(ground));
        context.fill_rect(&Rect::new(0.0, 0.0, f64::from(across), f64::from(down)));
        Self { context, fit }
    }

    /// Draws a mark over what is there.
    pub fn draw(&mut self, mark: &Mark) {
        match mark {
            Mark::Oval { at, radii, turn, fill, stroke } => {
                let ellipse = Ellipse::new(point(*at), point(*radii).to_vec2(), f64::from(turn.to_radians()));
                self.shape(&ellipse.to_path(TOLERANCE), self.fit, *fill, *stroke);
            }
            Mark::Block { at, radii: [rx, ry], corner, turn, fill, stroke } => {
                let [rx, ry] = [*rx, *ry].map(f64::from);
                let block = RoundedRect::from_rect(Rect::new(-rx, -ry, rx, ry), f64::from(*corner));
                let place =
                    Affine::translate(point(*at).to_vec2()) * Affine::rotate(f64::from(*turn).to_radians());
                self.shape(&block.to_path(TOLERANCE), self.fit * place, *fill, *stroke);
            }
            // An area without corners is nothing.
            Mark::Area { points, fill, stroke } if !points.is_empty() => {
                let mut path = line(points);
                path.close_path();
                self.shape(&path, self.fit, *fill, *stroke);
            }
            Mark::Outline { loops, fill } => {
                let mut path = BezPath::new();
                for points in loops.iter().filter(|points| !points.is_empty()) {
                    path.extend(line(points));
                    path.close_path();
                }
                self.shape(&path, self.fit, Some(*fill), None);
            }
            Mark::Line { points, stroke, dash } => {
                let style = kurbo::Stroke::new(f64::from(stroke.width)).with_join(Join::Round);
                let style = match dash {
                    Some(dash) => style.with_caps(Cap::Butt).with_dashes(0.0, dash.map(f64::from)),
                    None => style.with_caps(Cap::Round),
                };
                self.outline(&line(points), self.fit, style, stroke.colour);
            }
            Mark::Area { .. } => {}
            Mark::Words { at: [x, y], size, anchor, text, colour, heavy } => {
                let face = Face::of(*heavy);
                let left = anchor.left_end(*x, glyphs::words_width(text, *size, face));
                let base = y + size * glyphs::HALF_CAPITAL;
                let stroke = Stroke { colour: *colour, width: size * glyphs::THICKENED };
                let glyphs::Outlined { letters, thickened } = glyphs::outline(text, *size, face);
                let place = self.fit * Affine::translate(point([left, base]).to_vec2());
                self.shape(&letters, place, Some(*colour), None);
                self.shape(&thickened, place, None, Some(stroke));
            }
        }
    }

    /// The pixels, row by row from the top: red, green, blue and opacity of each.
    pub fn rgba(&mut self) -> Pixmap {
        let mut pixels = Pixmap::new(self.context.width(), self.context.height());
        self.context.flush();
        self.context.render(&mut pixels, &mut Resources::new());
        pixels
    }

    fn shape(&mut self, path: &BezPath, place: Affine, fill: Option<Colour>, stroke: Option<Stroke>) {
        if let Some(colour) = fill {
            self.context.set_transform(place);
            self.context.set_paint(paint(colour));
            self.context.fill_path(path);
        }
        if let Some(Stroke { colour, width }) = stroke {
            let style = kurbo::Stroke::new(f64::from(width)).with_join(Join::Miter).with_caps(Cap::Butt);
            self.outline(path, place, style, colour);
        }
    }

    fn outline(&mut self, path: &BezPath, place: Affine, style: kurbo::Stroke, colour: Colour) {
        self.context.set_transform(place);
        self.context.set_paint(paint(colour));
        self.context.set_stroke(style);
        self.context.stroke_path(path);
    }
}

fn paint(Colour(red, green, blue, opacity): Colour) -> AlphaColor<Srgb> {
    AlphaColor::from_rgba8(red, green, blue, opacity)
}

fn point([x, y]: [f32; 2]) -> Point {
    Point::new(f64::from(x), f64::from(y))
}

fn line(points: &[[f32; 2]]) -> BezPath {
    let mut path = BezPath::with_capacity(points.len());
    let mut points = points.iter().copied().map(point);
    if let Some(first) = points.next() {
        path.move_to(first);
    }
    for next in points {
        path.line_to(next);
    }
    path
}
