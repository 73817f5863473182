use crate::dance::{Dancer, Number};
use crate::desk::{
    Ask, Desk, DrawAsk, FaultAsk, FileAsk, Grip, KeepAsk, PhotoAsk, PlayAsk, Question, Seen, ViewAsk,
};
use crate::faults::WhatIf;
use crate::window::eye_level::toggle_again;
use crate::window::fields::take_wrong_back;
use crate::window::side::{draw_card, running_order::focused_line};
use crate::window::strip::{go_to_row, row_has_focus};
use egui::{Context, Event, Key, Modifiers};

/// Two digits closer together than this, seconds, are one number.
const QUICK: f64 = 0.8;

/// Keys that a control with the focus uses itself.
const USED_BY_CONTROLS: [Key; 8] = [
    Key::Space,
    Key::Enter,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::ArrowUp,
    Key::ArrowDown,
    Key::Home,
    Key::End,
];

/// The keys of the window.
#[derive(Default)]
pub struct Keys {
    /// When a digit was last pressed, and the number so far.
    digits: Option<(f64, u32)>,
}

/// Undo and redo in the room of the steps and beside a photograph, unless a field is typed in, which has its own.
fn take_undo(ctx: &Context, desk: &Desk, asks: &mut Vec<Ask>) {
    let typing =
        ctx.memory(egui::Memory::focused).is_some_and(|id| egui::TextEdit::load_state(ctx, id).is_some());
    if typing || !matches!(desk.question(), Some(Question::Steps(_) | Question::Photo(_))) {
        return;
    }
    let shifted = Modifiers::COMMAND | Modifiers::SHIFT;
    for (modifiers, key, ask) in [
        (shifted, Key::Z, Ask::Redo),
        (Modifiers::COMMAND, Key::Z, Ask::Undo),
        (Modifiers::COMMAND, Key::Y, Ask::Redo),
    ] {
        let mut pressed = ctx.input_mut(|input| input.count_and_consume_key(modifiers, key));
        if ask == Ask::Undo && pressed > 0 && take_wrong_back(ctx) {
            pressed -= 1;
        }
        asks.extend(std::iter::repeat_n(ask, pressed));
    }
}

