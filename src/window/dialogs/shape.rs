//! The shape of a dialog: each kind has a size of its own that does not change while it is open, and its buttons keep their
//! place at the foot of it.

use crate::desk::{About, Question};
use egui::{Align, Id, Layout, Rect, ScrollArea, Sense, TextStyle, Ui, UiBuilder, vec2};

/// The height of the row of buttons, points.
const FOOT: f32 = 38.0;

/// How large the dialog for a question is, points across and down.
fn size(question: &Question) -> [f32; 2] {
    match question {
        Question::Path(asked) if asked.purpose.reads() => [500.0, 470.0],
        Question::Path(_) => [500.0, 210.0],
        Question::Unsaved(_) => [460.0, 130.0],
        Question::Trouble(_) => [460.0, 200.0],
        Question::Help => [640.0, 640.0],
        Question::NewDance => [500.0, 584.0],
        Question::Allow(..) => [460.0, 240.0],
        Question::ThisDance(_) => [760.0, 600.0],
        Question::Steps(_) => [960.0, 640.0],
        Question::Limits => [500.0, 500.0],
        Question::Meanwhile(_) => [500.0, 280.0],
        Question::Recovered(_) => [500.0, 420.0],
        Question::Earlier(_) => [460.0, 420.0],
        Question::Write(written) if matches!(written.about, About::Notes(_)) => [500.0, 320.0],
        Question::Taps(_) => [720.0, 490.0],
        Question::Write(_) => [460.0, 190.0],
        Question::Photo(_) => [980.0, 640.0],
        Question::Still => [580.0, 386.0],
        Question::Handout => [600.0, 536.0],
        Question::Writing(_, in_the_way) if in_the_way.is_empty() => [460.0, 190.0],
        Question::Writing(..) => [460.0, 330.0],
    }
}

/// Shows the dialog for a question, as large as it is and as the window has room for. What is over its buttons goes up and
/// down where it is higher than that.
pub fn show(ui: &mut Ui, question: &Question, show: impl FnOnce(&mut Ui)) {
    let room = ui.ctx().content_rect().size() - vec2(56.0, 64.0);
    let [across, down] = size(question);
    let (place, _) = ui.allocate_exact_size(
        vec2(across.min(room.x), down.min(room.y)).max(vec2(80.0, 80.0)),
        Sense::hover(),
    );
    let (body, foot) = place.split_top_bottom_at_y(place.bottom() - FOOT);
    ui.data_mut(|data| data.insert_temp(foot_name(), foot));
    // A child of its own: what is wider or higher than the dialog does not make it larger.
    let mut child = ui.new_child(UiBuilder::new().max_rect(body));
    let area = ScrollArea::both().id_salt("dialog").auto_shrink([false, false]);
    area.max_height(body.height()).min_scrolled_height(body.height()).show(&mut child, show);
}

/// Shows things side by side, all on one line: as high as a button from the start, since what stands there before a button would stand
/// higher than what comes after it.
pub fn row<R>(ui: &mut Ui, show: impl FnOnce(&mut Ui) -> R) -> R {
    let height = ui.text_style_height(&TextStyle::Button) + 2.0 * ui.spacing().button_padding.y;
    let size = vec2(ui.available_size_before_wrap().x, height);
    ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), show).inner
}

/// Shows the buttons of the dialog at its foot, from wherever in it they are made.
pub fn foot<R>(ui: &mut Ui, show: impl FnOnce(&mut Ui) -> R) -> R {
    let place: Option<Rect> = ui.data(|data| data.get_temp(foot_name()));
    let place = place.unwrap_or_else(|| ui.available_rect_before_wrap());
    let layout = Layout::left_to_right(Align::Max);
    let mut foot = ui.new_child(UiBuilder::new().max_rect(place).layout(layout));
    foot.set_clip_rect(place.expand(4.0));
    show(&mut foot)
}

fn foot_name() -> Id {
    Id::unique("foot of the dialog")
}
