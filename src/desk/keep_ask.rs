use crate::store::Backup;

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
    AskLeft,
    /// Take such work on, by its place in the list.
    OpenLeft(usize),
    /// Remove such work.
    PutLeftAway(usize),
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
}
