use super::worker::{worker, worker_of};
use super::{names_in, small};
use bellpad::store::{Home, StoreError, open, open_with_stamp, save, write_whole};
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// Checks that a save was refused in one line with all of these words in it.
#[track_caller]
fn assert_says(refused: Result<(), StoreError>, words: &[&str]) {
    let said = refused.expect_err("the save is refused").to_string();
    assert!(!said.contains(['\n', '\r']), "{said:?}");
    for word in words {
        assert!(said.contains(word), "{said:?} lacks {word:?}");
    }
}

#[test]
fn a_folder_that_cannot_be_written_in_is_named_and_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let gone = folder.path().join("gone").join("a.dance.json");
    let words = ["gone", "a.dance.json", "no such file or folder", "nothing was changed", "make the folder"];
    assert_says(save(&gone, &small(1)), &words);
    let parent = folder.path().join("file");
    fs::write(&parent, "text").unwrap();
    let under = parent.join("a.dance.json");
    assert_says(save(&under, &small(1)), &["a.dance.json", "is a file, not a folder", "save elsewhere"]);
    assert_says(save(folder.path(), &small(1)), &["it is a folder", "choose another name"]);
    let long = folder.path().join("n".repeat(256));
    assert_says(save(&long, &small(1)), &["does not take such a name", "choose another name"]);
    let with_lines = folder.path().join("gone").join("two\nlines");
    assert_says(save(&with_lines, &small(1)), &["two\\nlines"]);
    assert_eq!(names_in(folder.path()), ["file"]);
    assert_eq!(fs::read_to_string(&parent).unwrap(), "text");

    // The folder goes away between opening and saving.
    let inside = folder.path().join("inside");
    fs::create_dir(&inside).unwrap();
    let path = inside.join("a.dance.json");
    save(&path, &small(1)).unwrap();
    let (_, stamp) = open_with_stamp(&path).unwrap();
    fs::remove_dir_all(&inside).unwrap();
    let refused = Home::nowhere().save_checked(&path, &small(2), Some(&stamp)).map(|_| ());
    assert_says(refused, &["a.dance.json", "no such file or folder"]);
}

#[test]
fn what_could_not_be_opened_again_is_not_saved() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.dance.json");
    save(&path, &small(1)).unwrap();
    let mut wrong = small(2);
    wrong.set.across = f64::NAN;
    assert_says(save(&path, &wrong), &["a.dance.json", "could not be opened again", "across"]);
    assert_eq!(open(&path).unwrap(), small(1));
    assert_eq!(names_in(folder.path()), ["a.dance.json"]);
}

/// `/dev/full` is Linux's own full disk: every write to it fails with ENOSPC (full(4), Linux man-pages).
#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_said_and_left_as_it_is() {
    use std::os::unix::fs::FileTypeExt;
    assert_says(
        write_whole(Path::new("/dev/full"), b"text"),
        &["/dev/full", "the disk is full", "make room"],
    );
    assert!(fs::metadata("/dev/full").unwrap().file_type().is_char_device());
    write_whole(Path::new("/dev/null"), b"text").unwrap();
    assert!(fs::metadata("/dev/null").unwrap().file_type().is_char_device());
    let folder = tempfile::tempdir().unwrap();
    let link = folder.path().join("link.dance.json");
    std::os::unix::fs::symlink("/dev/full", &link).unwrap();
    let refused = Home::at(&folder.path().join("state")).save_checked(&link, &small(1), None);
    assert_says(refused.map(|_| ()), &["link.dance.json", "the disk is full"]);
}

