use super::{names_in, small};
use bellpad::store::{Autosave, FileSince, Home, open_with_stamp, save};
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// Leaves work behind, as a window does that is killed, and gives the file that it is in.
fn leave(home: &Home, state: &Path, path: Option<&Path>, number: u64) -> PathBuf {
    let before = works(state);
    let autosave = Autosave::begin(home, path, None).unwrap();
    autosave.write(&small(number)).unwrap();
    drop(autosave);
    works(state).into_iter().find(|work| !before.contains(work)).unwrap()
}

fn works(state: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(state.join("autosave")) else { return Vec::new() };
    let paths = entries.map(|entry| entry.unwrap().path());
    paths.filter(|path| path.extension().is_some_and(|ending| ending == "work")).collect()
}

/// Changes the first line of a file of kept work.
fn with_header(work: &[u8], change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let end = work.iter().position(|&byte| byte == b'\n').unwrap();
    let mut header: Value = serde_json::from_slice(&work[..end]).unwrap();
    change(&mut header);
    [serde_json::to_vec(&header).unwrap(), work[end..].to_vec()].concat()
}

fn titles(home: &Home) -> Vec<String> {
    home.recover().into_iter().map(|work| work.dance.title).collect()
}

#[test]
fn work_is_offered_once_its_window_is_gone_and_to_one_window_only() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    assert!(home.recover().is_empty());
    let path = folder.path().join("a.dance.json");
    save(&path, &small(1)).unwrap();
    let (_, stamp) = open_with_stamp(&path).unwrap();
    let autosave = Autosave::begin(&home, Some(&path), Some(&stamp)).unwrap();
    assert!(works(&state).is_empty(), "nothing is written before there is work");
    autosave.write(&small(2)).unwrap();
    autosave.write(&small(3)).unwrap();
    assert!(home.recover().is_empty(), "its window lives");
    drop(autosave);
    let mut offered = home.recover();
    assert!(home.recover().is_empty(), "another window has it");
    let work = offered.pop().unwrap();
    assert!(offered.is_empty());
    assert_eq!((&work.dance, work.path.as_ref(), work.stamp), (&small(3), Some(&path), Some(stamp)));
    assert!(work.when.elapsed().unwrap().as_secs() < 60);
    assert_eq!(work.file_since(), FileSince::Same);
    save(&path, &small(9)).unwrap();
    assert_eq!(work.file_since(), FileSince::Changed);
    fs::remove_file(&path).unwrap();
    assert_eq!(work.file_since(), FileSince::Gone);
    // Put off, it is offered again; given up, it is not.
    drop(work);
    home.recover().pop().unwrap().discard().unwrap();
    assert!(home.recover().is_empty());
    assert!(names_in(&state.join("autosave")).is_empty(), "nothing is left lying about");
}

#[test]
fn work_that_is_saved_or_cleared_is_not_offered() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    let autosave = Autosave::begin(&home, None, None).unwrap();
    autosave.write(&small(1)).unwrap();
    autosave.clear().unwrap();
    autosave.clear().unwrap();
    drop(autosave);
    assert!(names_in(&state.join("autosave")).is_empty());
    // Killed after the save and before it was cleared: the file has it all.
    let path = folder.path().join("a.dance.json");
    leave(&home, &state, Some(&path), 2);
    save(&path, &small(2)).unwrap();
    assert!(home.recover().is_empty());
    assert!(names_in(&state.join("autosave")).is_empty());
    // A home that is nowhere keeps nothing and fails at nothing.
    let nowhere = Home::nowhere();
    let autosave = Autosave::begin(&nowhere, None, None).unwrap();
    autosave.write(&small(3)).unwrap();
    autosave.clear().unwrap();
    assert!(nowhere.is_nowhere() && nowhere.recover().is_empty());
}

#[test]
fn a_folder_cleared_away_is_made_again() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    let autosave = Autosave::begin(&home, None, None).unwrap();
    fs::remove_dir_all(&state).unwrap();
    autosave.write(&small(1)).unwrap();
    drop(autosave);
    assert_eq!(titles(&home), ["Small 1"]);
}

#[test]
fn the_newest_work_comes_first() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    for (number, seconds) in [(1, 300), (2, 100), (3, 200)] {
        let work = leave(&home, &state, None, number);
        let bytes = fs::read(&work).unwrap();
        let dated = with_header(&bytes, |header| {
            header["when"] = json!({"secs_since_epoch": 1_000_000_000 + seconds, "nanos_since_epoch": 0});
        });
        fs::write(&work, dated).unwrap();
    }
    assert_eq!(titles(&home), ["Small 1", "Small 3", "Small 2"]);
}

