use super::{names_in, small};
use bellpad::store::{Home, MOST_BACKUPS, open};
use std::fs;
use std::time::{Duration, SystemTime};

#[test]
fn eleven_saves_over_a_file_leave_ten_versions_the_newest_first() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(&folder.path().join("state"));
    let path = folder.path().join("a.dance.json");
    assert!(home.backups(&path).is_empty());
    let mut stamp = home.save_checked(&path, &small(0), None).unwrap().stamp;
    // Each version is dated, so that the dates can be told from those of the backups.
    let date = |number| SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000_000 + number * 86_400);
    for number in 1..=11 {
        fs::File::options().write(true).open(&path).unwrap().set_modified(date(number - 1)).unwrap();
        let saved = home.save_checked(&path, &small(number), Some(&stamp)).unwrap();
        assert!(saved.warning.is_none());
        stamp = saved.stamp;
    }
    assert_eq!(open(&path).unwrap(), small(11));
    let backups = home.backups(&path);
    assert_eq!((backups.len(), MOST_BACKUPS), (10, 10));
    for (backup, number) in backups.iter().zip((1..=10).rev()) {
        assert_eq!(backup.open().unwrap(), small(number));
        assert_eq!(backup.title(), Some(&*format!("Small {number}")));
        assert_eq!(backup.number(), number + 1, "the first version had number 1");
        assert_eq!(backup.when(), date(number));
    }
    // Saving what is there already pushes none out.
    home.save_checked(&path, &small(11), Some(&stamp)).unwrap();
    assert_eq!(home.backups(&path), backups);
    // They are still found when the file is gone, and are not beside it.
    fs::remove_file(&path).unwrap();
    assert_eq!(home.backups(&path), backups);
    assert_eq!(names_in(folder.path()), ["state"]);
}

#[test]
fn files_of_one_name_are_kept_apart_and_what_is_no_dance_is_kept_too() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(&folder.path().join("state"));
    let paths = ["one", "two"].map(|name| folder.path().join(name).join("a.dance.json"));
    for (number, path) in (0..).zip(&paths) {
        fs::create_dir(path.parent().unwrap()).unwrap();
        home.save_checked(path, &small(number), None).unwrap();
        home.save_checked(path, &small(number + 10), None).unwrap();
    }
    for (number, path) in (0..).zip(&paths) {
        let backups = home.backups(path);
        assert_eq!(backups.len(), 1);
        assert_eq!(backups[0].open().unwrap(), small(number));
    }
    fs::write(&paths[0], b"a letter, \xff").unwrap();
    home.save_checked(&paths[0], &small(20), None).unwrap();
    let backup = &home.backups(&paths[0])[0];
    assert_eq!((backup.title(), fs::read(backup.path()).unwrap()), (None, b"a letter, \xff".to_vec()));
    assert!(backup.open().is_err());
    // What else is in the folder is no version.
    let kept = backup.path().parent().unwrap().to_owned();
    fs::create_dir(kept.join("000099.dance.json")).unwrap();
    for name in ["notes.txt", "x.dance.json", "18446744073709551615.dance.json", "-3.dance.json"] {
        fs::write(kept.join(name), "{}").unwrap();
    }
    home.save_checked(&paths[0], &small(21), None).unwrap();
    let numbers: Vec<_> = home.backups(&paths[0]).iter().map(bellpad::store::Backup::number).collect();
    assert_eq!(numbers, [3, 2, 1]);
}

#[test]
fn a_backup_that_cannot_be_made_stops_no_save_and_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let (path, state) = (folder.path().join("a.dance.json"), folder.path().join("state"));
    fs::write(&state, "in the way").unwrap();
    let home = Home::at(&state);
    let saved = home.save_checked(&path, &small(1), None).unwrap();
    assert!(saved.warning.is_none(), "there was nothing to keep");
    let saved = home.save_checked(&path, &small(2), Some(&saved.stamp)).unwrap();
    let said = saved.warning.unwrap().to_string();
    assert!(said.contains("a.dance.json") && said.contains("version before could not be kept"), "{said}");
    assert_eq!(open(&path).unwrap(), small(2));
    assert_eq!(names_in(folder.path()), ["a.dance.json", "state"]);
    // Far too large to be a dance.
    let home = Home::at(&folder.path().join("other"));
    fs::File::create(&path).unwrap().set_len(33 * 1024 * 1024).unwrap();
    let saved = home.save_checked(&path, &small(3), None).unwrap();
    assert!(saved.warning.unwrap().to_string().contains("too large"));
    assert_eq!(open(&path).unwrap(), small(3));
}

#[test]
fn two_windows_that_save_one_file_at_once_keep_it_whole() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(&folder.path().join("state"));
    let path = folder.path().join("a.dance.json");
    std::thread::scope(|scope| {
        for window in 0..2 {
            let (home, path) = (&home, &path);
            scope.spawn(move || {
                for number in 0..25 {
                    let saved = home.save_checked(path, &small(1000 * window + number), None).unwrap();
                    assert!(saved.warning.is_none(), "{saved:?}");
                    assert!(open(path).unwrap().title.starts_with("Small "));
                }
            });
        }
    });
    let backups = home.backups(&path);
    assert_eq!(backups.len(), MOST_BACKUPS);
    for pair in backups.windows(2) {
        assert!(pair[0].number() > pair[1].number());
        assert!(pair[0].open().is_ok() && pair[0].title().is_some());
    }
    assert_eq!(names_in(folder.path()), ["a.dance.json", "state"]);
}
