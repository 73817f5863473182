//! The tune's row of the bar strip: small notes on five faint lines, each at its time.

use super::axis::BarAxis;
use crate::dance::Air;
use crate::desk::Desk;
use crate::window::theme::colour;
use egui::{Align2, Color32, FontId, Painter, Rect, Shape, Stroke, pos2};

/// From one line of the stave to the next.
const SPACE: f32 = 4.0;
/// The step of the middle line, B above middle C.
const MIDDLE: i32 = 6;
/// How far from the middle line a head is drawn at the most, steps: the row is no higher.
const MOST_STEPS: i32 = 9;

/// The corners of a head beside its middle: ten of an ellipse.
const CORNERS: [[f32; 2]; 10] = [
    [1.0, 0.0],
    [0.809, 0.588],
    [0.309, 0.951],
    [-0.309, 0.951],
    [-0.809, 0.588],
    [-1.0, 0.0],
    [-0.809, -0.588],
    [-0.309, -0.951],
    [0.309, -0.951],
    [0.809, -0.588],
];

/// Shows the notes of the bars in sight; those that sound at the playhead are lit, in the colour of what goes well.
pub fn show(painter: &Painter, desk: &Desk, air: &Air, axis: BarAxis, row: Rect) {
    let middle = row.center().y;
    let faint = Stroke::new(1.0, colour(desk.ink().faint));
    for line in -2..=2 {
        let y = middle + line as f32 * SPACE;
        painter.line_segment([pos2(axis.left, y), pos2(axis.right, y)], faint);
    }
    put_strains(painter, desk, air, axis, row);
    let (clock, here) = (desk.clock(), desk.player().count);
    let (metre_beats, metre_each) = air.tune.metre;
    let whole_notes = metre_beats as f64 / metre_each.max(1) as f64;
    let (loud, quiet) = (colour(desk.ink().well), colour(desk.ink().quiet));
    // Heads shrink where the bars are narrow, so that quavers stay apart.
    let half = (axis.count_width() * 0.22).clamp(1.6, 3.4);
    for sounded in air.notes(clock.bars_of_counts(axis.from), clock.bars_of_counts(axis.to)) {
        let (count, note) = (clock.counts_of_bars(sounded.begin), sounded.note);
        if count < axis.from - 1e-6 {
            continue;
        }
        let sounds = count <= here + 1e-6 && here + 1e-6 < clock.counts_of_bars(sounded.end);
        let ink = if sounds { loud } else { quiet };
        let steps = (note.step - MIDDLE).clamp(-MOST_STEPS, MOST_STEPS);
        let at = pos2(axis.place(count) + half + 1.5, middle - steps as f32 * SPACE / 2.0);
        let is_hollow = note.length * whole_notes > 0.5 - 1e-9;
        put_note(painter, at, half, ink, is_hollow, steps);
        for ledger in (6..=steps.abs()).step_by(2) {
            let y = middle - (ledger * steps.signum()) as f32 * SPACE / 2.0;
            let pen = Stroke::new(1.0, ink);
            painter.line_segment([pos2(at.x - half - 1.5, y), pos2(at.x + half + 1.5, y)], pen);
        }
    }
}

/// The name of each strain where it begins to be played, with a bar line before it.
fn put_strains(painter: &Painter, desk: &Desk, air: &Air, axis: BarAxis, row: Rect) {
    let bars = desk.motion().bar_counts();
    let (faint, quiet) = (colour(desk.ink().faint), colour(desk.ink().quiet));
    for playing in &air.playings {
        let count = bars.begin_of(playing.first_bar);
        if count < axis.from - 1e-6 || count >= axis.to - 1e-6 {
            continue;
        }
        let Some(strain) = air.tune.strains.get(playing.strain) else { continue };
        let x = axis.place(count);
        painter.line_segment([pos2(x, row.top()), pos2(x, row.bottom())], Stroke::new(1.0, faint));
        let name: String = strain.name.chars().take(12).collect();
        let font = FontId::proportional(10.5);
        painter.text(pos2(x + 2.0, row.top() - 2.0), Align2::LEFT_TOP, name, font, quiet);
    }
}

/// A head with its stem, which goes up where it is under the middle line.
fn put_note(painter: &Painter, at: egui::Pos2, half: f32, ink: Color32, is_hollow: bool, steps: i32) {
    // So small, a few corners are round enough, and a third of the work of an ellipse.
    let (wide, high) = (half, (SPACE * 0.5).min(half));
    let inset = if is_hollow { 0.4 } else { 0.0 };
    let corners = CORNERS.iter().map(|[x, y]| pos2(at.x + x * (wide - inset), at.y + y * (high - inset)));
    if is_hollow {
        painter.add(Shape::closed_line(corners.collect(), Stroke::new(1.1, ink)));
    } else {
        painter.add(Shape::convex_polygon(corners.collect(), ink, Stroke::NONE));
    }
    let way = if steps < 0 { 1.0 } else { -1.0 };
    let x = at.x + way * (half - 0.5);
    painter.line_segment([pos2(x, at.y), pos2(x, at.y - way * 2.8 * SPACE)], Stroke::new(1.0, ink));
}
