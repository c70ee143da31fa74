//! How well assessors agree in what is a category: the band a panel falls in, what is done with it.

mod fleiss;
mod kappa;
mod prevalence;
mod share;
mod table;

pub use fleiss::{FleissKappa, fleiss_kappa};
pub use kappa::{Weights, kappa};
pub use prevalence::{Prevalence, prevalence};
pub use share::{same_category, share};
pub use table::CrossTable;
