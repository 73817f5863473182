use crate::dance::Dance;
use crate::handout::HandoutChoice;
use crate::picture::StillLook;
use std::path::PathBuf;

/// Something asked for about files.
#[derive(Clone, Debug, PartialEq)]
pub enum FileAsk {
    /// Make a dance anew: asks what it is to be.
    AskNew,
    /// Open a file: asks which.
    AskOpen,
    /// Open this file.
    Open(PathBuf),
    /// Open a dance that is part of the program, by index.
    OpenSample(usize),
    /// Put this new dance on the desk.
    PutNew(Box<Dance>),
    /// Save to the file it came from, or ask for one.
    Save,
    /// Save to a file still to be chosen.
    AskSaveAs,
    /// Save to this file.
    SaveTo(PathBuf),
    /// Ask how a still of this moment is to look.
    AskStill,
    /// Choose how stills look.
    ChooseStill(StillLook),
    /// Draw a still to a file still to be chosen.
    AskStillPath,
    /// Draw a still to this file.
    StillTo(PathBuf),
    /// Ask what is to be handed out.
    AskHandout,
    /// Choose what is handed out, and how.
    ChooseHandout(HandoutChoice),
    /// Write the handout chosen to a file still to be chosen.
    AskHandoutPath,
    /// Write the handout although there are other files in the way of its further pages.
    ReplacePages,
    /// The file that was asked for is this.
    Choose(PathBuf),
    /// Go on with what an unsaved dance held up, without saving.
    GoOnUnsaved,
    /// Save, then go on with what was held up.
    SaveAndGoOn,
    /// Close the window.
    Close,
}
