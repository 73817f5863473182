//! The machine's sound where it is not Linux.

use super::{LIVE_RATE, Sink, SinkError, Source, Stream, Timing};
use cpal::traits::{DeviceTrait, HostTrait, StreamTrait};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// The machine's usual loudspeakers.
#[derive(Default)]
pub struct CpalSink;

/// What is known of a stream.
#[derive(Default)]
struct Known {
    /// When the machine last asked for samples, which of the stream's was heard then, and whether it has failed since.
    last: Option<(Instant, f64)>,
    failed: Option<String>,
}

impl Sink for CpalSink {
    fn open(&mut self, source: Source) -> Result<Box<dyn Stream>, SinkError> {
        let told = |error: cpal::Error| SinkError(error.to_string());
        let device = cpal::default_host().default_output_device();
        let device = device.ok_or_else(|| SinkError("this machine has no loudspeakers".to_owned()))?;
        let config = device.default_output_config().map_err(told)?;
        let (channels, rate) = (usize::from(config.channels().max(1)), config.sample_rate());
        let known: Arc<Mutex<Known>> = Arc::default();
        let (tells, fails) = (Arc::clone(&known), Arc::clone(&known));
        let mut stretched = Stretched::new(source, f64::from(LIVE_RATE) / f64::from(rate));
        let fill = move |out: &mut [f32], info: &cpal::OutputCallbackInfo| {
            let stamp = info.timestamp();
            let ahead = stamp.playback.saturating_duration_since(stamp.callback).as_secs_f64();
            let heard = stretched.made - ahead * f64::from(LIVE_RATE);
            tells.lock().unwrap_or_else(PoisonError::into_inner).last = Some((Instant::now(), heard));
            for frame in out.chunks_mut(channels) {
                frame.fill(stretched.next());
            }
        };
        let fail = move |error: cpal::Error| {
            fails.lock().unwrap_or_else(PoisonError::into_inner).failed = Some(error.to_string());
        };
        let stream = device.build_output_stream(config.config(), fill, fail, None).map_err(told)?;
        stream.play().map_err(told)?;
        Ok(Box::new(CpalStream { _stream: stream, known }))
    }
}

/// A machine that has not asked for samples for so long has stopped.
const STALLED: Duration = Duration::from_millis(300);

/// A stream that the machine plays.
struct CpalStream {
    _stream: cpal::Stream,
    known: Arc<Mutex<Known>>,
}

impl Stream for CpalStream {
    fn timing(&mut self, now: &dyn Fn() -> f64) -> Result<Option<Timing>, SinkError> {
        let known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(failed) = &known.failed {
            return Err(SinkError(failed.clone()));
        }
        Ok(known.last.map(|(when, heard)| {
            let since = when.elapsed();
            let at = now() - since.as_secs_f64();
            Timing { asked: at, came: at, heard, moves: since < STALLED }
        }))
    }
}

/// Samples of a source for a machine that wants another number of them a second, evenly between two.
struct Stretched {
    source: Source,
    /// Samples of the source for one of the machine's.
    step: f64,
    ready: Vec<f32>,
    /// Where in what lies ready the next one is.
    at: f64,
    /// Samples of the source that have been played.
    made: f64,
}

/// Samples that are asked of the source at once.
const PIECE: usize = 128;

impl Stretched {
    fn new(source: Source, step: f64) -> Self {
        Self { source, step, ready: Vec::new(), at: 0.0, made: 0.0 }
    }

    fn next(&mut self) -> f32 {
        while self.at as usize + 1 >= self.ready.len() {
            let gone = (self.at as usize).min(self.ready.len());
            self.ready.drain(..gone);
            self.at -= gone as f64;
            let before = self.ready.len();
            self.ready.resize(before + PIECE, 0.0);
            if let Some(more) = self.ready.get_mut(before..) {
                self.source.fill(more);
            }
        }
        let index = self.at as usize;
        let share = (self.at - index as f64) as f32;
        let (here, next) = (self.ready.get(index), self.ready.get(index + 1));
        self.at += self.step;
        self.made += self.step;
        here.zip(next).map_or(0.0, |(here, next)| here + (next - here) * share)
    }
}
