//! The sound of a Linux desktop: `PulseAudio`, or `PipeWire` as that.

use super::{LIVE_RATE, Sink, SinkError, Source, Stream, Timing};
use pulseaudio::protocol::stream::{BufferAttr, StreamFlags};
use pulseaudio::protocol::{
    ChannelMap, ChannelVolume, DEFAULT_SINK, PlaybackStreamParams, SampleFormat, SampleSpec,
};
use pulseaudio::{AsPlaybackSource, Client, PlaybackStream, cookie_path_from_env, socket_path_from_env};
use std::future::Future;
use std::io::ErrorKind;
use std::os::unix::net::UnixStream;
use std::path::PathBuf;
use std::pin::pin;
use std::sync::Arc;
use std::task::{Context, Poll, Wake, Waker};
use std::thread::Thread;
use std::time::{Duration, Instant};

/// A server that has not answered for so long is as none.
const PATIENCE: Duration = Duration::from_secs(1);
/// How much lies ready to be heard, and how much is asked for at once, seconds: so little that a stop is soon heard, so much
/// that a busy machine does not stutter.
const AHEAD: f64 = 0.1;
const AT_ONCE: f64 = 0.04;
/// Bytes of the cookie by which a server knows its user.
const COOKIE: usize = 256;
/// Bytes of a sample.
const SAMPLE: usize = size_of::<f32>();

/// The desktop's sound server.
#[derive(Default)]
pub struct PulseSink {
    /// Where it listens; nothing for the user's own.
    socket: Option<PathBuf>,
    client: Option<Client>,
}

impl PulseSink {
    /// The one that listens at a socket.
    #[must_use]
    pub fn at(socket: PathBuf) -> Self {
        Self { socket: Some(socket), client: None }
    }

    fn connect(&self) -> Result<Client, SinkError> {
        let socket = self.socket.clone().or_else(socket_path_from_env);
        let none = || SinkError("this computer's sound is not running".to_owned());
        let socket = socket.ok_or_else(none)?;
        let told = |error: &dyn std::fmt::Display| {
            SinkError(format!("this computer's sound cannot be reached ({}: {error})", socket.display()))
        };
        let stream = UnixStream::connect(&socket).map_err(|error| match error.kind() {
            ErrorKind::NotFound | ErrorKind::ConnectionRefused => none(),
            _ => told(&error),
        })?;
        for limit in [UnixStream::set_read_timeout, UnixStream::set_write_timeout] {
            limit(&stream, Some(PATIENCE)).map_err(|error| told(&error))?;
        }
        // A server reads a cookie of that length from everybody, also where it knows them without.
        let cookie = cookie_path_from_env().and_then(|path| std::fs::read(path).ok());
        let cookie = cookie.filter(|cookie| cookie.len() == COOKIE).unwrap_or_else(|| vec![0; COOKIE]);
        Client::new_unix(c"Bellpad", stream, Some(cookie)).map_err(|error| told(&error))
    }
}

impl Sink for PulseSink {
    fn open(&mut self, mut source: Source) -> Result<Box<dyn Stream>, SinkError> {
        // A server that was there may have been started again since.
        let known = self.client.take().filter(|client| matches!(wait_for(client.server_info()), Some(Ok(_))));
        let client = match known {
            Some(client) => client,
            None => self.connect()?,
        };
        let bytes = |seconds: f64| (seconds * f64::from(LIVE_RATE)) as u32 * SAMPLE as u32;
        let params = PlaybackStreamParams {
            sample_spec: SampleSpec { format: SampleFormat::Float32Le, channels: 1, sample_rate: LIVE_RATE },
            channel_map: ChannelMap::mono(),
            sink_name: Some(DEFAULT_SINK.to_owned()),
            buffer_attr: BufferAttr {
                target_length: bytes(AHEAD),
                minimum_request_length: bytes(AT_ONCE),
                ..BufferAttr::default()
            },
            cvolume: Some(ChannelVolume::norm(1)),
            flags: StreamFlags { adjust_latency: true, ..StreamFlags::default() },
            ..PlaybackStreamParams::default()
        };
        let mut samples = Vec::new();
        let fill = move |out: &mut [u8]| {
            samples.resize(out.len() / SAMPLE, 0.0);
            source.fill(&mut samples);
            for (bytes, sample) in out.chunks_exact_mut(SAMPLE).zip(&samples) {
                bytes.copy_from_slice(&sample.to_le_bytes());
            }
            samples.len() * SAMPLE
        };
        let opened = wait_for(client.create_playback_stream(params, fill.as_playback_source()));
        let stream = opened.ok_or_else(no_answer)?.map_err(|error| SinkError(error.to_string()))?;
        self.client = Some(client);
        Ok(Box::new(PulseStream(stream)))
    }
}

/// A stream that the server plays.
struct PulseStream(PlaybackStream);

impl Stream for PulseStream {
    fn timing(&mut self, now: &dyn Fn() -> f64) -> Result<Option<Timing>, SinkError> {
        let asked = now();
        let answer = wait_for(self.0.timing_info()).ok_or_else(no_answer)?;
        let answer = answer.map_err(|error| SinkError(error.to_string()))?;
        let read = answer.read_offset as f64 / SAMPLE as f64;
        let late = answer.sink_usec as f64 * 1e-6 * f64::from(LIVE_RATE);
        Ok(Some(Timing { asked, came: now(), heard: read - late, moves: answer.playing }))
    }
}

fn no_answer() -> SinkError {
    SinkError("this computer's sound does not answer".to_owned())
}

/// Wakes a thread that waits.
struct Unpark(Thread);

impl Wake for Unpark {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}

/// What comes of something, unless that takes too long.
fn wait_for<T>(future: impl Future<Output = T>) -> Option<T> {
    let mut future = pin!(future);
    let waker = Waker::from(Arc::new(Unpark(std::thread::current())));
    let mut context = Context::from_waker(&waker);
    let until = Instant::now() + PATIENCE;
    loop {
        if let Poll::Ready(done) = future.as_mut().poll(&mut context) {
            return Some(done);
        }
        std::thread::park_timeout(until.checked_duration_since(Instant::now())?);
    }
}
