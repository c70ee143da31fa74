//! Claims as gathered: keys, vehicles, inspections that do not fit together.

use super::{Code, Problem, Severity};

codes! {
    PLACEHOLDER = "claim-placeholder", Note, "placeholder", "placeholder";
}
