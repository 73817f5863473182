use crate::dance::{Dance, Dancer, Extra, Set};
use crate::desk::{Ask, Desk, OrderAsk};
use crate::figures::{self, NamedFigure, motion_of, named_figure};
use crate::motion::Motion;
use crate::picture::{Frame, Mark, Stroke, bounds};
use crate::window::{
    paint::{paint, words_fitted},
    theme::colour,
};
use egui::{Panel, Rect, Role, ScrollArea, Sense, Ui, WidgetInfo, pos2, vec2};

/// The named figures, each with a small picture that moves while the pointer is on it. A click puts one into the
/// running order.
#[derive(Default)]
pub struct Shelf {
    /// The set that the pictures were made for.
    made_for: Option<Set>,
    cards: Vec<FigureCard>,
}

struct FigureCard {
    figure: &'static NamedFigure,
    /// How this set dances it, or why it cannot, once that has been seen.
    made: Option<Result<Made, String>>,
}

struct Made {
    motion: Motion,
    bounds: [f64; 4],
    /// Each dancer's way, metres.
    ways: Vec<Vec<(f64, f64)>>,
}

/// What the set and a few lines of the running order take above the shelf, points.
const ABOVE: f32 = 270.0;
/// The size of a card, points.
const CARD: egui::Vec2 = vec2(98.0, 78.0);
/// Counts a second that a small picture moves at.
const SPEED: f64 = 5.0;
/// Dancers beyond which pictures are not drawn.
const MANY: usize = 24;

impl Shelf {
    /// Shows the shelf at the foot of a panel.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        self.make_again_if_changed(ui, desk);
        // However small the window, the running order keeps its share.
        let spare = ui.available_height() - ABOVE;
        let most = (ui.available_height() * 0.5).min(spare).max(90.0);
        let height = (ui.available_height() * 0.42).min(spare).clamp(90.0, 310.0);
        let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(0, 4));
        Panel::bottom("shelf")
            .default_size(height)
            .size_range(90.0..=most)
            .resizable(true)
            .frame(frame)
            .show(ui, |ui| {
                ui.horizontal(|ui| {
                    ui.weak("Figure shelf");
                });
                ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                    self.show_cards(ui, desk, asks);
                });
            });
    }

    /// Shows the whole shelf where all about it goes up and down.
    pub fn show_flat(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        self.make_again_if_changed(ui, desk);
        ui.add_space(8.0);
        ui.weak("Figure shelf");
        self.show_cards(ui, desk, asks);
    }

    fn show_cards(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        let columns = ((ui.available_width() + 6.0) / (CARD.x + 6.0)).floor().max(1.0) as usize;
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
            for row in self.cards.chunks_mut(columns) {
                ui.horizontal(|ui| {
                    for card in row {
                        show_card(ui, desk, card, asks);
                    }
                });
            }
        });
    }

    /// Begins anew where the set has changed.
    fn make_again_if_changed(&mut self, ui: &Ui, desk: &Desk) {
        // While a number is dragged only the floor follows; the small pictures come after.
        let busy = ui.input(|input| input.pointer.any_down());
        if self.cards.is_empty() || (!busy && self.made_for.as_ref() != Some(&desk.dance().set)) {
            self.make(&desk.dance().set);
        }
    }

    fn make(&mut self, set: &Set) {
        self.cards = figures::all().map(|figure| FigureCard { figure, made: None }).into();
        self.made_for = Some(set.clone());
    }
}

impl Made {
    fn of(figure: &'static NamedFigure, set: &Set) -> Result<Self, String> {
        let mut dance = Dance::new("", set.clone());
        dance.figures.push(named_figure(figure.name, Extra::new(), set).map_err(|error| error.to_string())?);
        let motion = motion_of(&dance, None).map_err(|error| error.message)?;
        let counts = motion.counts();
        let steps = (counts * 3.0) as u32;
        let ways = Dancer::all(motion.dancers().min(MANY))
            .map(|dancer| {
                (0..=steps)
                    .map(|step| {
                        let pose = motion.pose(dancer, counts * f64::from(step) / f64::from(steps));
                        (pose.x, pose.y)
                    })
                    .collect()
            })
            .collect();
        Ok(Self { bounds: bounds(&motion, 0.35), motion, ways })
    }
}

