use super::shape::foot;
use crate::desk::{Ask, ViewAsk};
use crate::words::CAUTIONS;
use egui::Ui;

/// Every key, for the help and for the tests.
pub const KEYS: [(&str, &str); 38] = [
    ("Space", "play and stop"),
    ("Left, Right", "back or on a count; with Shift a bar"),
    ("Home, End", "to the start, to the end"),
    ("1 to 9", "choose a dancer; two quickly for 10 and on"),
    ("L", "loop on or off"),
    ("[ and ]", "loop from this bar, loop to this bar"),
    ("- and =", "slower, faster"),
    ("N, C, I", "the tune (its notes) heard or not, the click, a bar counted in"),
    ("Ctrl++, Ctrl+-, Ctrl+0", "larger text, smaller, as the desktop has it"),
    ("Shift and 1 to 9, Ctrl+A", "pick another dancer as well, pick everyone"),
    ("M", "who follows when you draw: nobody, a mate, all of them, everyone"),
    ("Ctrl and arrows", "nudge those picked 5 cm; with Shift 1 cm"),
    ("arrows, Shift+arrows", "move the turn on the bars that has the focus half a count, or its end"),
    (
        "K",
        "the row of taps, back where it was put away: the tap at the playhead, or the bare row; there Enter puts one in, or opens what can be done with it",
    ),
    ("arrows, Shift+arrows", "go from one tap on the bars to the next, or move it a quarter of a count"),
    ("T", "paths on or off"),
    ("B", "where they are at the strong beats, on or off"),
    ("V", "music at the top, at the bottom, or the dancer's own facing"),
    ("E", "the body at eye level, large, or the floor again"),
    ("S, R", "there: from the side, the front or behind; the bar again and again"),
    ("W", "what if the chosen dancer were late, early or short of the way: on or off"),
    ("P", "photographs under the floor faint, stronger or hidden"),
    ("F", "fit the floor in the window"),
    ("Ctrl+Z, Ctrl+Shift+Z", "undo, redo"),
    ("Ctrl+N, Ctrl+O", "new dance, open"),
    ("Ctrl+S, Ctrl+Shift+S", "save, save as"),
    ("Ctrl+E", "still"),
    ("Ctrl+P", "handout: sheets, the notebook, a page for a phone, a moving picture"),
    ("Ctrl+V", "lay a picture that was copied elsewhere under the floor"),
    ("Ctrl+Q", "close the window"),
    ("Enter", "do what is proposed, or press the button that has the focus"),
    ("Up, Down", "from line to line of the running order"),
    ("Alt+Up, Alt+Down", "move the line that has the focus"),
    ("F2", "rename its figure"),
    ("Menu, Shift+F10", "what can be done with what has the focus, or with the chosen dancer"),
    ("Delete", "take away the point under the pointer, or the line, turn or tap that has the focus"),
    ("Escape", "let go of a drag, put a dialog or what if away, or leave the body at eye level"),
    ("F1", "this help"),
];

/// How wide the longest key is, points.
const KEYS_WIDE: f32 = 178.0;

/// Shows keys and mouse.
pub fn show_help(ui: &mut Ui, asks: &mut Vec<Ask>) {
    ui.heading("Keys and mouse");
    ui.add_space(6.0);
    // Beside the bar by which it goes up and down.
    let wide = (ui.clip_rect().width() - 2.0 * ui.spacing().scroll.bar_width - 4.0).max(120.0);
    ui.set_max_width(wide);
    ui.vertical(|ui| {
        let meanings = (wide - KEYS_WIDE - 18.0).max(100.0);
        egui::Grid::new("keys").num_columns(2).spacing([18.0, 4.0]).max_col_width(meanings).show(ui, |ui| {
            for (key, meaning) in KEYS {
                ui.strong(key);
                ui.label(meaning);
                ui.end_row();
            }
        });
        ui.add_space(8.0);
        ui.label(
            "Drag a dancer to put them where you want them at this count; their path bends to go there. Drag a \
             diamond to move that point of the path. Drag the small ring in front of the chosen dancer to turn \
             them: in the midst of a turn it is where that finishes. Drag a turn on the bars, or an end of it, to \
             another time. A click in the row of taps puts a tap or a clap in for the chosen dancer, or for all odds; drag \
             it to another time, and a right click says whom, with which end, how high, who follows and in which bars; \
             Write them all… there has them in words. Drag along the bars to go through the dance. Drag a frame on bare \
             floor to pick those inside it; what you draw then is drawn for all of them. Wheel or pinch zooms the \
             floor; dragging with the middle or right button moves it. A right click says what can be done with what is \
             there. A drag catches on spots, lines, shoulders and paths; Alt \
             or Ctrl lets it go free.",
        );
        ui.add_space(8.0);
        ui.strong("Before you dance it");
        ui.label(CAUTIONS);
    });
    if foot(ui, |ui| ui.button("Close")).clicked() {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
}