#[test]
fn torn_work_is_set_aside_at_whatever_byte_it_is_torn() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    let good = leave(&home, &state, None, 1);
    let bytes = fs::read(&good).unwrap();
    let kept = state.join("autosave");
    let torn = kept.join("torn.work");
    let mut tried = 0;
    let mut set_aside = |bytes: &[u8], what: &str| {
        fs::write(&torn, bytes).unwrap();
        assert_eq!(titles(&home), ["Small 1"], "{what}");
        assert_eq!(fs::read(kept.join("torn.torn")).unwrap(), bytes, "{what}");
        assert!(!torn.exists() && !kept.join("torn.lock").exists(), "{what}");
        fs::remove_file(kept.join("torn.torn")).unwrap();
        tried += 1;
    };
    let end = bytes.iter().position(|&byte| byte == b'\n').unwrap();
    for length in (0..bytes.len()).step_by(7).chain([end, end + 1, bytes.len() - 1]) {
        set_aside(&bytes[..length], &format!("cut to {length} bytes"));
    }
    for at in (end + 1..bytes.len()).step_by(11) {
        let mut changed = bytes.clone();
        changed[at] ^= 1;
        set_aside(&changed, &format!("byte {at} changed"));
    }
    set_aside(&[&bytes[..], b" "].concat(), "longer");
    set_aside(&[0; 4096], "zeros, as a disk leaves them");
    assert!(tried > 50, "{tried}");
}

#[test]
fn hostile_files_never_hide_good_work() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let home = Home::at(&state);
    let bytes = fs::read(leave(&home, &state, None, 1)).unwrap();
    let kept = state.join("autosave");
    let put = |name: &str, bytes: &[u8]| fs::write(kept.join(name), bytes).unwrap();
    // A later version's, and a dance that only a later version can read: left as they are.
    put("a.work", &with_header(&bytes, |header| header["bellpad_work"] = json!(2)));
    // Not what it says it is.
    put("b.work", b"\xff\xfe\x00");
    put("c.work", "[".repeat(100_000).as_bytes());
    put("d.work", b"{\"bellpad_work\": 1}\n");
    put("e.work", b"{\"bellpad_work\": -1}\n{}");
    put("f.work", &with_header(&bytes, |header| header["length"] = json!(u64::MAX)));
    put("g.work", &with_header(&bytes, |header| header["path"] = json!({"no": "path"})));
    for (name, seconds) in [("h.work", json!(u64::MAX)), ("i.work", json!(-1))] {
        let when = json!({"secs_since_epoch": seconds, "nanos_since_epoch": 4_000_000_000_u32});
        put(name, &with_header(&bytes, |header| header["when"] = when));
    }
    fs::File::create(kept.join("j.work")).unwrap().set_len(80 * 1024 * 1024).unwrap();
    // Odd neighbours.
    fs::create_dir(kept.join("k.work")).unwrap();
    fs::create_dir(kept.join("l.lock")).unwrap();
    put("l.work", &bytes);
    put(".work", &bytes);
    put("m.lock", b"");
    put("two.dots.work", &with_header(&bytes, |header| header["path"] = json!("/nowhere/\u{0}")));
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("/dev/zero", kept.join("n.work")).unwrap();
        // A file that never ends: looking whether it has the work already must not read it.
        put("o.work", &with_header(&bytes, |header| header["path"] = json!("/dev/zero")));
    }
    let work = home.recover();
    let wanted = if cfg!(unix) { 3 } else { 2 };
    assert_eq!(work.len(), wanted, "{work:?}");
    assert!(work.iter().all(|work| work.dance == small(1)));
    let gone = work.iter().filter(|work| work.file_since() == FileSince::Gone).count();
    assert_eq!(gone, wanted - 1);
    drop(work);
    for name in ["b", "c", "d", "e", "f", "g", "h", "i", "j"] {
        assert!(kept.join(name).with_extension("torn").exists(), "{name}");
    }
    for name in ["a.work", "k.work", "l.work", "two.dots.work"] {
        assert!(kept.join(name).exists(), "{name}");
    }
    assert!(!kept.join("m.lock").exists());
    assert_eq!(home.recover().len(), wanted);
}
