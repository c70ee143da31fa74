use super::Scope;
use crate::claim::{Access, Depth, Material, Paint, Place, Position, words::named};
use crate::quantity::{Hours, Money, Percent};

/// What a factor looks at, and the value it waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FactorTest {
    /// The panel's material.
    Material(Material),
    /// The panel's access.
    Access(Access),
    /// The panel's paint.
    Paint(Paint),
    /// Depth of its dents.
    Depth(Depth),
    /// Position of its dents.
    Position(Position),
    /// The panel's size class, in the schedule's words (folded).
    PanelClass(String),
    /// The vehicle's class, in the schedule's words (folded).
    VehicleClass(String),
    /// Nothing: it holds for every panel of its scope (an oversize panel, say).
    Always,
}

named! {
    /// What a percentage is taken of.
    pub enum PercentOf {
        Base = "base",
        Running = "running amount",
    }
}

named! {
    /// Which part of the panel's amount a factor works on.
    pub enum AppliesTo {
        Both = "dents and marks",
        Dents = "dents",
        Marks = "marks",
    }
}

/// What a factor adds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FactorEffect {
    /// A percentage (negative takes off) of the base or of the printed running amount.
    Percent(Percent, PercentOf),
    /// A fixed amount.
    Amount(Money),
    /// A fixed time at the paintless rate.
    Time(Hours),
}

/// One factor: a line of its own on every panel it holds for.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// Its name as printed.
    pub name: String,
    /// On which panels.
    pub scope: Scope,
    /// What it looks at.
    pub test: FactorTest,
    /// What it adds.
    pub effect: FactorEffect,
    /// Factors beside which it gives no line, by their numbers: of two that exclude each other the earlier one counts.
    pub not_with: Vec<usize>,
    /// What it works on.
    pub applies_to: AppliesTo,
    /// Its place in the order, as written.
    pub order: u32,
    /// The cell of its value.
    pub place: Place,
}
