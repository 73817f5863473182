use super::SOON;
use super::desktop::{Desktop, Started, wait_until};
use super::expected::Expected;
use super::screen::Screen;
use bellpad::picture::SLATE;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitStatus;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Between two keys or two places of the mouse, as a quick person has it.
const BEAT: Duration = Duration::from_millis(30);

/// The places that a hand goes through from one to another.
pub fn steps(from: [i32; 2], to: [i32; 2]) -> Vec<[i32; 2]> {
    let many = 12;
    (1..=many).map(|step| [0, 1].map(|axis| from[axis] + (to[axis] - from[axis]) * step / many)).collect()
}

/// A person at a screen with Bellpad open on it.
pub struct Sitting {
    // The program goes before the screen that it is on.
    bellpad: Started,
    window: String,
    desktop: Desktop,
}

impl Sitting {
    /// Opens the window and waits until it can be used.
    pub fn open(file: Option<&Path>) -> Self {
        Self::open_on(Desktop::start(), file)
    }

    /// Opens the window on a screen that is there already.
    pub fn open_on(desktop: Desktop, file: Option<&Path>) -> Self {
        let said = desktop.folder().join("said");
        let mut bellpad = desktop.start_bellpad(file, &said);
        let window = wait_until("a window called Bellpad", Duration::from_secs(30), || {
            if let Some(status) = bellpad.0.try_wait().unwrap() {
                panic!("bellpad ended with {status}: {}", fs::read_to_string(&said).unwrap_or_default());
            }
            let found = desktop.xdotool(&["search", "--onlyvisible", "--name", "Bellpad"])?;
            found.lines().next().map(str::to_owned).ok_or_else(|| "there is none yet".to_owned())
        });
        desktop.xdotool(&["windowactivate", "--sync", &window]).unwrap();
        Self { bellpad, window, desktop }
    }

    /// The folder that the screen and the home are in.
    pub fn folder(&self) -> &Path {
        self.desktop.folder()
    }

    fn xdotool(&self, arguments: &[&str]) {
        self.desktop.xdotool(arguments).unwrap();
    }

    /// Presses keys, one after another.
    pub fn keys(&self, keys: &[&str]) {
        for key in keys {
            self.xdotool(&["key", key]);
            sleep(BEAT);
        }
    }

    /// Puts a path in the field that has the focus, in place of what is there.
    pub fn type_path(&self, path: &Path) {
        self.keys(&["ctrl+a"]);
        self.write(path.to_str().unwrap());
    }

    /// Puts a path in the field that has the focus, and Enter.
    pub fn fill_in(&self, path: &Path) {
        self.type_path(path);
        self.keys(&["Return"]);
    }

    /// Drags with the left button, by steps, as a hand does.
    pub fn drag(&self, from: [i32; 2], to: [i32; 2]) {
        self.pull(from, &steps(from, to));
        self.let_go();
    }

    /// Presses the left button and goes through places with it.
    pub fn pull(&self, from: [i32; 2], through: &[[i32; 2]]) {
        self.go(from);
        self.rest();
        self.button("1", true);
        self.rest();
        for place in through {
            self.go(*place);
        }
        self.rest();
    }

    /// Presses a button of the mouse, or lets go of it: 1 is the left, 2 the middle; 4 is the wheel a step up.
    pub fn button(&self, button: &str, down: bool) {
        self.xdotool(&[if down { "mousedown" } else { "mouseup" }, button]);
        sleep(BEAT);
    }

    /// Lets go of the left button.
    pub fn release(&self) {
        self.button("1", false);
        self.rest();
    }

    /// Lets go of the left button, and takes the pointer away.
    pub fn let_go(&self) {
        self.release();
        // The pointer is in the picture too, and would lie over what was dragged.
        self.go([4, 4]);
    }

    /// Moves the mouse.
    pub fn go(&self, [right, down]: [i32; 2]) {
        self.xdotool(&["mousemove", &right.to_string(), &down.to_string()]);
        sleep(BEAT);
    }

    /// Presses the left button of the mouse where it is, and lets go of it.
    pub fn click(&self) {
        self.button("1", true);
        self.button("1", false);
    }

    /// Holds a key down, or lets it up.
    pub fn hold(&self, key: &str, down: bool) {
        self.xdotool(&[if down { "keydown" } else { "keyup" }, key]);
        sleep(BEAT);
    }

    /// Types text.
    pub fn write(&self, text: &str) {
        for line in text.split_inclusive('\n') {
            let letters = line.trim_end_matches('\n');
            if !letters.is_empty() {
                self.xdotool(&["type", "--delay", "15", "--", letters]);
            }
            if letters.len() < line.len() {
                self.keys(&["Return"]);
            }
        }
        // The last letter shows.
        sleep(BEAT * 5);
    }

    /// What the program holds in memory, megabytes.
    pub fn held(&self) -> f64 {
        let status = fs::read_to_string(format!("/proc/{}/status", self.bellpad.0.id())).unwrap();
        let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap();
        line.trim().trim_end_matches(" kB").parse::<f64>().unwrap() / 1024.0
    }

    /// Waits until the screen keeps still and nothing is left to be done for what was pressed and moved so far, and
    /// gives what it shows then. What moves for ever is not waited for.
    pub fn still(&self) -> Screen {
        let (begun, mut quiet, mut before) = (Instant::now(), 0, self.look());
        while quiet < 2 && begun.elapsed() < SOON / 2 {
            sleep(BEAT);
            let now = self.look();
            quiet = if self.is_busy() || now.changed_from(&before) { 0 } else { quiet + 1 };
            before = now;
        }
        before
    }