#[test]
fn what_someone_else_changed_is_not_overwritten_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.dance.json");
    let home = Home::at(&folder.path().join("state"));
    let stamp = home.save_checked(&path, &small(1), None).unwrap().stamp;
    assert_eq!(open_with_stamp(&path).unwrap().1, stamp);
    assert_eq!(fs::metadata(&path).unwrap().modified().ok(), stamp.modified());
    assert_eq!(fs::metadata(&path).unwrap().len(), stamp.length());

    // Touched, and written again with the same text: nothing changed.
    let text = fs::read(&path).unwrap();
    let later = SystemTime::now() + Duration::from_secs(90);
    File::options().write(true).open(&path).unwrap().set_modified(later).unwrap();
    let stamp = home.save_checked(&path, &small(2), Some(&stamp)).unwrap().stamp;
    let now = fs::read(&path).unwrap();
    fs::remove_file(&path).unwrap();
    fs::write(&path, &now).unwrap();
    let stamp = home.save_checked(&path, &small(3), Some(&stamp)).unwrap().stamp;

    // Another text of the same length, with the same time.
    let time = fs::metadata(&path).unwrap().modified().unwrap();
    let mut file = File::options().write(true).truncate(true).open(&path).unwrap();
    file.write_all(&text).unwrap();
    file.set_modified(time).unwrap();
    assert_eq!((fs::metadata(&path).unwrap().len(), text.len()), (stamp.length(), text.len()));
    let before = home.backups(&path);
    let refused = home.save_checked(&path, &small(4), Some(&stamp));
    assert!(matches!(refused, Err(StoreError::ChangedOutside { gone: false, .. })), "{refused:?}");
    assert_says(refused.map(|_| ()), &["a.dance.json", "was changed by another program", "another name"]);
    assert_eq!(fs::read(&path).unwrap(), text);
    assert_eq!(home.backups(&path), before, "nothing was replaced, so nothing was kept");

    // The user says to go on; what the other wrote is kept.
    let stamp = home.save_checked(&path, &small(4), None).unwrap().stamp;
    assert_eq!(home.backups(&path)[0].open().unwrap(), small(1));

    fs::remove_file(&path).unwrap();
    let refused = home.save_checked(&path, &small(5), Some(&stamp));
    assert!(matches!(refused, Err(StoreError::ChangedOutside { gone: true, .. })), "{refused:?}");
    assert!(!path.exists());
    fs::create_dir(&path).unwrap();
    assert_says(home.save_checked(&path, &small(5), Some(&stamp)).map(|_| ()), &["it is a folder"]);
    assert_eq!(names_in(folder.path()), ["a.dance.json", "state"]);
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_kept() {
    use std::os::unix::fs::symlink;
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("real")).unwrap();
    save(&at("real/a.dance.json"), &small(1)).unwrap();
    // A link to a link, both relative; and one to a file that is not there yet.
    symlink("real/a.dance.json", at("one")).unwrap();
    symlink("one", at("two")).unwrap();
    symlink("real/new.dance.json", at("new")).unwrap();
    symlink("loop", at("loop")).unwrap();
    let home = Home::at(&at("state"));
    let (dance, stamp) = open_with_stamp(&at("two")).unwrap();
    assert_eq!(dance, small(1));
    home.save_checked(&at("two"), &small(2), Some(&stamp)).unwrap();
    home.save_checked(&at("new"), &small(3), None).unwrap();
    assert_eq!(open(&at("real/a.dance.json")).unwrap(), small(2));
    assert_eq!(open(&at("real/new.dance.json")).unwrap(), small(3));
    let refused = save(&at("loop"), &small(4));
    assert_says(refused, &["loop", "cannot be saved"]);
    for link in ["one", "two", "new", "loop"] {
        assert!(at(link).symlink_metadata().unwrap().is_symlink(), "{link} is a link still");
    }
    // Backups are of the file, however it is reached.
    assert_eq!(home.backups(&at("real/a.dance.json")).len(), 1);
    assert_eq!(home.backups(&at("one")), home.backups(&at("real/a.dance.json")));
    assert_eq!(names_in(&at("real")), ["a.dance.json", "new.dance.json"]);
}

