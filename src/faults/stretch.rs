/// A stretch of counts of a figure in which something is wrong, and the worst of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    /// The count at which it begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// The count at which it is worst.
    pub at: f64,
    /// What was measured then.
    pub value: f64,
}

/// Adds a stretch to those before it, joining the last one where they meet.
pub(super) fn join(stretches: &mut Vec<Stretch>, next: Stretch) {
    match stretches.last_mut().filter(|last| next.begin <= last.end + 1e-6) {
        Some(last) => {
            last.end = last.end.max(next.end);
            // Of two that are the same but for what is lost in sums, the first.
            if next.value > last.value + 1e-9 {
                (last.at, last.value) = (next.at, next.value);
            }
        }
        None => stretches.push(next),
    }
}
