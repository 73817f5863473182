use super::{ask::Ask, desk::Desk, paint::words_within, theme::colour};
use egui::{Align2, FontId, Id, Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

/// The figures in the order they are danced, to jump by.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(8.0);
    ui.weak("Running order");
    ui.add_space(2.0);
    let here = desk.span();
    if desk.motion().spans().is_empty() {
        ui.label("No figures yet. Click one on the shelf below to put it in.");
        return;
    }
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        for (index, span) in desk.motion().spans().iter().enumerate() {
            let Some(figure) = desk.dance().figures.get(span.figure) else { continue };
            let strain = desk.dance().order.get(index).map_or("", |entry| entry.strain.as_str());
            let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 34.0), Sense::click());
            let chosen = here == Some(index);
            response.widget_info(|| {
                WidgetInfo::selected(
                    Role::Button,
                    true,
                    chosen,
                    format!("{}. {}, {} bars", index + 1, figure.name, figure.bars),
                )
            });
            if response.clicked() {
                asks.push(Ask::Seek(span.begin()));
            }
            let painter = ui.painter_at(rect);
            let ink = &desk.ink;
            if chosen {
                painter.rect_filled(rect, 6.0, colour(ink.chosen));
                let bar = egui::Rect::from_min_size(rect.min, vec2(4.0, rect.height()));
                painter.rect_filled(bar, 2.0, colour(ink.words));
            } else if response.hovered() || response.has_focus() {
                painter.rect_filled(rect, 6.0, colour(ink.raised));
            }
            let centre = pos2(rect.left() + 22.0, rect.center().y);
            if !strain.is_empty() {
                painter.circle_stroke(centre, 11.0, Stroke::new(1.0, colour(ink.quiet)));
                let letter: String = strain.chars().take(2).collect();
                painter.text(
                    centre,
                    Align2::CENTER_CENTER,
                    letter,
                    FontId::proportional(12.5),
                    colour(ink.words),
                );
            }
            let faults =
                desk.faults().iter().filter(|fault| fault.span == index && fault.allowed.is_none()).count();
            if faults > 0 {
                let at = rect.right_center() - vec2(36.0, 0.0);
                painter.circle_filled(at, 8.5, colour(ink.fault));
                let many = if faults > 9 { "+".to_owned() } else { faults.to_string() };
                painter.text(
                    at,
                    Align2::CENTER_CENTER,
                    many,
                    FontId::proportional(11.5),
                    colour(ink.outline),
                );
            }
            let drawn = figure.named.is_none();
            let redrawn = !drawn && !figure.parts.is_empty();
            let bars = FontId::proportional(12.5);
            painter.text(
                rect.right_center() - vec2(10.0, 0.0),
                Align2::RIGHT_CENTER,
                figure.bars.to_string(),
                bars,
                colour(ink.quiet),
            );
            let name = if redrawn { format!("{} (redrawn)", figure.name) } else { figure.name.clone() };
            let at = pos2(rect.left() + 42.0, rect.center().y);
            let room = if faults > 0 { 52.0 } else { 30.0 };
            words_within(&painter, at, rect.right() - room - at.x, &name, 14.5, colour(ink.words));
            let call = desk.dance().order.get(index).map_or("", |entry| entry.call.as_str());
            let kind = if drawn { "drawn" } else { "named" };
            let mut hover =
                format!("{name}, {kind}, bars {} to {}", span.first_bar + 1, span.first_bar + span.bars);
            if !call.is_empty() {
                hover += &format!("\nCall: {call}");
            }
            if !figure.notes.is_empty() {
                hover += &format!("\n{}", figure.notes);
            }
            response.context_menu(|ui| {
                if ui.button("Take it out").clicked() {
                    asks.push(Ask::TakeOut(index));
                    ui.close();
                }
            });
            response.on_hover_text(hover);
        }
        ui.interact(ui.min_rect(), Id::unique("running order"), Sense::hover());
    });
}
