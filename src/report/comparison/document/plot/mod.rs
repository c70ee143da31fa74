//! Plots laid out in numbers; templates only write them down. Every plot can be read without colour, and has a sentence that
//! says what it shows and a table behind it.

mod axis;
mod points;
mod steps;

pub use axis::Tick;
pub use points::{Dot, Line, PlotLine, Point, Points, Run, Stroke};
pub use steps::{Bar, Steps};
