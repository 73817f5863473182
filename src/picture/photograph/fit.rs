//! From the pixels of a picture to the metres of the floor, by marks of which both are known.

use super::least_squares::LeastSquares;
use super::sureness::{are_nearly_in_line, unsure};
use crate::dance::PhotoMark;

/// Where on the floor each pixel of a picture belongs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorFit {
    /// Three rows: `x` and `y` are the first two of them of (across, down, 1) over the third, which is positive on the floor.
    rows: [[f64; 3]; 3],
    /// The same from metres to pixels.
    back: [[f64; 3]; 3],
    /// How far the marks are from where they belong at the worst, metres.
    worst: f64,
    /// How far what lies between the marks may be off, metres.
    unsure: f64,
    /// The floor round the marks: least x and y, and greatest, metres.
    near: [f64; 4],
}

/// Why marks do not set a picture true.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotTrue {
    #[error("two marks at least are needed: they give scale and turn")]
    TooFew,
    #[error("marks {0} and {1} lie on one place of the picture: move one of them")]
    SamePixel(usize, usize),
    #[error("marks {0} and {1} are given one place of the floor: move one of them")]
    SamePlace(usize, usize),
    #[error(
        "too many of the marks lie in one line, or nearly: four corners of something on the floor do best"
    )]
    InLine,
    #[error("the marks show the floor in a mirror: two of them have changed places")]
    Mirror,
    #[error("the marks would put the horizon through the floor: two of them may have changed places")]
    Horizon,
    #[error("the marks lie too far from where they belong: look whether each has its own place")]
    Apart,
}

/// A place on the floor or in the picture.
pub(super) type Place = [f64; 2];

/// The part of their distance from the middle of the marks by which what lies between them may be off, and no more.
const MOST_UNSURE: f64 = 0.1;

impl FloorFit {
    /// The fit of some marks: the perspective by four, or as near as can be to more; scale and turn by two or three.
    ///
    /// # Errors
    /// Why they do not give one.
    pub fn of(marks: &[PhotoMark]) -> Result<Self, NotTrue> {
        let pairs: Vec<(Place, Place)> =
            marks.iter().map(|mark| ([mark.across, mark.down], [mark.x, mark.y])).collect();
        if pairs.len() < 2 {
            return Err(NotTrue::TooFew);
        }
        look_at(&pairs)?;
        if pairs.len() < 4 {
            let fit = Self::with(turned(&pairs)?, &pairs)?;
            return if fit.worst > spread(pairs.iter().map(|(_, place)| *place)).1 / 3.0 {
                Err(NotTrue::Apart)
            } else {
                Ok(fit)
            };
        }
        let rows = perspective(&pairs)?;
        let mut fit = Self::with(rows, &pairs)?;
        // What the marks leave open is told by how far it gives way when they do.
        let (scaled, metres) = scaled(&pairs);
        let pixel = 1.0 / spread(pairs.iter().map(|(pixel, _)| *pixel)).1;
        let part = unsure(&scaled, &fit.rows_scaled(&pairs), pixel).filter(|part| *part <= MOST_UNSURE);
        fit.unsure = metres * part.ok_or(NotTrue::InLine)?;
        Ok(fit)
    }

    /// The rows, from pixels to metres both counted from the middle of the marks in their mean distance from it.
    fn rows_scaled(&self, pairs: &[(Place, Place)]) -> [[f64; 3]; 3] {
        let (pixel, pixels) = spread(pairs.iter().map(|(pixel, _)| *pixel));
        let (place, metres) = spread(pairs.iter().map(|(_, place)| *place));
        let from = [[pixels, 0.0, pixel[0]], [0.0, pixels, pixel[1]], [0.0, 0.0, 1.0]];
        let to = [
            [1.0 / metres, 0.0, -place[0] / metres],
            [0.0, 1.0 / metres, -place[1] / metres],
            [0.0, 0.0, 1.0],
        ];
        times(&to, &times(&self.rows, &from))
    }

