//! Counts as written: headings, sizes, numbers, panels.

use super::{Code, Severity};

codes! {
    PLACEHOLDER = "counts-placeholder", Note, "placeholder", "placeholder";
}
