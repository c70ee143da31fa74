use super::{Problem, Sources};
use std::fmt::Write as _;

/// A problem as a few lines of text: what, where, the cell as written, what would be right. No colour; the command
/// line adds that.
pub fn render_text(problem: &Problem, sources: &Sources) -> String {
    let mut out = format!("{}: {}\n", problem.severity(), problem.message);
    if let Some(place) = problem.place {
        let _ = writeln!(out, "  at {}", sources.describe(place));
    }
    for place in &problem.also {
        let _ = writeln!(out, "  and {}", sources.describe(*place));
    }
    if let Some(written) = &problem.written {
        let _ = writeln!(out, "  written: {written}");
    }
    if let Some(help) = &problem.help {
        let _ = writeln!(out, "  {help}");
    }
    out
}
