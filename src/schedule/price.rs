use super::{Price, Scope};
use crate::claim::{Located, MarkKind, Place};
use crate::quantity::{Hours, Length, Money};

/// What one mark of a kind costs, by its measured length (the diameter of a dent).
#[derive(Debug, Clone, PartialEq)]
pub struct MarkRate {
    /// Which kind of mark.
    pub mark: MarkKind,
    /// On which panels.
    pub scope: Scope,
    /// Longer than this.
    pub over: Length,
    /// Up to and including this; `None` is open-ended.
    pub up_to: Option<Length>,
    /// What it gives, per mark.
    pub price: Price,
    /// The cell of the price.
    pub place: Place,
}

/// Typical prices and times of one kind of panel in one class of vehicle, used where the claim brings none.
#[derive(Debug, Clone, PartialEq)]
pub struct Typical {
    /// Which panels.
    pub scope: Scope,
    /// Class of vehicle in the schedule's words; `None` is any.
    pub class: Option<String>,
    /// Price of the new part.
    pub part: Option<Located<Money>>,
    /// Time to fit it.
    pub fitting: Option<Located<Hours>>,
    /// Time to repair it conventionally.
    pub conventional: Option<Located<Hours>>,
    /// Time to refinish it.
    pub refinish: Option<Located<Hours>>,
    /// Time to blend the neighbouring panels.
    pub blend: Option<Located<Hours>>,
    /// Paint material.
    pub paint_material: Option<Located<Money>>,
    /// Where the values come from.
    pub source: Option<Located<String>>,
    /// Its row.
    pub place: Place,
}
