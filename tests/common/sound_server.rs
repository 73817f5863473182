//! A sound server of a test's own, and what its loudspeakers play, recorded.

#![allow(dead_code)] // one test uses this, another that

use std::f64::consts::TAU;
use std::io::Read;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread::{JoinHandle, sleep};
use std::time::{Duration, Instant};

/// Samples a second of a recording.
pub const RATE: f64 = 48_000.0;

/// A sound server of a test's own, in a folder that only it can look into, with loudspeakers called hall that nobody hears.
pub struct SoundServer {
    folder: PathBuf,
    socket: PathBuf,
    children: Vec<Child>,
}

impl SoundServer {
    /// `PulseAudio`.
    pub fn pulse(folder: &Path) -> Self {
        Self::pulse_at(folder, &Self::pulse_socket(folder))
    }

    /// `PulseAudio` that listens at a socket.
    pub fn pulse_at(folder: &Path, socket: &Path) -> Self {
        let mut server = Self::none(folder, socket.to_owned());
        server.run("pulseaudio", |command| {
            command
                .args(["-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no", "--disallow-exit"])
                .arg(format!(
                    "--load=module-native-protocol-unix socket={} auth-anonymous=1",
                    socket.display()
                ))
                .arg("--load=module-null-sink sink_name=hall rate=48000 channels=2");
        });
        Self::wait_for(&server.socket);
        server
    }

    /// `PipeWire`, with its own server for those who speak as to `PulseAudio`.
    pub fn pipewire(folder: &Path) -> Self {
        let mut server = Self::none(folder, folder.join("native"));
        let bus = folder.join("bus");
        server.run("dbus-daemon", |command| {
            command.args(["--session", "--nofork"]).arg(format!("--address=unix:path={}", bus.display()));
        });
        Self::wait_for(&bus);
        server.run("pipewire", |_| ());
        Self::wait_for(&folder.join("pipewire-0"));
        server.run("wireplumber", |_| ());
        server.run("pipewire-pulse", |_| ());
        Self::wait_for(&server.socket);
        let begun = Instant::now();
        while !server.ask(&["load-module", "module-null-sink", "sink_name=hall", "rate=48000", "channels=2"])
        {
            assert!(begun.elapsed() < Duration::from_secs(20), "the server makes no loudspeakers");
            sleep(Duration::from_millis(50));
        }
        while !server.ask(&["set-default-sink", "hall"]) {
            assert!(begun.elapsed() < Duration::from_secs(20), "the loudspeakers do not come");
            sleep(Duration::from_millis(50));
        }
        server
    }

    /// Where `PulseAudio` listens, whether it runs or not.
    pub fn pulse_socket(folder: &Path) -> PathBuf {
        folder.join("bellpad-test.socket")
    }

    fn none(folder: &Path, socket: PathBuf) -> Self {
        std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o700)).unwrap();
        // One that was killed leaves its socket.
        let _ = std::fs::remove_file(&socket);
        Self { folder: folder.to_owned(), socket, children: Vec::new() }
    }

    /// A program that knows nothing of the machine's own servers.
    fn command(&self, program: &str) -> Command {
        let mut command = Command::new(program);
        for name in
            ["HOME", "XDG_RUNTIME_DIR", "PIPEWIRE_RUNTIME_DIR", "PULSE_RUNTIME_PATH", "PULSE_STATE_PATH"]
        {
            command.env(name, &self.folder);
        }
        command
            .env("DBUS_SESSION_BUS_ADDRESS", format!("unix:path={}", self.folder.join("bus").display()))
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        command
    }

    fn run(&mut self, program: &str, arguments: impl FnOnce(&mut Command)) {
        let mut command = self.command(program);
        arguments(&mut command);
        self.children.push(command.spawn().unwrap_or_else(|error| panic!("{program}: {error}")));
    }

    fn ask(&self, arguments: &[&str]) -> bool {
        let mut command = self.command("pactl");
        command.arg(format!("--server=unix:{}", self.socket.display())).args(arguments);
        command.status().expect("pactl is there").success()
    }

    fn wait_for(file: &Path) {
        let begun = Instant::now();
        while !file.exists() {
            assert!(begun.elapsed() < Duration::from_secs(20), "{} does not come", file.display());
            sleep(Duration::from_millis(20));
        }
    }

    /// Where it listens.
    pub fn socket(&self) -> &Path {
        &self.socket
    }

    /// Ends it at once.
    pub fn kill(self) {
        drop(self);
    }
}

