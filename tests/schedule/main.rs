//! Schedules: the page's own example, every kind of problem, and the same tables in other shapes.

mod bands;
mod cells;
mod page;
mod rules;
mod same;
mod show;
mod support;
