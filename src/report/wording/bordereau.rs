//! Everything that the bordereau says of its own, in one place.

use serde::Serialize;

/// Declares the labels once, for the page and the workbook.
macro_rules! labels {
    ($($key:ident = $text:literal,)+) => {
        /// Labels of the bordereau, by the names that templates know.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
        pub struct BordereauLabels { $(#[doc = $text] pub $key: &'static str,)+ }

        /// The labels in English.
        pub const LABELS: BordereauLabels = BordereauLabels { $($key: $text,)+ };
    };
}

labels! {
    title = "Bordereau",
    by_outcome = "By outcome",
    by_insurer = "By insurer",
    by_owner = "By owner",
    by_method = "By method",
    method_key = "Panels and their amounts, without operations, items, minimum and discount.",
    claims = "claims",
    panels = "panels",
    without_price = "not priced",
    open = "open",
    currency = "currency",
    net = "net",
    tax = "tax",
    gross = "gross",
    insurer_pays = "insurer pays",
    owner_bears = "owner bears",
    amount = "amount",
    not_priced = "not priced",
    no_insurer = "(no insurer)",
    no_owner = "(owner not written)",
    owners_of_one = "(owners of one claim each)",
    exceptions = "Exceptions",
    exceptions_key = "Notes stand in exceptions.csv alone.",
    severity = "Severity",
    place = "Where",
    written = "As written",
    wrong = "What is wrong",
    right = "What would be right",
    registration = "Registration",
    date_of_loss = "Date of loss",
    excess = "Excess",
    made_from = "What it was made from",
    program = "Program",
    schedule = "Schedule",
    file = "File",
}

/// Before what the sums leave out.
pub(crate) const WITHOUT: &str = "without";

/// Exceptions beyond those that the page lists.
pub fn more_exceptions(more: usize) -> String {
    format!("{more} more stand in exceptions.csv.")
}
