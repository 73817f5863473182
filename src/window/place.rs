use crate::desk::{Ask, Desk, KeepAsk};
use crate::store::WindowSize;
use egui::{Context, Vec2, ViewportBuilder, ViewportCommand, vec2};

/// A size that has been kept for this long is remembered, seconds: nobody draws at a window's edge for the disk.
const SETTLED: f64 = 0.7;

/// Frames in which the desktop may still be putting something round the window.
const FRESH: u32 = 30;

/// A screen is no larger than this; where the system says none, eframe says this, points.
const NO_SCREEN: f32 = 16_000.0;

/// How large the window is: it opens within the screen and as large as it was, and what it is drawn to is remembered.
#[derive(Default)]
pub struct WindowPlace {
    /// The size that was seen last, and since when, seconds.
    seen: Option<(WindowSize, f64)>,
    frames: u32,
}

impl WindowPlace {
    /// Looks at the window, once a frame.
    pub fn look(&mut self, ctx: &Context, desk: &Desk, asks: &mut Vec<Ask>) {
        let zoom = ctx.zoom_factor();
        let (viewport, now) = ctx.input(|input| (input.viewport().clone(), input.time));
        let Some(inner) = viewport.inner_rect.map(|rect| rect.size()) else { return };
        let filled = viewport.maximized == Some(true) || viewport.fullscreen == Some(true);
        if viewport.minimized == Some(true) || inner.min_elem() < 1.0 {
            return;
        }
        self.frames = self.frames.saturating_add(1);
        if self.frames == 1 && desk.settings().window.is_some_and(|window| window.filled) {
            // Window managers hear this only once the window is there.
            ctx.send_viewport_cmd(ViewportCommand::Maximized(true));
            return;
        }
        if self.frames < FRESH
            && !filled
            && let (Some(outer), Some(screen)) = (viewport.outer_rect, viewport.monitor_size)
            && let Some(size) = WindowSize::fitted(inner.into(), outer.size().into(), screen.into())
        {
            ctx.send_viewport_cmd(ViewportCommand::InnerSize(Vec2::from(size)));
        }
        // Filling the screen, it goes back to what it had before.
        let before = desk.settings().window.unwrap_or(WindowSize::USUAL);
        let size = if filled {
            WindowSize { filled, ..before }
        } else {
            WindowSize { across: inner.x * zoom, down: inner.y * zoom, filled }
        };
        let Some(size) = size.sane() else { return };
        let since = match self.seen {
            Some((known, since)) if known == size => since,
            _ => now,
        };
        self.seen = Some((size, since));
        if desk.settings().window == Some(size) {
            return;
        }
        let left = SETTLED - (now - since);
        if left <= 0.0 || desk.may_close() {
            asks.push(Ask::Keep(KeepAsk::WindowSize(size)));
        } else {
            ctx.request_repaint_after(std::time::Duration::from_secs_f64(left));
        }
    }
}

/// The window to open: eframe cuts what it is given to the largest screen, and so says how large that is.
pub fn asked(builder: ViewportBuilder) -> ViewportBuilder {
    builder.with_inner_size(Vec2::splat(NO_SCREEN))
}

/// The window as it opens: of what eframe has cut to the screen, as large as it was before.
pub fn opened(builder: ViewportBuilder, before: Option<WindowSize>) -> ViewportBuilder {
    let screen = builder.inner_size.filter(|size| size.max_elem() < NO_SCREEN).map(<[f32; 2]>::from);
    let at = before.unwrap_or(WindowSize::USUAL).opened(screen);
    let [across, down] = at.size;
    builder.with_inner_size(vec2(across, down)).with_min_inner_size(Vec2::from(at.least))
}
