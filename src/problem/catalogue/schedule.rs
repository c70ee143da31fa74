//! Schedules: tables that contradict themselves or leave a gap.

use super::{Code, Problem, Severity};

codes! {
    PLACEHOLDER = "schedule-placeholder", Note, "placeholder", "placeholder";
}
