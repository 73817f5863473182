use crate::sound::Heard;

/// Something asked for about where in the dance it is. Counts are from the start of the dance.
#[derive(Clone, Debug, PartialEq)]
pub enum PlayAsk {
    /// Go to a count.
    Seek(f64),
    /// Go on or back by counts, to a whole count when off one.
    Step(f64),
    /// Play or stop.
    Toggle,
    /// So many seconds have passed.
    Advance(f64),
    /// This is heard of what is played.
    Heard(Heard),
    /// There is nothing to play on, and why; or there is again.
    Silent(Option<String>),
    /// Play at a share of the tune's speed.
    Tempo(f64),
    /// Loop, or no longer.
    ToggleLoop,
    /// Loop from the bar at the playhead.
    LoopFrom,
    /// Loop to the end of the bar at the playhead.
    LoopTo,
    /// Loop the bar at a count.
    LoopBar(f64),
    /// Loop from the bar at a count.
    LoopFromAt(f64),
    /// Loop to the end of the bar at a count.
    LoopToAt(f64),
}
