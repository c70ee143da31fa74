//! One run of the program, and what it left behind.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// One run of the program.
pub struct Ran {
    /// Wall time.
    pub seconds: f64,
    /// The kernel's high-water mark (`VmHWM` in `/proc/PID/status`), read until the process ends; elsewhere than on Linux
    /// it is not measured.
    pub peak_kilobytes: Option<u64>,
}

/// Runs the program once. Claims with problems (exit 1) are no failure here; being unable to do anything is.
pub fn run(command: &mut Command) -> io::Result<Ran> {
    let start = Instant::now();
    let mut child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn()?;
    let mut peak = None;
    let status = loop {
        peak = peak_kilobytes(&child).max(peak);
        if let Some(status) = child.try_wait()? {
            break status;
        }
        thread::sleep(Duration::from_millis(2));
    };
    let seconds = start.elapsed().as_secs_f64();
    match status.code() {
        Some(0 | 1) => Ok(Ran { seconds, peak_kilobytes: peak }),
        _ => Err(io::Error::other(format!("{} ended with {status}", command.get_program().display()))),
    }
}

fn peak_kilobytes(child: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().trim_end_matches("kB").trim().parse().ok()
}

/// Bytes and number of the files below a folder.
pub fn weigh(folder: &Path) -> io::Result<(u64, u64)> {
    let (mut bytes, mut files) = (0, 0);
    let mut left: Vec<PathBuf> = vec![folder.to_owned()];
    while let Some(path) = left.pop() {
        for entry in fs::read_dir(path)? {
            let entry = entry?;
            let about = entry.metadata()?;
            if about.is_dir() {
                left.push(entry.path());
            } else {
                bytes += about.len();
                files += 1;
            }
        }
    }
    Ok((bytes, files))
}

/// `12.3 MB`.
pub fn megabytes(bytes: u64) -> String {
    format!("{}.{} MB", bytes / 1_000_000, bytes % 1_000_000 / 100_000)
}
