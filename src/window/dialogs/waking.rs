use crate::desk::Wake;
use egui::Context;

/// What has the window painted again, from any thread.
pub fn waking(ctx: &Context) -> Wake {
    let ctx = ctx.clone();
    Wake::new(move || ctx.request_repaint())
}
