/// From the floor (metres right, metres up) to a picture (pixels right, pixels down) and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The place on the floor that lies at `middle`.
    pub centre: (f64, f64),
    /// Where that place is in the picture, pixels.
    pub middle: [f32; 2],
    /// Pixels a metre.
    pub scale: f64,
    /// The direction on the floor that points up in the picture, degrees clockwise from up.
    pub up: f64,
}

impl Frame {
    /// The frame that shows a part of the floor (least x, least y, greatest x, greatest y; metres) as large as it
    /// fits into a rectangle of the picture (left, top, width, height; pixels).
    #[must_use]
    pub fn fit(bounds: [f64; 4], [left, top, width, height]: [f32; 4], up: f64) -> Self {
        let [x0, y0, x1, y1] = bounds;
        let (sin, cos) = up.to_radians().sin_cos();
        let (across, along) = ((x1 - x0).max(0.1), (y1 - y0).max(0.1));
        let wide = across * cos.abs() + along * sin.abs();
        let high = across * sin.abs() + along * cos.abs();
        Self {
            centre: (f64::midpoint(x0, x1), f64::midpoint(y0, y1)),
            middle: [left + width / 2.0, top + height / 2.0],
            scale: (f64::from(width.max(1.0)) / wide).min(f64::from(height.max(1.0)) / high),
            up,
        }
    }

    /// Where a place on the floor is in the picture.
    #[must_use]
    pub fn to_picture(&self, x: f64, y: f64) -> [f32; 2] {
        let (dx, dy) = (x - self.centre.0, y - self.centre.1);
        let (sin, cos) = self.up.to_radians().sin_cos();
        let (right, up) = (dx * cos - dy * sin, dx * sin + dy * cos);
        [self.middle[0] + (right * self.scale) as f32, self.middle[1] - (up * self.scale) as f32]
    }

    /// Which place on the floor is at a place in the picture.
    #[must_use]
    pub fn to_floor(&self, [right, down]: [f32; 2]) -> (f64, f64) {
        let right = f64::from(right - self.middle[0]) / self.scale;
        let up = f64::from(self.middle[1] - down) / self.scale;
        let (sin, cos) = self.up.to_radians().sin_cos();
        (self.centre.0 + right * cos + up * sin, self.centre.1 - right * sin + up * cos)
    }

    /// A length on the floor, metres, as pixels.
    #[must_use]
    pub fn length(&self, metres: f64) -> f32 {
        (metres * self.scale) as f32
    }

    /// A facing on the floor as a turn in the picture, degrees clockwise from up.
    #[must_use]
    pub fn turn(&self, facing: f64) -> f32 {
        (facing - self.up).rem_euclid(360.0) as f32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        for up in [0.0, 90.0, 180.0, 237.0] {
            let frame = Frame::fit([-2.0, -3.0, 2.0, 3.0], [0.0, 0.0, 1200.0, 800.0], up);
            let [right, down] = frame.to_picture(0.7, -1.3);
            let (x, y) = frame.to_floor([right, down]);
            assert!((x - 0.7).abs() < 1e-4 && (y + 1.3).abs() < 1e-4);
        }
        // Seen from the top, up on the floor is up in the picture; seen by someone facing right, right is.
        let frame = Frame::fit([-1.0, -1.0, 1.0, 1.0], [0.0, 0.0, 100.0, 100.0], 0.0);
        assert_eq!(frame.to_picture(0.0, 1.0), [50.0, 0.0]);
        let frame = Frame::fit([-1.0, -1.0, 1.0, 1.0], [0.0, 0.0, 100.0, 100.0], 90.0);
        let [right, down] = frame.to_picture(1.0, 0.0);
        assert!((right - 50.0).abs() < 1e-4 && down.abs() < 1e-4);
        assert!((frame.turn(90.0)).abs() < 1e-4);
    }
}
