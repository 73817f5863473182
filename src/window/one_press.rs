use egui::{Context, Event, Key, Modifiers};

/// Whether a key is pressed now, and not held down: what takes something away takes one thing at a press. The key is used up
/// either way.
pub fn pressed_once(ctx: &Context, key: Key) -> bool {
    ctx.input_mut(|input| {
        let held =
            |event: &Event| matches!(event, Event::Key { key: of, pressed: true, repeat: true, .. } if *of == key);
        let is_held = input.events.iter().any(held);
        input.count_and_consume_key(Modifiers::NONE, key) > 0 && !is_held
    })
}
