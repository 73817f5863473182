use crate::desk::OFTEN;
use egui::{ProgressBar, Role, Ui, WidgetInfo};

/// Shows how far work has come: its share, 0 to 1, once that is known.
pub fn show_share(ui: &mut Ui, share: Option<f32>, what: &str) {
    let bar = match share {
        Some(share) => ProgressBar::new(share).show_percentage(),
        None => ProgressBar::new(0.0).animate(true),
    };
    let bar = ui.add(bar.desired_width(220.0));
    bar.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::ProgressIndicator, true, what);
        info.value = share.map(f64::from);
        info
    });
    ui.ctx().request_repaint_after(OFTEN);
}