impl Drop for SoundServer {
    fn drop(&mut self) {
        for child in self.children.iter_mut().rev() {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

/// What has come: samples, and how many there were at which time.
#[derive(Default)]
struct Came {
    samples: Vec<f32>,
    times: Vec<(f64, usize)>,
}

/// What the loudspeakers play, as it comes, with the time at which it came.
pub struct Recorder {
    child: Child,
    reader: Option<JoinHandle<()>>,
    came: Arc<Mutex<Came>>,
}

/// A recording: samples, and the time at which the first of them was heard.
pub struct Recording {
    pub samples: Vec<f64>,
    pub begun: f64,
}

impl Recorder {
    pub fn start(server: &SoundServer, epoch: Instant) -> Self {
        let mut child = Command::new("parec")
            .arg(format!("--server=unix:{}", server.socket().display()))
            .args(["--device=hall.monitor", "--format=float32le", "--rate=48000", "--channels=1"])
            .args(["--latency-msec=4", "--process-time-msec=2", "--raw"])
            .env("HOME", &server.folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("parec is there");
        let mut out = child.stdout.take().unwrap();
        let came: Arc<Mutex<Came>> = Arc::default();
        let keeps = Arc::clone(&came);
        let reader = std::thread::spawn(move || {
            let (mut buffer, mut rest) = (vec![0; 65_536], Vec::new());
            while let Ok(read) = out.read(&mut buffer) {
                if read == 0 {
                    return;
                }
                let at = epoch.elapsed().as_secs_f64();
                rest.extend_from_slice(&buffer[..read]);
                let whole = rest.len() / 4 * 4;
                let mut came = keeps.lock().unwrap();
                came.samples.extend(
                    rest[..whole].chunks_exact(4).map(|four| f32::from_le_bytes(four.try_into().unwrap())),
                );
                let samples = came.samples.len();
                came.times.push((at, samples));
                rest.drain(..whole);
            }
        });
        let recorder = Self { child, reader: Some(reader), came };
        let begun = Instant::now();
        while recorder.came.lock().unwrap().samples.is_empty() {
            assert!(begun.elapsed() < Duration::from_secs(20), "nothing is recorded");
            sleep(Duration::from_millis(20));
        }
        recorder
    }

    /// Ends it. What came latest after it was heard came late by the recorder's own doing: the soonest say when it was heard.
    pub fn end(mut self) -> Recording {
        let _ = self.child.kill();
        let _ = self.child.wait();
        self.reader.take().unwrap().join().unwrap();
        let Came { samples, times } = std::mem::take(&mut *self.came.lock().unwrap());
        let begun = times
            .iter()
            .skip(times.len() / 10)
            .map(|(at, samples)| at - *samples as f64 / RATE)
            .fold(f64::INFINITY, f64::min);
        Recording { samples: samples.into_iter().map(f64::from).collect(), begun }
    }
}

/// When something begins to sound, seconds from the first sample, and how loud it is.
pub type Onsets = Vec<(f64, f64)>;

impl Recording {
    /// When clicks begin, seconds from the first sample, and how loud they are. The notes are low and swell; a click is high and
    /// there at once, so that it stands out in how steps change from sample to sample.
    pub fn clicks(&self) -> Onsets {
        let sharp: Vec<f64> =
            self.samples.windows(3).map(|three| (three[2] - 2.0 * three[1] + three[0]).abs()).collect();
        let mut found = Onsets::new();
        let mut quiet = usize::MAX / 2;
        for (index, here) in sharp.iter().enumerate() {
            if *here < 0.006 {
                quiet += 1;
                continue;
            }
            if quiet > 4_800 {
                let after = &sharp[index..(index + 480).min(sharp.len())];
                found.push((index as f64 / RATE, after.iter().copied().fold(0.0, f64::max)));
            }
            quiet = 0;
        }
        found
    }

    /// How far the strongest swing near a frequency is from it between two seconds, cents.
    pub fn cents_off(&self, from: f64, to: f64, frequency: f64) -> f64 {
        let samples = &self.samples[(from * RATE) as usize..(to * RATE) as usize];
        let swing = |cents: f64| {
            let step = TAU * frequency * 2.0_f64.powf(cents / 1_200.0) / RATE;
            let (mut cos, mut sin) = (0.0, 0.0);
            for (index, sample) in samples.iter().enumerate() {
                let window = 0.5 - 0.5 * (TAU * index as f64 / samples.len() as f64).cos();
                cos += sample * window * (step * index as f64).cos();
                sin += sample * window * (step * index as f64).sin();
            }
            cos.hypot(sin)
        };
        let best = |cents: Vec<f64>| {
            let with: Vec<(f64, f64)> = cents.into_iter().map(|cents| (cents, swing(cents))).collect();
            with.into_iter().max_by(|one, other| one.1.total_cmp(&other.1)).unwrap().0
        };
        let near = best((-15..=15).map(|steps| f64::from(steps) * 4.0).collect());
        best((-8..=8).map(|steps| near + f64::from(steps) * 0.5).collect())
    }
}
