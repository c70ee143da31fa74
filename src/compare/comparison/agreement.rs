use super::MoneyByCause;
use crate::claim::PanelKind;
use crate::compare::statistics::agreement::{Concordance, Deming, LimitsOfAgreement, ScaleCheck};
use crate::compare::statistics::category::{CrossTable, Prevalence};
use crate::compare::statistics::many::Intraclass;
use crate::compare::statistics::{Reason, Statistic};
use crate::quantity::{Currency, Money};

/// The five figures that a layperson reads. Units are panels that both inspected; intervals take the car for what was
/// drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct PageOne {
    /// Mean of first minus second, dents a panel.
    pub bias: Statistic,
    /// Median size of the difference, dents a panel.
    pub spread: Statistic,
    /// Share of panels whose total falls in the same count band.
    pub same_band: Statistic,
    /// Share of panels for which the same is to be done.
    pub same_decision: Statistic,
    /// Mean difference of a car in money, first minus second over common panels that both price, in minor units; one for
    /// each currency. The exact sums stand in [`PairAgreement::money`].
    pub money: Vec<(Currency, Statistic)>,
}

/// Agreement of counts.
#[derive(Debug, Clone, PartialEq)]
pub struct Counts {
    /// Bias and limits of agreement of the differences; units are taken as independent.
    pub limits: LimitsOfAgreement,
    /// The same of the ratios.
    pub ratios: LimitsOfAgreement,
    /// Which of the two to read.
    pub scale: ScaleCheck,
    /// Concordance correlation.
    pub concordance: Concordance,
    /// Intraclass correlations; only in whole comparisons.
    pub intraclass: Option<Intraclass>,
    /// Line with errors in both; only in whole comparisons.
    pub line: Option<Deming>,
}

/// Agreement in what is a category.
#[derive(Debug, Clone, PartialEq)]
pub struct Categories {
    /// What is categorised: `count band` with its schedule, or `decision`.
    pub of: String,
    /// Names of the categories, in their order.
    pub names: Vec<String>,
    /// How often each pair of them was given: rows are the first assessor's.
    pub table: CrossTable,
    /// Share on the diagonal.
    pub same: Statistic,
    /// Kappa, plain.
    pub plain: Statistic,
    /// Kappa with linear weights; categories have an order.
    pub linear: Statistic,
    /// Kappa with quadratic weights.
    pub quadratic: Statistic,
    /// Whether one category makes kappa hard to read.
    pub prevalence: Prevalence,
}

/// Agreement over some of the panels.
#[derive(Debug, Clone, PartialEq)]
pub struct Annex {
    /// Over which: `all panels`, a kind of panel, or a size band with its schedule.
    pub over: String,
    /// The kind, where it is one.
    pub kind: Option<PanelKind>,
    /// Bias with the car as what was drawn.
    pub bias: Statistic,
    /// Median size of the difference.
    pub spread: Statistic,
    /// Agreement of counts.
    pub counts: Counts,
    /// Shares of the same count band and of the same decision; not for a size band.
    pub same: Option<(Statistic, Statistic)>,
}

/// One way of adding up what the two counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Story {
    /// By which rule.
    pub rule: &'static str,
    /// Cars in it.
    pub cars: usize,
    /// The first assessor's dents.
    pub first: u64,
    /// The second assessor's dents.
    pub second: u64,
    /// Gross amounts of panels, by currency: first, second.
    pub money: Vec<(Currency, Money, Money)>,
}

/// Common panels, own sums and complete cars.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stories {
    /// Panels that both inspected: the one that everything here is about.
    pub common: Story,
    /// Everything that each inspected.
    pub own: Story,
    /// Cars on which both inspected the same panels.
    pub complete: Story,
    /// Whether the shares that they give (first over second) lie more than one in twenty apart.
    pub differ: bool,
}

/// Two assessors, or with `between` none all pairs together.
#[derive(Debug, Clone, PartialEq)]
pub struct PairAgreement {
    /// First and second assessor, by number; none for all pairs together.
    pub between: Option<(usize, usize)>,
    /// Cars with a common panel.
    pub cars: usize,
    /// Common panels.
    pub panels: usize,
    /// Panels that only one of them inspected, or neither.
    pub unpaired: usize,
    /// The five figures.
    pub page_one: PageOne,
    /// Sums by three rules.
    pub stories: Stories,
    /// All panels first, then kinds of panel, then size bands.
    pub annex: Vec<Annex>,
    /// Count bands of each schedule that rates a common panel.
    pub bands: Vec<Categories>,
    /// Decisions.
    pub decisions: Result<Categories, Reason>,
    /// Money, by currency.
    pub money: Vec<MoneyByCause>,
}
