//! How well two or more assessors agree in their counts. Each unit is a row with a value per assessor; missing is
//! `None`.

mod alpha;
mod intraclass;

pub use alpha::{Metric, alpha};
pub use intraclass::{Form, Intraclass, MeanSquares, intraclass};
