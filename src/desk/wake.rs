use std::sync::Arc;

/// What wakes whoever shows the desk, when something has been done beside it. The usual one wakes nobody.
#[derive(Clone, Default)]
pub struct Wake(Option<Arc<dyn Fn() + Send + Sync>>);

impl Wake {
    /// One that calls this, from any thread.
    pub fn new(wake: impl Fn() + Send + Sync + 'static) -> Self {
        Self(Some(Arc::new(wake)))
    }

    /// Wakes them.
    pub fn wake(&self) {
        if let Self(Some(wake)) = self {
            wake();
        }
    }

    /// Whether there is anybody to wake. Where there is not, nobody looks again when work beside the desk is done, so that
    /// slow work is done while they wait.
    #[must_use]
    pub fn is_there(&self) -> bool {
        self.0.is_some()
    }
}
