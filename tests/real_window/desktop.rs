use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::channel;
use std::thread;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// The size of the window where nobody has ever drawn it to another, pixels.
pub const SIZE: [usize; 2] = [1280, 800];
/// The size of the screen, pixels: with room for what a desktop would put round the window.
const SCREEN: [usize; 2] = [1296, 880];

/// A window manager that only gives the focus, closes windows by Alt+F4, leaves Alt with the mouse to them, and lays
/// a window's corner on the screen's, so that a place in the window is the same place on the screen.
const OPENBOX: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<openbox_config xmlns="http://openbox.org/3.4/rc">
  <focus><focusNew>yes</focusNew></focus>
  <keyboard><keybind key="A-F4"><action name="Close"/></keybind></keyboard>
  <mouse/>
  <applications>
    <application class="*"><decor>no</decor><position force="yes"><x>0</x><y>0</y></position></application>
  </applications>
</openbox_config>
"#;

/// The program that the tests drive.
pub fn program() -> PathBuf {
    std::env::var_os("BELLPAD_BINARY")
        .map_or_else(|| PathBuf::from(env!("CARGO_BIN_EXE_bellpad")), PathBuf::from)
}

/// Tries again and again until something is so.
///
/// # Panics
/// When it is still not so at the deadline; the message ends in what was last wrong.
#[track_caller]
pub fn wait_until<T>(what: &str, within: Duration, mut attempt: impl FnMut() -> Result<T, String>) -> T {
    let begun = Instant::now();
    loop {
        match attempt() {
            Ok(value) => return value,
            Err(said) if begun.elapsed() > within => {
                panic!("waited {} s in vain for {what}: {said}", within.as_secs());
            }
            Err(_) => thread::sleep(Duration::from_millis(50)),
        }
    }
}

/// A program that ends with the test, however the test ends.
pub struct Started(pub Child);

impl Started {
    /// Starts a program.
    ///
    /// # Panics
    /// When it is not there; the message says what to install.
    pub fn new(command: &mut Command, package: &str) -> Self {
        let name = command.get_program().to_owned();
        match command.spawn() {
            Ok(child) => Self(child),
            Err(error) => panic!("{} cannot be started: {error}; it comes with {package}", name.display()),
        }
    }
}

impl Started {
    /// Whether it has anything left to do: one of its threads runs, or would if the machine had a processor for it
    /// (proc(5), /proc/PID/task/TID/stat, field 3).
    pub fn is_busy(&self) -> bool {
        let threads = fs::read_dir(format!("/proc/{}/task", self.0.id()));
        threads.into_iter().flatten().flatten().any(|thread| {
            let stat = fs::read_to_string(thread.path().join("stat")).unwrap_or_default();
            // The second field is a name in brackets, which may have spaces in it.
            stat.rsplit(')').next().is_some_and(|fields| fields.trim_start().starts_with(['R', 'D']))
        })
    }
}

impl Drop for Started {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A private screen with a window manager, and a private home.
pub struct Desktop {
    // The window manager goes before the screen that it is on.
    manager: Started,
    screen: Started,
    display: String,
    folder: TempDir,
}

impl Desktop {
    /// Starts a screen on a free display number.
    pub fn start() -> Self {
        Self::start_of(SCREEN)
    }