#[cfg(unix)]
#[test]
fn permissions_are_kept() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.dance.json");
    let mode = |path: &Path| fs::metadata(path).unwrap().mode() & 0o7777;
    // A new file is as readable as any other that this user makes.
    let plain = folder.path().join("plain");
    File::create(&plain).unwrap();
    save(&path, &small(1)).unwrap();
    assert_eq!(mode(&path), mode(&plain));
    let home = Home::at(&folder.path().join("state"));
    for wanted in [0o640, 0o600, 0o664, 0o755] {
        fs::set_permissions(&path, fs::Permissions::from_mode(wanted)).unwrap();
        home.save_checked(&path, &small(u64::from(wanted)), None).unwrap();
        assert_eq!(mode(&path), wanted, "{wanted:o}");
    }
    // Names of people are in these files: what is kept of them only the user may read.
    assert_eq!(mode(&folder.path().join("state")), 0o700);
    assert!(home.backups(&path).iter().all(|backup| mode(backup.path()) == 0o600));
    // As root, the owner is kept as well.
    if fs::metadata(&path).unwrap().uid() == 0 {
        std::os::unix::fs::chown(&path, Some(65_534), Some(65_534)).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o660)).unwrap();
        save(&path, &small(2)).unwrap();
        let now = fs::metadata(&path).unwrap();
        assert_eq!((now.uid(), now.gid(), now.mode() & 0o7777), (65_534, 65_534, 0o660));
    } else {
        println!("not root: that the owner is kept was not looked at");
    }
    // A file that may not be written is not replaced either, also for root.
    fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
    let before = fs::read(&path).unwrap();
    assert_says(save(&path, &small(3)), &["a.dance.json", "permission was denied"]);
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(names_in(folder.path()), ["a.dance.json", "plain", "state"]);
}

/// Root may write anywhere, so root does this as nobody.
#[cfg(unix)]
#[test]
fn a_read_only_folder_or_file_is_left_as_it_is() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    use std::os::unix::process::CommandExt;
    let folder = tempfile::tempdir().unwrap();
    if fs::metadata(folder.path()).unwrap().uid() != 0 {
        are_refused_without_permission(folder.path());
        return;
    }
    println!("root: the checks are made as nobody");
    let binary = folder.path().join("never_lost");
    fs::copy(std::env::current_exe().unwrap(), &binary).unwrap();
    let place = folder.path().join("place");
    fs::create_dir(&place).unwrap();
    // A file of someone else's, in a folder where it could be replaced.
    let others = place.join("others.dance.json");
    save(&others, &small(1)).unwrap();
    for path in [folder.path(), &binary, &others] {
        fs::set_permissions(path, fs::Permissions::from_mode(if path == others { 0o644 } else { 0o755 }))
            .unwrap();
    }
    chown(&place, Some(65_534), Some(65_534)).unwrap();
    let ran = worker_of(&binary, "refuse", &place).uid(65_534).gid(65_534).output().unwrap();
    assert!(ran.status.success(), "{ran:?}");
    assert!(place.join("done").exists(), "{ran:?}");
}

/// What a user without permission meets; the folder is theirs.
pub fn are_refused_without_permission(folder: &Path) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let allow = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
        let inside = folder.join("read-only");
        fs::create_dir(&inside).unwrap();
        let path = inside.join("a.dance.json");
        save(&path, &small(1)).unwrap();
        let (_, stamp) = open_with_stamp(&path).unwrap();
        allow(&inside, 0o555);
        assert!(
            File::create(inside.join("probe")).is_err(),
            "the system lets this user write: nothing is tested"
        );
        let home = Home::at(&folder.join("state"));
        let words = ["a.dance.json", "its folder is read-only for you", "in another folder"];
        assert_says(home.save_checked(&path, &small(2), Some(&stamp)).map(|_| ()), &words);
        assert_says(
            save(&inside.join("new.dance.json"), &small(2)),
            &["new.dance.json", "read-only for you"],
        );
        assert_eq!(open(&path).unwrap(), small(1));
        assert_eq!(names_in(&inside), ["a.dance.json"]);
        assert!(home.backups(&path).is_empty());
        // A state folder that cannot be made: the save is made and the warning names the trouble.
        let inner = Home::at(&inside.join("state"));
        let free = folder.join("free.dance.json");
        inner.save_checked(&free, &small(1), None).unwrap();
        let saved = inner.save_checked(&free, &small(2), None).unwrap();
        assert_eq!(open(&free).unwrap(), small(2));
        let said = saved.warning.unwrap().to_string();
        assert!(said.contains("was saved") && said.contains("permission was denied"), "{said}");
        allow(&inside, 0o755);
        // A file that may be written but not read is saved without a backup.
        allow(&free, 0o200);
        let saved = home.save_checked(&free, &small(3), None).unwrap();
        assert!(saved.warning.unwrap().to_string().contains("permission was denied"));
        allow(&free, 0o600);
        assert_eq!(open(&free).unwrap(), small(3));
        // Someone else's file.
        let others = folder.join("others.dance.json");
        if others.exists() {
            assert_says(save(&others, &small(2)), &["others.dance.json", "permission was denied"]);
            assert_eq!(open(&others).unwrap(), small(1));
        }
        File::create(folder.join("done")).unwrap();
    }
}

