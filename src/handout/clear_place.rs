/// What already lies in a diagram: places with the room that they take round them, points.
#[derive(Clone, Debug, Default)]
pub(super) struct Taken {
    area: [f32; 4],
    places: Vec<([f32; 2], f32)>,
    /// Whether what has no clear place has none.
    only_clear: bool,
}

impl Taken {
    /// Nothing yet in a diagram's box (left, top, right, bottom, points).
    pub fn of(area: [f32; 4]) -> Self {
        Self { area, ..Self::default() }
    }

    /// The same, where nothing is put over something else.
    pub fn only_clear(area: [f32; 4]) -> Self {
        Self { area, only_clear: true, ..Self::default() }
    }

    /// Something there with so much room round it.
    pub fn take(&mut self, at: [f32; 2], round: f32) {
        self.places.push((at, round));
    }

    /// How much is free round a place, points; less than nothing over something else. Outside the box nothing is.
    fn free(&self, [x, y]: [f32; 2], half: f32) -> f32 {
        let [left, top, right, bottom] = self.area;
        let inside = (x - left).min(right - x).min(y - top).min(bottom - y) - half - 1.0;
        let others = self.places.iter().map(|([a, b], round)| (a - x).hypot(b - y) - round - half);
        let nearest = others.fold(f32::INFINITY, f32::min);
        if inside < 0.0 { nearest.min(0.0) + inside * 4.0 } else { nearest }
    }

    /// The first of some places that is clear for something half as large as said, or the clearest where that is allowed; it is then
    /// taken.
    pub fn choose(&mut self, places: impl IntoIterator<Item = [f32; 2]>, half: f32) -> Option<[f32; 2]> {
        let mut best: Option<([f32; 2], f32)> = None;
        for place in places {
            let free = self.free(place, half);
            if best.is_none_or(|(_, most)| free > most + 0.5) {
                best = Some((place, free));
            }
            if free >= 1.0 {
                break;
            }
        }
        let (place, _) = best.filter(|(_, free)| !self.only_clear || *free >= 0.0)?;
        self.take(place, half);
        Some(place)
    }
}
