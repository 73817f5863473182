/// Has a write that goes beyond the size that the system lets this user's files have fail like any other: without this
/// the system ends the program there, and what is not saved goes with it.
///
/// It is enough that somebody hears the signal; the write then says [`std::io::ErrorKind::FileTooLarge`]. Where a
/// listener cannot be put up, all is as it was.
pub fn outlive_file_limit() {
    #[cfg(unix)]
    {
        let heard = std::sync::Arc::default();
        let _ = signal_hook::flag::register(signal_hook::consts::SIGXFSZ, heard);
    }
}
