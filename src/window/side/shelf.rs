use crate::dance::{Dance, Dancer, Extra, Set, nearest};
use crate::desk::{Ask, Desk, OrderAsk};
use crate::figures::{self, Kind, NamedFigure, motion_of, named_figure};
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Frame, Mark, Stroke, bounds};
use crate::window::{
    context_menu::{item, show_menu},
    fields::{Ending, ending, line},
    paint::{paint, words_in_middle},
    theme::colour,
};
use egui::{
    CursorIcon, FontId, LayerId, Order, Rect, Response, Role, ScrollArea, Sense, Ui, Vec2, WidgetInfo, pos2,
    vec2,
};

/// The named figures, each with a small picture that moves while the pointer is on it. A click puts one into the
/// running order.
#[derive(Default)]
pub struct Shelf {
    /// The set that the pictures were made for.
    made_for: Option<Set>,
    cards: Vec<FigureCard>,
    /// What is looked for.
    sought: String,
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

/// The least width and the height of a card, points.
const CARD: Vec2 = vec2(98.0, 78.0);
/// Counts a second that a small picture moves at.
const SPEED: f64 = 5.0;
/// Dancers beyond which pictures are not drawn.
const MANY: usize = 24;

impl Shelf {
    /// Shows every figure.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        self.follow_set(ui, desk);
        ui.add_space(4.0);
        let edit = line(&mut self.sought).hint_text("find a figure").desired_width(f32::INFINITY);
        let edit = ui
            .add(edit)
            .on_hover_text("Part of its name, or of one of its choices; Enter puts the first one in");
        let entered = ending(ui, &edit) == Some(Ending::Enter);
        ui.add_space(2.0);
        let found = sought(&self.sought);
        if let (true, Some(figure)) = (entered && !self.sought.trim().is_empty(), found.first()) {
            asks.push(Ask::Order(OrderAsk::PutIn(figure, None)));
        }
        if found.is_empty() {
            ui.weak("No figure is called that.");
        }
        // What is looked for stays in sight.
        ScrollArea::vertical().auto_shrink([false, false]).min_scrolled_height(0.0).show(ui, |ui| {
            self.show_cards(ui, desk, &found, asks);
        });
    }

    fn show_cards(&mut self, ui: &mut Ui, desk: &Desk, found: &[&str], asks: &mut Vec<Ask>) {
        let width = ui.available_width() + 6.0;
        let columns = (width / (CARD.x + 6.0)).floor().max(1.0);
        let size = vec2((width / columns - 6.0).floor(), CARD.y);
        let columns = columns as usize;
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
            let mut cards: Vec<&mut FigureCard> =
                self.cards.iter_mut().filter(|card| found.contains(&card.figure.name)).collect();
            for row in cards.chunks_mut(columns) {
                ui.horizontal(|ui| {
                    for card in row {
                        show_card(ui, desk, card, size, asks);
                    }
                });
            }
        });
    }

    /// Begins anew where the set has changed.
    fn follow_set(&mut self, ui: &Ui, desk: &Desk) {
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

/// The figures that somebody looks for: those with all of the words in their name or their choices, or else the one with the
/// nearest name.
fn sought(words: &str) -> Vec<&'static str> {
    let words: Vec<String> = words.split_whitespace().map(str::to_lowercase).collect();
    let has = |figure: &NamedFigure, word: &String| {
        let choices = figure.choices.iter().flat_map(|choice| match choice.kind {
            Kind::Word(words) => words.to_vec(),
            Kind::Number { .. } | Kind::Dancer { .. } => vec![choice.key],
        });
        [figure.name, figure.title]
            .into_iter()
            .chain(choices)
            .any(|name| name.to_lowercase().contains(word.as_str()))
    };
    let all = figures::all();
    let typed = words.join(" ");
    let titled = |figure: &NamedFigure| figure.title.to_lowercase().contains(&typed);
    let with_all = |figure: &NamedFigure| words.iter().all(|word| has(figure, word));
    for found in [&titled as &dyn Fn(&NamedFigure) -> bool, &with_all] {
        let found: Vec<&str> = all.iter().filter(|figure| found(figure)).map(|figure| figure.name).collect();
        if !found.is_empty() {
            return found;
        }
    }
    let near = nearest(&typed, all.iter().map(|figure| figure.title));
    all.iter().filter(|figure| Some(figure.title) == near).map(|figure| figure.name).collect()
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

fn show_card(ui: &mut Ui, desk: &Desk, card: &mut FigureCard, size: Vec2, asks: &mut Vec<Ask>) {
    let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
    let ink = &desk.ink();
    // Figures further down the shelf are worked out once somebody looks there.
    if ui.is_rect_visible(rect) && card.made.is_none() {
        card.made = Some(Made::of(card.figure, &desk.dance().set));
    }
    let ready = !matches!(card.made, Some(Err(_)));
    response
        .widget_info(|| WidgetInfo::labeled(Role::Button, ready, format!("Put in {}", card.figure.title)));
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    let lit = response.hovered() || response.has_focus();
    let painter = ui.painter_at(rect.expand(1.0));
    let fill = if lit { ink.chosen } else { ink.raised };
    let edge = egui::Stroke::new(1.0, colour(if lit { ink.quiet } else { ink.faint }));
    painter.rect(rect, 8.0, colour(fill), edge, egui::StrokeKind::Inside);
    let words = if ready { ink.words } else { ink.quiet };
    let at = pos2(rect.left() + 6.0, rect.bottom() - 11.0);
    words_in_middle(&painter, at, rect.width() - 12.0, card.figure.title, 11.5, colour(words));
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
            format!(
                "{}\n{bars} bars. Click to put it in after the figure at the playhead, or drag it into the order \
                 or onto the bars.",
                card.figure.help
            )
        }
        Some(Err(said)) => said.clone(),
        None => card.figure.help.to_owned(),
    };
    if response.clicked() {
        asks.push(Ask::Order(OrderAsk::PutIn(card.figure.name, None)));
    }
    show_menu(&response, |ui, _| show_card_menu(ui, desk, card.figure, ready, asks));
    if ready {
        response.dnd_set_drag_payload(card.figure.name);
    }
    show_carried(ui, desk, card.figure, &response);
    response.on_hover_text(hover);
}

