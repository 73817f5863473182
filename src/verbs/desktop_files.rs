//! What a desktop is given: menu entry, icon, kind of file, manual and completions.
//!
//! Sources: the Desktop Entry, Icon Theme, Shared MIME-info and Base Directory specifications of freedesktop.org.

use super::Said;
use crate::picture::{icon, to_png, to_svg};
use std::path::Path;

/// The sizes in which the icon is there as pixels, along each side.
pub const ICON_SIZES: [u32; 6] = [16, 32, 48, 64, 128, 256];

/// The menu entry, with `bellpad` as what is run.
const ENTRY: &str = include_str!("../../assets/desktop/bellpad.desktop");

/// The kind of a dance file.
const KIND: &str = include_str!("../../assets/desktop/bellpad.xml");

/// Completions, and where each shell looks for them.
const COMPLETIONS: [(&str, &str); 3] = [
    ("bash-completion/completions/bellpad", include_str!("../../assets/desktop/completions/bellpad.bash")),
    ("zsh/site-functions/_bellpad", include_str!("../../assets/desktop/completions/_bellpad")),
    ("fish/vendor_completions.d/bellpad.fish", include_str!("../../assets/desktop/completions/bellpad.fish")),
];

macro_rules! manual {
    ($($page:literal),* $(,)?) => {
        /// The manual, a page a verb.
        const MANUAL: &[(&str, &str)] =
            &[$(($page, include_str!(concat!("../../assets/desktop/man/", $page)))),*];
    };
}

manual!(
    "bellpad-check.1",
    "bellpad-crib.1",
    "bellpad-desktop-install.1",
    "bellpad-desktop-remove.1",
    "bellpad-desktop.1",
    "bellpad-moving.1",
    "bellpad-new.1",
    "bellpad-notebook.1",
    "bellpad-page.1",
    "bellpad-pose.1",
    "bellpad-schema.1",
    "bellpad-sheet.1",
    "bellpad-stepping.1",
    "bellpad-still.1",
    "bellpad-tapping.1",
    "bellpad-tune.1",
    "bellpad-watch.1",
    "bellpad.1",
);

/// Each file for the desktop of a user who runs this program: its path from the folder of what programs share, and what is in
/// it.
///
/// # Errors
/// When the icon cannot be drawn.
pub fn files_for_desktop(program: &Path) -> Said<Vec<(String, Vec<u8>)>> {
    let entry = ENTRY.replace("Exec=bellpad ", &format!("Exec={} ", quoted_program(program)));
    let mut files = vec![
        ("applications/bellpad.desktop".to_owned(), entry.into_bytes()),
        ("mime/packages/bellpad.xml".to_owned(), KIND.as_bytes().to_vec()),
        ("icons/hicolor/scalable/apps/bellpad.svg".to_owned(), to_svg(&icon(256)).into_bytes()),
    ];
    for size in ICON_SIZES {
        files.push((format!("icons/hicolor/{size}x{size}/apps/bellpad.png"), to_png(&icon(size))?));
    }
    files.extend(COMPLETIONS.map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec())));
    files.extend(MANUAL.iter().map(|(page, text)| (format!("man/man1/{page}"), text.as_bytes().to_vec())));
    Ok(files)
}

/// A program's path as an entry's `Exec` has it: quoted, and then escaped once more as every string of an entry is.
fn quoted_program(program: &Path) -> String {
    let mut quoted = String::from("\"");
    for letter in program.to_string_lossy().chars() {
        match letter {
            // The specification wants the second backslash for the string and the first for the quotes.
            '"' | '`' | '$' => quoted.extend(['\\', '\\', letter]),
            '\\' => quoted.push_str("\\\\\\\\"),
            '%' => quoted.push_str("%%"),
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}
