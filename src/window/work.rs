use crate::handout::Step;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

/// How often a window is woken to show how far work has come.
const OFTEN: Duration = Duration::from_millis(50);

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
    /// Begins it; the window is woken as it goes on and when there is an answer.
    pub fn begin(ctx: &egui::Context, work: impl FnOnce(Step) -> Result<T, String> + Send + 'static) -> Self {
        let far = Arc::new(Far::default());
        let (sender, answer) = channel();
        let (told, ctx) = (Arc::clone(&far), ctx.clone());
        // A thread that cannot be started is told of by the answer that never comes.
        let _ = std::thread::Builder::new().name("handout".to_owned()).spawn(move || {
            let mut woken = Instant::now();
            let answer = work(&mut |done, of| {
                told.done.store(done, Ordering::Relaxed);
                told.of.store(of, Ordering::Relaxed);
                if woken.elapsed() > OFTEN {
                    woken = Instant::now();
                    ctx.request_repaint();
                }
                !told.stopped.load(Ordering::Relaxed)
            });
            // A window that has gone on does not need the answer.
            let _ = sender.send(answer);
            ctx.request_repaint();
        });
        Self { far, answer, begun: Instant::now() }
    }

    /// What came of it, once, when there is an answer.
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

/// Shows how far work has come.
pub fn show_share<T: Send + 'static>(ui: &mut egui::Ui, work: &Work<T>, what: &str) {
    let bar = match work.share() {
        Some(share) => egui::ProgressBar::new(share).show_percentage(),
        None => egui::ProgressBar::new(0.0).animate(true),
    };
    let bar = ui.add(bar.desired_width(220.0));
    bar.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::ProgressIndicator, true, what);
        info.value = work.share().map(f64::from);
        info
    });
    ui.ctx().request_repaint_after(OFTEN);
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
        let ctx = egui::Context::default();
        let (sender, go) = channel();
        let work = Work::begin(&ctx, move |step| {
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
        let failed: Work<()> = Work::begin(&ctx, |_| Err("no paper".to_owned()));
        assert_eq!(wait(&failed), Err("no paper".to_owned()));
        let broken: Work<()> = Work::begin(&ctx, |_| std::panic::resume_unwind(Box::new("on purpose")));
        assert!(wait(&broken).unwrap_err().contains("Try again"));
    }

    #[test]
    fn dropped_work_is_stopped_at_its_next_step() {
        let ctx = egui::Context::default();
        let (sender, told) = channel();
        let work: Work<()> = Work::begin(&ctx, move |step| {
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
