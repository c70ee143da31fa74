use super::{Comparator, LossRule};
use crate::claim::{Located, Place};
use crate::quantity::{Date, Percent};

/// When the law of a place has something noted on a vehicle's title. It is no term of the policy: the screen is that.
#[derive(Debug, Clone, PartialEq)]
pub struct TitleRule {
    /// Where the vehicle is registered.
    pub place: Located<String>,
    /// What is noted, in the law's words.
    pub note: Located<String>,
    /// What is compared with the market value.
    pub rule: Located<LossRule>,
    /// Over or at least.
    pub comparator: Located<Comparator>,
    /// Share of the market value.
    pub share: Located<Percent>,
    /// Whether tax counts as cost.
    pub with_tax: Located<bool>,
    /// Causes of loss for which it does not hold.
    pub not_from: Vec<String>,
    /// First day.
    pub valid_from: Located<Date>,
    /// Last day; none is open-ended.
    pub valid_to: Option<Located<Date>>,
    /// Where the law says so.
    pub source: Located<String>,
    /// Its row.
    pub row: Place,
}
