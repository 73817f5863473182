use super::worker::arguments;
use super::{names_in, small, within};
use bellpad::dance::Dance;
use bellpad::store::{Autosave, AutosaveThread, Home, open, open_with_stamp};
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;
use std::process::Command;
use std::time::Duration;

/// Mounts a disk of 128 KiB and one that is read-only, where only the worker sees them, and saves there.
#[cfg(target_os = "linux")]
#[test]
#[ignore = "it mounts a small disk: it needs unshare and the right to make a user namespace, or root"]
fn a_full_disk_and_a_read_only_disk_lose_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    for name in ["full", "read-only"] {
        fs::create_dir(folder.join(name)).unwrap();
    }
    let script = r#"mount -t tmpfs -o size=128k none "$1/full" &&
        mount -t tmpfs -o size=64k,ro none "$1/read-only" &&
        touch "$1/mounted" && shift && exec "$@""#;
    let mut said = Vec::new();
    for namespaces in [&["--user", "--map-root-user", "--mount"][..], &["--mount"]] {
        let ran = Command::new("unshare")
            .args(namespaces)
            .args(["sh", "-c", script, "sh"])
            .arg(folder)
            .arg(std::env::current_exe().unwrap())
            .args(arguments())
            .env("NEVER_LOST_JOB", "fill")
            .env("NEVER_LOST_FOLDER", folder)
            .output()
            .expect("unshare, of util-linux, is there");
        if folder.join("mounted").exists() {
            assert!(ran.status.success(), "{ran:?}");
            assert!(folder.join("done").exists(), "the worker did not work: {ran:?}");
            return;
        }
        said.push(String::from_utf8_lossy(&ran.stderr).into_owned());
    }
    panic!("no disk could be mounted: {said:?}");
}

/// A dance whose file has some 24 KiB.
fn large(number: u64) -> Dance {
    let mut dance = small(number);
    dance.notes = "All up to the music. ".repeat(1200);
    dance
}

/// The job on the full disk and on the read-only one.
pub fn loses_nothing(folder: &Path) {
    let full = folder.join("full");
    let (path, home) = (full.join("a.dance.json"), Home::at(&full.join("state")));
    home.save_checked(&path, &small(1), None).unwrap();
    let (_, stamp) = open_with_stamp(&path).unwrap();
    let autosave = Autosave::begin(&home, Some(&path), Some(&stamp)).unwrap();
    autosave.write(&small(2)).unwrap();

    // Full to the last byte, and full but for a part of what a save needs.
    for left in [0, 8 * 1024] {
        let filling = full.join("filling");
        fill(&filling, left);
        for dance in [large(3), large(4)] {
            let said = home.save_checked(&path, &dance, Some(&stamp)).unwrap_err().to_string();
            for words in ["a.dance.json", "the disk is full", "nothing was changed", "make room"] {
                assert!(said.contains(words), "{said}");
            }
            let said = autosave.write(&dance).unwrap_err().to_string();
            assert!(said.contains("the disk is full"), "{said}");
        }
        assert_eq!(open(&path).unwrap(), small(1));
        assert_eq!(names_in(&full), ["a.dance.json", "filling", "state"], "no temporary file is left");
        assert_eq!(names_in(&full.join("state").join("autosave")).len(), 2);
        // The file is on a disk with room, the state is not: saved, with a warning.
        let other = folder.join(format!("other-{left}.dance.json"));
        home.save_checked(&other, &large(5), None).unwrap();
        let saved = home.save_checked(&other, &small(6), None).unwrap();
        assert_eq!(open(&other).unwrap(), small(6));
        let said = saved.warning.unwrap().to_string();
        assert!(said.contains("was saved") && said.contains("the disk is full"), "{said}");
        assert!(home.backups(&other).is_empty());
        fs::remove_file(&filling).unwrap();
    }
    drop(autosave);
    let work = home.recover().pop().unwrap();
    assert_eq!(work.dance, small(2));
    work.discard().unwrap();
    // With room again all goes on.
    let saved = home.save_checked(&path, &small(3), Some(&stamp)).unwrap();
    assert!(saved.warning.is_none());
    assert_eq!(home.backups(&path)[0].open().unwrap(), small(1));

    // On a disk that is full when the window opens that is told at once, with no work to keep yet, and no longer once
    // there is room.
    let filling = full.join("filling");
    fill(&filling, 0);
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    let mut told = None;
    within(Duration::from_secs(2), "that the disk is full", || {
        told = thread.try_recv();
        told.is_some()
    });
    let said = told.take().unwrap().unwrap_err().to_string();
    assert!(said.contains("unsaved work cannot be kept here: the disk is full"), "{said}");
    fs::remove_file(&filling).unwrap();
    within(Duration::from_secs(5), "that there is room", || {
        told = thread.try_recv();
        told.is_some()
    });
    assert!(told.unwrap().is_ok());
    drop(thread);

    let said =
        bellpad::store::save(&folder.join("read-only/a.dance.json"), &small(1)).unwrap_err().to_string();
    assert!(said.contains("a.dance.json") && said.contains("the disk is read-only"), "{said}");
    assert!(said.contains("save on another disk"), "{said}");
    File::create(folder.join("done")).unwrap();
}

/// Fills a disk but for some bytes.
fn fill(filling: &Path, left: usize) {
    let mut file = File::create(filling).unwrap();
    let mut length = 0;
    let error = loop {
        match file.write(&[7; 1024]) {
            Ok(written) => length += written,
            Err(error) => break error,
        }
        assert!(length < 1024 * 1024, "the disk is not small");
    };
    assert_eq!(error.kind(), io::ErrorKind::StorageFull);
    file.set_len((length - left) as u64).unwrap();
}
