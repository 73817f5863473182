use super::desktop::SIZE;
use super::screen::Screen;
use bellpad::dance::Dancer;
use bellpad::desk::{Ask, Desk, DrawAsk, Grip, PlayAsk};
use bellpad::motion::Motion;
use bellpad::picture::{BODY, Frame, SLATE};
use bellpad::store::{self, Recent};
use bellpad::window::Window;
use egui::{Context, RawInput, Rect, pos2, vec2};
use serde_json::Value;
use std::path::Path;
use std::sync::Arc;

/// How far from the middle of a body its hue is looked for, along the shoulders, metres: outside the head and
/// inside the hands.
const BESIDE: f64 = 0.18;
/// The least size of a dancer's number, pixels: where the floor is small the head grows with it.
const LEAST_NUMBER: f64 = 10.0;

/// A dancer: number, metres right, metres up, facing in degrees clockwise from up.
type Place = (u64, f64, f64, f64);

/// What the window should show: where the dancers are on the floor and where the floor is on the screen. The
/// second is found by laying out the same window without a screen.
pub struct Expected {
    /// The title of the window.
    pub title: String,
    frame: Frame,
    /// The floor: left, top, right, bottom; pixels.
    pub floor: [usize; 4],
    dancers: Vec<Place>,
    motion: Arc<Motion>,
}

impl Expected {
    /// Of the window as it opens without a file.
    pub fn of_sample() -> Self {
        Self::of_desk(Desk::with_sample(Recent::default()))
    }

    /// Of the window on a file, as it opens or at a count.
    pub fn of_file(path: &Path, count: Option<f64>) -> Self {
        let mut desk = Desk::new(store::open(path).unwrap(), None, Recent::default()).unwrap();
        if let Some(count) = count {
            desk.apply(Ask::Play(PlayAsk::Seek(count)));
        }
        Self::of_desk(desk)
    }

    /// Of the window on a file at a count, after a dancer there was dragged by pixels and let go. They may face
    /// another way then, and the floor may have come to another size.
    pub fn of_drag(path: &Path, count: f64, number: u64, by: [i32; 2]) -> Self {
        let before = Self::of_file(path, Some(count));
        let ([right, up], (_, x, y, _)) = (before.metres(by), before.dancer(number));
        let mut desk = Desk::new(store::open(path).unwrap(), None, Recent::default()).unwrap();
        let dancer = number as usize - 1;
        for ask in [
            Ask::Play(PlayAsk::Seek(count)),
            Ask::Draw(DrawAsk::BeginDrag(Grip::Dancer(Dancer(dancer)))),
            Ask::Draw(DrawAsk::DragTo { x: x + right, y: y + up, reach: 9.0 / before.frame.scale }),
            Ask::Draw(DrawAsk::EndDrag),
        ] {
            desk.apply(ask);
        }
        Self::of_desk(desk)
    }

    fn of_desk(desk: Desk) -> Self {
        let mut window = Window::new(desk, false);
        let context = Context::default();
        // Several frames, since the floor takes a moment to come to its size.
        for frame in 0..30 {
            let input = RawInput {
                screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(SIZE[0] as f32, SIZE[1] as f32))),
                time: Some(f64::from(frame) * 0.1),
                ..RawInput::default()
            };
            context.run_ui(input, |ui| window.show(ui)).drop_without_applying_deltas();
        }
        Self::of_window(&mut window)
    }

    /// Of a window that has come to rest.
    pub fn of_window(window: &mut Window) -> Self {
        let rect = window.floor_rect;
        let frame = window.floor.frame(&window.desk, rect);
        let dancers = window.desk.motion().poses(window.desk.player().count);
        Self {
            title: window.desk.window_title(),
            frame,
            floor: [rect.left(), rect.top(), rect.right(), rect.bottom()].map(|edge| edge as usize),
            dancers: dancers
                .iter()
                .map(|pose| (u64::from(pose.number.get()), pose.x, pose.y, pose.facing))
                .collect(),
            motion: Arc::clone(window.desk.motion()),
        }
    }

    /// How the dance goes.
    pub fn motion(&self) -> &Motion {
        &self.motion
    }

    /// The dancers that `bellpad pose` printed, in another frame.
    pub fn in_frame(&self, frame: Frame, printed: &[Value]) -> Self {
        let number = |dancer: &Value, key: &str| dancer[key].as_f64().unwrap();
        let dancers = printed
            .iter()
            .map(|dancer| {
                let [x, y, facing] = ["x", "y", "facing"].map(|key| number(dancer, key));
                (dancer["number"].as_u64().unwrap(), x, y, facing)
            })
            .collect();
        Self {
            title: self.title.clone(),
            frame,
            floor: self.floor,
            dancers,
            motion: Arc::clone(&self.motion),
        }
    }

    /// Pixels right and down as metres right and up.
    pub fn metres(&self, by: [i32; 2]) -> [f64; 2] {
        [f64::from(by[0]) / self.frame.scale, -f64::from(by[1]) / self.frame.scale]
    }

    fn dancer(&self, number: u64) -> Place {
        *self.dancers.iter().find(|dancer| dancer.0 == number).unwrap()
    }

    /// Where the middle of a dancer is, pixels.
    pub fn place(&self, number: u64) -> [i32; 2] {
        let (_, x, y, _) = self.dancer(number);
        self.frame.to_picture(x, y).map(|at| at.round() as i32)
    }

    /// Looks for a dancer's hue on both sides of the middle, along the shoulders.
    pub fn check(&self, screen: &Screen, number: u64) -> Result<(), String> {
        let (_, x, y, facing) = self.dancer(number);
        let (sin, cos) = facing.to_radians().sin_cos();
        let hue = if number.is_multiple_of(2) { SLATE.even } else { SLATE.odd };
        let [number_size, ..] = BODY.numbers;
        let larger = (LEAST_NUMBER / (number_size * self.frame.scale)).max(1.0);
        // Beyond a head that is larger there are a rim and a line before the shoulders, which then are only some pixels.
        let head = BODY.head * larger * self.frame.scale;
        let rim = (head + (head * 0.2).max(1.5)) / self.frame.scale;
        let first = if larger > 1.0 { BESIDE.max(rim) } else { BESIDE };
        for side in [-1.0, 1.0] {
            let at = |pixels: f64| {
                let beside = side * (first + pixels / self.frame.scale);
                self.frame.to_picture(x + beside * cos, y - beside * sin)
            };
            let looked = if larger > 1.0 { 7 } else { 1 };
            let mut places = (0..looked).map(|half| at(f64::from(half) / 2.0));
            if !places.any(|place| screen.shows(place, hue)) {
                let (place, is) = (at(0.0), screen.at(at(0.0)));
                return Err(format!("dancer {number} should be {hue:?} at {place:?}, which is {is:?}"));
            }
        }
        Ok(())
    }

    /// Looks for every dancer.
    pub fn check_all(&self, screen: &Screen) -> Result<(), String> {
        self.dancers.iter().try_for_each(|dancer| self.check(screen, dancer.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sample_fits_on_the_floor_of_a_window_of_this_size() {
        let expected = Expected::of_sample();
        let [left, top, right, bottom] = expected.floor.map(|edge| i32::try_from(edge).unwrap());
        assert!(left < right && top < bottom);
        for (number, ..) in &expected.dancers {
            let [x, y] = expected.place(*number);
            assert!((left..right).contains(&x) && (top..bottom).contains(&y), "{number} is at {x}, {y}");
        }
    }
}
