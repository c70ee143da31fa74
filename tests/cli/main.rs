//! Whole-program tests: what a run computes, writes and prints.

mod batch;
mod sample;
mod tables;
mod workbooks;
