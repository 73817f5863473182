use super::Timing;
use super::shared::Shared;
use std::sync::Arc;
use thiserror::Error;

/// Samples that are made at once before whoever plays is let in between.
const PIECE: usize = 512;

/// What plays samples: the machine's sound, or whatever else takes them.
pub trait Sink: Send + 'static {
    /// Begins a stream that takes its samples from a source, so many a second ([`LIVE_RATE`](super::LIVE_RATE)), one channel. It
    /// may take its time, but has to come back.
    ///
    /// # Errors
    /// When there is nothing to play on.
    fn open(&mut self, source: Source) -> Result<Box<dyn Stream>, SinkError>;
}

/// A stream that plays; it ends when it is dropped.
pub trait Stream {
    /// What has been heard of it; nothing where it cannot say yet. It may take its time, but has to come back.
    ///
    /// # Errors
    /// When it plays no more.
    fn timing(&mut self, now: &dyn Fn() -> f64) -> Result<Option<Timing>, SinkError>;
}

/// Why nothing can be heard.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
#[error("{0}")]
pub struct SinkError(pub String);

/// Where a stream has its samples from.
pub struct Source {
    shared: Arc<Shared>,
    stream: u64,
}

impl Source {
    pub(super) fn new(shared: Arc<Shared>, stream: u64) -> Self {
        Self { shared, stream }
    }

    /// Makes the next samples of the stream. One that is not listened to any more has silence.
    pub fn fill(&mut self, out: &mut [f32]) {
        for piece in out.chunks_mut(PIECE) {
            let now = self.shared.now();
            let mut state = self.shared.lock();
            if !state.fill(self.stream, piece, now) {
                piece.fill(0.0);
            }
        }
    }
}
