use super::flow::Flow;

/// How high a row's bodies are at least and at the most, points, and the lines under them.
const BODIES: [f32; 2] = [128.0, 190.0];
pub(super) const UNDER: f32 = 28.0;
const GAP: f32 = 12.0;

/// The rows of the pages: as many on each, so that none is left alone on the last one, and as high as there is room for.
pub(super) struct Rows {
    on_each: usize,
    /// How high the bodies are, points.
    pub bodies: f32,
    put: usize,
    most: usize,
}

impl Rows {
    /// So many rows in the same room on each page, points.
    pub fn of(rows: usize, room: f32) -> Self {
        let [least, most] = BODIES;
        // Rows that fill the room to the last hair would be one too many for it.
        let room = room - 0.5;
        let fit = ((room / (least + UNDER + GAP)) as usize).max(1);
        let pages = rows.div_ceil(fit).max(1);
        let on_each = rows.div_ceil(pages).max(1);
        let bodies = (room / on_each as f32 - UNDER - GAP).clamp(least, most);
        Self { on_each, bodies, put: 0, most: rows }
    }

    /// Rows in rooms that are filled one after the other: here, on a new page, and on those after it, points.
    pub fn filling(rows: usize, [here, new, next]: [f32; 3]) -> Self {
        let [least, most] = BODIES;
        let most = most.min(least * 1.2);
        let lost = |bodies: f32| {
            let high = bodies + UNDER + GAP;
            let fit = |room: f32| (room.max(0.0) / high) as usize;
            let first = if fit(here) > 0 { here } else { new };
            let before = if fit(here) > 0 { 0.0 } else { here.max(0.0) };
            let more = rows.saturating_sub(fit(first));
            let over = more / fit(next).max(1);
            let left = |room: f32| room - fit(room) as f32 * high;
            let turned = if more > 0 { left(first) } else { 0.0 };
            before + turned + over as f32 * left(next)
        };
        let mut best = (f32::INFINITY, least);
        let mut bodies = most;
        while bodies >= least {
            let free = lost(bodies);
            if free < best.0 - 1.0 {
                best = (free, bodies);
            }
            bodies -= 2.0;
        }
        Self { on_each: usize::MAX, bodies: best.1, put: 0, most: rows }
    }

    /// How high a row is with what is free under it, points.
    pub fn height(&self) -> f32 {
        self.bodies + UNDER + GAP
    }

    /// Makes room for the next one; none where there are too many.
    pub fn next(&mut self, flow: &mut Flow) -> bool {
        if self.put == self.most {
            return false;
        }
        if self.put > 0 && self.put.is_multiple_of(self.on_each) {
            flow.turn_over();
        } else {
            flow.need(self.height());
        }
        self.put += 1;
        true
    }
}
