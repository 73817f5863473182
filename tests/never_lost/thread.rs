use super::{small, within};
use bellpad::store::{Autosave, AutosaveThread, Home, StoreError};
use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// The titles of what a thread has written so far, read from the disk.
fn written(state: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(state.join("autosave")) else { return Vec::new() };
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    let texts = paths
        .filter(|path| path.extension().is_some_and(|ending| ending == "work"))
        .filter_map(|path| fs::read_to_string(path).ok());
    texts
        .map(|text| {
            let (_, dance) = text.split_once('\n').unwrap();
            bellpad::dance::read(dance.as_bytes()).unwrap().title
        })
        .collect()
}

#[test]
fn a_change_is_written_within_a_second_and_many_within_two() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    thread.hand(Arc::new(small(0)));
    let took = within(Duration::from_secs(1), "one change", || written(folder.path()) == ["Small 0"]);
    println!("one change was written after {took:?}");
    // Changes without a pause.
    let begin = Instant::now();
    let mut number = 0;
    let took = within(Duration::from_secs(2), "many changes", || {
        number += 1;
        thread.hand(Arc::new(small(number)));
        written(folder.path()) != ["Small 0"]
    });
    println!("the first of {number} changes was written after {took:?}");
    assert!(begin.elapsed() >= Duration::from_millis(100), "changes are gathered, not each written");
    assert!(thread.try_recv().is_none());
}

#[test]
fn dropping_it_writes_what_is_left_and_clearing_drops_it() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let path = folder.path().join("a.dance.json");
    let thread = AutosaveThread::begin(&home, Some(&path), None).unwrap();
    for number in 0..100 {
        thread.hand(Arc::new(small(number)));
    }
    drop(thread);
    let work = home.recover().pop().unwrap();
    assert_eq!((&work.dance, work.path.as_ref()), (&small(99), Some(&path)));
    work.discard().unwrap();

    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    thread.hand(Arc::new(small(1)));
    thread.clear().unwrap();
    drop(thread);
    assert!(home.recover().is_empty(), "it was cleared before it was written");

    // A save, and a change after it.
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    thread.hand(Arc::new(small(1)));
    let stamp = home.save_checked(&path, &small(1), None).unwrap().stamp;
    thread.work_is_on(Some(&path), Some(&stamp)).unwrap();
    sleep(Duration::from_millis(700));
    assert!(written(folder.path()).is_empty(), "what is saved is not kept as well");
    thread.hand(Arc::new(small(2)));
    drop(thread);
    let work = home.recover().pop().unwrap();
    assert_eq!((&work.dance, work.path.as_ref(), work.stamp), (&small(2), Some(&path), Some(stamp)));
}

#[test]
fn trouble_comes_back_once_and_the_work_is_tried_again() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    let kept = folder.path().join("autosave");
    within(Duration::from_secs(10), "a place", || kept.is_dir());
    sleep(Duration::from_millis(300));
    fs::remove_dir_all(&kept).unwrap();
    fs::write(&kept, "in the way").unwrap();
    thread.hand(Arc::new(small(1)));
    let said = news(&thread, Duration::from_secs(3));
    assert!(matches!(said, Err(StoreError::Autosave { .. })), "{said:?}");
    assert!(said.unwrap_err().to_string().contains("unsaved work cannot be kept"));
    // It is tried again and again, and said once.
    sleep(Duration::from_millis(2500));
    assert!(thread.try_recv().is_none());
    fs::remove_file(&kept).unwrap();
    within(Duration::from_secs(15), "the second try", || written(folder.path()) == ["Small 1"]);
    assert!(news(&thread, Duration::from_secs(3)).is_ok(), "it works again");
    assert!(thread.try_recv().is_none());
}

/// The next thing that is told of keeping work.
#[track_caller]
fn news(thread: &AutosaveThread, limit: Duration) -> Result<(), StoreError> {
    let mut told = None;
    within(limit, "news", || {
        told = thread.try_recv();
        told.is_some()
    });
    told.unwrap()
}

#[test]
fn where_there_is_no_place_yet_that_is_told_at_once_and_work_is_kept_once_there_is() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, "text").unwrap();
    let home = Home::at(&file);
    assert!(matches!(Autosave::begin(&home, None, None), Err(StoreError::Autosave { .. })));
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    let (sender, woken) = std::sync::mpsc::channel();
    thread.wake_with(move || sender.send(()).unwrap());
    assert!(news(&thread, Duration::from_secs(2)).is_err(), "without any work to keep");
    thread.hand(Arc::new(small(7)));
    assert!(thread.keep_now(&small(8)).is_err());
    fs::remove_file(&file).unwrap();
    assert!(news(&thread, Duration::from_secs(10)).is_ok());
    woken.recv_timeout(Duration::from_secs(10)).expect("the window is woken");
    thread.hand(Arc::new(small(9)));
    within(Duration::from_secs(10), "the work", || written(&file) == ["Small 9"]);
    // What cannot be dropped is dropped later.
    let kept = file.join("autosave");
    let aside = folder.path().join("aside");
    fs::rename(&kept, &aside).unwrap();
    fs::write(&kept, "in the way").unwrap();
    assert!(thread.clear().is_err());
    fs::remove_file(&kept).unwrap();
    fs::rename(&aside, &kept).unwrap();
    within(Duration::from_secs(10), "the clearing", || written(&file).is_empty());
    drop(thread);
    assert!(home.recover().is_empty());
}

#[test]
fn it_looks_again_when_it_is_asked_to() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let thread = AutosaveThread::begin(&home, None, None).unwrap();
    let kept = folder.path().join("autosave");
    within(Duration::from_secs(10), "a place", || kept.is_dir());
    sleep(Duration::from_millis(300));
    assert!(thread.try_recv().is_none(), "nothing is told while all is well");
    fs::remove_dir_all(&kept).unwrap();
    fs::write(&kept, "in the way").unwrap();
    thread.look();
    assert!(news(&thread, Duration::from_secs(3)).is_err());
    fs::remove_file(&kept).unwrap();
    assert!(news(&thread, Duration::from_secs(3)).is_ok());
    assert_eq!(fs::read_dir(&kept).unwrap().count(), 1, "a lock, and nothing of what was tried");
}
