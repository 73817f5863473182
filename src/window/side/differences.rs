use crate::dance::shown_name;
use crate::desk::{Ask, CompareAsk, Compared, Desk};
use crate::versions::WholeDifference;
use crate::window::theme::colour;
use egui::{Button, RichText, ScrollArea, Ui, vec2};

/// Differences shown at the most.
const MOST: usize = 60;

/// Where this dance differs from the other version, to go to and to take from it; nothing while none is compared.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let Some(compared) = desk.compared() else { return };
    ui.add_space(12.0);
    let most = (ui.available_height() * 0.42).max(90.0);
    egui::Frame::new().fill(colour(desk.ink().raised)).corner_radius(8).inner_margin(10).show(ui, |ui| {
        ui.set_width(ui.available_width());
        show_head(ui, compared);
        let said = format!("{}, in broken outline", compared.name);
        ui.add(egui::Label::new(RichText::new(said).small().weak()).truncate());
        ui.add_space(2.0);
        ScrollArea::vertical().max_height(most).auto_shrink([false, true]).id_salt("differences").show(
            ui,
            |ui| {
                show_list(ui, desk, compared, asks);
            },
        );
        ui.add_space(2.0);
        if ui.button("Stop comparing").clicked() {
            asks.push(Ask::Compare(CompareAsk::Stop));
        }
    });
}

fn show_head(ui: &mut Ui, compared: &Compared) {
    ui.horizontal(|ui| {
        ui.label("Beside the other version");
        if !compared.comparison.alike() {
            ui.weak(compared.comparison.many().to_string());
        }
    });
}

fn show_list(ui: &mut Ui, desk: &Desk, compared: &Compared, asks: &mut Vec<Ask>) {
    let comparison = &compared.comparison;
    if comparison.alike() {
        ui.colored_label(colour(desk.ink().well), "The two are danced alike");
    }
    for (index, whole) in comparison.whole.iter().enumerate() {
        ui.label(whole.to_string());
        if let WholeDifference::Taps { name, .. } = whole {
            let hint = "Have the taps and claps of this figure as in the other version";
            let text = RichText::new(format!("Take the taps of {}", shown_name(name))).small();
            if ui.button(text).on_hover_text(hint).clicked() {
                asks.push(Ask::Compare(CompareAsk::TakeTaps(index)));
            }
        }
    }
    let shown = desk.shown_difference();
    let small = egui::TextStyle::Small.resolve(ui.style());
    for (index, part) in comparison.parts.iter().enumerate().take(MOST) {
        let here = shown == Some(index);
        let mut text = egui::text::LayoutJob::default();
        let (words, quiet) = (colour(desk.ink().words), colour(desk.ink().quiet));
        let line = egui::TextFormat::simple(egui::TextStyle::Button.resolve(ui.style()), words);
        text.append(&desk.difference_words(part), 0.0, line);
        let line = egui::TextFormat::simple(small.clone(), quiet);
        text.append(&format!("\n{}", part.much_words()), 0.0, line);
        let ink = if here { desk.ink().words } else { desk.ink().faint };
        let button = Button::new(text)
            .wrap()
            .fill(colour(desk.ink().chosen))
            .stroke(egui::Stroke::new(1.0, colour(ink)))
            .min_size(vec2(ui.available_width(), 0.0));
        if ui.add(button).on_hover_text("Go there, and see what can be taken").clicked() {
            asks.push(Ask::Compare(CompareAsk::GoTo(index)));
        }
        if here {
            let number = part.dancer;
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                ui.spacing_mut().button_padding = vec2(7.0, 2.0);
                let hint = "Have this dancer dance this figure as in the other version";
                let text = RichText::new(format!("Take {number}'s part from it")).small();
                if ui.button(text).on_hover_text(hint).clicked() {
                    asks.push(Ask::Compare(CompareAsk::TakePart(index)));
                }
                let hint = "Have everyone dance this figure as in the other version";
                if ui.button(RichText::new("Take the figure").small()).on_hover_text(hint).clicked() {
                    asks.push(Ask::Compare(CompareAsk::TakeFigure(index)));
                }
            });
        }
    }
    if comparison.parts.len() > MOST {
        ui.weak(format!("The first {MOST} of {} are shown", comparison.parts.len()));
    }
}
