use super::room::StepRoom;
use crate::dance::{Foot, FreeFoot, Landing};
use crate::desk::{Ask, Desk, StepAsk};
use crate::edits::with_change;
use crate::motion::steps::Step;
use crate::window::fields::{Typed, Wrong, show_typed};
use crate::words::{CellError, StepRow, land, step_cell, with_cell};
use egui::{Align, Button, FontId, Id, Label, Layout, RichText, ScrollArea, Sense, Ui, UiBuilder, vec2};

/// How wide the names of the rows are, and a count, points, and how high a row is.
const NAMES: f32 = 70.0;
const CELL: f32 = 157.0;
const ROW: f32 = 25.0;
/// The size of what is written in a cell, points: both of what a hand does are seen, whole.
const LETTERS: f32 = 12.5;

/// What each count of the step says: a column a count, a row for each foot, the body and each hand.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, step: &Step, asks: &mut Vec<Ask>) {
    let own = room.index().and_then(|index| Some((index, desk.dance().steps.get(index)?)));
    ui.spacing_mut().item_spacing = vec2(4.0, 2.0);
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            named(ui, "count", "Half a strong beat each; the strong ones are heavy");
            for row in StepRow::ALL {
                named(ui, row.word(), row.takes());
            }
        });
        let area = ScrollArea::horizontal().id_salt("counts").auto_shrink([false, false]);
        area.max_width(ui.available_width()).show(ui, |ui| {
            ui.vertical(|ui| {
                ui.horizontal(|ui| {
                    for count in 0..step.counts() {
                        show_count(ui, room, count);
                    }
                });
                for row in StepRow::ALL {
                    ui.horizontal(|ui| {
                        for count in 0..step.counts() {
                            match own {
                                Some((index, _)) => {
                                    show_cell(ui, desk, room, (step, row, count), index, asks);
                                }
                                None => show_words(ui, &step_cell(step, room.lead, row, count), row.takes()),
                            }
                        }
                    });
                }
            });
        });
    });
}

/// The name of a row.
fn named(ui: &mut Ui, name: &str, takes: &str) {
    let layout = Layout::right_to_left(Align::Center);
    in_place(ui, (NAMES, layout), |ui| {
        ui.add(Label::new(RichText::new(name).weak()).sense(Sense::hover())).on_hover_text(takes);
    });
}

/// Shows something in a place of a row's height that does not change with it.
fn in_place<R>(ui: &mut Ui, (wide, layout): (f32, Layout), show: impl FnOnce(&mut Ui) -> R) -> R {
    let (place, _) = ui.allocate_exact_size(vec2(wide, ROW), Sense::hover());
    show(&mut ui.new_child(UiBuilder::new().max_rect(place).layout(layout)))
}

/// The head of a column: it stops the picture at its count.
fn show_count(ui: &mut Ui, room: &mut StepRoom, count: usize) {
    let text = RichText::new((count + 1).to_string());
    let text = if count.is_multiple_of(2) { text.strong() } else { text };
    let button = Button::selectable(room.count == Some(count), text).min_size(vec2(CELL, ROW));
    let layout = Layout::left_to_right(Align::Center);
    let response = in_place(ui, (CELL, layout), |ui| ui.add(button));
    let name = format!("count {} of the step", count + 1);
    response.widget_info(|| {
        egui::WidgetInfo::selected(egui::Role::Button, true, room.count == Some(count), &name)
    });
    if response.on_hover_text(format!("See count {}, and change it in the picture", count + 1)).clicked() {
        room.count = Some(count);
    }
}

/// A cell of a built-in step, and what its row says under the pointer.
fn show_words(ui: &mut Ui, words: &str, takes: &str) {
    let words = if words.is_empty() { "–" } else { words };
    let layout = Layout::left_to_right(Align::Center);
    in_place(ui, (CELL, layout), |ui| {
        ui.add_space(5.0);
        ui.add(Label::new(words).truncate()).on_hover_text(format!("{words}\n\n{takes}"));
    });
}

/// What a row says of a count.
#[derive(Clone, PartialEq)]
struct Cell {
    written: String,
    landing: Option<Landing>,
    free: Option<FreeFoot>,
    rise: Option<f64>,
}

impl Cell {
    /// Has the step say this.
    fn put(self, step: &mut Step, row: (Foot, StepRow), count: usize) {
        if let Some(landing) = self.landing {
            land(step, count, landing);
        }
        if let (Some(slot), Some(free)) = (step.free.get_mut(count), self.free) {
            *slot = free;
        }
        if let (Some(slot), Some(rise)) = (step.rise.get_mut(count), self.rise) {
            *slot = rise;
        }
        // A foot and the body are said by these; a hand, the way and circles by the words.
        let by_words = !matches!(row.1, StepRow::LeftFoot | StepRow::RightFoot | StepRow::Body);
        if let Some(made) = with_cell(step, row, count, &self.written).ok().filter(|_| by_words) {
            *step = made;
        }
    }
}

/// A cell that can be written in.
fn show_cell(
    ui: &mut Ui,
    desk: &Desk,
    room: &mut StepRoom,
    (step, row, count): (&Step, StepRow, usize),
    index: usize,
    asks: &mut Vec<Ask>,
) {
    let lead = room.lead;
    // What the row says of the count, whole: the words alone do not tell all of it.
    let value = |step: &Step| Cell {
        written: step_cell(step, lead, row, count),
        landing: step.feet.get(count).copied(),
        free: step.free.get(count).cloned(),
        rise: step.rise.get(count).copied(),
    };
    let read = |text: &str| match with_cell(step, (lead, row), count, text) {
        Ok(made) => Ok(value(&made)),
        Err(CellError { said, place, unfinished }) => Err(Wrong { said, place: Some(place), unfinished }),
    };
    let now = value(step);
    let written = now.written.clone();
    let typed = Typed { now, written, hint: "–".to_owned(), takes: row.takes(), read: &read };
    let id = Id::unique(("step room", index, row, count, lead == Foot::Left));
    let layout = Layout::left_to_right(Align::Center);
    let (response, changed) = in_place(ui, (CELL, layout), |ui| {
        ui.style_mut().override_font_id = Some(FontId::proportional(LETTERS));
        show_typed(ui, (id, CELL - 2.0), typed)
    });
    let name = format!("{}, count {}", row.word(), count + 1);
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
    if response.gained_focus() {
        // The picture shows what is changed.
        room.count = Some(count);
    }
    if let Some(cell) = changed
        && let Some(own) = desk.dance().steps.get(index)
    {
        let step = Box::new(with_change(own, |step| cell.put(step, (lead, row), count)));
        let what = format!("the {} on count {}", row.word(), count + 1);
        asks.push(Ask::Step(StepAsk::Set { index, step, what }));
    }
}
