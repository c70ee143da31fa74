//! Files and tables: cannot be opened, are not what they seem, fit nothing.

use super::{Code, Problem, Severity};

codes! {
    FILE_UNREADABLE = "file-unreadable", Error, "a file cannot be read",
        "The file could not be opened or read to its end. The rest of the run goes on without it.\n\nCheck that the \
         path is right, that you may read it, and that no other program holds it open.";
}

/// The operating system would not give the file's bytes.
pub fn unreadable(file: &str, why: &str) -> Problem {
    Problem::new(&FILE_UNREADABLE, format!("{file} cannot be read: {why}"))
}