    /// The flat fit of some marks, by scale and turn alone, however bad: to have something to look at while they are being set.
    #[must_use]
    pub fn flat(marks: &[PhotoMark]) -> Option<Self> {
        let pairs: Vec<(Place, Place)> =
            marks.iter().map(|mark| ([mark.across, mark.down], [mark.x, mark.y])).collect();
        Self::with(turned(&pairs).ok()?, &pairs).ok()
    }

    fn with(mut rows: [[f64; 3]; 3], pairs: &[(Place, Place)]) -> Result<Self, NotTrue> {
        let depth = |rows: &[[f64; 3]; 3], [across, down]: Place| {
            rows[2][0] * across + rows[2][1] * down + rows[2][2]
        };
        let first = pairs.first().map_or(1.0, |(pixel, _)| depth(&rows, *pixel));
        if first == 0.0 {
            return Err(NotTrue::Horizon);
        }
        // One at the first mark, so that depths can be compared.
        rows.iter_mut().flatten().for_each(|value| *value /= first);
        let depths: Vec<f64> = pairs.iter().map(|(pixel, _)| depth(&rows, *pixel)).collect();
        let (least, most) =
            depths.iter().fold((f64::MAX, f64::MIN), |(least, most), d| (least.min(*d), most.max(*d)));
        if least.is_nan() || least <= most * 1e-3 {
            return Err(NotTrue::Horizon);
        }
        // Pixels go down and metres up: what is not mirrored turns over once.
        let determinant = determinant(&rows);
        if determinant >= 0.0 {
            return Err(NotTrue::Mirror);
        }
        let mut back = adjoint(&rows);
        back.iter_mut().flatten().for_each(|value| *value /= determinant);
        let mut fit = Self { rows, back, worst: 0.0, unsure: 0.0, near: round(pairs) };
        let off = |(pixel, [x, y]): &(Place, Place)| {
            fit.to_floor(*pixel).map_or(f64::MAX, |there| (there[0] - x).hypot(there[1] - y))
        };
        fit.worst = pairs.iter().map(off).fold(0.0, f64::max);
        Ok(fit)
    }

    /// Where on the floor a pixel belongs, metres right and up; nothing above the horizon.
    #[must_use]
    pub fn to_floor(&self, [across, down]: Place) -> Option<Place> {
        through(&self.rows, [across, down])
    }

    /// Which pixel shows a place on the floor, across and down; nothing where the picture cannot show it.
    #[must_use]
    pub fn to_pixel(&self, place: Place) -> Option<Place> {
        // A place that is seen lies before whoever took the picture: its pixel leads back to it.
        through(&self.back, place)
    }

    /// The floor round the marks: least x and y, and greatest, metres.
    #[must_use]
    pub fn near(&self) -> [f64; 4] {
        self.near
    }

    /// How far the marks are from where they belong at the worst, metres: nothing by two or four, and by more what is left of it.
    #[must_use]
    pub fn worst(&self) -> f64 {
        self.worst
    }

    /// How far what lies between the marks may be off, metres, when each of them is off by as little as a hand is: by a
    /// five-hundredth of how far they are from their middle in the picture, or a pixel of it. Nothing by scale and turn alone.
    #[must_use]
    pub fn unsure(&self) -> f64 {
        self.unsure
    }

    /// Where the horizon crosses a picture of so many pixels: its two ends at the edges; nothing where it does not.
    #[must_use]
    pub fn horizon(&self, [wide, high]: Place) -> Option<[Place; 2]> {
        let [right, down, still] = self.rows[2];
        let mut ends: Vec<Place> = Vec::new();
        for x in [0.0, wide] {
            let y = -(right * x + still) / down;
            ends.extend((0.0..=high).contains(&y).then_some([x, y]));
        }
        for y in [0.0, high] {
            let x = -(down * y + still) / right;
            ends.extend((0.0..=wide).contains(&x).then_some([x, y]));
        }
        let first = *ends.first()?;
        let far = |end: &Place| (end[0] - first[0]).hypot(end[1] - first[1]);
        let last = *ends.iter().max_by(|one, other| far(one).total_cmp(&far(other)))?;
        (far(&last) > 1.0).then_some([first, last])
    }
}