impl Keys {
    /// Takes the keys that were pressed and pushes what they ask for.
    /// `focused` is what has the keyboard's focus on the floor: arrows then move it.
    pub fn take(&mut self, ctx: &Context, desk: &Desk, focused: Option<Grip>, asks: &mut Vec<Ask>) {
        let command = Modifiers::COMMAND;
        let shifted = command | Modifiers::SHIFT;
        if desk.question().is_some() {
            take_undo(ctx, desk, asks);
            if ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::F1)) {
                asks.push(Ask::View(ViewAsk::PutAway));
            }
            return;
        }
        // A field that is typed in has all keys; any other control has those that it could use, but for what lies on
        // the floor, the lines of the running order and the bare row of taps, which leave all but their own.
        let has_focus = ctx.memory(egui::Memory::focused);
        let typing = has_focus.is_some_and(|id| egui::TextEdit::load_state(ctx, id).is_some());
        let bare = focused.is_some() || focused_line(ctx, desk).is_some() || row_has_focus(ctx);
        let control = has_focus.is_some() && !bare;
        ctx.input_mut(|input| {
            // The ones with Shift come first, since a shortcut without it would take them too.
            for (modifiers, key, ask) in [
                (shifted, Key::Z, Ask::Redo),
                (command, Key::Z, Ask::Undo),
                (command, Key::Y, Ask::Redo),
                (shifted, Key::S, Ask::File(FileAsk::AskSaveAs)),
                (command, Key::S, Ask::File(FileAsk::Save)),
                (command, Key::O, Ask::File(FileAsk::AskOpen)),
                (command, Key::N, Ask::File(FileAsk::AskNew)),
                (command, Key::E, Ask::File(FileAsk::AskStill)),
                (command, Key::P, Ask::File(FileAsk::AskHandout)),
                (command, Key::Q, Ask::File(FileAsk::Close)),
                (command, Key::A, Ask::View(ViewAsk::Pick(Dancer::all(desk.motion().dancers()).collect()))),
                (Modifiers::NONE, Key::F1, Ask::View(ViewAsk::ToggleHelp)),
            ] {
                // While a name is typed, undo and redo are the field's own.
                let theirs = typing && matches!(key, Key::Z | Key::Y | Key::A);
                let pressed = if theirs { 0 } else { input.count_and_consume_key(modifiers, key) };
                // Pressed quickly on a slow machine, two steps back can come in one frame.
                let each = matches!(ask, Ask::Undo | Ask::Redo);
                asks.extend(std::iter::repeat_n(ask, if each { pressed } else { pressed.min(1) }));
            }
        });
        // An open menu has the keys to itself, Escape to close it among them.
        if typing || egui::Popup::is_any_open(ctx) {
            return;
        }
        if ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
            asks.push(Ask::Draw(DrawAsk::CancelDrag));
            asks.push(Ask::Fault(FaultAsk::LeaveMend));
            let busy = desk.held().is_some() || desk.proposed().is_some() || desk.room_search_age().is_some();
            if desk.eye_level() {
                asks.push(Ask::View(ViewAsk::ToggleEyeLevel));
            } else if desk.what_if().is_some() && !busy {
                asks.push(Ask::View(ViewAsk::WhatIf(None)));
            }
            ctx.memory_mut(|memory| {
                if let Some(id) = memory.focused() {
                    memory.surrender_focus(id);
                }
            });
        }
        if desk.proposed().is_some()
            && has_focus.is_none()
            && ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter))
        {
            asks.push(Ask::Fault(FaultAsk::TakeMend));
        }
        if desk.eye_level() && ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::R)) {
            toggle_again(ctx);
        }
        if ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::K)) {
            go_to_row(ctx, desk, asks);
        }
        take_nudges(ctx, focused, asks);
        self.take_plain(ctx, desk, control, asks);
    }

    /// Keys that mean themselves when nobody is typing.
    fn take_plain(&mut self, ctx: &Context, desk: &Desk, control: bool, asks: &mut Vec<Ask>) {
        let now = ctx.input(|input| input.time);
        ctx.input_mut(|input| {
            input.events.retain(|event| {
                let Event::Key { key, physical_key, pressed: true, modifiers, .. } = event else {
                    return true;
                };
                let plain = !(modifiers.command || modifiers.ctrl || modifiers.alt);
                // A button has Space and a slider the arrows.
                let theirs = control && USED_BY_CONTROLS.contains(key);
                if !plain || theirs {
                    return true;
                }
                // With Shift a digit's key is another sign on many keyboards, but it is the same key.
                let under = physical_key.filter(|_| modifiers.shift).and_then(digit);
                let ask = match digit(*key).or(under) {
                    // With Shift it is picked as well.
                    Some(digit) if modifiers.shift => (digit >= 1 && digit <= desk.motion().dancers() as u32)
                        .then(|| Ask::View(ViewAsk::AlsoPick(Number(digit).dancer()))),
                    Some(digit) => self.choose(digit, now, desk),
                    None => plain_ask(*key, modifiers.shift, desk, asks),
                };
                let taken = ask.is_some();
                asks.extend(ask);
                !taken
            });
        });
    }

    /// The dancer that a digit chooses, with the one before it if that was pressed just now.
    fn choose(&mut self, digit: u32, now: f64, desk: &Desk) -> Option<Ask> {
        let before = self.digits.filter(|(at, _)| now - at < QUICK).map_or(0, |(_, number)| number);
        let dancers = desk.motion().dancers() as u32;
        let number = if before * 10 + digit <= dancers { before * 10 + digit } else { digit };
        self.digits = Some((now, number));
        (1..=dancers).contains(&number).then(|| Ask::View(ViewAsk::Choose(Some(Number(number).dancer()))))
    }
}

/// Arrows that nudge: of what has the focus on the floor, or with Ctrl of those picked. 5 cm, with Shift 1 cm.
fn take_nudges(ctx: &Context, focused: Option<Grip>, asks: &mut Vec<Ask>) {
    ctx.input_mut(|input| {
        input.events.retain(|event| {
            let Event::Key { key, pressed: true, modifiers, .. } = event else { return true };
            if modifiers.alt || (focused.is_none() && !modifiers.command) {
                return true;
            }
            let step = if modifiers.shift { 0.01 } else { 0.05 };
            let (right, up) = match key {
                Key::ArrowLeft => (-step, 0.0),
                Key::ArrowRight => (step, 0.0),
                Key::ArrowUp => (0.0, step),
                Key::ArrowDown => (0.0, -step),
                _ => return true,
            };
            match focused {
                Some(Grip::Point { span, dancer, point }) => {
                    asks.push(Ask::Draw(DrawAsk::NudgePoint { span, dancer, point, right, up }));
                }
                Some(Grip::Dancer(dancer)) => asks
                    .extend([Ask::View(ViewAsk::ChooseFor(dancer)), Ask::Draw(DrawAsk::Nudge { right, up })]),
                _ => asks.push(Ask::Draw(DrawAsk::Nudge { right, up })),
            }
            false
        });
    });
}

