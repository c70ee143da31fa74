use super::PanelRef;
use crate::compare::habit::{Blanks, Rounded};
use crate::compare::statistics::category::FleissKappa;
use crate::compare::statistics::many::{Intraclass, Metric};
use crate::compare::statistics::repeated::Precision;
use crate::compare::statistics::standing::{Funnel, PairedPlace};
use crate::compare::statistics::{Reason, Statistic};
use crate::quantity::Money;

/// All assessors together.
#[derive(Debug, Clone, PartialEq)]
pub struct Everyone {
    /// Intraclass correlations of panel totals, over panels that all of them counted.
    pub intraclass: Intraclass,
    /// Krippendorff's alpha of panel totals, by metric: ordinal, interval, ratio.
    pub alpha: Vec<(Metric, Statistic)>,
    /// Fleiss' kappa of the count band, over panels that all of them counted, where one schedule rates them all.
    pub bands: Result<FleissKappa, Reason>,
    /// Fleiss' kappa of the decision, likewise.
    pub decisions: Result<FleissKappa, Reason>,
    /// Funnel over assessors; units are cars.
    pub funnel: Funnel,
    /// Repeat counts, where there are any; units are panels.
    pub precision: Option<Precision>,
    /// Each assessor, in their order.
    pub people: Vec<PersonStanding>,
    /// Cars whose difference in dents stands out among those of their pair of assessors, by robust z.
    pub outliers: Vec<Outlier>,
}

/// One assessor among the others.
#[derive(Debug, Clone, PartialEq)]
pub struct PersonStanding {
    /// Who, by number.
    pub assessor: usize,
    /// Beside the median of the others, car by car.
    pub paired: PairedPlace,
    /// Whether the person stands out, or why it cannot be told: a sentence.
    pub says: String,
    /// Round digits, where they are many.
    pub digits: Option<Rounded>,
    /// Whether the person writes zeros where the others leave blanks, or the other way.
    pub blanks: Option<Blanks>,
    /// Looks in which a blank stands beside numbers; the others write every zero.
    pub looks_with_blanks: usize,
    /// Looks that are compared.
    pub looks: usize,
}

/// A car that stands out.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlier {
    /// The car, by its number.
    pub car: usize,
    /// The pair, by its number in the car.
    pub pair: usize,
    /// Dents, first minus second, over common panels.
    pub dents: i64,
    /// Robust z of that among the cars of the same pair of assessors.
    pub z: f64,
    /// The panel that carries most of it in money, if any differs.
    pub panel: Option<PanelRef>,
    /// Money, first minus second, over common panels that both price.
    pub money: Option<Money>,
}
