//! What other processes do: the test binary itself, run again for one job.

#[cfg(target_os = "linux")]
use super::file_limit;
use super::{full_disk, kills, saves};
use std::env;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

const JOB: &str = "NEVER_LOST_JOB";
const FOLDER: &str = "NEVER_LOST_FOLDER";

/// This binary, set to do a job in a folder.
pub fn worker(job: &str, folder: &Path) -> Command {
    worker_of(&env::current_exe().unwrap(), job, folder)
}

/// A copy of this binary, set to do a job in a folder.
pub fn worker_of(binary: &Path, job: &str, folder: &Path) -> Command {
    let mut command = Command::new(binary);
    command.args(arguments()).env(JOB, job).env(FOLDER, folder);
    command
}

/// A worker that is to be killed, and is however the test ends.
pub struct Doomed(Child);

impl Doomed {
    /// Starts it.
    pub fn start(job: &str, folder: &Path) -> Self {
        Self(worker(job, folder).stdout(Stdio::null()).spawn().unwrap())
    }

    /// Kills it, which must still be at work.
    #[track_caller]
    pub fn kill(&mut self) {
        assert!(self.0.try_wait().unwrap().is_none(), "the worker ended by itself");
        self.0.kill().unwrap();
        self.0.wait().unwrap();
    }
}

impl Drop for Doomed {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The arguments that run only the worker.
pub fn arguments() -> [&'static str; 5] {
    ["--exact", "worker::works", "--ignored", "--nocapture", "--test-threads=1"]
}

#[test]
#[ignore = "the other tests run this in a process of its own"]
fn works() {
    // Where nobody is left to kill it, it ends by itself.
    std::thread::spawn(|| {
        std::thread::sleep(Duration::from_mins(1));
        std::process::exit(3);
    });
    let folder = env::var_os(FOLDER).map(PathBuf::from);
    match (env::var(JOB).as_deref(), folder) {
        (Ok("save"), Some(folder)) => kills::save_without_end(&folder, u64::MAX),
        (Ok("hand"), Some(folder)) => kills::hand_without_end(&folder),
        (Ok("keep"), Some(folder)) => saves::save_in_the_state_of_the_user(&folder),
        (Ok("refuse"), Some(folder)) => saves::are_refused_without_permission(&folder),
        (Ok("fill"), Some(folder)) => full_disk::loses_nothing(&folder),
        #[cfg(target_os = "linux")]
        (Ok("limit"), Some(folder)) => file_limit::loses_nothing(&folder),
        (Err(_), _) => {
            // Nobody asked for a job: a few saves, to see that the work can be done.
            let folder = tempfile::tempdir().unwrap();
            kills::save_without_end(folder.path(), 5);
        }
        other => panic!("no such job: {other:?}"),
    }
}
