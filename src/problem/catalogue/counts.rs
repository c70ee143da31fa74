//! Counts as written: headings, sizes, numbers, panels.

use super::{Code, Problem, Severity};

codes! {
    PLACEHOLDER = "counts-placeholder", Note, "placeholder", "placeholder";
}
