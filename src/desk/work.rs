use super::wake::Wake;
use crate::handout::OnProgress;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

/// How often a window is woken to show how far work has come.
pub const OFTEN: Duration = Duration::from_millis(50);

/// Something that takes a while, on a thread of its own. Dropping it stops it at its next step.
pub struct Work<T> {
    far: Arc<Far>,
    answer: Receiver<Result<T, String>>,
    begun: Instant,
}

/// How far it is.
#[derive(Default)]
struct Far {
    done: AtomicUsize,
    of: AtomicUsize,
    stopped: AtomicBool,
}

impl<T: Send + 'static> Work<T> {
    /// Begins it, under a name that lists of threads show; the window is woken as it goes on and when there is an answer.
    pub fn begin(
        name: &str,
        wake: &Wake,
        work: impl FnOnce(OnProgress) -> Result<T, String> + Send + 'static,
    ) -> Self {
        let far = Arc::new(Far::default());
        let (sender, answer) = channel();
        let (told, wake) = (Arc::clone(&far), wake.clone());
        // A thread that cannot be started is told of by the answer that never comes.
        let _ = std::thread::Builder::new().name(name.to_owned()).spawn(move || {
            let mut woken = Instant::now();
            let answer = work(&mut |done, of| {
                told.done.store(done, Ordering::Relaxed);
                told.of.store(of, Ordering::Relaxed);
                if woken.elapsed() > OFTEN {
                    woken = Instant::now();
                    wake.wake();
                }
                !told.stopped.load(Ordering::Relaxed)
            });
            // A window that has gone on does not need the answer.
            let _ = sender.send(answer);
            wake.wake();
        });
        Self { far, answer, begun: Instant::now() }
    }

    /// What came of it, once, when there is an answer.
    #[must_use]
    pub fn answer(&self) -> Option<Result<T, String>> {
        match self.answer.try_recv() {
            Ok(answer) => Some(answer),
            Err(TryRecvError::Disconnected) => {
                Some(Err("It ended before it was done. Try again, or with less in it.".to_owned()))
            }
            Err(TryRecvError::Empty) => None,
        }
    }

    /// How much of it is done, 0 to 1, once that is known.
    #[must_use]
    pub fn share(&self) -> Option<f32> {
        let of = self.far.of.load(Ordering::Relaxed);
        (of > 0).then(|| self.far.done.load(Ordering::Relaxed) as f32 / of as f32)
    }

    /// How long ago it began.
    #[must_use]
    pub fn age(&self) -> Duration {
        self.begun.elapsed()
    }

    /// Whether it has taken so long that something should be said of it.
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.begun.elapsed() > Duration::from_millis(250)
    }
}

impl<T> Drop for Work<T> {
    fn drop(&mut self) {
        self.far.stopped.store(true, Ordering::Relaxed);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wait<T: Send + 'static>(work: &Work<T>) -> Result<T, String> {
        let begun = Instant::now();
        loop {
            if let Some(answer) = work.answer() {
                return answer;
            }
            assert!(begun.elapsed() < Duration::from_secs(20), "no answer");
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    #[test]
    fn it_answers_and_says_how_far_it_is() {
        let wake = Wake::default();
        let (sender, go) = channel();
        let work = Work::begin("test", &wake, move |step| {
            step(3, 4);
            go.recv().map_err(|error| error.to_string())?;
            Ok(7)
        });
        while work.share().is_none() {
            std::thread::sleep(Duration::from_millis(1));
        }
        assert_eq!(work.share(), Some(0.75));
        assert!(work.answer().is_none());
        sender.send(()).unwrap();
        assert_eq!(wait(&work), Ok(7));
        let failed: Work<()> = Work::begin("test", &wake, |_| Err("no paper".to_owned()));
        assert_eq!(wait(&failed), Err("no paper".to_owned()));
        let broken: Work<()> =
            Work::begin("test", &wake, |_| std::panic::resume_unwind(Box::new("on purpose")));
        assert!(wait(&broken).unwrap_err().contains("Try again"));
    }

    #[test]
    fn dropped_work_is_stopped_at_its_next_step() {
        let wake = Wake::default();
        let (sender, told) = channel();
        let work: Work<()> = Work::begin("test", &wake, move |step| {
            let mut steps = 0;
            while step(steps, 0) {
                steps += 1;
            }
            sender.send(()).map_err(|error| error.to_string())
        });
        drop(work);
        assert_eq!(told.recv_timeout(Duration::from_secs(20)), Ok(()));
    }
}
