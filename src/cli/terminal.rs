//! The only place that writes to the terminal. Colour is taken off where nobody can see it or nobody wants it.

use super::screen::styled_problem;
use crate::problem::{Place, Problem, QuotedRow, Sources, render_with_row};
use std::io::{self, Write};

/// Prints a result. A reader that has gone away (`| head`) has what it wanted: the exit code stays what it was.
pub fn print(text: &str) -> anyhow::Result<()> {
    print_bytes(text.as_bytes())
}

/// Prints a result of bytes.
pub fn print_bytes(bytes: &[u8]) -> anyhow::Result<()> {
    let mut out = anstream::stdout().lock();
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}

/// Tells the person at the terminal something beside the result. There is nobody to tell when that fails.
pub fn tell(text: &str) {
    let mut out = anstream::stderr().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Tells a problem, with its row where `row` finds it.
pub fn tell_problem(problem: &Problem, sources: &Sources, row: impl FnOnce(Place) -> Option<QuotedRow>) {
    tell(&styled_problem(problem, &render_with_row(problem, sources, row)));
}

/// Columns of the terminal that results go to; none where they go elsewhere.
pub fn width() -> Option<usize> {
    terminal_size::terminal_size_of(io::stdout()).map(|(width, _)| usize::from(width.0))
}