#[test]
fn names_with_odd_characters_work() {
    let folder = tempfile::tempdir().unwrap();
    let mut names: Vec<PathBuf> =
        ["with space", "-dash", "it's 6 o’clock", "ŵythnos 🔔", ".hidden", "dots..."]
            .map(PathBuf::from)
            .to_vec();
    #[cfg(unix)]
    names.extend(["\"quoted\"", "two\nlines", "tab\tbell\u{7}", "back\\slash", "*?<>|:"].map(PathBuf::from));
    #[cfg(unix)]
    names.push("n".repeat(255).into());
    #[cfg(target_os = "linux")]
    {
        use std::os::unix::ffi::OsStringExt;
        names.push(std::ffi::OsString::from_vec(vec![b'a', 0xff, 0xfe, b'.', b'j']).into());
    }
    let (work, home) = (folder.path().join("work"), Home::at(&folder.path().join("state")));
    fs::create_dir(&work).unwrap();
    for (number, name) in (1..).zip(&names) {
        let path = work.join(name);
        let stamp = home.save_checked(&path, &small(number), None).unwrap().stamp;
        let saved = home.save_checked(&path, &small(number + 100), Some(&stamp)).unwrap();
        assert!(saved.warning.is_none(), "{name:?}: {saved:?}");
        assert_eq!(open(&path).unwrap(), small(number + 100), "{name:?}");
        let backups = home.backups(&path);
        assert_eq!(backups.len(), 1, "{name:?}");
        assert_eq!(backups[0].open().unwrap(), small(number), "{name:?}");
        // Unsaved work keeps the name exactly.
        let autosave = bellpad::store::Autosave::begin(&home, Some(&path), Some(&saved.stamp)).unwrap();
        autosave.write(&small(number + 200)).unwrap();
        drop(autosave);
        let found = home.recover().pop().unwrap();
        assert_eq!((found.path.as_ref(), &found.dance), (Some(&path), &small(number + 200)));
        found.discard().unwrap();
        let mut recent = bellpad::store::Recent::kept_in(&folder.path().join("recent.json"));
        recent.add(&path);
        assert_eq!(bellpad::store::Recent::kept_in(&folder.path().join("recent.json")).files[0], path);
    }
    assert_eq!(names_in(&work).len(), names.len());
}

/// `XDG_STATE_HOME` as in the XDG Base Directory Specification 0.8, section 3.
#[cfg(target_os = "linux")]
#[test]
fn what_is_kept_goes_to_the_state_folder_of_the_user() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("my state");
    let ran = worker("keep", folder.path()).env("XDG_STATE_HOME", &state).output().unwrap();
    assert!(ran.status.success(), "{ran:?}");
    assert_eq!(names_in(&state.join("bellpad")), ["autosave", "backups"]);
    assert_eq!(names_in(&folder.path().join("work")), ["a.dance.json"], "nothing is left beside the file");
    let home = Home::at(&state.join("bellpad"));
    assert_eq!(home.recover().pop().unwrap().dance, small(3));
    assert_eq!(home.backups(&folder.path().join("work").join("a.dance.json")).len(), 1);
}

/// Saves twice and keeps a third version, where this user's state is.
pub fn save_in_the_state_of_the_user(folder: &Path) {
    let (work, home) = (folder.join("work"), Home::of_user());
    fs::create_dir(&work).unwrap();
    let path = work.join("a.dance.json");
    let stamp = home.save_checked(&path, &small(1), None).unwrap().stamp;
    home.save_checked(&path, &small(2), Some(&stamp)).unwrap();
    bellpad::store::Autosave::begin(&home, Some(&path), None).unwrap().write(&small(3)).unwrap();
}
