//! Loudspeakers for tests: they play by a clock that the test sets, keep what they played, and go and come as they are told.

#![allow(dead_code)] // one test uses this, another that

use bellpad::sound::{LIVE_RATE, Sink, SinkError, Source, Stream, Timing};
use std::sync::{Arc, Mutex, MutexGuard};

/// What lies ready ahead of what is heard, seconds.
pub const AHEAD: f64 = 0.08;

#[derive(Default)]
struct Room {
    now: f64,
    there: bool,
    /// Until when nothing goes on.
    held: f64,
    source: Option<Source>,
    /// Samples that were drawn from the stream, and those of it that have been heard, with their share.
    drawn: u64,
    heard: f64,
    /// All that was played, however many streams it came from, and how much of it before this stream.
    played: Vec<f32>,
    before: usize,
}

/// A sink that a [`Hand`] holds.
pub struct TestSink(Arc<Mutex<Room>>);

/// What the test does with the sink and the clock.
#[derive(Clone)]
pub struct Hand(Arc<Mutex<Room>>);

struct TestStream(Arc<Mutex<Room>>);

impl TestSink {
    /// One that has loudspeakers, or has none, and what holds it.
    pub fn new(there: bool) -> (Self, Hand) {
        let room = Arc::new(Mutex::new(Room { there, ..Room::default() }));
        (Self(Arc::clone(&room)), Hand(room))
    }
}

impl Sink for TestSink {
    fn open(&mut self, source: Source) -> Result<Box<dyn Stream>, SinkError> {
        let mut room = self.0.lock().unwrap();
        if !room.there {
            return Err(SinkError("nothing to play on".to_owned()));
        }
        room.before = room.played.len();
        (room.source, room.drawn, room.heard) = (Some(source), 0, -AHEAD * f64::from(LIVE_RATE));
        drop(room);
        Ok(Box::new(TestStream(Arc::clone(&self.0))))
    }
}

impl Stream for TestStream {
    fn timing(&mut self, now: &dyn Fn() -> f64) -> Result<Option<Timing>, SinkError> {
        let at = now();
        let room = self.0.lock().unwrap();
        if !room.there {
            return Err(SinkError("gone".to_owned()));
        }
        let moves = room.heard > 0.0 && room.held <= room.now;
        Ok(Some(Timing { asked: at, came: at, heard: room.heard, moves }))
    }
}

impl Drop for TestStream {
    fn drop(&mut self) {
        self.0.lock().unwrap().source = None;
    }
}

impl Hand {
    fn room(&self) -> MutexGuard<'_, Room> {
        self.0.lock().unwrap()
    }

    /// The time, seconds.
    pub fn now(&self) -> f64 {
        self.room().now
    }

    /// Lets time go by; the loudspeakers draw what they need.
    pub fn pass(&self, seconds: f64) {
        let mut room = self.room();
        room.now += seconds;
        if room.held > room.now || !room.there || room.source.is_none() {
            return;
        }
        let samples = (seconds * f64::from(LIVE_RATE)).round() as usize;
        let Some(mut source) = room.source.take() else { return };
        // A source looks at the clock, which must not be held meanwhile.
        drop(room);
        let mut piece = vec![0.0; samples];
        source.fill(&mut piece);
        let mut room = self.room();
        room.source = Some(source);
        room.drawn += samples as u64;
        room.heard += samples as f64;
        room.played.extend(piece);
    }

    /// Loudspeakers go, or come.
    pub fn set_there(&self, there: bool) {
        self.room().there = there;
    }

    /// Nothing goes on for a time, seconds.
    pub fn hold(&self, seconds: f64) {
        let mut room = self.room();
        room.held = room.now + seconds;
    }

    /// Whether a stream is open.
    pub fn is_open(&self) -> bool {
        self.room().source.is_some()
    }

    /// How much of all that was played has been heard, seconds.
    pub fn heard_seconds(&self) -> f64 {
        let room = self.room();
        (room.before as f64 + room.heard) / f64::from(LIVE_RATE)
    }

    /// When clicks begin in what was played, seconds of it.
    pub fn clicks(&self) -> Vec<f64> {
        let mut found: Vec<usize> = Vec::new();
        let mut quiet = usize::MAX / 2;
        for (index, sample) in self.room().played.iter().enumerate() {
            quiet = if sample.abs() > 0.005 { 0 } else { quiet + 1 };
            if quiet == 0 && found.last().is_none_or(|last| index - last > 5_000) {
                found.push(index);
            }
        }
        found.into_iter().map(|index| index as f64 / f64::from(LIVE_RATE)).collect()
    }
}
