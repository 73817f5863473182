use super::{Colour, Face, Mark, Picture, Stroke, glyphs};
use std::fmt::Write;
use vello_cpu::kurbo::{BezPath, PathEl, Point};

/// A picture as SVG text. Words are outlines, with the words themselves as labels for screen readers.
#[must_use]
pub fn to_svg(picture: &Picture) -> String {
    let (width, height) = (picture.width, picture.height);
    let view = [width as f32, height as f32];
    let size = [width.to_string(), height.to_string()];
    marks_to_svg(view, &size, picture.ground, &picture.marks, (&picture.title, &picture.words))
}

/// Marks as SVG text: the width and height that they are laid out in, the same as lengths of SVG, what lies under
/// them, and a title and what they show in words.
#[must_use]
pub fn marks_to_svg(
    [across, down]: [f32; 2],
    [width, height]: &[String; 2],
    ground: Colour,
    marks: &[Mark],
    (title, words): (&str, &str),
) -> String {
    let mut out = String::with_capacity(marks.len() * 160 + 512);
    // Writing to a string does not fail, so the results below carry nothing.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {across} {down}\" role=\"img\">\n<title>{}</title>\n<desc>{}</desc>\n\
         <rect width=\"{across}\" height=\"{down}\" fill=\"{}\"/>\n",
        escaped(title),
        escaped(words),
        rgb(ground)
    );
    for mark in marks {
        write_mark(&mut out, mark);
    }
    out.push_str("</svg>\n");
    out
}

fn write_mark(out: &mut String, mark: &Mark) {
    match mark {
        Mark::Oval { at: [x, y], radii: [rx, ry], turn, fill, stroke } => {
            let _ = write!(out, "<ellipse cx=\"{x:.2}\" cy=\"{y:.2}\" rx=\"{rx:.2}\" ry=\"{ry:.2}\"");
            if (rx - ry).abs() > 1e-3 {
                let _ = write!(out, " transform=\"rotate({turn:.2} {x:.2} {y:.2})\"");
            }
            paint(out, *fill, *stroke);
        }
        Mark::Block { at: [x, y], radii: [rx, ry], corner, turn, fill, stroke } => {
            let _ = write!(
                out,
                "<rect x=\"{:.2}\" y=\"{:.2}\" width=\"{:.2}\" height=\"{:.2}\" rx=\"{corner:.2}\" \
                 transform=\"rotate({turn:.2} {x:.2} {y:.2})\"",
                x - rx,
                y - ry,
                rx * 2.0,
                ry * 2.0
            );
            paint(out, *fill, *stroke);
        }
        Mark::Area { points, fill, stroke } => {
            out.push_str("<polygon points=\"");
            put_points(out, points);
            out.push('"');
            paint(out, *fill, *stroke);
        }
        Mark::Outline { loops, fill } => {
            out.push_str("<path d=\"");
            for points in loops.iter().filter(|points| !points.is_empty()) {
                out.push('M');
                put_points(out, points);
                out.push('Z');
            }
            out.push('"');
            paint(out, Some(*fill), None);
        }
        Mark::Line { points, stroke, dash } => {
            out.push_str("<polyline points=\"");
            put_points(out, points);
            out.push_str("\" stroke-linejoin=\"round\"");
            match dash {
                Some([on, off]) => {
                    let _ = write!(out, " stroke-dasharray=\"{on:.2} {off:.2}\"");
                }
                None => out.push_str(" stroke-linecap=\"round\""),
            }
            paint(out, None, Some(*stroke));
        }
        Mark::Words { at: [x, y], size, anchor, text, colour, heavy } => {
            let face = Face::of(*heavy);
            let left = anchor.left_end(*x, glyphs::words_width(text, *size, face));
            let base = y + size * glyphs::HALF_CAPITAL;
            let glyphs::Outlined { letters, thickened } = glyphs::outline(text, *size, face);
            let place = format!("transform=\"translate({left:.2} {base:.2})\" d=\"");
            let _ = write!(out, "<path aria-label=\"{}\" {place}", escaped(text));
            put_path(out, &letters);
            out.push('"');
            paint(out, Some(*colour), None);
            if !thickened.elements().is_empty() {
                let _ = write!(out, "<path aria-hidden=\"true\" {place}");
                put_path(out, &thickened);
                out.push('"');
                paint(out, None, Some(Stroke { colour: *colour, width: size * glyphs::THICKENED }));
            }
        }
    }
}

/// A path in the letters of SVG.
fn put_path(out: &mut String, path: &BezPath) {
    let mut write_part = |letter: char, points: &[Point]| {
        out.push(letter);
        for (index, Point { x, y }) in points.iter().enumerate() {
            let space = if index == 0 { "" } else { " " };
            let _ = write!(out, "{space}{x:.2} {y:.2}");
        }
    };
    for element in path {
        match element {
            PathEl::MoveTo(to) => write_part('M', &[to]),
            PathEl::LineTo(to) => write_part('L', &[to]),
            PathEl::QuadTo(by, to) => write_part('Q', &[by, to]),
            PathEl::CurveTo(by, and, to) => write_part('C', &[by, and, to]),
            PathEl::ClosePath => write_part('Z', &[]),
        }
    }
}

fn put_points(out: &mut String, points: &[[f32; 2]]) {
    for (index, [x, y]) in points.iter().enumerate() {
        let space = if index == 0 { "" } else { " " };
        let _ = write!(out, "{space}{x:.2},{y:.2}");
    }
}

fn paint(out: &mut String, fill: Option<Colour>, stroke: Option<Stroke>) {
    match fill {
        Some(colour) => {
            let _ = write!(out, " fill=\"{}\"", rgb(colour));
            if colour.3 < 255 {
                let _ = write!(out, " fill-opacity=\"{:.3}\"", f32::from(colour.3) / 255.0);
            }
        }
        None => out.push_str(" fill=\"none\""),
    }
    if let Some(Stroke { colour, width }) = stroke {
        let _ = write!(out, " stroke=\"{}\" stroke-width=\"{width:.2}\"", rgb(colour));
        if colour.3 < 255 {
            let _ = write!(out, " stroke-opacity=\"{:.3}\"", f32::from(colour.3) / 255.0);
        }
    }
    out.push_str("/>\n");
}

fn rgb(Colour(red, green, blue, _): Colour) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// Text made safe for XML: its special letters escaped, and letters that XML cannot hold left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            letter if letter < ' ' || matches!(letter, '\u{fffe}' | '\u{ffff}') => {}
            letter => out.push(letter),
        }
    }
    out
}