    /// Waits until nothing is left to be done for what was pressed and moved so far: what the mouse does in one frame
    /// is taken to be done where it ends.
    pub fn rest(&self) {
        let (begun, mut quiet) = (Instant::now(), 0);
        while quiet < 3 && begun.elapsed() < SOON / 2 {
            sleep(BEAT / 3);
            quiet = if self.is_busy() { 0 } else { quiet + 1 };
        }
    }

    fn is_busy(&self) -> bool {
        self.desktop.is_busy() || self.bellpad.is_busy()
    }

    /// Waits until the screen is no longer as it was, and until it keeps still again.
    #[track_caller]
    pub fn see_change(&self, what: &str, before: &Screen) {
        wait_until(what, SOON, || {
            if self.look().changed_from(before) { Ok(()) } else { Err("the screen is as it was".to_owned()) }
        });
        self.still();
    }

    /// What the screen shows.
    pub fn look(&self) -> Screen {
        Screen::of_dump(&self.desktop.picture())
    }

    /// Keeps what the screen shows, if the person running the tests wants it kept.
    pub fn keep(&self, name: &str) {
        if let Some(folder) = std::env::var_os("BELLPAD_SCREENSHOTS") {
            fs::create_dir_all(&folder).unwrap();
            sleep(Duration::from_millis(400));
            self.look().write(&Path::new(&folder).join(format!("{name}.png")));
        }
    }

    /// Waits until every dancer is where they should be and no dialog lies over them.
    #[track_caller]
    pub fn see_dancers(&self, expected: &Expected) {
        wait_until("the dancers in their places", SOON, || expected.check_all(&self.look()));
    }

    /// Waits until a dialog dims the floor.
    #[track_caller]
    pub fn see_dialog(&self, expected: &Expected) {
        wait_until("a dialog over the floor", SOON, || {
            let bare = self.look().share(expected.floor, SLATE.floor);
            if bare < 0.05 { Ok(()) } else { Err(format!("{:.0} % of the floor is bare", bare * 100.0)) }
        });
    }

    /// Pixels across and down of the window, without what the desktop puts round it.
    pub fn size(&self) -> [usize; 2] {
        let said = self.desktop.xdotool(&["getwindowgeometry", "--shell", &self.window]).unwrap();
        ["WIDTH=", "HEIGHT="].map(|name| {
            let line = said.lines().find_map(|line| line.strip_prefix(name));
            line.unwrap_or_else(|| panic!("no {name} in {said}")).parse().unwrap()
        })
    }

    /// Draws the window to another size.
    pub fn draw_to(&self, [across, down]: [usize; 2]) {
        self.xdotool(&["windowsize", "--sync", &self.window, &across.to_string(), &down.to_string()]);
    }

    /// What the program remembers of itself.
    pub fn remembered(&self) -> serde_json::Value {
        let text = fs::read(self.desktop.state().join("settings.json")).unwrap_or_default();
        serde_json::from_slice(&text).unwrap_or_default()
    }

    /// Ends the program at once (SIGKILL), and starts it anew on the same screen and in the same home.
    pub fn killed_and_started_again(self) -> Self {
        self.started_again(drop)
    }

    /// Closes the window by its key, and starts the program anew on the same screen and in the same home.
    pub fn closed_and_started_again(self) -> Self {
        self.keys(&["ctrl+q"]);
        self.started_again(|mut bellpad| {
            wait_until("the end of the program", SOON, || match bellpad.0.try_wait().unwrap() {
                Some(_) => Ok(()),
                None => Err("it goes on".to_owned()),
            });
        })
    }

    fn started_again(self, end: impl FnOnce(Started)) -> Self {
        let Self { bellpad, window, desktop } = self;
        end(bellpad);
        wait_until("the window to be gone", SOON, || {
            let found = desktop.xdotool(&["search", "--onlyvisible", "--name", "Bellpad"]);
            if found.is_ok_and(|found| found.lines().any(|line| line == window)) {
                Err("it is still there".to_owned())
            } else {
                Ok(())
            }
        });
        Self::open_on(desktop, None)
    }

    /// The files of unsaved work that are kept.
    pub fn works(&self) -> Vec<PathBuf> {
        let folder = self.desktop.state().join("autosave");
        let files = fs::read_dir(folder).into_iter().flatten().map(|entry| entry.unwrap().path());
        files.filter(|path| path.extension().is_some_and(|ending| ending == "work")).collect()
    }

    /// The title of the window.
    pub fn title(&self) -> String {
        self.desktop.xdotool(&["getwindowname", &self.window]).unwrap()
    }

    /// Waits for the program to end, and gives how; nothing if it does not.
    pub fn ended(&mut self, within: Duration) -> Option<ExitStatus> {
        let begun = Instant::now();
        while begun.elapsed() < within {
            if let Some(status) = self.bellpad.0.try_wait().unwrap() {
                return Some(status);
            }
            sleep(BEAT);
        }
        None
    }

    /// Processor time that the program has used, in ticks of the system's clock (proc(5), /proc/PID/stat, fields
    /// 14 and 15).
    pub fn ticks(&self) -> u64 {
        let stat = fs::read_to_string(format!("/proc/{}/stat", self.bellpad.0.id())).unwrap();
        // The second field is a name in brackets, which may have spaces in it.
        let fields: Vec<&str> = stat[stat.rfind(')').unwrap() + 1..].split_whitespace().collect();
        [fields[11], fields[12]].iter().map(|field| field.parse::<u64>().unwrap()).sum()
    }
}
