use crate::desk::{Ask, Desk, ViewAsk};
use crate::window::theme::colour;
use egui::{Align2, FontId, Id, Rect, Role, Sense, Ui, WidgetInfo, pos2, vec2};

/// How long a notice is shown, seconds.
const NOTICE: f64 = 12.0;

/// What the desk says just happened or could not happen, over the foot of the floor, for a while.
pub fn show_notice(ui: &Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    drop_old_notice(ui, desk.notice(), asks);
    if let Some(notice) = desk.notice() {
        let painter = ui.painter_at(rect);
        let width = (rect.width() - 60.0).max(80.0);
        let ink = colour(desk.ink().words);
        let galley = ui.painter().layout(notice.to_owned(), FontId::proportional(14.0), ink, width);
        let at = pos2(rect.center().x, rect.bottom() - 44.0 - galley.size().y / 2.0);
        let back = Align2::CENTER_CENTER.anchor_size(at, galley.size()).expand2(vec2(10.0, 6.0));
        painter.rect_filled(back, 6.0, colour(desk.ink().chosen));
        painter.galley(back.shrink2(vec2(10.0, 6.0)).min, galley, ink);
        let spoken = ui.interact(back, Id::unique("notice"), Sense::hover());
        spoken.widget_info(|| WidgetInfo::labeled(Role::Status, true, notice));
    }
}

/// Puts a notice away once it has been shown for long enough: it lies over the floor.
fn drop_old_notice(ui: &Ui, notice: Option<&str>, asks: &mut Vec<Ask>) {
    let (id, now) = (Id::unique("notice shown"), ui.input(|input| input.time));
    let known = ui.data(|data| data.get_temp::<(String, f64)>(id));
    let Some(notice) = notice else {
        if known.is_some() {
            ui.data_mut(|data| data.remove_temp::<(String, f64)>(id));
        }
        return;
    };
    let since = known.filter(|(known, _)| known == notice).map_or(now, |(_, since)| since);
    let left = since + NOTICE - now;
    if left > 0.0 {
        ui.data_mut(|data| data.insert_temp(id, (notice.to_owned(), since)));
        ui.ctx().request_repaint_after(std::time::Duration::from_secs_f64(left));
    } else {
        asks.push(Ask::View(ViewAsk::DropNotice));
    }
}
