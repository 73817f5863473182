//! What the bar at the top has room for: everything is measured before it is laid out, so that nothing lies over anything.

/// The buttons at the right that always stand there, and those that can go into the menu File, the last ones first.
pub const ALWAYS: [&str; 6] = ["Undo", "Redo", "Save", "File", "Sound", "View"];
pub const CAN_FOLD: [&str; 5] = ["Open…", "New…", "Help", "Handout…", "Still…"];

/// The gap between buttons, and between what stands left of them, points.
pub const BUTTON_GAP: f32 = 2.0;
pub const GAP: f32 = 8.0;
/// The dot of the save state, points.
pub const DOT: f32 = 10.0;

/// A title shorter than this is not cut further for the buttons' sake, points.
const LEAST_TITLE: f32 = 96.0;
/// A title, and the words of the save state, have this much before the side is named, points.
const TITLE: f32 = 230.0;
const STATE: f32 = 180.0;
/// Fewer letters than fit here say nothing, points.
const LEAST_STATE: f32 = 50.0;
/// What the bar is to show, with the widths of the words, points.
pub struct BarWants {
    /// The width of the bar.
    pub whole: f32,
    /// The title of the dance.
    pub title: f32,
    /// The side; nothing where there is none.
    pub side: f32,
    /// The words of the save state.
    pub state: f32,
}

/// What it has room for, points; what is 0 is not shown.
#[derive(Clone, Debug, PartialEq)]
pub struct BarRoom {
    /// For the title.
    pub title: f32,
    /// For the side.
    pub side: f32,
    /// For the words of the save state.
    pub state: f32,
    /// For the buttons.
    pub buttons: f32,
    /// How many of those that can be are folded into the menu.
    pub folded: usize,
}

impl BarRoom {
    /// Shares the bar out; `width` gives the width of a button with these words, points.
    #[must_use]
    pub fn share(wants: &BarWants, width: impl Fn(&str) -> f32) -> Self {
        let one = |name: &&str| width(name) + BUTTON_GAP;
        let always: f32 = ALWAYS.iter().map(one).sum();
        let buttons = |folded: usize| {
            always + CAN_FOLD.iter().take(CAN_FOLD.len().saturating_sub(folded)).map(one).sum::<f32>()
        };
        // Between title, dot, state and buttons.
        let fixed = DOT + 3.0 * GAP;
        let title = wants.title.min(LEAST_TITLE);
        let fits = |folded: &usize| buttons(*folded) + fixed + title <= wants.whole;
        let folded = (0..CAN_FOLD.len()).find(fits).unwrap_or(CAN_FOLD.len());
        let mut rest = (wants.whole - buttons(folded) - fixed).max(0.0);
        let mut title = wants.title.min(TITLE).min(rest);
        rest -= title;
        let mut state = wants.state.min(STATE).min(rest);
        if state < LEAST_STATE.min(wants.state) {
            state = 0.0;
        }
        rest -= state;
        for (shown, wanted) in [(&mut title, wants.title), (&mut state, wants.state)] {
            if *shown > 0.0 {
                let grown = wanted.min(*shown + rest);
                rest -= grown - *shown;
                *shown = grown;
            }
        }
        let side = if wants.side > 0.0 && wants.side + GAP <= rest { wants.side } else { 0.0 };
        Self { title, side, state, buttons: buttons(folded), folded }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seven points a letter, and the padding of a button.
    fn width(text: &str) -> f32 {
        18.0 + 7.0 * text.chars().count() as f32
    }

    #[test]
    fn at_every_width_all_of_it_fits_and_what_matters_goes_last() {
        for title in [0.0, 60.0, 150.0, 900.0] {
            let mut before: Option<BarRoom> = None;
            for whole in 400..=2000 {
                let wants = BarWants { whole: whole as f32, title, side: 150.0, state: 240.0 };
                let room = BarRoom::share(&wants, width);
                let side = if room.side > 0.0 { room.side + GAP } else { 0.0 };
                let used = room.title + side + DOT + room.state + 3.0 * GAP + room.buttons;
                assert!(used <= wants.whole + 0.01, "{used} of {whole}: {room:?}");
                // The buttons as they are measured.
                let shown = CAN_FOLD.len() - room.folded;
                let buttons = ALWAYS.iter().chain(CAN_FOLD.iter().take(shown));
                let buttons: f32 = buttons.map(|name| width(name) + BUTTON_GAP).sum();
                assert!((buttons - room.buttons).abs() < 0.01, "{buttons}: {room:?}");
                assert!(room.title + 0.01 >= wants.title.min(LEAST_TITLE) || room.folded == CAN_FOLD.len());
                // Where words of the state would say nothing there is only its dot.
                assert!(room.state == 0.0 || room.state >= LEAST_STATE, "at {whole}: {room:?}");
                // More room never folds more away.
                assert!(before.is_none_or(|before| before.folded >= room.folded), "at {whole}: {room:?}");
                before = Some(room);
            }
            let last = before.unwrap();
            assert_eq!(last.folded, 0);
            assert!(title > 150.0 || (last.state, last.side) == (240.0, 150.0), "{last:?}");
        }
    }
}
