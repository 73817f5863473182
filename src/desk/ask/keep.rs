use crate::sound::SoundChoice;
use crate::store::{Arrangement, Backup, WindowSize};

/// Something asked for about keeping work, or about the window itself.
#[derive(Clone, Debug, PartialEq)]
pub enum KeepAsk {
    /// Save over what someone else saved meanwhile.
    SaveOver,
    /// Save to another file, since someone else changed this one.
    SaveElsewhere,
    /// Have on the desk what someone else saved; the work here is kept.
    OpenTheirs,
    /// Go on with the work here, although the file was changed.
    LeaveTheirs,
    /// Look for unsaved work of windows that are gone.
    AskRecovered,
    /// Take such work on, by its place in the list.
    OpenRecovered(usize),
    /// Delete such work, by its place in the list.
    DiscardRecovered(usize),
    /// Show the earlier saves of this file.
    AskEarlier,
    /// Go back to one of them, as an edit.
    GoBackTo(Backup),
    /// Put away what the window said about keeping work.
    PutLineAway,
    /// Put the card of the first minute away; for good, if so.
    ShutWelcome(bool),
    /// Have text of another size; 1 is the desktop's own.
    TextSize(f32),
    /// The window is this large.
    WindowSize(WindowSize),
    /// The window is divided like this.
    Arrange(Arrangement),
    /// Have this heard in play.
    Sound(SoundChoice),
    /// Open on the dance that was open last when the program starts, or on the sample.
    OpenLast(bool),
    /// The window has the focus again: somebody may have changed the file meanwhile, or filled the disk.
    LookOutside,
    /// A frame is over: hand on what has changed, and take what has been done beside the window.
    CatchUp,
}