/// Where a figure of the shelf can be put in.
fn show_card_menu(ui: &mut Ui, desk: &Desk, figure: &NamedFigure, ready: bool, asks: &mut Vec<Ask>) {
    ui.set_max_width(280.0);
    ui.strong(figure.title);
    ui.weak(figure.help);
    ui.separator();
    let here = desk.span().map(SpanIndex::index);
    let name = desk.span_here().and_then(|span| desk.dance().figures.get(span.figure));
    let name = name.map_or("the figure here", |figure| figure.name.as_str());
    for (words, enabled, gap) in [
        (format!("Put in before {name}"), here.is_some(), here),
        (format!("Put in after {name}"), here.is_some(), here.map(|index| index + 1)),
        ("Put in at the beginning".to_owned(), true, Some(0)),
        ("Put in at the end".to_owned(), true, Some(desk.motion().spans().len())),
    ] {
        if item(ui, ready && enabled, &words, "") {
            asks.push(Ask::Order(OrderAsk::PutIn(figure.name, gap)));
        }
    }
}

/// The name of a figure that is carried, beside the pointer.
fn show_carried(ui: &Ui, desk: &Desk, figure: &NamedFigure, response: &Response) {
    let Some(at) = ui.input(|input| input.pointer.interact_pos()).filter(|_| response.dragged()) else {
        return;
    };
    ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
    let layer = LayerId::new(Order::Tooltip, response.id);
    let painter = ui.ctx().layer_painter(layer);
    let ink = colour(desk.ink().words);
    let words = painter.layout_no_wrap(figure.title.to_owned(), FontId::proportional(13.0), ink);
    let place = Rect::from_min_size(at + vec2(14.0, 6.0), words.size()).expand2(vec2(7.0, 4.0));
    painter.rect_filled(place, 6.0, colour(desk.ink().chosen));
    painter.galley(place.shrink2(vec2(7.0, 4.0)).min, words, ink);
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

#[cfg(test)]
mod tests {
    use super::sought;

    #[test]
    fn a_figure_is_found_by_part_of_its_name_and_by_a_slip_of_it() {
        assert_eq!(sought("").len(), crate::figures::all().len());
        assert_eq!(sought("half h"), ["half-hey"]);
        assert!(sought("rounds").contains(&"whole-rounds"));
        assert_eq!(sought("intto line"), ["into-line"]);
        assert!(sought("polka").is_empty());
    }
}