/// The floor round some marks, with three quarters as much again on each side, and two metres at least.
fn round(pairs: &[(Place, Place)]) -> [f64; 4] {
    let mut bounds = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
    for (_, [x, y]) in pairs {
        bounds = [bounds[0].min(*x), bounds[1].min(*y), bounds[2].max(*x), bounds[3].max(*y)];
    }
    let [x0, y0, x1, y1] = bounds;
    let more = (0.75 * (x1 - x0).max(y1 - y0)).max(2.0);
    [x0 - more, y0 - more, x1 + more, y1 + more]
}

fn through(rows: &[[f64; 3]; 3], [a, b]: Place) -> Option<Place> {
    let [x, y, depth] = rows.map(|[one, other, still]| one * a + other * b + still);
    (depth > 0.0).then(|| [x / depth, y / depth])
}

fn determinant([[a, b, c], [d, e, f], [g, h, i]]: &[[f64; 3]; 3]) -> f64 {
    a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
}

fn adjoint([[a, b, c], [d, e, f], [g, h, i]]: &[[f64; 3]; 3]) -> [[f64; 3]; 3] {
    [
        [e * i - f * h, c * h - b * i, b * f - c * e],
        [f * g - d * i, a * i - c * g, c * d - a * f],
        [d * h - e * g, b * g - a * h, a * e - b * d],
    ]
}

fn times(one: &[[f64; 3]; 3], other: &[[f64; 3]; 3]) -> [[f64; 3]; 3] {
    one.map(|[a, b, c]| {
        let [x, y, z] = other;
        [a * x[0] + b * y[0] + c * z[0], a * x[1] + b * y[1] + c * z[1], a * x[2] + b * y[2] + c * z[2]]
    })
}

/// Looks for marks from which nothing follows.
fn look_at(pairs: &[(Place, Place)]) -> Result<(), NotTrue> {
    let numbered = || pairs.iter().enumerate().map(|(index, pair)| (index + 1, pair));
    let near = |one: &Place, other: &Place, least: f64| (one[0] - other[0]).hypot(one[1] - other[1]) < least;
    for (first, (pixel, place)) in numbered() {
        for (second, (other_pixel, other_place)) in numbered().skip(first) {
            if near(pixel, other_pixel, 1.0) {
                return Err(NotTrue::SamePixel(first, second));
            }
            if near(place, other_place, 0.01) {
                return Err(NotTrue::SamePlace(first, second));
            }
        }
    }
    // Where all but one lie in a line there is a floor for each slant of that one.
    let pixels: Vec<Place> = pairs.iter().map(|(pixel, _)| *pixel).collect();
    let places: Vec<Place> = pairs.iter().map(|(_, place)| *place).collect();
    if pairs.len() >= 4 && (are_nearly_in_line(&pixels) || are_nearly_in_line(&places)) {
        return Err(NotTrue::InLine);
    }
    Ok(())
}

/// The middle of some places, and how far they are from it on the whole: at least a little.
fn spread(places: impl Iterator<Item = Place> + Clone) -> (Place, f64) {
    let many = places.clone().count().max(1) as f64;
    let middle = places.clone().fold([0.0, 0.0], |[x, y], place| [x + place[0] / many, y + place[1] / many]);
    let far = places.map(|place| (place[0] - middle[0]).hypot(place[1] - middle[1])).sum::<f64>() / many;
    (middle, if far > 0.0 { far } else { 1.0 })
}

