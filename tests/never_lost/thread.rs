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
    thread.now_on(Some(&path), Some(&stamp)).unwrap();
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
    fs::remove_dir_all(&kept).unwrap();
    fs::write(&kept, "in the way").unwrap();
    thread.hand(Arc::new(small(1)));
    let mut said = None;
    within(Duration::from_secs(3), "the trouble", || {
        said = thread.try_recv();
        said.is_some()
    });
    assert!(matches!(said, Some(StoreError::Autosave { .. })), "{said:?}");
    assert!(said.unwrap().to_string().contains("unsaved work cannot be kept"));
    fs::remove_file(&kept).unwrap();
    within(Duration::from_secs(15), "the second try", || written(folder.path()) == ["Small 1"]);
    assert!(thread.try_recv().is_none());

    // There is nowhere to begin.
    let file = folder.path().join("file");
    fs::write(&file, "text").unwrap();
    assert!(matches!(Autosave::begin(&Home::at(&file), None, None), Err(StoreError::Autosave { .. })));
    assert!(AutosaveThread::begin(&Home::at(&file), None, None).is_err());
}
