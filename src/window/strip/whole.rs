use super::{BarAxis, BarStrip, seek};
use crate::desk::{Ask, Desk, PlayAsk};
use crate::motion::{Span, SpanIndex};
use crate::window::context_menu::{Opened, item, show_menu};
use crate::window::explain::explain;
use crate::window::side::order_menu;
use crate::window::{focus_ring::focus_ring, paint::words_in_middle, theme::colour};
use crate::words::bars_said;
use egui::{Id, Painter, PointerButton, Rect, Response, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

impl BarStrip {
    /// The whole dance in one line: a block for each figure, to jump by.
    pub(super) fn show_whole(
        &mut self,
        ui: &Ui,
        painter: &Painter,
        desk: &Desk,
        rect: Rect,
        asks: &mut Vec<Ask>,
    ) {
        let motion = desk.motion();
        let axis =
            BarAxis { left: rect.left(), right: rect.right(), from: 0.0, to: motion.counts().max(1.0) };
        let here = desk.span();
        for (index, span) in motion.indexed_spans() {
            let block = Rect::from_min_max(
                pos2(axis.place(span.begin()) + 1.0, rect.top()),
                pos2(axis.place(span.end()) - 1.0, rect.bottom()),
            );
            let name = desk.dance().figures.get(span.figure).map_or("", |figure| figure.name.as_str());
            let fill = if here == Some(index) { desk.ink().chosen } else { desk.ink().raised };
            painter.rect(
                block,
                2.0,
                colour(fill),
                Stroke::new(1.0, colour(desk.ink().faint)),
                egui::StrokeKind::Inside,
            );
            let ink = if here == Some(index) { desk.ink().words } else { desk.ink().quiet };
            let at = block.left_center() + vec2(5.0, 0.0);
            // Three dots and nothing else would say nothing.
            if block.width() > 36.0 {
                words_in_middle(painter, at, block.width() - 8.0, name, 11.5, colour(ink));
            }
        }
        let response = ui.interact(rect, Id::unique("whole dance"), Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::slider(true, desk.player().count, "Whole dance"));
        focus_ring(ui, &response, rect.expand(2.0), desk);
        let held = response.dragged_by(PointerButton::Primary) || response.clicked();
        if let Some(at) = response.interact_pointer_pos().filter(|_| held) {
            seek(desk, axis.count(at.x).round(), asks);
        }
        self.show_block(desk, axis, &response, asks);
        let x = axis.place(desk.player().count);
        painter.line_segment(
            [pos2(x, rect.top() - 2.0), pos2(x, rect.bottom() + 2.0)],
            Stroke::new(2.0, colour(desk.ink().words)),
        );
    }

    /// What the block under the pointer is, and what can be done with it: all that can be with its line of the running order.
    fn show_block(&mut self, desk: &Desk, axis: BarAxis, response: &Response, asks: &mut Vec<Ask>) {
        let motion = desk.motion();
        let at = response.interact_pointer_pos().or(response.hover_pos());
        let under = at.and_then(|at| desk.motion().span_at(axis.count(at.x)));
        if response.secondary_clicked() {
            self.line = under;
        }
        let asked = self.line;
        let open = show_menu(response, |ui, opened| {
            let line = if opened == Opened::Key { desk.span() } else { asked };
            let Some((line, span)) = line.and_then(|line| Some((line, motion.span(line)?))) else { return };
            let name = desk.dance().figures.get(span.figure).map_or("", |figure| figure.name.as_str());
            ui.weak(format!("{}. {name}", line.next().index()));
            if item(ui, true, "Go to its start", "") {
                asks.push(Ask::Play(PlayAsk::Seek(span.begin())));
            }
            ui.separator();
            if order_menu::show_line(ui, desk, line.index(), span.figure, asks) {
                self.renames = Some(line.index());
            }
        });
        let still = !open && !response.dragged() && !desk.player().playing;
        if let Some((line, span)) = under.filter(|_| still).and_then(|line| Some((line, motion.span(line)?)))
        {
            let block = Rect::from_min_max(
                pos2(axis.place(span.begin()), response.rect.top()),
                pos2(axis.place(span.end()), response.rect.bottom()),
            );
            explain(response, block, &block_words(desk, line, span));
        }
    }
}

/// Its line, its name and its bars.
fn block_words(desk: &Desk, line: SpanIndex, span: &Span) -> String {
    let name = desk.dance().figures.get(span.figure).map_or("", |figure| figure.name.as_str());
    format!("{}. {name}\n{}", line.next().index(), bars_said(span.bars))
}
