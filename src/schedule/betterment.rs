use super::Scope;
use crate::claim::{Located, Place, words::named};
use crate::quantity::Percent;

named! {
    /// What is better after the repair than before: a price of which the owner bears a share.
    pub enum BetterOf {
        Parts = "new parts",
        Items = "items",
    }
}

/// The share of a price that the owner bears, because something new takes the place of something old.
#[derive(Debug, Clone, PartialEq)]
pub struct Betterment {
    /// Which prices.
    pub on: BetterOf,
    /// On which panels' parts.
    pub scope: Scope,
    /// The item, by its name (compared folded); none is any.
    pub item: Option<Located<String>>,
    /// Least age of the vehicle in years.
    pub from_years: u32,
    /// Greatest age of the vehicle in years; none is open-ended.
    pub to_years: Option<u32>,
    /// The owner's share.
    pub share: Located<Percent>,
    /// Its row.
    pub place: Place,
}

impl Betterment {
    /// Whether it holds at every age.
    pub const fn is_ageless(&self) -> bool {
        self.from_years == 0 && self.to_years.is_none()
    }

    /// Whether it holds for a vehicle of so many years.
    pub fn holds_at(&self, years: u32) -> bool {
        self.from_years <= years && self.to_years.is_none_or(|to| years <= to)
    }
}
