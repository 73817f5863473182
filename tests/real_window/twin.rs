use super::desktop::SIZE;
use super::expected::Expected;
use bellpad::desk::{Ask, Desk, FileAsk};
use bellpad::store::{Home, Recent};
use bellpad::window::Window;
use egui::{Event, Key, Modifiers, PointerButton, Pos2, Role, Ui, UiBuilder, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};
use std::path::Path;

/// The same window without a screen. It is given the same mouse and keys as the real one, so that it knows where
/// everything is there.
pub struct Twin {
    harness: Harness<'static, Window>,
}

impl Twin {
    /// Opens it as the real one is opened where nobody has ever opened it, with a home of its own.
    pub fn open(file: Option<&Path>, home: &Path) -> Self {
        let mut desk = Desk::with_sample(Recent::default()).at_home(Home::at(home));
        if let Some(file) = file {
            desk.apply(Ask::File(FileAsk::Open(file.to_owned())));
        }
        let mut harness = Harness::builder()
            .with_size(vec2(SIZE[0] as f32, SIZE[1] as f32))
            .with_max_steps(60)
            .build_ui_state(show_whole, Window::new(desk, false));
        // A picture on the shelf moves as long as the pointer is on it; all else comes to rest.
        harness.run_ok();
        Self { harness }
    }

    /// What it shows.
    pub fn desk(&self) -> &Desk {
        &self.harness.state().desk
    }

    /// Where the dancers are, and where the floor is.
    pub fn expected(&mut self) -> Expected {
        Expected::of_window(self.harness.state_mut())
    }

    /// Where a place on the floor is in the window.
    pub fn floor(&mut self, x: f64, y: f64) -> [i32; 2] {
        let window = self.harness.state_mut();
        let rect = window.floor_rect;
        window.floor.frame(&window.desk, rect).to_picture(x, y).map(|at| at.round() as i32)
    }

    /// The middle of what has a name; failing that of what has the words in its name. Something to use goes before
    /// words to read.
    #[track_caller]
    pub fn find(&self, name: &str) -> [i32; 2] {
        self.rect(name).map(|[from, to]| i32::midpoint(from, to))
    }

    /// Left and right, top and bottom of what has a name.
    #[track_caller]
    pub fn rect(&self, name: &str) -> [[i32; 2]; 2] {
        let exact = self.harness.query_all_by_label(name);
        let mut found: Vec<_> = exact.chain(self.harness.query_all_by_label_contains(name)).collect();
        found.sort_by_key(|node| node.accesskit_node().role() == Role::Label);
        let rect = found.first().unwrap_or_else(|| panic!("there is nothing called {name}")).rect();
        let inside = rect.center().x < SIZE[0] as f32 && rect.center().y < SIZE[1] as f32;
        assert!(inside && rect.center().x > 0.0 && rect.center().y > 0.0, "{name} is out of sight: {rect:?}");
        [[rect.left(), rect.right()], [rect.top(), rect.bottom()]].map(|side| side.map(|at| at as i32))
    }

    /// Whether there is something with these words in its name.
    pub fn has(&self, name: &str) -> bool {
        self.harness.query_all_by_label_contains(name).next().is_some()
    }

    /// The name of what has the focus; nothing where nothing has.
    pub fn focused(&self) -> Option<String> {
        let mut all = self.harness.root().children_recursive();
        let focused = all.find(|node| node.accesskit_node().is_focused())?;
        focused.accesskit_node().label()
    }

    /// Moves the mouse.
    pub fn go(&mut self, place: [i32; 2]) {
        self.take([Event::PointerMoved(point(place))]);
    }

    /// Presses the left button of the mouse at a place, or lets go of it.
    pub fn press(&mut self, place: [i32; 2], pressed: bool) {
        self.take([button(PointerButton::Primary, place, pressed)]);
    }

    /// Presses the middle button of the mouse at a place, or lets go of it.
    pub fn press_middle(&mut self, place: [i32; 2], pressed: bool) {
        self.take([button(PointerButton::Middle, place, pressed)]);
    }

    /// Presses the left button of the mouse at a place and lets go of it at once, as a click has to be.
    pub fn click(&mut self, place: [i32; 2]) {
        self.take([true, false].map(|pressed| button(PointerButton::Primary, place, pressed)));
    }

    /// Presses the right button of the mouse at a place and lets go of it.
    pub fn right_click(&mut self, place: [i32; 2]) {
        self.take([true, false].map(|pressed| button(PointerButton::Secondary, place, pressed)));
    }

    /// Holds modifiers, or none.
    pub fn hold(&mut self, modifiers: Modifiers) {
        self.take([Event::ModifiersChanged(modifiers)]);
    }

    /// Presses a key, named as xdotool names it: `ctrl+shift+Right`.
    pub fn key(&mut self, named: &str) {
        let mut modifiers = Modifiers::NONE;
        let mut name = named;
        while let Some((held, rest)) = name.split_once('+') {
            modifiers |= match held {
                "ctrl" => Modifiers { ctrl: true, command: true, ..Modifiers::NONE },
                "shift" => Modifiers::SHIFT,
                "alt" => Modifiers::ALT,
                _ => panic!("no key is called {held}"),
            };
            name = rest;
        }
        let key = Key::from_name(&name.to_uppercase()).or(Key::from_name(name));
        let key = key.unwrap_or_else(|| panic!("no key is called {name}"));
        let event = |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
        let mut events = vec![Event::ModifiersChanged(modifiers), event(true)];
        if modifiers.is_none() && name.chars().count() == 1 {
            events.push(Event::Text(name.to_owned()));
        }
        events.extend([event(false), Event::ModifiersChanged(Modifiers::NONE)]);
        self.take(events);
    }

    /// Types text.
    pub fn write(&mut self, text: &str) {
        for line in text.split_inclusive('\n') {
            let letters = line.trim_end_matches('\n');
            self.take(letters.chars().map(|letter| Event::Text(letter.to_string())));
            if letters.len() < line.len() {
                self.key("Return");
            }
        }
    }

    fn take(&mut self, events: impl IntoIterator<Item = Event>) {
        for event in events {
            self.harness.event(event);
        }
        self.harness.run_ok();
    }
}

/// Shows the window from edge to edge, without the margin that a harness leaves.
fn show_whole(ui: &mut Ui, window: &mut Window) {
    let whole = ui.ctx().content_rect();
    let mut ui = ui.new_child(UiBuilder::new().max_rect(whole));
    ui.set_clip_rect(whole);
    window.show(&mut ui);
}

fn button(button: PointerButton, place: [i32; 2], pressed: bool) -> Event {
    Event::PointerButton { pos: point(place), button, pressed, modifiers: Modifiers::NONE }
}

fn point([right, down]: [i32; 2]) -> Pos2 {
    Pos2::new(right as f32, down as f32)
}
