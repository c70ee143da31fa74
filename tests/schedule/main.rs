//! Schedules: the page's own example, every kind of problem, and the same tables in other shapes.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops")]

mod arguments;
mod bands;
mod cells;
mod mangled;
mod names;
mod outlook;
#[cfg(test)]
mod page;
mod rates;
mod rules;
mod same;
mod settlement;
mod show;
mod support;
