use super::worker::Doomed;
use super::{number_of, numbered};
use bellpad::store::{Autosave, AutosaveThread, Home, open, open_with_stamp};
use std::fs::{self, File, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::sleep;
use std::time::{Duration, Instant, SystemTime};

const KILLS: u32 = 40;
const SAVES: usize = 500;

fn file(folder: &Path) -> PathBuf {
    folder.join("work").join("killed.dance.json")
}

fn home(folder: &Path) -> Home {
    Home::at(&folder.join("state"))
}

fn log(folder: &Path) -> File {
    OpenOptions::new().create(true).append(true).open(folder.join("log")).unwrap()
}

fn now() -> u64 {
    SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap().as_millis() as u64
}

/// The whole lines of the log: a word, a number and a time in milliseconds.
fn lines(folder: &Path) -> Vec<(String, u64, u64)> {
    let text = fs::read_to_string(folder.join("log")).unwrap_or_default();
    let whole = text.rfind('\n').map_or("", |end| &text[..end]);
    let line = |line: &str| {
        let mut parts = line.split(' ');
        let mut next = || parts.next().unwrap();
        (next().to_owned(), next().parse().unwrap(), next().parse().unwrap())
    };
    whole.lines().map(line).collect()
}

fn last(lines: &[(String, u64, u64)], word: &str) -> u64 {
    lines.iter().rev().find(|line| line.0 == word).map_or(0, |line| line.1)
}

/// The job that is killed: keeps, saves and clears one version after another, and says what is done.
pub fn save_without_end(folder: &Path, most: u64) {
    let (file, home, mut log) = (file(folder), home(folder), log(folder));
    fs::create_dir_all(file.parent().unwrap()).unwrap();
    let mut stamp = file.exists().then(|| open_with_stamp(&file).unwrap().1);
    let mut autosave = Autosave::begin(&home, Some(&file), stamp.as_ref()).unwrap();
    let first = 1 + last(&lines(folder), "kept");
    for number in (first..).take(usize::try_from(most).unwrap_or(usize::MAX)) {
        let dance = numbered(number);
        autosave.write(&dance).unwrap();
        log.write_all(format!("kept {number} {}\n", now()).as_bytes()).unwrap();
        let saved = home.save_checked(&file, &dance, stamp.as_ref()).unwrap();
        assert!(saved.warning.is_none(), "{saved:?}");
        log.write_all(format!("saved {number} {}\n", now()).as_bytes()).unwrap();
        stamp = Some(saved.stamp);
        autosave.set_file(Some(&file), stamp.as_ref());
        if number % 2 == 0 {
            autosave.clear().unwrap();
        }
    }
}

/// The job that is killed: hands over one version after another, faster than they are written.
pub fn hand_without_end(folder: &Path) {
    let mut log = log(folder);
    let autosave = AutosaveThread::begin(&home(folder), Some(&file(folder)), None).unwrap();
    for number in 1.. {
        autosave.hand(Arc::new(numbered(number)));
        log.write_all(format!("handed {number} {}\n", now()).as_bytes()).unwrap();
        if let Some(Err(error)) = autosave.try_recv() {
            panic!("{error}");
        }
        sleep(Duration::from_millis(10));
    }
}

/// Numbers that look like chance, from the time of day.
struct Chance(u64);

impl Chance {
    fn new() -> Self {
        let seed = now();
        println!("chance begins with {seed}");
        Self(seed)
    }

    fn below(&mut self, end: u64) -> u64 {
        // The constants are D. E. Knuth's for MMIX, from memory; only that the numbers are spread matters.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }
}

#[test]
fn a_kill_at_any_moment_leaves_the_old_version_or_the_new() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let (file, home) = (file(folder), home(folder));
    let mut chance = Chance::new();
    let (mut kills, mut saves, mut torn_off, mut recovered, mut looks) = (0, 0, 0, 0, 0);
    // The version that is in the file for sure.
    let mut old = 0;
    // The last version that was found after a kill and thrown away.
    let mut thrown_away = 0;
    while kills < KILLS || saves < SAVES {
        assert!(kills < 20 * KILLS, "{saves} saves after {kills} kills");
        let mut child = Doomed::start("save", folder);
        // Until the kill others read the file, and it is whole at every moment for them too.
        let moment = Instant::now() + Duration::from_millis(10 + chance.below(350));
        while Instant::now() < moment {
            if file.exists() {
                number_of(&open(&file).unwrap());
                looks += 1;
            }
            sleep(Duration::from_micros(chance.below(2_000)));
        }
        child.kill();
        kills += 1;

        let lines = lines(folder);
        saves = lines.iter().filter(|line| line.0 == "saved").count();
        let (kept, saved) = (last(&lines, "kept"), last(&lines, "saved"));
        // A save may have been made and the process killed before it said so.
        old = old.max(saved);
        let mut newest = 0;
        if file.exists() {
            newest = number_of(&open(&file).unwrap());
            assert!(newest == old || newest == kept, "{newest} in the file, {old} before, {kept} kept");
        } else {
            assert_eq!(old, 0);
        }
        torn_off += u32::from(kept != saved);
        old = newest;
        let work = home.recover();
        assert!(work.len() <= 1, "{work:?}");
        for work in work {
            let number = number_of(&work.dance);
            assert!(number == kept || number == kept + 1, "{number} recovered, {kept} kept");
            assert_eq!(work.path.as_deref(), Some(&*file));
            recovered += 1;
            newest = newest.max(number);
            thrown_away = number;
            work.discard().unwrap();
        }
        // On a busy machine a worker can be killed before it has kept anything of its own.
        assert!(
            newest >= kept || kept <= thrown_away,
            "{newest} is the newest there is, but {kept} was kept"
        );
        for backup in home.backups(&file) {
            number_of(&backup.open().unwrap());
        }
    }
    // The temporary files of those who were killed go when they are old.
    let work = file.parent().unwrap();
    for entry in fs::read_dir(work).unwrap().flatten().filter(|entry| entry.path() != file) {
        assert_eq!(entry.path().extension().unwrap(), "part");
        let old = SystemTime::now() - Duration::from_hours(2);
        OpenOptions::new().write(true).open(entry.path()).unwrap().set_modified(old).unwrap();
    }
    let left = super::names_in(work).len() - 1;
    save_without_end(folder, 1);
    assert_eq!(super::names_in(work), ["killed.dance.json"]);
    println!(
        "{kills} kills, {saves} saves, {torn_off} cut short, {recovered} recovered, {left} left over, {looks} looks"
    );
    assert!(torn_off > 0, "no kill fell between keeping and saving: nothing was tested");
}

#[test]
fn what_was_handed_over_two_seconds_before_a_kill_is_recovered() {
    let mut chance = Chance::new();
    let mut children: Vec<_> = (0..4)
        .map(|_| {
            let folder = tempfile::tempdir().unwrap();
            let child = Doomed::start("hand", folder.path());
            (folder, child)
        })
        .collect();
    sleep(Duration::from_millis(2_500));
    for (folder, child) in &mut children {
        sleep(Duration::from_millis(100 + chance.below(400)));
        let home = home(folder.path());
        let kept = super::names_in(&folder.path().join("state").join("autosave"));
        assert!(kept.iter().any(|name| name.contains(".work")), "{kept:?}");
        let offered = home.recover();
        assert!(offered.is_empty(), "a living window's work was offered: {offered:?}");
        let killed = now();
        child.kill();

        let work = home.recover().pop().expect("there is work to recover");
        let number = number_of(&work.dance);
        let lines = lines(folder.path());
        let due = lines.iter().filter(|line| line.2 + 2_000 <= killed).map(|line| line.1).max().unwrap();
        let age = lines.iter().find(|line| line.1 == number).map(|line| killed.saturating_sub(line.2));
        println!("recovered version {number}, {age:?} ms old; {due} was due");
        assert!(number >= due, "recovered version {number}, but {due} was 2 s old");
    }
}
