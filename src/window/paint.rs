use super::theme::colour;
use crate::picture::{Anchor, Face, HALF_CAPITAL, Mark, Stroke, letter_loops, words_width};
use egui::{Align2, FontId, Painter, Pos2, Shape, epaint::PathStroke, pos2};

/// The largest words that are drawn from kept pictures of their letters, pixels.
const LARGEST: f32 = 48.0;

/// How much larger the next larger words are.
const STEP: f32 = 1.06;

/// Paints words from a place on, half-way up, cut short with an ellipsis where they are wider than the room.
pub fn words_within(painter: &Painter, at: Pos2, width: f32, text: &str, size: f32, ink: egui::Color32) {
    let mut job = egui::text::LayoutJob::simple_singleline(text.to_owned(), FontId::proportional(size), ink);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width.max(1.0));
    let galley = painter.layout_job(job);
    let place = Align2::LEFT_CENTER.anchor_size(at, galley.size());
    painter.galley(place.min, galley, ink);
}

/// Words from a place on, half-way up, with letters left out of their middle where they are wider than the room: names that
/// begin alike can still be told apart.
pub fn words_in_middle(painter: &Painter, at: Pos2, width: f32, text: &str, size: f32, ink: egui::Color32) {
    let galley = |text: String| painter.layout_no_wrap(text, FontId::proportional(size), ink);
    let whole = galley(text.to_owned());
    let letters: Vec<char> = text.chars().collect();
    let with = |many: usize| {
        let first = many.div_ceil(2).max(many.saturating_sub(5));
        let last = letters.len() - (many - first);
        let part = |range: &[char]| range.iter().collect::<String>();
        let (begin, end) =
            (letters.get(..first).unwrap_or_default(), letters.get(last..).unwrap_or_default());
        format!("{}…{}", part(begin).trim_end(), part(end).trim_start())
    };
    let shown = if whole.size().x <= width {
        whole
    } else {
        let most = (1..letters.len()).rev().find(|many| galley(with(*many)).size().x <= width);
        galley(with(most.unwrap_or(0)))
    };
    let place = Align2::LEFT_CENTER.anchor_size(at, shown.size());
    painter.galley(place.min, shown, ink);
}

/// How far below their middle words of a style stand, points: those of other sizes beside them stand on one line with them once
/// this is the same for both.
pub fn line_below_middle(ui: &egui::Ui, style: &egui::TextStyle) -> f32 {
    stands_below(ui.painter(), style.resolve(ui.style()))
}

/// The same of a font.
pub fn stands_below(painter: &Painter, font: FontId) -> f32 {
    let galley = painter.layout_no_wrap("x".to_owned(), font, egui::Color32::WHITE);
    let stands = galley.rows.first().and_then(|row| Some(row.pos.y + row.glyphs.first()?.pos.y));
    stands.map_or(0.0, |stands| stands - galley.size().y / 2.0)
}

/// Chooses a stretch of the text in a field, so that typing takes its place.
pub fn choose_text(ui: &egui::Ui, field: egui::Id, first: usize, last: usize) {
    use egui::text::{CCursor, CCursorRange};
    let mut state = egui::TextEdit::load_state(ui.ctx(), field).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(first), CCursor::new(last))));
    state.store(ui.ctx(), field);
}

/// Paints marks, whose pixels are the window's points.
pub fn paint(painter: &Painter, marks: &[Mark]) {
    for mark in marks {
        paint_mark(painter, mark);
    }
}

fn paint_mark(painter: &Painter, mark: &Mark) {
    match mark {
        Mark::Oval { at: [x, y], radii: [rx, ry], turn, fill, stroke } => {
            area(painter, oval((*x, *y), (*rx, *ry), *turn), *fill, *stroke);
        }
        Mark::Block { at: [x, y], radii: [rx, ry], corner, turn, fill, stroke } => {
            let corner = corner.min(*rx).min(*ry);
            let (inner_x, inner_y) = (rx - corner, ry - corner);
            let corners = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]
                .into_iter()
                .enumerate()
                .flat_map(|(quarter, (sx, sy))| {
                    (0..=6).map(move |step| {
                        let angle = (quarter as f32 + step as f32 / 6.0) * std::f32::consts::FRAC_PI_2;
                        let (sin, cos) = angle.sin_cos();
                        (sx * inner_x + corner * cos, sy * inner_y + corner * sin)
                    })
                });
            area(painter, turned(corners, *turn, *x, *y), *fill, *stroke);
        }
        Mark::Area { points, fill, stroke } => {
            area(painter, points.iter().map(|[x, y]| pos2(*x, *y)).collect(), *fill, *stroke);
        }
        Mark::Outline { loops, fill } => painter.extend(outline(loops, *fill)),
        Mark::Line { points, stroke, dash } => {
            let points: Vec<Pos2> = points.iter().map(|[x, y]| pos2(*x, *y)).collect();
            match dash {
                Some([on, off]) => {
                    let mut shapes = Vec::new();
                    Shape::dashed_line_many(&points, line(*stroke), on.max(0.5), off.max(0.5), &mut shapes);
                    painter.extend(shapes);
                }
                None => {
                    painter.add(Shape::line(points, line(*stroke)));
                }
            }
        }
        Mark::Words { size, .. } if size * painter.pixels_per_point() > LARGEST => {
            painter.extend(large_words(mark));
        }
        Mark::Words { at: [x, y], size, anchor, text, colour: ink, heavy } => {
            let align = match anchor {
                Anchor::Left => Align2::LEFT_CENTER,
                Anchor::Middle => Align2::CENTER_CENTER,
                Anchor::Right => Align2::RIGHT_CENTER,
            };
            let font =
                FontId::proportional(rung(size * painter.pixels_per_point()) / painter.pixels_per_point());
            painter.text(pos2(*x, *y), align, text, font.clone(), colour(*ink));
            if *heavy {
                let more = size * 0.03;
                painter.text(pos2(x + more, *y), align, text, font.clone(), colour(*ink));
                painter.text(pos2(x - more, *y), align, text, font, colour(*ink));
            }
        }
    }
}

