//! The shapes of the data, a struct for each object.

use super::money::MoneyView;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub(super) struct AssessorView<'a> {
    pub name: &'a str,
    pub is_reference: bool,
    pub looks: usize,
    pub repeat_counts: usize,
}

#[derive(Debug, Serialize)]
pub(super) struct PairView<'a> {
    pub first: Option<&'a str>,
    pub second: Option<&'a str>,
    pub cars: usize,
    pub panels: usize,
    pub not_paired: usize,
    pub stories: Vec<StoryView>,
    pub stories_differ: bool,
    pub tables: Vec<TableView<'a>>,
    pub money: Vec<MoneyView<'a>>,
}

#[derive(Debug, Serialize)]
pub(super) struct StoryView {
    pub rule: &'static str,
    pub cars: usize,
    pub dents_first: u64,
    pub dents_second: u64,
    pub money: Vec<StoryMoneyView>,
}

#[derive(Debug, Serialize)]
pub(super) struct StoryMoneyView {
    pub currency: &'static str,
    pub first: String,
    pub second: String,
}

#[derive(Debug, Serialize)]
pub(super) struct TableView<'a> {
    pub of: &'a str,
    pub categories: &'a [String],
    /// Rows are the first assessor's.
    pub units: Vec<Vec<u64>>,
    pub read_kappa_with_care: bool,
}

#[derive(Debug, Serialize)]
pub(super) struct PersonView<'a> {
    pub name: &'a str,
    pub says: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chance_with_false_discovery_held: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub round_digits: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blanks_and_zeros: Option<&'static str>,
    pub looks: usize,
    pub looks_with_blanks: usize,
}

#[derive(Debug, Serialize)]
pub(super) struct OutlierView<'a> {
    pub claim: &'a str,
    pub first: &'a str,
    pub second: &'a str,
    pub dents: i64,
    pub robust_z: f64,
    pub amount: Option<String>,
    pub currency: &'static str,
}

#[derive(Debug, Serialize)]
pub(super) struct SlipView<'a> {
    pub claim: &'a str,
    pub first: &'a str,
    pub second: &'a str,
    pub suggestion: String,
    pub dents_before: u64,
    pub dents_after: u64,
}

#[derive(Debug, Serialize)]
pub(super) struct DisputedView<'a> {
    pub claim: &'a str,
    pub panel: String,
    pub currency: &'static str,
    pub looks: Vec<LookView<'a>>,
    pub at_stake: Option<String>,
    pub look_again_at: String,
    pub proposed_rule: &'static str,
    pub proposed: Vec<Option<u32>>,
}

#[derive(Debug, Serialize)]
pub(super) struct LookView<'a> {
    pub assessor: &'a str,
    pub counts: Option<&'a [u32]>,
    pub method: Option<&'static str>,
    pub amount: Option<String>,
}

#[derive(Debug, Serialize)]
pub(super) struct AsideView<'a> {
    pub claim: &'a str,
    pub assessor: &'a str,
    pub reason: String,
}
