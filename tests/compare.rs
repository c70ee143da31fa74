//! The statistics and sampling plans of the comparison, against published values and reference libraries.
#![expect(
    clippy::unwrap_used,
    clippy::float_arithmetic,
    clippy::float_cmp,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "tests of statistics"
)]

#[path = "compare/agreement.rs"]
mod agreement;
#[path = "compare/category.rs"]
mod category;
#[path = "compare/decided.rs"]
mod decided;
#[path = "compare/degenerate.rs"]
mod degenerate;
#[path = "compare/habits.rs"]
mod habits;
#[path = "compare/published.rs"]
mod published;
#[path = "compare/reference/mod.rs"]
mod reference;
#[path = "compare/sampling.rs"]
mod sampling;
#[path = "compare/standing.rs"]
mod standing;
#[path = "compare/whole.rs"]
mod whole;
