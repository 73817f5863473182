//! A tune that is heard: from an empty dance to the loudspeakers of a real sound server.

use super::hands::Hands;
use super::paths::empty;
use super::sound_server::{Recorder, SoundServer};
use std::fs;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// The title, the part about the tune, the field, typing, Listen: five actions. The notes are as high as ISO 16:1975 (A above middle C at
/// 440 Hz) and equal temperament have them.
#[test]
#[ignore = "needs Xvfb, xdotool and pulseaudio"]
fn from_an_empty_dance_to_a_tune_that_is_heard() {
    let mut hands = Hands::on(&empty());
    let folder = tempfile::tempdir().unwrap();
    // Where the program looks for the desktop's own.
    let home = hands.sitting.folder().join("home/pulse");
    fs::create_dir_all(&home).unwrap();
    let server = SoundServer::pulse_at(folder.path(), &home.join("native"));
    let before = hands.gestures();
    hands.click("This dance:");
    hands.click("Tune");
    hands.click("The tune in ABC notation");
    hands.write("X:1\nM:6/8\nL:1/8\nK:Am\nA,6|E,6|A,6|E,6|]\n");
    hands.sitting.keep("a tune typed");
    let recorder = Recorder::start(&server, Instant::now());
    hands.click("Listen");
    hands.sitting.keep("a tune listened to");
    // Typing is an action too.
    assert!(hands.gestures() - before < 6, "{}", hands.gestures() - before);
    sleep(Duration::from_secs(6));
    let recording = recorder.end();
    // The clicks of the strong beats, which stand out above the notes: two to a bar of 1.2 s.
    let strong: Vec<f64> =
        recording.clicks().into_iter().filter(|(_, loud)| *loud > 0.02).map(|(at, _)| at).collect();
    assert_eq!(strong.len(), 8, "{strong:?}");
    assert!(strong.windows(2).all(|pair| (pair[1] - pair[0] - 0.6).abs() < 0.005), "{strong:?}");
    for (bar, frequency) in [220.0, 164.814, 220.0, 164.814].into_iter().enumerate() {
        let begin = strong[bar * 2];
        let off = recording.cents_off(begin + 0.12, begin + 1.0, frequency);
        assert!(off.abs() < 5.0, "bar {bar} is {off} cents off");
    }
    hands.click("Done");
    assert_eq!(hands.save()["music"]["strains"][0]["bars"], 4);
}
