use super::{place, text_size, whole_window::Window};
use crate::desk::{Ask, Desk, FileAsk};
use crate::picture::{icon, to_rgb};
use crate::sound::{LivePlayer, MachineSink};
use crate::store::{Home, Recent};
use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

/// Whether there is a display for a window to open on.
#[must_use]
pub fn display_is_there() -> bool {
    if cfg!(all(unix, not(target_os = "macos"))) {
        ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
            .iter()
            .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
    } else {
        true
    }
}

/// Opens the window, on a file or on the sample dance, and ends when it is closed. A file that cannot be opened is
/// told of in the window, over the sample dance.
///
/// # Errors
/// One line, when no window can be opened.
pub fn open_window(file: Option<PathBuf>) -> Result<(), String> {
    // Known before the file is opened, so that the window need not wait for its faults.
    let woken: Arc<OnceLock<egui::Context>> = Arc::default();
    let wakes = Arc::clone(&woken);
    let mut desk = Desk::with_sample(Recent::of_user()).at_home(Home::of_user()).waking(move || {
        if let Some(ctx) = wakes.get() {
            ctx.request_repaint();
        }
    });
    if let Some(path) = file.or_else(|| desk.last_dance()) {
        desk.apply(Ask::File(FileAsk::Open(path)));
    }
    let viewport = egui::ViewportBuilder::default()
        .with_title(desk.window_title())
        .with_app_id("bellpad")
        .with_drag_and_drop(true);
    let viewport = match window_icon() {
        Some(icon) => viewport.with_icon(icon),
        None => viewport,
    };
    let viewport = place::asked(viewport);
    let before = desk.settings().window;
    let options = eframe::NativeOptions {
        viewport,
        window_builder: Some(Box::new(move |builder| place::opened(builder, before))),
        ..eframe::NativeOptions::default()
    };
    let make: eframe::AppCreator = Box::new(|creation| {
        text_size::apply(&creation.egui_ctx, &desk);
        // What is done by now is taken at the end of the first frame.
        woken.get_or_init(|| creation.egui_ctx.clone());
        Ok(Box::new(Window::new(desk, true).aloud(LivePlayer::begin(MachineSink::default()))))
    });
    let made = eframe::run_native("bellpad", options, make);
    made.map_err(|error| error.to_string())
}

/// The program's icon for the window's own bar; none where it cannot be drawn.
fn window_icon() -> Option<egui::IconData> {
    let drawn = icon(64);
    let rgb = to_rgb(&drawn).ok()?;
    let rgba =
        rgb.as_chunks::<3>().0.iter().flat_map(|[red, green, blue]| [*red, *green, *blue, 255]).collect();
    Some(egui::IconData { rgba, width: drawn.width, height: drawn.height })
}
