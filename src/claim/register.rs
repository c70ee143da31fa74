use super::{KeyKind, Located, Place, WrittenAmount, words::named};
use crate::quantity::Date;

named! {
    /// What happens to a claim from the day it is listed, in the order in which it usually does.
    pub enum Step {
        Listed = "listed",
        Inspected = "inspected",
        Submitted = "submitted",
        Supplement = "supplement",
        Agreed = "agreed",
        PartsIn = "parts in",
        Repaired = "repaired",
        HandedOver = "handed over",
        Paid = "paid",
    }
}

/// One row of a register: what happened to a claim on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct RegisterRow {
    /// The row.
    pub place: Place,
    /// What names its claim, as written; the row's own, or taken over from the row above.
    pub key: Located<String>,
    /// What the keys of the row are, and how they are compared, the claim number first.
    pub names: Vec<(KeyKind, String)>,
    /// The day.
    pub date: Located<Date>,
    /// What happened.
    pub step: Located<Step>,
    /// For how much.
    pub amount: Option<Located<WrittenAmount>>,
    /// Who did it.
    pub by: Option<Located<String>>,
    /// Free text.
    pub remark: Option<Located<String>>,
}
