//! The statistics and sampling plans of the comparison, against published values and reference libraries.

#[path = "compare/agreement.rs"]
mod agreement;
#[path = "compare/category.rs"]
mod category;
#[path = "compare/degenerate.rs"]
mod degenerate;
#[path = "compare/published.rs"]
mod published;
#[path = "compare/reference/mod.rs"]
mod reference;
#[path = "compare/sampling.rs"]
mod sampling;
#[path = "compare/standing.rs"]
mod standing;