/// Scale, turn and place alone, with down turned to up: as near to all marks as that comes.
fn turned(pairs: &[(Place, Place)]) -> Result<[[f64; 3]; 3], NotTrue> {
    let (pixel, _) = spread(pairs.iter().map(|(pixel, _)| *pixel));
    let (place, _) = spread(pairs.iter().map(|(_, place)| *place));
    let (mut same, mut across, mut square) = (0.0, 0.0, 0.0);
    for ([right, down], [x, y]) in pairs {
        let (right, up) = (right - pixel[0], pixel[1] - down);
        let (x, y) = (x - place[0], y - place[1]);
        same += right * x + up * y;
        across += right * y - up * x;
        square += right * right + up * up;
    }
    let (cos, sin) = (same / square, across / square);
    let scale = cos.hypot(sin);
    if scale.is_nan() || scale <= 1e-7 {
        return Err(if pairs.len() < 2 { NotTrue::TooFew } else { NotTrue::Mirror });
    }
    // x = cos (across - a) - sin (b - down), y = sin (across - a) + cos (b - down)
    Ok([
        [cos, sin, place[0] - cos * pixel[0] - sin * pixel[1]],
        [sin, -cos, place[1] - sin * pixel[0] + cos * pixel[1]],
        [0.0, 0.0, 1.0],
    ])
}

/// The marks from their middle, in their mean distance from it, in the picture and on the floor; and that distance, metres.
fn scaled(pairs: &[(Place, Place)]) -> (Vec<(Place, Place)>, f64) {
    let (pixel, pixels) = spread(pairs.iter().map(|(pixel, _)| *pixel));
    let (place, metres) = spread(pairs.iter().map(|(_, place)| *place));
    let scale = |(own, there): &(Place, Place)| {
        (
            [(own[0] - pixel[0]) / pixels, (own[1] - pixel[1]) / pixels],
            [(there[0] - place[0]) / metres, (there[1] - place[1]) / metres],
        )
    };
    (pairs.iter().map(scale).collect(), metres)
}

/// The perspective by four marks, or as near as can be to more of them, in metres on the floor.
fn perspective(pairs: &[(Place, Place)]) -> Result<[[f64; 3]; 3], NotTrue> {
    let (pixel, pixels) = spread(pairs.iter().map(|(pixel, _)| *pixel));
    let (place, metres) = spread(pairs.iter().map(|(_, place)| *place));
    let (scaled, _) = scaled(pairs);
    // The middle of the marks is never on the horizon of a floor that is seen: there the depth is one.
    // Four of which no three lie in line leave nothing open, but where their middle is on the horizon.
    let open = if pairs.len() == 4 { NotTrue::Horizon } else { NotTrue::InLine };
    let mut found = [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    for pass in 0..8 {
        let mut equations = LeastSquares::new();
        for ([u, v], [x, y]) in &scaled {
            let [_, _, _, _, _, _, g, h] = found;
            // After the first pass each is weighed by its depth, so that metres on the floor are what is kept small.
            let depth = if pass == 0 { 1.0 } else { 1.0 + g * u + h * v };
            if depth.abs() < 1e-6 {
                return Err(NotTrue::Horizon);
            }
            let w = 1.0 / depth;
            equations.add([u * w, v * w, w, 0.0, 0.0, 0.0, -u * x * w, -v * x * w, x * w]);
            equations.add([0.0, 0.0, 0.0, u * w, v * w, w, -u * y * w, -v * y * w, y * w]);
        }
        let next = equations.solve().ok_or(open)?;
        let moved = next.iter().zip(&found).map(|(one, other)| (one - other).abs()).fold(0.0, f64::max);
        found = next;
        if moved < 1e-13 {
            break;
        }
    }
    let [a, b, c, d, e, f, g, h] = found;
    let inner = [[a, b, c], [d, e, f], [g, h, 1.0]];
    let to_scaled =
        [[1.0 / pixels, 0.0, -pixel[0] / pixels], [0.0, 1.0 / pixels, -pixel[1] / pixels], [0.0, 0.0, 1.0]];
    let from_scaled = [[metres, 0.0, place[0]], [0.0, metres, place[1]], [0.0, 0.0, 1.0]];
    let rows = times(&from_scaled, &times(&inner, &to_scaled));
    if pairs.len() > 4 {
        let off = |(pixel, [x, y]): &(Place, Place)| {
            through(&rows, *pixel).map_or(f64::MAX, |there| (there[0] - x).hypot(there[1] - y))
        };
        // What is a third of the way between marks off is no fit.
        if pairs.iter().map(off).fold(0.0, f64::max) > metres / 3.0 {
            return Err(NotTrue::Apart);
        }
    }
    Ok(rows)
}