fn digit(key: Key) -> Option<u32> {
    [
        Key::Num0,
        Key::Num1,
        Key::Num2,
        Key::Num3,
        Key::Num4,
        Key::Num5,
        Key::Num6,
        Key::Num7,
        Key::Num8,
        Key::Num9,
    ]
    .into_iter()
    .zip(0..)
    .find(|(known, _)| *known == key)
    .map(|(_, digit)| digit)
}

/// What a key asks for when nobody is typing. What goes on from how things are goes on from what is `asked` already,
/// so that a key pressed twice in one frame goes two steps.
fn plain_ask(key: Key, shift: bool, desk: &Desk, asked: &[Ask]) -> Option<Ask> {
    let (bars, count) = (desk.motion().bar_counts(), desk.player().count);
    // A step begins at a whole count.
    let (on, back) = if shift {
        (bars.to_next_bar(count.floor()), bars.from_bar_before(count.ceil()))
    } else {
        (1.0, 1.0)
    };
    let mut sound = desk.settings().sound;
    let (mut tempo, mut together, mut seen) = (desk.player().tempo, desk.together(), desk.seen());
    let (mut side, mut what_if) = (desk.eye_side(), desk.what_if());
    for ask in asked {
        match ask {
            Ask::Play(PlayAsk::Tempo(to)) => tempo = *to,
            Ask::Draw(DrawAsk::Together(to)) => together = *to,
            Ask::View(ViewAsk::See(to)) => seen = *to,
            Ask::View(ViewAsk::EyeSide(to)) => side = *to,
            Ask::View(ViewAsk::WhatIf(to)) => what_if = *to,
            Ask::Keep(KeepAsk::Sound(to)) => sound = *to,
            _ => {}
        }
    }
    let switched = match key {
        Key::N => Some(&mut sound.tune.muted),
        Key::C => Some(&mut sound.click.muted),
        Key::I => Some(&mut sound.counts_in),
        _ => None,
    };
    if let Some(switch) = switched {
        *switch = !*switch;
        return Some(Ask::Keep(KeepAsk::Sound(sound)));
    }
    Some(match key {
        Key::Space => Ask::Play(PlayAsk::Toggle),
        Key::ArrowLeft => Ask::Play(PlayAsk::Step(-back)),
        Key::ArrowRight => Ask::Play(PlayAsk::Step(on)),
        Key::Home => Ask::Play(PlayAsk::Seek(0.0)),
        Key::End => Ask::Play(PlayAsk::Seek(desk.motion().counts())),
        Key::L => Ask::Play(PlayAsk::ToggleLoop),
        Key::OpenBracket => Ask::Play(PlayAsk::LoopFrom),
        Key::CloseBracket => Ask::Play(PlayAsk::LoopTo),
        Key::Minus => Ask::Play(PlayAsk::Tempo(tempo - 0.05)),
        Key::Equals | Key::Plus => Ask::Play(PlayAsk::Tempo(tempo + 0.05)),
        Key::T => Ask::View(ViewAsk::ToggleTrails),
        Key::B => Ask::View(ViewAsk::ToggleBeats),
        Key::E => Ask::View(ViewAsk::ToggleEyeLevel),
        Key::S if desk.eye_level() && desk.chosen().is_some() => Ask::View(ViewAsk::EyeSide(side.next())),
        Key::W => Ask::View(ViewAsk::WhatIf(what_if.is_none().then(WhatIf::default))),
        Key::P => Ask::Photo(PhotoAsk::NextStrength),
        Key::F => Ask::View(ViewAsk::FitFloor),
        Key::M => Ask::Draw(DrawAsk::Together(draw_card::next_together(together))),
        Key::V => Ask::View(ViewAsk::See(match seen {
            Seen::FromBottom => Seen::FromTop,
            Seen::FromTop => Seen::OwnFacing,
            Seen::OwnFacing => Seen::FromBottom,
        })),
        _ => return None,
    })
}

/// Whether a drag goes where the pointer is and catches on nothing: Alt, or Ctrl on desktops that keep Alt for
/// themselves.
pub fn goes_free(ui: &egui::Ui) -> bool {
    ui.input(|input| input.modifiers.alt || input.modifiers.ctrl)
}

/// Whether a drag has gone on in this frame. A pointer that is held still asks for nothing, so that nothing is painted again, and
/// a press that is let go where it was, however late, moves nothing. Where it is let go counts: the last move can come with it.
pub fn was_moved(response: &egui::Response) -> bool {
    use egui::PointerButton::Primary;
    let held = response.dragged_by(Primary) || response.drag_stopped_by(Primary);
    held && response.ctx.input(|input| input.pointer.delta() != egui::Vec2::ZERO)
}
