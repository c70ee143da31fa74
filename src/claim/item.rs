use super::{Located, Method, PanelId, Place, words::named};
use crate::quantity::{Currency, Date, Decimal, Hours};

/// An amount as a claim sheet states it. Its currency is the schedule's unless the cell or heading says another,
/// which then has to be the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct WrittenAmount {
    /// In major units, as written.
    pub amount: Decimal,
    /// Where it was said.
    pub currency: Option<Currency>,
}

named! {
    /// What is done with an item.
    pub enum ItemAction {
        Repair = "repair",
        Replace = "replace",
        Refit = "refit",
    }
}

/// A damaged thing that is no panel: glass, lamp, moulding, badge, grille, mirror, soft top.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Its row.
    pub place: Place,
    /// What it is, in the user's words.
    pub name: Located<String>,
    /// What is done with it; not written means replace.
    pub action: Option<Located<ItemAction>>,
    /// Price of the part or the work bought in.
    pub price: Option<Located<WrittenAmount>>,
    /// Labour.
    pub hours: Option<Located<Hours>>,
    /// Whether a calibration follows.
    pub calibration: Option<Located<bool>>,
    /// Who quoted the price.
    pub source: Option<Located<String>>,
    /// When it was quoted.
    pub date: Option<Located<Date>>,
    /// Free text.
    pub remark: Option<Located<String>>,
}

/// Prices and times for one panel of this car.
#[derive(Debug, Clone, PartialEq)]
pub struct PartPrice {
    /// Its row.
    pub place: Place,
    /// Which panel.
    pub panel: PanelId,
    /// Price of the new part.
    pub price: Option<Located<WrittenAmount>>,
    /// Time to fit it.
    pub fitting: Option<Located<Hours>>,
    /// Time to repair the panel conventionally.
    pub conventional: Option<Located<Hours>>,
    /// Time to refinish it.
    pub refinish: Option<Located<Hours>>,
    /// Paint material.
    pub paint_material: Option<Located<WrittenAmount>>,
    /// Who quoted it.
    pub source: Option<Located<String>>,
    /// When.
    pub date: Option<Located<Date>>,
}

/// A person's decision against the schedule's, on one panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Overrule {
    /// Its row.
    pub place: Place,
    /// Which panel.
    pub panel: PanelId,
    /// What is to be done instead.
    pub method: Located<Method>,
    /// Who decided.
    pub by: Option<Located<String>>,
    /// Why.
    pub reason: Option<Located<String>>,
    /// When.
    pub date: Option<Located<Date>>,
}

/// What was paid for a panel after an earlier event.
#[derive(Debug, Clone, PartialEq)]
pub struct PaidBefore {
    /// Its row.
    pub place: Place,
    /// Which panel.
    pub panel: PanelId,
    /// How much.
    pub amount: Located<WrittenAmount>,
    /// For which event.
    pub event: Option<Located<String>>,
    /// When.
    pub date: Option<Located<Date>>,
}

/// Free text about the claim.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Its cell.
    pub place: Place,
    /// What it says.
    pub text: String,
}
