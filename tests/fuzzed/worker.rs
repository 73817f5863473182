//! A process of its own that tries inputs: what panics, takes too long or too much memory ends it or is written down, and nothing else.

use crate::draws::Draws;
use crate::targets::{TARGETS, Target};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// How many numbers an input is made of at most.
const NUMBERS: usize = 3000;
/// Memory that a try may take in all, KiB: 1 GiB of addresses, the program and its threads included.
const MEMORY: u64 = 1024 * 1024;
/// An input that takes so much time of the processor, seconds, is given up.
const GIVEN_UP: u64 = 40;

/// What a worker is to do: its target, the folder in which it keeps its accounts, and which inputs.
pub struct Order<'a> {
    pub target: &'a str,
    pub folder: &'a Path,
    /// The first seed, and how many; or one file.
    pub inputs: Inputs<'a>,
    /// When to stop, whatever there is still to do.
    pub until: Duration,
}

pub enum Inputs<'a> {
    Seeds(u64, u64),
    File(&'a Path),
}

/// What came of it.
#[derive(Debug, Default)]
pub struct Account {
    /// How many were tried, the one that ended it included.
    pub tried: u64,
    /// What failed: the input, and why.
    pub failed: Vec<(String, String)>,
    /// The longest that each part of the work took, milliseconds of the processor, and of which seed.
    pub worst: BTreeMap<String, (u64, u64)>,
    /// The most memory, KiB.
    pub memory: u64,
    /// The seed after the last.
    pub next: u64,
}

/// Time of the processor that this process has taken, milliseconds.
fn spent() -> u64 {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ProcessCPUTime);
    time.tv_sec as u64 * 1000 + time.tv_nsec as u64 / 1_000_000
}

