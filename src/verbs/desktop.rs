//! `bellpad desktop`: the program in the menu of a desktop, for one user.

use super::{Outcome, Said, VerbError, files_for_desktop, print_to_stderr, printing::print};
use crate::store::Installed;
use clap::{Args, Subcommand};
use std::path::Path;
use std::process::{Command, Stdio};

/// Put the program into the menu of your desktop, or take it out again.
#[derive(Debug, Args)]
pub struct OnDesktop {
    #[command(subcommand)]
    pub does: DesktopDoes,
}

/// What is done to the desktop.
#[derive(Debug, Subcommand)]
pub enum DesktopDoes {
    /// Put menu entry, icon, kind of file, manual and completions into your own folders
    Install {
        /// Write over files that are in the way, too
        #[arg(long)]
        force: bool,
    },
    /// Take away what install put there
    Remove,
}

/// What the folders' indexes are made by, where there is such a program, and which folder each is given.
const INDEXES: [(&str, &str); 2] =
    [("update-mime-database", "mime"), ("update-desktop-database", "applications")];

/// Installs or removes.
pub(super) fn run(asked: &OnDesktop) -> Said<Outcome> {
    if !cfg!(unix) || cfg!(target_os = "macos") {
        return Err(VerbError::OtherDesktop);
    }
    let installed = Installed::of_user().ok_or(VerbError::NoHome)?;
    match asked.does {
        DesktopDoes::Install { force } => {
            let program = std::env::current_exe().map_err(VerbError::Program)?;
            let files = files_for_desktop(&program)?;
            installed.install(&files, force)?;
            bring_up(installed.folder());
            let folder = installed.folder().display();
            print(&format!(
                "{} files are in {folder}; a dance now opens from your file manager\nbellpad desktop remove takes them \
                 away again\n",
                files.len()
            ))?;
            Ok(Outcome::Fine)
        }
        DesktopDoes::Remove => {
            let taken = installed.remove()?;
            bring_up(installed.folder());
            for path in &taken.left {
                print_to_stderr(&format!("{}: is left, for it was changed since", path.display()));
            }
            let said = match taken.gone {
                0 if taken.left.is_empty() => "nothing was installed\n".to_owned(),
                gone => format!("{gone} files are taken away from {}\n", installed.folder().display()),
            };
            print(&said)?;
            Ok(Outcome::Fine)
        }
    }
}

/// Has the desktop look at its folders again. A machine without these programs looks when the user next logs in.
fn bring_up(folder: &Path) {
    for (program, inside) in INDEXES {
        let folder = folder.join(inside);
        if folder.is_dir() {
            // The index of kinds is made of this folder, also when the last kind in it is gone.
            let kinds = folder.join("packages");
            let made = inside == "mime" && std::fs::create_dir(&kinds).is_ok();
            let _ = Command::new(program)
                .arg(folder)
                .stdin(Stdio::null())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .status();
            if made {
                let _ = std::fs::remove_dir(kinds);
            }
        }
    }
}
