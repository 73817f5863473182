//! The program as a desktop has it: installed for one user, read by the desktop's own tools, and taken away. `.ci/run` asks for it.
//!
//! Sources: the Desktop Entry and Shared MIME-info specifications of freedesktop.org, as `desktop-file-validate`,
//! `update-mime-database` and `xdg-mime` hold them.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

struct User {
    home: tempfile::TempDir,
}

impl User {
    fn share(&self) -> PathBuf {
        self.home.path().join("share")
    }

    /// What a program prints in this user's home, on a desktop of no name.
    fn says(&self, program: impl AsRef<std::ffi::OsStr>, arguments: &[&str]) -> (bool, String) {
        let out = Command::new(program)
            .args(arguments)
            .env("HOME", self.home.path())
            .env("XDG_DATA_HOME", self.share())
            .env("XDG_CONFIG_HOME", self.home.path().join("config"))
            .env("XDG_DATA_DIRS", "/usr/share")
            .env_remove("XDG_CURRENT_DESKTOP")
            .env_remove("DESKTOP_SESSION")
            .env("MANPAGER", "cat")
            .current_dir(self.home.path())
            .output()
            .unwrap();
        let text = String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr);
        (out.status.success(), text)
    }
}

fn program() -> PathBuf {
    std::env::var_os("BELLPAD_BINARY").map_or_else(|| env!("CARGO_BIN_EXE_bellpad").into(), PathBuf::from)
}

#[test]
#[ignore = "needs desktop-file-utils, xdg-utils and others; .ci/run asks for it"]
fn a_desktop_finds_the_program_and_what_it_opens() {
    let user = User { home: tempfile::tempdir().unwrap() };
    let (done, said) = user.says(program(), &["desktop", "install"]);
    assert!(done, "{said}");
    let entry = user.share().join("applications/bellpad.desktop");
    let (valid, said) = user.says("desktop-file-validate", &[entry.to_str().unwrap()]);
    assert!(valid && said.is_empty(), "{said}");

    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances/nine-geese-home.dance.json");
    fs::copy(sample, user.home.path().join("geese.dance.json")).unwrap();
    fs::write(user.home.path().join("other.json"), "{}").unwrap();
    let kind = "application/x-bellpad-dance+json";
    assert_eq!(
        user.says("xdg-mime", &["query", "filetype", "geese.dance.json"]),
        (true, format!("{kind}\n"))
    );
    let (_, other) = user.says("xdg-mime", &["query", "filetype", "other.json"]);
    assert_eq!(other, "application/json\n");
    assert_eq!(user.says("xdg-mime", &["query", "default", kind]), (true, "bellpad.desktop\n".to_owned()));

    // What the entry runs is this program: a shell reads the quotes as a desktop does.
    let text = fs::read_to_string(&entry).unwrap();
    let exec = text.lines().find_map(|line| line.strip_prefix("Exec=")).unwrap().replace("%f", "--version");
    let (done, said) = user.says("sh", &["-c", &exec]);
    assert!(done && said.starts_with("bellpad "), "{said}");

    let page = user.share().join("man/man1/bellpad-sheet.1");
    let (done, said) =
        user.says("man", &["--warnings", "--encoding=UTF-8", "--local-file", page.to_str().unwrap()]);
    assert!(done && said.contains("--landscape"), "{said}");
    let completions = user.share().join("bash-completion/completions/bellpad");
    let asks = format!(
        ". {}; COMP_WORDS=(bellpad note); COMP_CWORD=1; _bellpad bellpad note bellpad; echo \"${{COMPREPLY[@]}}\"",
        completions.display()
    );
    assert_eq!(user.says("bash", &["-c", &asks]), (true, "notebook\n".to_owned()));

    let (done, said) = user.says(program(), &["desktop", "remove"]);
    assert!(done, "{said}");
    assert!(!entry.exists() && !page.exists());
    let (_, kind_after) = user.says("xdg-mime", &["query", "filetype", "geese.dance.json"]);
    assert_eq!(kind_after, "application/json\n");
}