    /// Starts a screen of so many pixels across and down.
    pub fn start_of([across, down]: [usize; 2]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let size = format!("{across}x{down}x24");
        let mut screen = Started::new(
            Command::new("Xvfb")
                .args(["-displayfd", "1", "-screen", "0", &size, "-nolisten", "tcp", "-fbdir"])
                .arg(folder.path())
                .stdin(Stdio::null())
                .stdout(Stdio::piped())
                .stderr(Stdio::null()),
            "the package xvfb",
        );
        let (sender, number) = channel();
        let said = screen.0.stdout.take().unwrap();
        thread::spawn(move || {
            let mut line = String::new();
            let read = BufReader::new(said).read_line(&mut line);
            // A test that has given up does not need the answer.
            let _ = sender.send(read.map(|_| line));
        });
        let number =
            number.recv_timeout(Duration::from_secs(20)).expect("Xvfb said no display number in 20 s");
        let number: u32 = number.unwrap().trim().parse().expect("Xvfb ended before it had a display");
        let display = format!(":{number}");
        let rules = folder.path().join("openbox.xml");
        fs::write(&rules, OPENBOX).unwrap();
        let said = folder.path().join("openbox said");
        let manage = || {
            Started::new(
                Command::new("openbox")
                    .arg("--config-file")
                    .arg(&rules)
                    .env("DISPLAY", &display)
                    .env("HOME", folder.path())
                    .stdin(Stdio::null())
                    .stdout(Stdio::null())
                    .stderr(fs::File::create(&said).unwrap()),
                "the package openbox",
            )
        };
        let mut manager = manage();
        // A window that opens before the manager is there gets neither its place nor the focus.
        wait_until("openbox", Duration::from_secs(20), || {
            let managed = xdotool(&display, &["get_desktop"]).map(|_| ());
            let ended = manager.0.try_wait().unwrap();
            let words = || fs::read_to_string(&said).unwrap_or_default();
            let told = managed.map_err(|error| format!("{error}; openbox {ended:?} said {}", words()));
            if ended.is_some() && told.is_err() {
                manager = manage();
            }
            told
        });
        Self { manager, screen, display, folder }
    }

    /// The folder that the screen and the home are in.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Whether the screen or the window manager has anything left to do.
    pub fn is_busy(&self) -> bool {
        self.screen.is_busy() || self.manager.is_busy()
    }

    /// Where the program keeps what it remembers.
    pub fn state(&self) -> PathBuf {
        self.folder.path().join("home/state/bellpad")
    }

    /// Where the screen's picture is.
    pub fn picture(&self) -> PathBuf {
        self.folder.path().join("Xvfb_screen0")
    }

    /// Starts Bellpad as if on a machine where nobody has ever opened it. What it writes to standard error goes to
    /// a file.
    pub fn start_bellpad(&self, file: Option<&Path>, said: &Path) -> Started {
        let home = self.folder.path().join("home");
        fs::create_dir_all(&home).unwrap();
        // No PATH and no session bus: no dialog of the desktop's comes up in the way of the window's own.
        let mut command = Command::new(program());
        command
            .args(file)
            .env_clear()
            .env("DISPLAY", &self.display)
            .env("HOME", &home)
            .env("XDG_STATE_HOME", home.join("state"))
            .env("XDG_DATA_HOME", home.join("data"))
            .env("XDG_CONFIG_HOME", home.join("config"))
            .env("XDG_CACHE_HOME", home.join("cache"))
            .env("XDG_RUNTIME_DIR", &home)
            .env("LC_ALL", "C.UTF-8")
            .env("LIBGL_ALWAYS_SOFTWARE", "1")
            .current_dir(&home)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(fs::File::create(said).unwrap());
        Started::new(&mut command, "cargo build")
    }

    /// Uses the keyboard, the mouse or the window manager; gives what was printed.
    pub fn xdotool(&self, arguments: &[&str]) -> Result<String, String> {
        xdotool(&self.display, arguments)
    }
}

fn xdotool(display: &str, arguments: &[&str]) -> Result<String, String> {
    let done = Command::new("xdotool")
        .args(arguments)
        .env("DISPLAY", display)
        .stdin(Stdio::null())
        .output()
        .unwrap_or_else(|error| panic!("xdotool cannot be started: {error}; it comes with xdotool"));
    if done.status.success() {
        Ok(String::from_utf8_lossy(&done.stdout).trim().to_owned())
    } else {
        Err(format!("xdotool {arguments:?}: {}", String::from_utf8_lossy(&done.stderr).trim()))
    }
}