thread_local! {
    static WHY: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Runs a worker whose inputs may take any time, up to [`GIVEN_UP`].
pub fn run(order: &Order) -> Account {
    run_with(order, "")
}

/// Runs a worker and reads its account. It is this program, asked for the one test that is the worker. Parts of the work that take
/// longer than so many milliseconds are failures.
pub fn run_with(order: &Order, limit: &str) -> Account {
    let _ = fs::remove_file(order.folder.join("account"));
    let _ = fs::remove_file(order.folder.join("now"));
    let inputs = match order.inputs {
        Inputs::Seeds(first, many) => format!("{first} {many}"),
        Inputs::File(path) => path.display().to_string(),
    };
    let ended = Command::new("sh")
        .args(["-c", &format!("ulimit -v {MEMORY}; ulimit -c 0; exec \"$0\" \"$@\"")])
        .arg(std::env::current_exe().unwrap())
        .args(["--exact", "a_worker", "--ignored", "--nocapture", "--test-threads=1"])
        .env("BELLPAD_FUZZ", order.target)
        .env("BELLPAD_FUZZ_FOLDER", order.folder)
        .env("BELLPAD_FUZZ_INPUTS", inputs)
        .env("BELLPAD_FUZZ_LIMIT", limit)
        .env("BELLPAD_FUZZ_SECONDS", order.until.as_secs().to_string())
        .env("HOME", order.folder)
        .env("RAYON_NUM_THREADS", "2")
        .env("RUST_BACKTRACE", "0")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .unwrap();
    let mut account = Account::default();
    let text = fs::read_to_string(order.folder.join("account")).unwrap_or_default();
    for line in text.lines() {
        let value: Value = serde_json::from_str(line).unwrap();
        account.tried = value["tried"].as_u64().unwrap_or(account.tried);
        account.next = value["next"].as_u64().unwrap_or(account.next);
        account.memory = value["memory"].as_u64().unwrap_or(account.memory);
        if let Some(input) = value["input"].as_str() {
            account.failed.push((input.to_owned(), value["why"].as_str().unwrap_or_default().to_owned()));
        }
        for (part, took) in value["worst"].as_object().into_iter().flatten() {
            account.worst.insert(part.clone(), (took[0].as_u64().unwrap(), took[1].as_u64().unwrap()));
        }
    }
    if !ended.success() {
        let now = fs::read_to_string(order.folder.join("now")).unwrap_or_default();
        let (seed, input) = now.split_once('\n').unwrap_or(("0", ""));
        let why =
            fs::read_to_string(order.folder.join("why")).unwrap_or_else(|_| format!("it ended with {ended}"));
        let _ = fs::remove_file(order.folder.join("why"));
        account.failed.push((input.to_owned(), why));
        let seed: u64 = seed.parse().unwrap_or_default();
        if let Inputs::Seeds(first, _) = order.inputs {
            (account.next, account.tried) = (seed + 1, seed + 1 - first);
        }
    }
    account
}

/// The worker itself, in its own process.
pub fn work() {
    let Ok(name) = std::env::var("BELLPAD_FUZZ") else { return };
    let folder = PathBuf::from(std::env::var_os("BELLPAD_FUZZ_FOLDER").unwrap());
    let inputs = std::env::var("BELLPAD_FUZZ_INPUTS").unwrap();
    let seconds: u64 = std::env::var("BELLPAD_FUZZ_SECONDS").unwrap().parse().unwrap();
    let limit: u64 =
        std::env::var("BELLPAD_FUZZ_LIMIT").ok().and_then(|limit| limit.parse().ok()).unwrap_or(u64::MAX);
    let target = TARGETS.iter().find(|target| target.name == name).unwrap();
    std::panic::set_hook(Box::new(|info| WHY.with_borrow_mut(|why| *why = info.to_string())));
    static BEGAN: AtomicU64 = AtomicU64::new(u64::MAX);
    let own = folder.clone();
    std::thread::spawn(move || {
        loop {
            std::thread::sleep(Duration::from_millis(500));
            let began = BEGAN.load(Ordering::Relaxed);
            if began != u64::MAX && spent() > began + GIVEN_UP * 1000 {
                let _ = fs::write(own.join("why"), format!("over {GIVEN_UP} s of the processor"));
                std::process::exit(99);
            }
        }
    });
    let begun = Instant::now();
    let mut account = String::new();
    let mut worst: BTreeMap<&'static str, (u64, u64)> = BTreeMap::new();
    let seeds: (u64, u64) = match inputs
        .split_once(' ')
        .and_then(|(first, many)| Some((first.parse::<u64>().ok()?, many.parse::<u64>().ok()?)))
    {
        Some((first, many)) => (first, many),
        None => (0, 1),
    };
    let (first, many) = seeds;
    let seeds = first..first.saturating_add(many);
    for seed in seeds {
        let made = match inputs.split_once(' ').filter(|(first, _)| first.parse::<u64>().is_ok()) {
            Some(_) => catch_unwind(|| (target.make)(&mut Draws::seeded(seed, NUMBERS))),
            None => Ok(fs::read_to_string(&inputs).unwrap()),
        };
        let Ok(input) = made else {
            let why = WHY.with_borrow(String::clone);
            account += &format!(
                "{}\n",
                json!({"input": format!("seed {seed}"), "why": format!("making it: {why}")})
            );
            continue;
        };
        fs::write(folder.join("now"), format!("{seed}\n{input}")).unwrap();
        if let Some(why) = try_one(target, &input, seed, &mut worst, (&BEGAN, limit)) {
            account += &format!("{}\n", json!({"input": input, "why": why}));
        }
        let so_far = json!({"tried": seed + 1 - first, "next": seed + 1, "memory": memory(), "worst": worst});
        fs::write(folder.join("account"), format!("{account}{so_far}\n")).unwrap();
        if begun.elapsed().as_secs() >= seconds {
            return;
        }
    }
}

/// Why it failed, if it did.
fn try_one(
    target: &Target,
    input: &str,
    seed: u64,
    worst: &mut BTreeMap<&'static str, (u64, u64)>,
    (began, limit): (&AtomicU64, u64),
) -> Option<String> {
    let mut last = spent();
    began.store(last, Ordering::Relaxed);
    let mut slow = None;
    let tried = catch_unwind(AssertUnwindSafe(|| {
        (target.run)(input, &mut |part| {
            let now = spent();
            let took = now - last;
            if worst.get(part).is_none_or(|(most, _)| took > *most) {
                worst.insert(part, (took, seed));
            }
            if took > limit {
                slow = Some(format!("{part} took {took} ms of the processor"));
            }
            last = spent();
        });
    }));
    began.store(u64::MAX, Ordering::Relaxed);
    match tried {
        Err(_) => Some(WHY.with_borrow(String::clone)),
        Ok(()) => slow,
    }
}

/// The most memory that this process has had, KiB.
fn memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|line| line.trim().trim_end_matches(" kB").parse().ok()).unwrap_or_default()
}
