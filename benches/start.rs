//! How soon the window shows its first frame, and how much memory it then holds, beside a bare eframe window on the
//! same screen: with the sample, and with a dance of some ten megabytes, for which the time of reading it is told beside. It
//! needs a display (Xvfb serves); without one it says so and measures nothing.
//!
//! Each measurement is a fresh process: this program starts itself, and the child ends after its first frame.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::print_stdout)]

use bellpad::dance::{Dance, Dancer, Extra, Leg, Part, Set, Shape, Waypoint, read};
use bellpad::desk::{Ask, Desk, FileAsk};
use bellpad::figures::named_figure;
use bellpad::motion::Ground;
use bellpad::store::Recent;
use bellpad::window::{Window, display_is_there};
use criterion::{Criterion, criterion_group};
use eframe::{App, NativeOptions};
use egui::{Ui, ViewportBuilder, ViewportCommand};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// What the child is to open.
const WHICH: &str = "BELLPAD_BENCH_WINDOW";
/// The file that it opens, if any.
const FILE: &str = "BELLPAD_BENCH_FILE";
/// When the parent started it, microseconds since 1970.
const SINCE: &str = "BELLPAD_BENCH_SINCE";

/// A window that closes once its first frame is on the screen.
struct Once<A> {
    inner: A,
    first: Option<u64>,
    told: bool,
}

impl<A: App> App for Once<A> {
    fn ui(&mut self, ui: &mut Ui, frame: &mut eframe::Frame) {
        // By the second frame the first is on the screen. A frame can be gone through more than once.
        let number = ui.ctx().cumulative_frame_nr();
        if number > *self.first.get_or_insert(number) && !self.told {
            self.told = true;
            println!("{} {}", now() - std::env::var(SINCE).unwrap().parse::<u128>().unwrap(), held());
            ui.ctx().send_viewport_cmd(ViewportCommand::Close);
        }
        self.inner.ui(ui, frame);
        ui.ctx().request_repaint();
    }
}

/// Nothing at all.
struct Bare;

impl App for Bare {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        ui.label("bare");
    }
}

fn now() -> u128 {
    SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_micros()
}

/// Kilobytes in memory; nothing where the system does not say.
fn held() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    line.and_then(|line| line.trim().split(' ').next()?.parse().ok()).unwrap_or(0)
}

fn open(which: &str) {
    let viewport = ViewportBuilder::default().with_title("Bellpad bench").with_inner_size([1280.0, 800.0]);
    let options = NativeOptions { viewport, ..NativeOptions::default() };
    let make: eframe::AppCreator = if which == "bare" {
        Box::new(|_| Ok(Box::new(Once { inner: Bare, first: None, told: false })))
    } else {
        // As the program opens a file: faults are looked for beside the window.
        let mut desk = Desk::with_sample(Recent::default()).waking(|| {});
        if let Some(file) = std::env::var_os(FILE) {
            desk.apply(Ask::File(FileAsk::Open(file.into())));
            assert_eq!(desk.dance().title, LARGE);
        }
        Box::new(|_| Ok(Box::new(Once { inner: Window::new(desk, false), first: None, told: false })))
    };
    eframe::run_native("bellpad-bench", options, make).unwrap();
}

/// The title of the large dance.
const LARGE: &str = "A great many";

/// A dance of 400, each with a way of some hundreds of points.
fn large() -> Vec<u8> {
    let mut dance = Dance::new(LARGE, Set::longways(400, 2.4, 1.2));
    let mut figure = named_figure("cross-over", Extra::new(), &dance.set).unwrap();
    let ground = Ground::of(&dance.set);
    for dancer in Dancer::all(400) {
        let stand = *ground.stand(dancer.home()).unwrap();
        let mut leg = Leg::straight(0.0, 24.0, stand.x, stand.y);
        leg.shape = Shape::Smooth;
        leg.through = (1..300)
            .map(|point| {
                let angle = f64::from(point) * 0.126;
                let x = stand.x + 0.4 * angle.sin() + f64::from(point) * 1e-4;
                Waypoint::new(x, stand.y + 0.4 * (1.0 - angle.cos()))
            })
            .collect();
        let mut part = Part::still(dancer.home());
        part.legs.push(leg);
        figure.parts.push(part);
    }
    dance.figures.push(figure);
    bellpad::dance::write(&dance).unwrap().into_bytes()
}

/// Milliseconds to the first frame, and megabytes then held.
fn started(which: &str, file: Option<&Path>) -> (Duration, f64) {
    let mut command = Command::new(std::env::current_exe().unwrap());
    if let Some(file) = file {
        command.env(FILE, file);
    }
    let child = command.env(WHICH, which).env(SINCE, now().to_string()).output().unwrap();
    let said = String::from_utf8(child.stdout).unwrap();
    let mut numbers = said.split_whitespace().map(|number| number.parse::<u64>().unwrap());
    let micros = numbers.next().expect("the window opened");
    (Duration::from_micros(micros), numbers.next().unwrap_or(0) as f64 / 1024.0)
}

fn starts(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("start");
    group.sample_size(10).measurement_time(Duration::from_secs(8));
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("large.dance.json");
    let text = large();
    std::fs::write(&file, &text).unwrap();
    println!("the large dance: {:.1} MB", text.len() as f64 / 1e6);
    group.bench_function("the large dance read", |bencher| {
        bencher.iter(|| read(&text).unwrap().figures.len());
    });
    for (name, which, file) in
        [("bare", "bare", None), ("bellpad", "bellpad", None), ("the large dance", "bellpad", Some(&*file))]
    {
        let mut held = 0.0_f64;
        group.bench_function(format!("first frame, {name}"), |bencher| {
            bencher.iter_custom(|times| {
                (0..times)
                    .map(|_| {
                        let (taken, memory) = started(which, file);
                        held = held.max(memory);
                        taken
                    })
                    .sum()
            });
        });
        println!("memory, {name}: {held:.0} MB");
    }
    group.finish();
}

criterion_group!(benches, starts);

fn main() {
    if let Ok(which) = std::env::var(WHICH) {
        open(&which);
    } else if display_is_there() {
        benches();
    } else {
        println!("no display: the window's start is not measured");
    }
}
