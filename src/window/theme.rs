use crate::picture::{Colour, Ink, SLATE};
use egui::{Color32, CornerRadius, FontFamily, FontId, Stroke, TextStyle, Theme, Visuals};

/// A colour for the window.
#[must_use]
pub fn colour(Colour(red, green, blue, opacity): Colour) -> Color32 {
    Color32::from_rgba_unmultiplied(red, green, blue, opacity)
}

/// Dresses the window in an ink.
pub fn dress(ctx: &egui::Context, ink: &Ink) {
    let dark = *ink == SLATE;
    let mut visuals = if dark { Visuals::dark() } else { Visuals::light() };
    let (words, quiet, faint) = (colour(ink.words), colour(ink.quiet), colour(ink.faint));
    visuals.panel_fill = colour(ink.panel);
    visuals.window_fill = colour(ink.panel);
    visuals.extreme_bg_color = colour(ink.bar);
    visuals.faint_bg_color = colour(ink.raised);
    visuals.window_stroke = Stroke::new(1.0, faint);
    visuals.override_text_color = None;
    visuals.weak_text_color = Some(quiet);
    visuals.hyperlink_color = colour(ink.even);
    visuals.error_fg_color = colour(ink.fault);
    visuals.warn_fg_color = colour(ink.fault);
    visuals.selection.bg_fill = colour(ink.chosen);
    visuals.selection.stroke = Stroke::new(1.0, words);
    let corner = CornerRadius::same(6);
    let widgets = &mut visuals.widgets;
    for (state, fill, edge, text) in [
        (&mut widgets.noninteractive, ink.panel, faint, words),
        (&mut widgets.inactive, ink.raised, faint, words),
        (&mut widgets.hovered, ink.chosen, quiet, words),
        (&mut widgets.active, ink.chosen, words, words),
        (&mut widgets.open, ink.chosen, quiet, words),
    ] {
        state.bg_fill = colour(fill);
        state.weak_bg_fill = colour(fill);
        state.bg_stroke = Stroke::new(1.0, edge);
        state.fg_stroke = Stroke::new(1.0, text);
        state.corner_radius = corner;
        state.expansion = 0.0;
    }
    let theme = if dark { Theme::Dark } else { Theme::Light };
    ctx.set_theme(theme);
    ctx.style_mut_of(theme, |style| {
        style.visuals = visuals;
        style.text_styles = [
            (TextStyle::Heading, 19.0),
            (TextStyle::Body, 14.5),
            (TextStyle::Button, 14.5),
            (TextStyle::Small, 12.5),
        ]
        .into_iter()
        .map(|(style, size)| (style, FontId::new(size, FontFamily::Proportional)))
        .chain([(TextStyle::Monospace, FontId::new(13.0, FontFamily::Monospace))])
        .collect();
        style.spacing.item_spacing = egui::vec2(8.0, 5.0);
        style.spacing.button_padding = egui::vec2(9.0, 4.0);
        style.interaction.selectable_labels = false;
    });
}