/// The size in which words on the floor are drawn, pixels. Letters are kept as little pictures, one for each size that
/// was ever asked for, so sizes go by steps and a floor that is zoomed for hours asks for some forty of them.
fn rung(size: f32) -> f32 {
    let step = (size.max(1.0).ln() / STEP.ln()).round();
    STEP.powf(step).min(LARGEST)
}

/// Words that are too large to be kept as little pictures: the outline of their letters.
fn large_words(mark: &Mark) -> Vec<Shape> {
    let Mark::Words { at: [x, y], size, anchor, text, colour: ink, heavy } = mark else { return Vec::new() };
    let left = anchor.left_end(*x, words_width(text, *size, Face::Light));
    let base = y + size * HALF_CAPITAL;
    let mut loops = letter_loops(text, *size);
    for [right, down] in loops.iter_mut().flatten() {
        (*right, *down) = (*right + left, *down + base);
    }
    // The line round the letters makes them heavy, and smooths their edges.
    let width = if *heavy { size * 0.06 } else { 1.0 };
    let around = loops.iter().map(|points| {
        let points = points.iter().map(|[x, y]| pos2(*x, *y)).collect();
        Shape::closed_line(points, egui::Stroke::new(width, colour(*ink)))
    });
    outline(&loops, *ink).into_iter().chain(around).collect()
}

/// An area of any shape, cut into triangles.
fn outline(loops: &[Vec<[f32; 2]>], fill: crate::picture::Colour) -> Option<Shape> {
    use lyon::math::point;
    use lyon::tessellation::{BuffersBuilder, FillOptions, FillTessellator, FillVertex, VertexBuffers};
    let mut path = lyon::path::Path::builder();
    for points in loops {
        let mut points = points.iter().map(|[x, y]| point(*x, *y));
        let Some(first) = points.next() else { continue };
        path.begin(first);
        points.for_each(|next| {
            path.line_to(next);
        });
        path.close();
    }
    let mut cut: VertexBuffers<Pos2, u32> = VertexBuffers::new();
    let mut corners = BuffersBuilder::new(&mut cut, |vertex: FillVertex| {
        let at = vertex.position();
        pos2(at.x, at.y)
    });
    FillTessellator::new().tessellate_path(&path.build(), &FillOptions::non_zero(), &mut corners).ok()?;
    let mut mesh = egui::Mesh::default();
    cut.vertices.into_iter().for_each(|at| mesh.colored_vertex(at, colour(fill)));
    mesh.indices = cut.indices;
    Some(Shape::mesh(mesh))
}

/// The corners of an oval about a place, with these radii and turned so far, degrees clockwise: as many as an eye sees, and no
/// more, since on a machine without a graphics card each takes time.
pub fn oval((x, y): (f32, f32), (wide, high): (f32, f32), turn: f32) -> Vec<Pos2> {
    let many = corners_of(wide.max(high));
    let corners = (0..many).map(|index| {
        let (sin, cos) = (index as f32 / many as f32 * std::f32::consts::TAU).sin_cos();
        (wide * cos, high * sin)
    });
    turned(corners, turn, x, y)
}

/// How many corners a circle of a radius has, points, so that it is a tenth of a point off a round one at the most.
fn corners_of(radius: f32) -> usize {
    let off = (1.0 - 0.1 / radius.max(0.2)).clamp(-1.0, 1.0);
    ((std::f32::consts::PI / off.acos()).ceil() as usize).clamp(8, 96)
}

fn line(Stroke { colour: ink, width }: Stroke) -> egui::Stroke {
    egui::Stroke::new(width, colour(ink))
}

fn turned(corners: impl Iterator<Item = (f32, f32)>, turn: f32, x: f32, y: f32) -> Vec<Pos2> {
    let (sin, cos) = turn.to_radians().sin_cos();
    corners.map(|(right, down)| pos2(x + right * cos - down * sin, y + right * sin + down * cos)).collect()
}

fn area(painter: &Painter, points: Vec<Pos2>, fill: Option<crate::picture::Colour>, stroke: Option<Stroke>) {
    let stroke = stroke.map(line).map_or(PathStroke::NONE, PathStroke::from);
    painter.add(Shape::convex_polygon(points, fill.map(colour).unwrap_or_default(), stroke));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_round_is_a_tenth_of_a_point_off_at_the_most() {
        for radius in [1.0_f32, 3.0, 9.0, 25.0, 60.0] {
            let corners = oval((0.0, 0.0), (radius, radius), 0.0);
            let middle = corners[0] + (corners[1] - corners[0]) * 0.5;
            assert!(radius - middle.to_vec2().length() <= 0.11, "{radius}: {} corners", corners.len());
        }
    }
}
