//! Writing: folders, files, locks.

use super::{Code, Severity};

codes! {
    PLACEHOLDER = "output-placeholder", Note, "placeholder", "placeholder";
}