fn show_card(ui: &mut Ui, desk: &Desk, card: &mut FigureCard, asks: &mut Vec<Ask>) {
    let (rect, response) = ui.allocate_exact_size(CARD, Sense::click());
    let ink = &desk.ink();
    // Figures further down the shelf are worked out once somebody looks there.
    if ui.is_rect_visible(rect) && card.made.is_none() {
        card.made = Some(Made::of(card.figure, &desk.dance().set));
    }
    let ready = !matches!(card.made, Some(Err(_)));
    response
        .widget_info(|| WidgetInfo::labeled(Role::Button, ready, format!("Put in {}", card.figure.title)));
    let lit = response.hovered() || response.has_focus();
    let painter = ui.painter_at(rect.expand(1.0));
    let fill = if lit { ink.chosen } else { ink.raised };
    let edge = egui::Stroke::new(1.0, colour(if lit { ink.quiet } else { ink.faint }));
    painter.rect(rect, 8.0, colour(fill), edge, egui::StrokeKind::Inside);
    let words = if ready { ink.words } else { ink.quiet };
    let at = pos2(rect.left() + 7.0, rect.bottom() - 11.0);
    words_fitted(&painter, at, rect.width() - 14.0, card.figure.title, 12.5, colour(words));
    let hover = match &card.made {
        Some(Ok(made)) => {
            let area = Rect::from_min_max(rect.min + vec2(6.0, 5.0), rect.max - vec2(6.0, 21.0));
            let counts = made.motion.counts();
            let count = if lit {
                ui.ctx().request_repaint();
                (ui.input(|input| input.time) * SPEED) % counts
            } else {
                0.0
            };
            paint(&painter, &small_picture(desk, made, area, lit.then_some(count)));
            let bars = made.motion.bars();
            format!("{}\n{bars} bars. Click to put it in after the figure at the playhead.", card.figure.help)
        }
        Some(Err(said)) => said.clone(),
        None => card.figure.help.to_owned(),
    };
    if response.clicked() {
        asks.push(Ask::Order(OrderAsk::PutIn(card.figure.name)));
    }
    response.on_hover_text(hover);
}

/// The ways of a figure, and its dancers at a count.
fn small_picture(desk: &Desk, made: &Made, area: Rect, count: Option<f64>) -> Vec<Mark> {
    let frame = Frame::fit(made.bounds, [area.left(), area.top(), area.width(), area.height()], 0.0);
    let ink = &desk.ink();
    let mut marks = Vec::new();
    let hue = |dancer: Dancer| if dancer.is_even() { ink.even } else { ink.odd };
    for (dancer, way) in Dancer::all(made.ways.len()).zip(&made.ways) {
        let points: Vec<[f32; 2]> = way.iter().map(|(x, y)| frame.to_picture(*x, *y)).collect();
        let faded = if count.is_some() { 130 } else { 255 };
        let stroke = Stroke { colour: hue(dancer).faded(faded), width: 1.3 };
        marks.push(Mark::Line { points, stroke, dash: None });
    }
    for dancer in Dancer::all(made.ways.len()) {
        let pose = made.motion.pose(dancer, count.unwrap_or(0.0));
        let (fill, stroke) = (Some(hue(dancer)), None);
        let (at, turn) = (frame.to_picture(pose.x, pose.y), frame.turn(pose.facing));
        let radii = [frame.length(0.25).max(2.4), frame.length(0.14).max(1.5)];
        marks.push(if dancer.is_even() {
            Mark::Block { at, radii, corner: 0.5, turn, fill, stroke }
        } else {
            Mark::Oval { at, radii, turn, fill, stroke }
        });
    }
    marks
}
