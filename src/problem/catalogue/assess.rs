//! Assessing: what keeps a claim or a panel from being priced.

use super::{Code, Problem, Severity};

codes! {
    PLACEHOLDER = "assess-placeholder", Note, "placeholder", "placeholder";
}
