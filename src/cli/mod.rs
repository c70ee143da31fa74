//! The command line: one file per command, its arguments (whose comments are the help) and its run. Nothing else in the
//! crate prints, reads the clock or the environment.

pub mod schedule;
