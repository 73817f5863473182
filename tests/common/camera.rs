//! A made-up camera that takes pictures of a floor.

use image::{Rgb, RgbImage};

/// A camera on a balcony: where it is, and how its picture is made of the floor.
pub struct Camera {
    at: [f64; 3],
    right: [f64; 3],
    down: [f64; 3],
    ahead: [f64; 3],
    focal: f64,
    size: [u32; 2],
}

impl Camera {
    /// One at a place, metres right, up the floor and high, that looks at a place on the floor.
    pub fn looking(at: [f64; 3], to: [f64; 2], focal: f64, size: [u32; 2]) -> Self {
        let unit = |v: [f64; 3]| {
            let length = v.iter().map(|x| x * x).sum::<f64>().sqrt();
            v.map(|x| x / length)
        };
        let cross = |a: [f64; 3], b: [f64; 3]| {
            [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
        };
        let ahead = unit([to[0] - at[0], to[1] - at[1], -at[2]]);
        let right = unit(cross(ahead, [0.0, 0.0, 1.0]));
        Self { at, right, down: cross(ahead, right), ahead, focal, size }
    }

    /// The pixel that shows a place on the floor.
    pub fn pixel(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let ray = [x - self.at[0], y - self.at[1], -self.at[2]];
        let along = |axis: [f64; 3]| axis.iter().zip(ray).map(|(a, b)| a * b).sum::<f64>();
        let depth = along(self.ahead);
        [
            f64::from(self.size[0]) / 2.0 + self.focal * along(self.right) / depth,
            f64::from(self.size[1]) / 2.0 + self.focal * along(self.down) / depth,
        ]
    }

    /// The place on the floor that a pixel shows, if it shows any.
    pub fn place(&self, [across, down]: [f64; 2]) -> Option<[f64; 2]> {
        let (u, v) = (across - f64::from(self.size[0]) / 2.0, down - f64::from(self.size[1]) / 2.0);
        let ray: Vec<f64> =
            (0..3).map(|i| self.focal * self.ahead[i] + u * self.right[i] + v * self.down[i]).collect();
        let far = -self.at[2] / ray[2];
        (far > 0.0).then(|| [self.at[0] + far * ray[0], self.at[1] + far * ray[1]])
    }

    /// What it takes of a floor that is as light as `light` says, 0 to 1, at each place.
    pub fn take(&self, light: impl Fn([f64; 2]) -> f64) -> RgbImage {
        RgbImage::from_fn(self.size[0], self.size[1], |across, down| {
            let mut sum = 0.0;
            for step in 0..9 {
                let (right, below) = (f64::from(step % 3), f64::from(step / 3));
                let at = [f64::from(across) + (right + 0.5) / 3.0, f64::from(down) + (below + 0.5) / 3.0];
                sum += self.place(at).map_or(0.6, &light) / 9.0;
            }
            let byte = (sum * 255.0).round() as u8;
            Rgb([byte, byte, byte])
        })
    }
}
