use crate::desk::{Ask, Desk, KeepAsk, PlayAsk};
use crate::sound::{SoundChoice, Voice};
use egui::{Slider, Ui};

/// What is heard in play, how loud, how fast, and how late.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let before = desk.settings().sound;
    let mut now = before;
    ui.spacing_mut().slider_width = 110.0;
    show_voice(ui, &mut now.tune, ("Tune", "Tune volume"), "Whether the tune is heard (N)");
    show_voice(ui, &mut now.click, ("Click", "Click volume"), "Whether the click is heard (C)");
    show_voice(ui, &mut now.taps, ("Taps", "Taps volume"), "Whether sticks and hands that meet are heard");
    ui.separator();
    ui.checkbox(&mut now.counts_in, "Count a bar in").on_hover_text("Before it plays, a bar of clicks (I)");
    ui.separator();
    let mut percent = (desk.player().tempo * 100.0).round() as u32;
    let speed = Slider::new(&mut percent, SoundChoice::SPEEDS).suffix(" %").text("Speed of the tune");
    if ui.add(speed).on_hover_text("At the same pitch (- and =)").changed() {
        asks.push(Ask::Play(PlayAsk::Tempo(f64::from(percent) / 100.0)));
    }
    let delay = Slider::new(&mut now.delay, SoundChoice::DELAYS).suffix(" ms").text("Loudspeakers lag");
    ui.add(delay).on_hover_text(
        "Where loudspeakers sound later than the machine knows, as those without a wire do: what is seen waits for them",
    );
    if let Some(why) = &desk.player().silent {
        ui.separator();
        ui.weak(format!("There is no sound: {why}"));
    }
    if now != before {
        asks.push(Ask::Keep(KeepAsk::Sound(now)));
    }
}

fn show_voice(ui: &mut Ui, voice: &mut Voice, (name, volume): (&str, &str), hint: &str) {
    let mut heard = !voice.muted;
    ui.checkbox(&mut heard, name).on_hover_text(hint);
    voice.muted = !heard;
    ui.add_enabled(heard, Slider::new(&mut voice.volume, 0..=100).suffix(" %").text(volume));
}
