//! Old workbooks (XLS, XLSB) are read in a process of their own: the same program, with limits of memory and time. A
//! damaged one may make the library that reads it panic, abort, or ask for all the memory there is.

use super::{Fault, RawSheet, Why, most_cells, wire};
use crate::problem::SourceId;
use std::io::{BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::mpsc::channel;
use std::thread;
use std::time::Duration;

/// The argument that makes the program read one old workbook from its standard input.
pub const ARGUMENT: &str = "read-apart";

/// The program to start.
static PROGRAM: OnceLock<PathBuf> = OnceLock::new();

/// Says which program reads old workbooks, once: this one, whose command `read-apart` calls [`super::answer`].
pub fn read_apart_with(program: PathBuf) {
    PROGRAM.get_or_init(|| program);
}

/// Seconds of computing time for a file of so many bytes.
pub(super) fn seconds(bytes: u64) -> u64 {
    const PER_SECOND: u64 = 4 << 20;
    2 + bytes / PER_SECOND
}

/// Reads an old workbook. Which rows and columns of it are hidden is not found out.
pub(in crate::read) fn read(
    bytes: &[u8],
    source: impl FnMut(&str) -> SourceId + Send,
) -> Result<Vec<RawSheet>, Fault> {
    let program = PROGRAM.get().ok_or_else(|| closed("no program was named that could"))?;
    let mut child = start(program).map_err(|error| closed(&error.to_string()))?;
    let (Some(mut to), Some(from)) = (child.stdin.take(), child.stdout.take()) else {
        return Err(closed("its pipes could not be opened"));
    };
    // A machine that is busy may need several seconds for one of computing.
    let patience = Duration::from_secs(seconds(bytes.len() as u64).saturating_mul(5));
    let answer = thread::scope(|scope| {
        let (send, receive) = channel();
        scope.spawn(move || {
            // One that ends early does not take all of it.
            let _ = to.write_all(bytes);
        });
        scope.spawn(move || {
            let _ = send.send(wire::read(BufReader::new(from), most_cells(bytes.len()), source));
        });
        let answer = receive.recv_timeout(patience);
        end(&mut child);
        answer
    });
    match answer {
        Ok(Some(answer)) => answer,
        Ok(None) => {
            Err(Fault::damaged("it cannot be read within the memory and time that one of its size needs"))
        }
        Err(_) => Err(Fault::damaged("it cannot be read within the time that one of its size needs")),
    }
}

fn start(program: &Path) -> std::io::Result<Child> {
    Command::new(program)
        .arg(ARGUMENT)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
}

/// Ends a process that may have ended already.
fn end(child: &mut Child) {
    let _ = child.kill();
    let _ = child.wait();
}

fn closed(why: &str) -> Fault {
    Fault {
        why: Why::Closed(format!("it is read in a process of its own, which did not start: {why}")),
        place: None,
    }
}
