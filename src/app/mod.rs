pub fn display_is_there() -> bool { false }
pub fn open_window(_: Option<std::path::PathBuf>) -> Result<(), String> { Ok(()) }
