//! Writing: folders, files, locks.

use super::{Code, Problem, Severity};

codes! {
    PLACEHOLDER = "output-placeholder", Note, "placeholder", "placeholder";
}
